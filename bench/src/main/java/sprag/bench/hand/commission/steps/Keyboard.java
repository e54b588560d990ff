package sprag.bench.hand.commission.steps;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.Charset;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import sprag.bench.hand.commission.pins.PinDriver;

/** Lines from the standard input, read on their own thread so that ticks go on meanwhile. */
public final class Keyboard implements Answers {
    private static final String END = new String("end of input");
    private static final long LOOK_MS = 100;

    private final BlockingQueue<String> lines = new LinkedBlockingQueue<>();
    private final BooleanSupplier interrupted;
    private final boolean realTime;
    private final boolean fromFile;
    private boolean ended;
    private volatile boolean exhausted;

    /** Begins to read.
     *
     * @param fromFile whether the lines come from a file: then their end is no sign that somebody has left
     */
    public Keyboard(InputStream in, BooleanSupplier interrupted, boolean realTime, boolean fromFile) {
        this.interrupted = interrupted;
        this.realTime = realTime;
        this.fromFile = fromFile;
        Thread reader = new Thread(() -> read(in), "keyboard");
        reader.setDaemon(true);
        reader.start();
    }

    private void read(InputStream in) {
        try (BufferedReader reader = new BufferedReader(new InputStreamReader(in, Charset.defaultCharset()))) {
            for (String line = reader.readLine(); line != null; line = reader.readLine()) {
                lines.add(line);
            }
        } catch (IOException e) {
            System.err.println("sprag: cannot read the keyboard: " + e.getMessage());
        }
        exhausted = true;
        lines.add(END);
    }

    /** Lines that were typed ahead do not count: whoever typed them can no longer type q. */
    @Override
    public boolean isDeserted() {
        return exhausted && !fromFile;
    }

    @Override
    public String next(PinDriver driver, String simulated) {
        while (!ended && !interrupted.getAsBoolean()) {
            String line = realTime ? lines.poll() : patient();
            if (line != null) {
                return line(line);
            }
            if (realTime) {
                driver.tick();
            }
        }
        return null;
    }

    /** Simulated time stands still while nobody answers. */
    private String patient() {
        try {
            return lines.poll(LOOK_MS, TimeUnit.MILLISECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            ended = true;
            return null;
        }
    }

    @Override
    public String unasked() {
        if (interrupted.getAsBoolean()) {
            return "q";
        }
        String line = realTime ? lines.poll() : null;
        if (line == END) {
            ended = true;
            return "q"; // nobody is there any more, and outputs may be driven
        }
        return line;
    }

    private String line(String line) {
        ended = line == END;
        return ended ? null : line;
    }
}
