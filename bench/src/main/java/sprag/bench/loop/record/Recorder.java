package sprag.bench.loop.record;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.function.LongSupplier;
import sprag.hal.TickListener;
import sprag.hal.bus.CanFrame;
import sprag.hal.bus.FrameListener;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/**
 * Writes every tick into a file, and every frame of a data bus. The loop only fills a block; packing and writing happen on a thread of
 * its own. Frames may come on another thread than ticks.
 *
 * <p>When the disk is full or too slow the recording ends there and {@link #close} says so; the loop is never held up. What
 * was written before can be read.
 */
public final class Recorder implements TickListener, FrameListener, AutoCloseable {
    private static final int VALUES = Signal.COUNT + Output.COUNT;
    private static final ColumnBlock COLUMNS = new ColumnBlock(VALUES + 1);
    /** Waking the writer costs more than packing a block, so that a fast simulation hands over some at once. */
    private static final int BLOCKS_PER_BATCH = 5;
    /** What is not faster hands over each block, to lose little when it is cut off. */
    private static final long LONGEST_WAIT_NS = 200_000_000;

    private static final int BATCHES = 16;
    /** A busy bus of 1000 kbit/s fills them in two thirds of a second. */
    private static final int FRAMES_PER_BATCH = 8000;
    /** How long the end of a recording at real pace waits for the disk. */
    static final long END_WITHIN_MS = 2000;

    private static final Batch END = new Batch();

    /** Ticks on their way to the writer. */
    private static final class Batch {
        private final long[] states = new long[BLOCKS_PER_BATCH * Layout.TICKS_PER_BLOCK];
        private final double[] values = new double[VALUES * states.length];
        private int ticks;
        /** Made for the first frame: few recordings have any. */
        private long[] frameRows = {};

        private int frames;
        /** How many frames there were at the end of each block of ticks. */
        private final int[] framesAt = new int[BLOCKS_PER_BATCH];

        /** Where the frames that belong before a tick end. */
        int framesBefore(int tick) {
            return tick % Layout.TICKS_PER_BLOCK == 0 ? framesAt[tick / Layout.TICKS_PER_BLOCK - 1] : frames;
        }

        void add(CanFrame frame, boolean sent, long timeNs) {
            if (frameRows.length == 0) {
                frameRows = new long[FrameRows.COLUMNS * FRAMES_PER_BATCH];
            }
            FrameRows.put(frameRows, FrameRows.COLUMNS * frames++, frame, sent, timeNs);
        }

        /** The patterns of some ticks, one tick after another. */
        void copyTo(long[] rows, int from, int to) {
            int at = 0;
            for (int tick = from; tick < to; tick++) {
                for (int i = tick * VALUES; i < (tick + 1) * VALUES; i++) {
                    rows[at++] = Double.doubleToRawLongBits(values[i]);
                }
                rows[at++] = states[tick];
            }
        }
    }

    /** Whether the loop can wait for the disk. */
    public enum Pace {
        /** Ticks come as fast as they can be computed, and may wait. */
        SIMULATED,
        /** Ticks come from a clock and must never wait. */
        REAL_TIME
    }

    private final Supervisor supervisor;
    private final Pace pace;
    private final BlockingQueue<Batch> free = new ArrayBlockingQueue<>(BATCHES);
    private final BlockingQueue<Batch> full = new ArrayBlockingQueue<>(BATCHES + 1);
    private final BlockWriter file;
    private final Thread writer;
    private Batch batch;
    private final LongSupplier nowNs;
    private long handedOverNs;
    private long zeroNs;
    private boolean ended;
    private volatile IOException trouble;
    private volatile long lostTicks;
    private volatile long lostFrames;

    /** Begins a recording.
     *
     * @param path where it goes; an old file there is replaced
     * @param title what is run, for people
     * @param pace whether the loop can wait for the disk
     * @throws IOException when the file cannot be made
     */
    public Recorder(Path path, String vehicle, String title, Settings settings, Supervisor supervisor, Pace pace)
            throws IOException {
        this(path, Heading.of(vehicle, title, settings, supervisor.without()), supervisor, pace, System::nanoTime);
    }

    Recorder(Path path, Heading heading, Supervisor supervisor, Pace pace, LongSupplier nowNs) throws IOException {
        this.supervisor = supervisor;
        this.pace = pace;
        this.nowNs = nowNs;
        handedOverNs = nowNs.getAsLong();
        file = new BlockWriter(path, heading, COLUMNS);
        for (int i = 0; i < BATCHES; i++) {
            free.add(new Batch());
        }
        batch = free.remove();
        writer = new Thread(this::write, "recorder");
        writer.setDaemon(true);
        writer.start();
    }

    /** Counts the times of frames from here.
     *
     * @param beginNs when the recording begins, on the clock of the frames
     * @return this
     */
    public Recorder startingAt(long beginNs) {
        zeroNs = beginNs;
        return this;
    }

    @Override
    public synchronized void frame(CanFrame frame, boolean sent, long nowNs) {
        if (batch == null) {
            lostFrames += ended ? 0 : 1;
            return;
        }
        batch.add(frame, sent, nowNs - zeroNs);
        if (batch.frames == FRAMES_PER_BATCH) {
            handOver();
        }
    }

    @Override
    public synchronized void ticked(long tick, Readings in, Commands out) {
        if (batch == null) {
            lostTicks++;
            return;
        }
        int at = batch.ticks * VALUES;
        in.copyTo(batch.values, at);
        out.copyTo(batch.values, at + Signal.COUNT);
        batch.states[batch.ticks++] = supervisor.state().pack();
        if (batch.ticks % Layout.TICKS_PER_BLOCK == 0) {
            batch.framesAt[batch.ticks / Layout.TICKS_PER_BLOCK - 1] = batch.frames;
            if (isDue()) {
                handOver();
            }
        }
    }

    private boolean isDue() {
        return batch.ticks == batch.states.length
                || batch.frames > FRAMES_PER_BATCH / 2
                || nowNs.getAsLong() - handedOverNs > LONGEST_WAIT_NS;
    }

    private void handOver() {
        if (batch != null && batch.ticks + batch.frames > 0) {
            full.add(batch);
            batch = nextFree();
            handedOverNs = nowNs.getAsLong();
        }
    }

    /** A simulation waits for the disk; a loop with a car behind it never does, and ends its recording instead. */
    private Batch nextFree() {
        try {
            return pace == Pace.SIMULATED ? free.take() : free.poll();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return null;
        }
    }

    private void write() {
        long firstTick = 0;
        long firstFrame = 0;
        long[] rows = new long[COLUMNS.count() * Layout.TICKS_PER_BLOCK];
        try {
            for (Batch next = full.take(); next != END; next = full.take()) {
                try {
                    writeBlocks(next, firstTick, firstFrame, rows);
                    file.flush();
                } catch (IOException e) {
                    trouble = e;
                }
                firstTick += next.ticks;
                firstFrame += next.frames;
                next.ticks = 0;
                next.frames = 0;
                free.add(next);
            }
            writeEnd(firstTick);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** Each block of ticks behind its frames: the same bytes wherever one batch ends and the next begins. */
    private void writeBlocks(Batch batch, long firstTick, long firstFrame, long[] rows) throws IOException {
        int frame = 0;
        for (int from = 0; from < batch.ticks && trouble == null; from += Layout.TICKS_PER_BLOCK) {
            int to = Math.min(from + Layout.TICKS_PER_BLOCK, batch.ticks);
            writeFrames(batch, frame, batch.framesBefore(to), firstFrame);
            frame = batch.framesBefore(to);
            batch.copyTo(rows, from, to);
            file.ticks(rows, to - from, firstTick + from);
        }
        writeFrames(batch, frame, batch.frames, firstFrame);
    }

    private void writeFrames(Batch batch, int first, int end, long firstFrame) throws IOException {
        for (int from = first; from < end && trouble == null; from += Layout.FRAMES_PER_BLOCK) {
            int to = Math.min(from + Layout.FRAMES_PER_BLOCK, end);
            long[] rows = Arrays.copyOfRange(batch.frameRows, from * FrameRows.COLUMNS, to * FrameRows.COLUMNS);
            file.frames(rows, to - from, firstFrame + from);
        }
    }

    /** Only a recording from which nothing is missing gets an end. */
    private void writeEnd(long all) {
        try {
            if (trouble().isEmpty()) {
                file.end(all);
            }
        } catch (IOException e) {
            trouble = e;
        }
    }

    /** What has gone wrong so far. Words for people, empty when nothing has. */
    String trouble() {
        IOException seen = trouble;
        if (seen != null) {
            return "the recording is cut short: " + seen.getMessage();
        }
        if (lostTicks + lostFrames == 0) {
            return "";
        }
        String frames = lostFrames > 0 ? " and " + lostFrames + " frames" : "";
        return lostTicks + " ticks" + frames + " are missing: the disk was too slow";
    }

    /** Writes what is left and closes the file.
     *
     * @throws UncheckedIOException when something could not be written, or the disk was too slow
     */
    @Override
    public void close() {
        synchronized (this) {
            handOver();
            batch = null;
            ended = true;
        }
        full.add(END);
        try {
            writer.join(pace == Pace.SIMULATED ? 0 : END_WITHIN_MS);
            if (writer.isAlive()) {
                trouble = new IOException("the disk took nothing for " + END_WITHIN_MS / 1000 + " s");
            } else {
                file.close();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } catch (IOException e) {
            trouble = trouble == null ? e : trouble;
        }
        String why = trouble();
        if (!why.isEmpty()) {
            throw new UncheckedIOException(why, trouble == null ? new IOException(why) : trouble);
        }
    }
}
