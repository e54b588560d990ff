package sprag.bench.panel.bench;

import java.io.IOException;
import java.io.StringWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicReferenceArray;
import sprag.bench.loop.FrameColumns;
import sprag.bench.loop.trace.CsvTrace;
import sprag.bench.loop.trace.Frame;
import sprag.bench.loop.trace.Thinner;

/** What the last minutes have shown, for export. One thread writes, any thread reads, nobody waits. */
public final class Recent {
    /** How many frames are kept: ten minutes at one each 100 ms, less where much happens. */
    public static final int KEPT = 6000;

    private static final long TICKS_PER_ROW = 10;
    private static final long ROWS_OF_THINNER = 30_000;

    private final AtomicReferenceArray<Frame> ring = new AtomicReferenceArray<>(KEPT);
    private volatile long count;
    private Thinner thinner;

    /** Starts anew with a new car. */
    public void restart(long tickMs) {
        count = 0;
        thinner = new Thinner(FrameColumns.CHANNELS, ROWS_OF_THINNER * TICKS_PER_ROW * tickMs, tickMs);
    }

    /** Shows a tick, which is kept when enough has changed or enough time has passed. */
    public void see(Frame frame) {
        if (thinner.keeps(frame)) {
            Frame copy = FrameColumns.CHANNELS.newFrame();
            copy.copyFrom(frame);
            ring.set((int) (count % KEPT), copy);
            count++;
        }
    }

    /** What is kept, oldest first. */
    public List<Frame> frames() {
        List<Frame> frames = new ArrayList<>();
        long end = count;
        long lastMs = -1;
        for (long i = Math.max(0, end - KEPT); i < end; i++) {
            Frame frame = ring.get((int) (i % KEPT));
            if (frame != null && frame.timeMs > lastMs) {
                frames.add(frame);
                lastMs = frame.timeMs;
            }
        }
        return frames;
    }

    /** What is kept, as comma-separated values. */
    public String csv() throws IOException {
        StringWriter text = new StringWriter();
        try (CsvTrace trace = new CsvTrace(FrameColumns.CHANNELS, text)) {
            for (Frame frame : frames()) {
                trace.write(frame);
            }
        }
        return text.toString();
    }
}
