package sprag.bench.loop.record;

import java.io.BufferedInputStream;
import java.io.DataInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.nio.BufferUnderflowException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.zip.CRC32;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;
import sprag.bench.cli.InputFile;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** Reads a recording tick by tick, up to the last whole block of a file that was cut off. */
public final class Recording implements AutoCloseable {
    /** The most bytes a block or heading may claim; more is damage, not data. */
    private static final int SANE_BYTES = 1 << 24;

    private final DataInputStream file;
    private final Heading heading;
    private final Inflater inflater = new Inflater();
    private final ColumnBlock columns;
    private final long[] rows;
    private int ticksInBlock;
    private int tickInBlock;
    private boolean cutOff;
    private long state;
    private long tick = -1;

    /** Opens a recording.
     *
     * @throws IOException when it cannot be read or is not a recording, saying which
     */
    public Recording(Path path) throws IOException {
        requireRegular(path);
        file = new DataInputStream(new BufferedInputStream(Files.newInputStream(path)));
        try {
            byte[] magic = file.readNBytes(Layout.MAGIC.length);
            if (!Arrays.equals(magic, Layout.MAGIC)) {
                throw new IOException(path + " is not a recording of this version");
            }
            heading = Heading.parse(readSized(file.readInt()));
        } catch (EOFException e) {
            file.close();
            throw new IOException(path + " ends before its first tick", e);
        } catch (IOException | IllegalArgumentException e) {
            file.close();
            throw new IOException(path + ": " + e.getMessage(), e);
        }
        columns = new ColumnBlock(heading.signals().size() + heading.outputs().size() + 1);
        rows = new long[columns.count() * Byte.MAX_VALUE];
    }

    private static void requireRegular(Path path) throws IOException {
        try {
            InputFile.requireRegular(path);
        } catch (InputFile.Refused e) {
            throw new IOException(path + " " + e.getMessage(), e);
        }
    }

    private byte[] readSized(int length) throws IOException {
        if (length < 0 || length > SANE_BYTES) {
            throw new IOException("a part claims " + length + " bytes; the file is damaged");
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

    /** Goes to the next tick.
     *
     * @return false at the end
     * @throws IOException when a whole block is damaged, naming the tick it begins with
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

    private boolean nextBlock() throws IOException {
        byte[] head = file.readNBytes(Layout.BLOCK_HEAD_BYTES);
        if (head.length < Layout.BLOCK_HEAD_BYTES) {
            cutOff = head.length > 0;
            return false;
        }
        ByteBuffer sizes = ByteBuffer.wrap(head);
        int packedBytes = sizes.getInt();
        int bytes = sizes.getInt();
        int crcExpected = sizes.getInt();
        byte[] packed;
        try {
            packed = readSized(packedBytes);
        } catch (EOFException e) {
            cutOff = true;
            return false;
        }
        CRC32 crc = new CRC32();
        crc.update(packed);
        if ((int) crc.getValue() != crcExpected || bytes < 0 || bytes > SANE_BYTES) {
            throw new IOException("the block that begins with tick " + (tick + 1) + " is damaged (checksum)");
        }
        ByteBuffer block = ByteBuffer.wrap(unpack(packed, bytes));
        try {
            ticksInBlock = columns.read(block, rows);
        } catch (BufferUnderflowException | IndexOutOfBoundsException e) {
            throw new IOException("the block that begins with tick " + (tick + 1) + " is too short for its columns", e);
        }
        if (ticksInBlock < 1) {
            throw new IOException(
                    "the block that begins with tick " + (tick + 1) + " claims " + ticksInBlock + " ticks");
        }
        tickInBlock = 0;
        return true;
    }

    private byte[] unpack(byte[] packed, int bytes) throws IOException {
        byte[] unpacked = new byte[bytes];
        inflater.reset();
        inflater.setInput(packed);
        try {
            int got = inflater.inflate(unpacked);
            if (got != bytes) {
                throw new IOException(
                        "the block that begins with tick " + (tick + 1) + " has " + got + " bytes instead of " + bytes);
            }
        } catch (DataFormatException e) {
            throw new IOException("the block that begins with tick " + (tick + 1) + " cannot be unpacked", e);
        }
        return unpacked;
    }

    /** The number of the tick that was read last. From 0; -1 before the first. */
    public long tick() {
        return tick;
    }

    /** The supervisor's state after that tick. */
    public long state() {
        return state;
    }

    /**
     * Whether the file ended within a block: the process or the disk failed there. Returns true when it did; known at
     * the end.
     */
    public boolean isCutOff() {
        return cutOff;
    }

    @Override
    public void close() throws IOException {
        inflater.end();
        file.close();
    }
}
