package sprag.hal.board.modbus;

import com.ghgande.j2mod.modbus.io.AbstractModbusTransport;
import com.ghgande.j2mod.modbus.net.AbstractSerialConnection;
import java.util.Set;
import sprag.hal.Clock;
import sprag.hal.board.LineSettings;
import sprag.hal.board.LinkLost;
import sprag.hal.board.Port;

/**
 * The library's view of a port: reads that end at a deadline, the time that a request takes on the line, and the silent interval
 * that separates frames. All waiting is done here, by the loop's clock and without turning in circles; so that the library does
 * not wait as well, it is told of a line without delay.
 */
final class PortConnection extends AbstractSerialConnection {
    private static final long LOOK_EVERY_NS = 200_000;
    private static final int FAST_BAUD = 19200;
    private static final long FAST_SILENCE_NS = 1_750_000;
    private static final int SHOWN_BYTES = 8;
    private static final int NO_DELAY_BAUD = Integer.MAX_VALUE;

    private final Port port;
    private final LineSettings line;
    private final Clock clock;
    private final byte[] waiting = new byte[1024];
    private final byte[] firstBytes = new byte[SHOWN_BYTES];
    private final AnswerBytes answer = new AnswerBytes();
    private int start;
    private int end;
    private long bytesSeen;
    private long arrivedNs;
    private long sentNs;
    private int timeoutMs = 1;
    private LinkLost lost;

    PortConnection(Port port, LineSettings line, Clock clock) {
        this.port = port;
        this.line = line;
        this.clock = clock;
        this.arrivedNs = clock.nowNs();
    }

    /** How the port failed, null while it has not. */
    LinkLost lost() {
        return lost;
    }

    long bytesSeen() {
        return bytesSeen;
    }

    /** What came since the last request. */
    AnswerBytes answer() {
        return answer;
    }

    /** When the newest byte arrived. */
    long arrivedNs() {
        return arrivedNs;
    }

    /** The first bytes that ever came, for people. */
    String firstBytes() {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < Math.min(SHOWN_BYTES, bytesSeen); i++) {
            text.append(String.format("%02X ", firstBytes[i]));
        }
        return text.toString().trim();
    }

    /** When the newest request was given to the port. */
    long sentNs() {
        return sentNs;
    }

    /** Throws away what comes within a time.
     *
     * @return whether anything came
     */
    boolean drain(long forNs) {
        long before = bytesSeen;
        long untilNs = clock.nowNs() + forNs;
        while (lost == null && clock.nowNs() < untilNs) {
            clock.waitUntil(Math.min(untilNs, clock.nowNs() + LOOK_EVERY_NS));
            fill();
            start = end;
        }
        start = end;
        return bytesSeen > before;
    }

    /**
     * The silence between two frames: 3.5 characters, 4.010 ms at 9600 Bd and 11 bits a character; above 19200 Bd a fixed
     * 1.750 ms (the fixed time from memory of the serial line guide).
     */
    static long silenceNs(LineSettings line) {
        return line.baud() > FAST_BAUD
                ? FAST_SILENCE_NS
                : Math.round(3.5 * line.bitsPerCharacter() * 1e9 / line.baud());
    }

    @Override
    public int readBytes(byte[] into, int wanted) {
        long untilNs = clock.nowNs() + timeoutMs * 1_000_000L;
        int got = 0;
        while (lost == null) {
            int taken = Math.min(end - start, wanted - got);
            System.arraycopy(waiting, start, into, got, taken);
            start += taken;
            got += taken;
            if (got == wanted || clock.nowNs() >= untilNs) {
                return got;
            }
            clock.waitUntil(clock.nowNs() + LOOK_EVERY_NS);
            fill();
        }
        return -1;
    }

    @Override
    public int writeBytes(byte[] bytes, int length) {
        clock.waitUntil(arrivedNs + silenceNs(line));
        answer.clear();
        try {
            sentNs = clock.nowNs();
            port.write(bytes, length);
            clock.waitUntil(clock.nowNs() + Math.round(length * line.bitsPerCharacter() * 1e9 / line.baud()));
            return length;
        } catch (LinkLost e) {
            lost = e;
            return -1;
        }
    }

    @Override
    public int bytesAvailable() {
        if (start == end) {
            fill();
        }
        return end - start;
    }

    private void fill() {
        if (start < end) {
            return;
        }
        start = 0;
        end = 0;
        try {
            int got = port.read(waiting);
            for (int i = 0; i < got && bytesSeen + i < SHOWN_BYTES; i++) {
                firstBytes[(int) bytesSeen + i] = waiting[i];
            }
            answer.add(waiting, got);
            bytesSeen += got;
            end = got;
            arrivedNs = got > 0 ? clock.nowNs() : arrivedNs;
        } catch (LinkLost e) {
            lost = e;
        }
    }

    @Override
    public void open() {}

    @Override
    public void close() {}

    @Override
    public boolean isOpen() {
        return lost == null;
    }

    @Override
    public AbstractModbusTransport getModbusTransport() {
        return null; // the transport is made beside this and knows it
    }

    @Override
    public int getBaudRate() {
        return NO_DELAY_BAUD;
    }

    @Override
    public int getNumDataBits() {
        return 8;
    }

    @Override
    public int getNumStopBits() {
        return line.stopBits();
    }

    @Override
    public int getParity() {
        switch (line.parity()) {
            case EVEN:
                return EVEN_PARITY;
            case ODD:
                return ODD_PARITY;
            default:
                return NO_PARITY;
        }
    }

    @Override
    public String getPortName() {
        return port.name();
    }

    @Override
    public String getDescriptivePortName() {
        return port.name();
    }

    @Override
    public void setComPortTimeouts(int mode, int readMs, int writeMs) {
        timeoutMs = readMs;
    }

    @Override
    public int getTimeout() {
        return timeoutMs;
    }

    @Override
    public void setTimeout(int ms) {
        timeoutMs = ms;
    }

    @Override
    public Set<String> getCommPorts() {
        return Set.of(port.name());
    }
}
