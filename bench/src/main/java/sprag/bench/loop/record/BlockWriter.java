package sprag.bench.loop.record;

import java.io.BufferedOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.zip.CRC32;
import java.util.zip.CheckedOutputStream;
import java.util.zip.Deflater;

/** Writes the parts of a recording, as {@link Layout} tells, one after another. */
final class BlockWriter implements AutoCloseable {
    private static final ColumnBlock FRAMES = new ColumnBlock(FrameRows.COLUMNS);

    private final ColumnBlock columns;
    private final CheckedOutputStream checked;
    private final DataOutputStream file;
    private final Deflater deflater = new Deflater(Deflater.BEST_SPEED);
    private final ByteBuffer plain;
    private final byte[] packed;

    /** Begins a file with its heading.
     *
     * @param path where it goes; an old file there is replaced
     * @param columns of a block of ticks
     */
    BlockWriter(Path path, Heading heading, ColumnBlock columns) throws IOException {
        this.columns = columns;
        plain = ByteBuffer.allocate(
                Math.max(columns.worstBytes(Layout.TICKS_PER_BLOCK), FRAMES.worstBytes(Layout.FRAMES_PER_BLOCK)));
        packed = new byte[plain.capacity() + 1024];
        deflater.setStrategy(Deflater.HUFFMAN_ONLY);
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
    }

    void ticks(long[] rows, int count, long firstTick) throws IOException {
        columns.write(rows, count, plain.clear());
        block(firstTick);
    }

    void frames(long[] rows, int count, long firstFrame) throws IOException {
        FRAMES.write(rows, count, plain.clear());
        file.writeInt(Layout.FRAMES_MARK);
        block(firstFrame);
    }

    private void block(long first) throws IOException {
        plain.flip();
        deflater.reset();
        deflater.setInput(plain.array(), 0, plain.limit());
        deflater.finish();
        int length = 0;
        while (!deflater.finished()) {
            length += deflater.deflate(packed, length, packed.length - length);
        }
        ByteBuffer sizes = ByteBuffer.allocate(Layout.BLOCK_HEAD_BYTES - Integer.BYTES);
        sizes.putInt(length).putInt(plain.limit()).putLong(first);
        CRC32 crc = new CRC32();
        crc.update(sizes.flip());
        crc.update(packed, 0, length);
        file.write(sizes.array());
        file.writeInt((int) crc.getValue());
        file.write(packed, 0, length);
    }

    void flush() throws IOException {
        file.flush();
    }

    /** Says that nothing is missing. */
    void end(long ticks) throws IOException {
        file.writeInt(Layout.END_MARK);
        file.writeLong(ticks);
        file.writeInt((int) checked.getChecksum().getValue());
    }

    @Override
    public void close() throws IOException {
        deflater.end();
        file.close();
    }
}
