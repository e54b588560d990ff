package sprag.bench.loop.record;

import java.nio.charset.StandardCharsets;

/**
 * How a recording lies in its file.
 *
 * <pre>
 *   "sprag recording 2\n"
 *   length (4 bytes) and the heading as JSON
 *   blocks: length of what follows packed (4), length unpacked (4), CRC-32 of the packed bytes (4), packed bytes (deflate)
 *   a block holds up to 100 ticks, column by column as {@link ColumnBlock} tells; it can be read without those before it
 *   columns: the readings, the commands, the state
 * </pre>
 *
 * <p>All numbers are big-endian. A file that was cut off is read up to its last whole block.
 */
final class Layout {
    static final byte[] MAGIC = "sprag recording 2\n".getBytes(StandardCharsets.US_ASCII);
    static final int TICKS_PER_BLOCK = 100;
    static final int BLOCK_HEAD_BYTES = 12;

    private Layout() {}
}
