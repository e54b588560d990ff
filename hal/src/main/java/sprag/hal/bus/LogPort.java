package sprag.hal.bus;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import sprag.hal.Clock;
import sprag.hal.board.LinkLost;
import sprag.hal.board.Port;

/** A log in the text form of candump, in the place of an adapter: its frames arrive at their times, what is sent goes nowhere. */
public final class LogPort implements Port {
    private final Path file;
    private final Clock clock;
    private final CanFrame frame = new CanFrame();
    private final byte[] text = new byte[SlcanText.LONGEST + 1];
    private final StringBuilder answers = new StringBuilder();
    private BufferedReader reader;
    private String next;
    private long lineNumber;
    private long shiftNs;
    private boolean started;

    /** Plays a log.
     *
     * @param file which
     * @param clock at whose pace
     */
    public LogPort(Path file, Clock clock) {
        this.file = file;
        this.clock = clock;
    }

    @Override
    public String name() {
        return file.toString();
    }

    @Override
    public void open() throws LinkLost {
        close();
        try {
            reader = Files.newBufferedReader(file, StandardCharsets.US_ASCII);
        } catch (IOException e) {
            throw new LinkLost(file + " cannot be read: " + e.getMessage());
        }
        answers.setLength(0);
        started = false;
        lineNumber = 0;
        next = line();
    }

    /** Whether every frame has been given. */
    @Override
    public int read(byte[] into) throws LinkLost {
        int length = Math.min(answers.length(), into.length);
        for (int i = 0; i < length; i++) {
            into[i] = (byte) answers.charAt(i);
        }
        answers.delete(0, length);
        if (!started && length == 0) {
            return 0;
        }
        while (started && next != null && into.length - length >= text.length && isDue()) {
            int bytes = SlcanText.write(frame, text);
            System.arraycopy(text, 0, into, length, bytes);
            length += bytes;
            next = line();
        }
        if (length == 0 && next == null) {
            throw new LinkLost("the log " + file + " has ended after line " + lineNumber);
        }
        return length;
    }

    @Override
    public void write(byte[] bytes, int length) {
        for (int i = 0; i < length; i++) {
            boolean first = i == 0 || bytes[i - 1] == '\r';
            if (first && (bytes[i] == 'O' || bytes[i] == 'L')) {
                started = true;
                shiftNs = next == null ? 0 : clock.nowNs() - CandumpText.timeNs(next);
            }
            if (bytes[i] == '\r') {
                answers.append('\r');
            }
        }
    }

    @Override
    public void close() {
        BufferedReader open = reader;
        reader = null;
        if (open != null) {
            try {
                open.close();
            } catch (IOException e) {
                throw new java.io.UncheckedIOException("cannot close " + file, e);
            }
        }
    }

    private boolean isDue() {
        return CandumpText.timeNs(next) + shiftNs <= clock.nowNs();
    }

    /** The next line with a classic frame, which then stands in {@link #frame}; null at the end. */
    private String line() throws LinkLost {
        for (String read = readLine(); read != null; read = readLine()) {
            lineNumber++;
            CandumpText.Kind kind = read.isBlank() ? CandumpText.Kind.LEFT_OUT : CandumpText.read(read, frame);
            if (kind == CandumpText.Kind.BROKEN) {
                throw new LinkLost(file + ":" + lineNumber + ": \"" + read
                        + "\" is no line of a log, such as (1700000000.123456) can0 123#1122");
            }
            if (kind == CandumpText.Kind.FRAME) {
                return read;
            }
        }
        return null;
    }

    private String readLine() throws LinkLost {
        BufferedReader open = reader;
        if (open == null) {
            throw new LinkLost(file + " is closed");
        }
        try {
            return open.readLine();
        } catch (IOException e) {
            throw new LinkLost(file + " cannot be read: " + e.getMessage());
        }
    }
}
