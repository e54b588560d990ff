package sprag.bench.loop.record;

import java.io.BufferedOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.function.LongSupplier;
import java.util.zip.CRC32;
import java.util.zip.CheckedOutputStream;
import java.util.zip.Deflater;
import sprag.hal.TickListener;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/**
 * Writes every tick into a file. The loop only fills a block; packing and writing happen on a thread of its own.
 *
 * <p>When the disk is full or too slow the recording ends there and {@link #close} says so; the loop is never held up. What
 * was written before can be read.
 */
public final class Recorder implements TickListener, AutoCloseable {
    private static final int VALUES = Signal.COUNT + Output.COUNT;
    private static final ColumnBlock COLUMNS = new ColumnBlock(VALUES + 1);
    /** Waking the writer costs more than packing a block, so that a fast simulation hands over some at once. */
    private static final int BLOCKS_PER_BATCH = 5;
    /** What is not faster hands over each block, to lose little when it is cut off. */
    private static final long LONGEST_WAIT_NS = 200_000_000;

    private static final int BATCHES = 16;
    /** How long the end of a recording at real pace waits for the disk. */
    static final long END_WITHIN_MS = 2000;

    private static final Batch END = new Batch();

    /** Ticks on their way to the writer. */
    private static final class Batch {
        private final long[] states = new long[BLOCKS_PER_BATCH * Layout.TICKS_PER_BLOCK];
        private final double[] values = new double[VALUES * states.length];
        private int ticks;

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
    private final CheckedOutputStream checked;
    private final DataOutputStream file;
    private final Thread writer;
    private Batch batch;
    private final LongSupplier nowNs;
    private long handedOverNs;
    private volatile IOException trouble;
    private volatile long lostTicks;

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
        checked = new CheckedOutputStream(new BufferedOutputStream(Files.newOutputStream(path)), new CRC32());
        file = new DataOutputStream(checked);
        byte[] bytes = heading.toBytes();
        CRC32 crc = new CRC32();
        crc.update(bytes);
        file.write(Layout.MAGIC);
        file.writeInt(bytes.length);
        file.writeInt((int) crc.getValue());
        file.write(bytes);
        file.flush();
        for (int i = 0; i < BATCHES; i++) {
            free.add(new Batch());
        }
        batch = free.remove();
        writer = new Thread(this::write, "recorder");
        writer.setDaemon(true);
        writer.start();
    }

    @Override
    public void ticked(long tick, Readings in, Commands out) {
        if (batch == null) {
            lostTicks++;
            return;
        }
        int at = batch.ticks * VALUES;
        in.copyTo(batch.values, at);
        out.copyTo(batch.values, at + Signal.COUNT);
        batch.states[batch.ticks++] = supervisor.state().pack();
        if (batch.ticks % Layout.TICKS_PER_BLOCK == 0 && isDue()) {
            handOver();
        }
    }

    private boolean isDue() {
        return batch.ticks == batch.states.length || nowNs.getAsLong() - handedOverNs > LONGEST_WAIT_NS;
    }

    private void handOver() {
        if (batch != null && batch.ticks > 0) {
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
        Deflater deflater = new Deflater(Deflater.BEST_SPEED);
        deflater.setStrategy(Deflater.HUFFMAN_ONLY);
        long firstTick = 0;
        ByteBuffer plain = ByteBuffer.allocate(COLUMNS.worstBytes(Layout.TICKS_PER_BLOCK));
        byte[] packed = new byte[plain.capacity() + 1024];
        long[] rows = new long[COLUMNS.count() * Layout.TICKS_PER_BLOCK];
        try {
            for (Batch next = full.take(); next != END; next = full.take()) {
                for (int from = 0; from < next.ticks && trouble == null; from += Layout.TICKS_PER_BLOCK) {
                    int to = Math.min(from + Layout.TICKS_PER_BLOCK, next.ticks);
                    next.copyTo(rows, from, to);
                    COLUMNS.write(rows, to - from, plain.clear());
                    writeBlock(firstTick, plain.flip(), deflater, packed);
                    firstTick += to - from;
                }
                flush();
                next.ticks = 0;
                free.add(next);
            }
            writeEnd(firstTick);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } finally {
            deflater.end();
        }
    }

    /** Only a recording from which nothing is missing gets an end. */
    private void writeEnd(long ticks) {
        try {
            if (trouble().isEmpty()) {
                file.writeInt(Layout.END_MARK);
                file.writeLong(ticks);
                file.writeInt((int) checked.getChecksum().getValue());
            }
        } catch (IOException e) {
            trouble = e;
        }
    }

    private void writeBlock(long firstTick, ByteBuffer plain, Deflater deflater, byte[] packed) {
        deflater.reset();
        deflater.setInput(plain.array(), 0, plain.limit());
        deflater.finish();
        int length = 0;
        while (!deflater.finished()) {
            length += deflater.deflate(packed, length, packed.length - length);
        }
        ByteBuffer sizes = ByteBuffer.allocate(Layout.BLOCK_HEAD_BYTES - Integer.BYTES);
        sizes.putInt(length).putInt(plain.limit()).putLong(firstTick);
        CRC32 crc = new CRC32();
        crc.update(sizes.flip());
        crc.update(packed, 0, length);
        try {
            file.write(sizes.array());
            file.writeInt((int) crc.getValue());
            file.write(packed, 0, length);
        } catch (IOException e) {
            trouble = e;
        }
    }

    private void flush() {
        try {
            file.flush();
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
        return lostTicks > 0 ? lostTicks + " ticks are missing: the disk was too slow" : "";
    }

    /** Writes what is left and closes the file.
     *
     * @throws UncheckedIOException when something could not be written, or the disk was too slow
     */
    @Override
    public void close() {
        handOver();
        batch = null;
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
