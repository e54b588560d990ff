package sprag.bench.loop.record;

import java.io.BufferedInputStream;
import java.io.DataInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.BufferUnderflowException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.Set;
import java.util.zip.CRC32;
import java.util.zip.CheckedInputStream;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;
import sprag.bench.cli.InputFile;
import sprag.hal.bus.CanFrame;
import sprag.hal.bus.FrameListener;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** Reads a recording tick by tick, up to the last whole block of a file that was cut off. */
public final class Recording implements AutoCloseable {
    /** The most bytes a block or heading may claim; more is damage, not data. */
    private static final int SANE_BYTES = 1 << 24;

    private final CheckedInputStream checked;
    private final DataInputStream file;
    private final Heading heading;
    private final Inflater inflater = new Inflater();
    private final ColumnBlock columns;
    private final long[] rows;
    private final ColumnBlock frameColumns = new ColumnBlock(FrameRows.COLUMNS);
    private final long[] frameRows = new long[FrameRows.COLUMNS * Byte.MAX_VALUE];
    private final CanFrame frame = new CanFrame();
    private FrameListener listener = FrameListener.NOBODY;
    private long frames;
    private long firstOfBlock;
    private int ticksInBlock;
    private int tickInBlock;
    private String missing = "";
    private boolean damaged;
    private boolean ended;
    private long state;
    private long tick = -1;

    /**
     * Opens a recording.
     *
     * @throws IOException when it cannot be read or is not a recording, saying which
     */
    public Recording(Path path) throws IOException {
        this(open(path));
    }

    /** A recording from any source. */
    Recording(InputStream bytes) throws IOException {
        checked = new CheckedInputStream(new BufferedInputStream(bytes), new CRC32());
        file = new DataInputStream(checked);
        try {
            heading = readHeading();
        } catch (EOFException e) {
            file.close();
            throw new IOException("it ends before its first tick", e);
        } catch (IOException | IllegalArgumentException e) {
            file.close();
            throw e;
        }
        columns = new ColumnBlock(heading.signals().size() + heading.outputs().size() + 1);
        rows = new long[columns.count() * Byte.MAX_VALUE];
    }

    private static InputStream open(Path path) throws IOException {
        try {
            InputFile.requireRegular(path);
        } catch (InputFile.Refused e) {
            throw new IOException("it " + e.getMessage(), e);
        }
        return Files.newInputStream(path);
    }

    private Heading readHeading() throws IOException {
        Optional<String> wrong = Layout.wrongMagic(file.readNBytes(Layout.MAGIC.length));
        if (wrong.isPresent()) {
            throw new IOException("it " + wrong.get());
        }
        int length = file.readInt();
        int crcExpected = file.readInt();
        byte[] bytes = readSized(length);
        CRC32 crc = new CRC32();
        crc.update(bytes);
        if ((int) crc.getValue() != crcExpected) {
            throw new IOException("its heading is damaged (check sum), so nothing in it can be trusted");
        }
        return Heading.parse(bytes);
    }

    private byte[] readSized(int length) throws IOException {
        if (length < 0 || length > SANE_BYTES) {
            throw new IOException("a part of it claims " + length + " bytes, so the file is damaged");
        }
        byte[] bytes = file.readNBytes(length);
        if (bytes.length < length) {
            throw new EOFException("a part of " + length + " bytes ends after " + bytes.length);
        }
        return bytes;
    }

    /** The name of the vehicle. As it was recorded. */
    public String vehicle() {
        return heading.vehicle();
    }

    /** What was run. Returns for people. */
    public String title() {
        return heading.title();
    }

    /** The values in force. */
    public Settings settings() {
        return heading.settings();
    }

    /** The interlocks that were taken out when it was made. */
    public Set<Interlock> without() {
        return heading.without();
    }

    /**
     * Goes to the next tick.
     *
     * @return false at the end, and where something is missing or damaged; {@link #missing} then tells what
     * @throws IOException when the disk cannot be read
     */
    public boolean next(Readings in, Commands out) throws IOException {
        if (tickInBlock == ticksInBlock && !nextBlock()) {
            return false;
        }
        tick++;
        int at = tickInBlock++ * columns.count();
        for (Signal signal : heading.signals()) {
            in.set(signal, Double.longBitsToDouble(rows[at++]));
        }
        for (Output output : heading.outputs()) {
            out.set(output, Double.longBitsToDouble(rows[at++]));
        }
        state = rows[at];
        return true;
    }

    /** Tells somebody of every frame of a data bus while ticks are read, with its time from the beginning of the recording.
     *
     * @param who in the place of whoever was told before
     */
    public void listen(FrameListener who) {
        listener = who;
    }

    /** How many frames of a data bus were read so far. All of them at the end. */
    public long frames() {
        return frames;
    }

    /** Goes over all ticks that are left; frames and what is missing are known then.
     *
     * @throws IOException when the disk cannot be read
     */
    void readToEnd() throws IOException {
        Readings in = new Readings();
        Commands out = new Commands();
        boolean more = true;
        while (more) {
            more = next(in, out);
        }
    }

    private boolean nextBlock() throws IOException {
        while (!ended) {
            ended = true;
            byte[] first = file.readNBytes(Integer.BYTES);
            int mark = first.length < Integer.BYTES ? 0 : ByteBuffer.wrap(first).getInt();
            if (mark == Layout.END_MARK) {
                return end();
            }
            byte[] plain = readBlock(mark == Layout.FRAMES_MARK ? file.readNBytes(Integer.BYTES) : first);
            if (plain == null) {
                return false;
            }
            if (mark != Layout.FRAMES_MARK) {
                return takeTicks(plain);
            }
            if (!takeFrames(plain)) {
                return false;
            }
            ended = false;
        }
        return false;
    }

    /** The unpacked bytes of a block; null where something is missing or damaged. */
    private byte[] readBlock(byte[] head) throws IOException {
        byte[] rest = file.readNBytes(Layout.BLOCK_HEAD_BYTES - Integer.BYTES);
        if (head.length + rest.length < Layout.BLOCK_HEAD_BYTES) {
            cutOff();
            return null;
        }
        ByteBuffer sizes =
                ByteBuffer.allocate(Layout.BLOCK_HEAD_BYTES).put(head).put(rest).flip();
        int packedBytes = sizes.getInt();
        int bytes = sizes.getInt();
        firstOfBlock = sizes.getLong();
        if (packedBytes < 1 || packedBytes > SANE_BYTES || bytes < 1 || bytes > SANE_BYTES) {
            damaged("the next block claims " + bytes + " bytes");
            return null;
        }
        byte[] packed = file.readNBytes(packedBytes);
        if (packed.length < packedBytes) {
            cutOff();
            return null;
        }
        CRC32 crc = new CRC32();
        crc.update(sizes.array(), 0, Layout.BLOCK_HEAD_BYTES - Integer.BYTES);
        crc.update(packed);
        if ((int) crc.getValue() != sizes.getInt()) {
            damaged("the next block is damaged (check sum)");
            return null;
        }
        return unpack(packed, bytes);
    }

    private byte[] unpack(byte[] packed, int bytes) {
        byte[] plain = new byte[bytes];
        inflater.reset();
        inflater.setInput(packed);
        try {
            if (inflater.inflate(plain) == bytes) {
                return plain;
            }
        } catch (DataFormatException e) {
            damaged("the next block cannot be unpacked: " + e.getMessage());
            return null;
        }
        damaged("the next block cannot be unpacked");
        return null;
    }

    private boolean takeTicks(byte[] plain) {
        if (firstOfBlock != tick + 1) {
            return damaged("the next block begins with tick " + firstOfBlock);
        }
        tickInBlock = 0;
        ticksInBlock = rows(columns, plain, rows);
        if (ticksInBlock < 1) {
            return damaged("the next block cannot be unpacked");
        }
        ended = false;
        return true;
    }

    private boolean takeFrames(byte[] plain) {
        if (firstOfBlock != frames) {
            return damaged("the next block begins with frame " + firstOfBlock + " of the data bus");
        }
        int count = rows(frameColumns, plain, frameRows);
        for (int i = 0; i < count; i++) {
            int at = i * FrameRows.COLUMNS;
            FrameRows.get(frameRows, at, frame);
            listener.frame(frame, FrameRows.isSent(frameRows, at), FrameRows.timeNs(frameRows, at));
        }
        frames += count;
        return count > 0 || damaged("the next block cannot be unpacked");
    }

    /** How many rows a block holds; 0 when its columns are not whole. */
    private static int rows(ColumnBlock columns, byte[] plain, long[] into) {
        try {
            return Math.max(0, columns.read(ByteBuffer.wrap(plain), into));
        } catch (BufferUnderflowException | IndexOutOfBoundsException e) {
            return 0;
        }
    }

    private boolean end() throws IOException {
        byte[] count = file.readNBytes(Long.BYTES);
        int crcNow = (int) checked.getChecksum().getValue();
        byte[] crcExpected = file.readNBytes(Integer.BYTES);
        if (crcExpected.length < Integer.BYTES) {
            return cutOff();
        }
        long ticks = ByteBuffer.wrap(count).getLong();
        if (ticks != tick + 1) {
            return damaged("its end counts " + ticks + " ticks");
        }
        if (ByteBuffer.wrap(crcExpected).getInt() != crcNow) {
            return damaged("the check sum of the whole file differs");
        }
        return file.read() >= 0 && damaged("something follows its end");
    }

    private boolean cutOff() {
        missing = "The recording was cut off after " + (tick + 1)
                + " ticks, or was still being written: what came then is missing.";
        return false;
    }

    private boolean damaged(String what) {
        damaged = true;
        missing = "The recording is damaged after " + (tick + 1) + " ticks: " + what
                + ". What comes from there on cannot be compared.";
        return false;
    }

    /** The number of the tick that was read last. From 0; -1 before the first. */
    public long tick() {
        return tick;
    }

    /** The supervisor's state after that tick. */
    public long state() {
        return state;
    }

    /** What is missing, as a sentence; empty when nothing is. Known at the end. */
    public String missing() {
        return missing;
    }

    /** Whether something in it was changed, and not only cut off. Known at the end. */
    public boolean isDamaged() {
        return damaged;
    }

    @Override
    public void close() throws IOException {
        inflater.end();
        file.close();
    }
}
