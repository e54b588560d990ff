package sprag.bench.loop.record;

import java.nio.charset.StandardCharsets;
import java.util.Optional;

/**
 * How a recording lies in its file.
 *
 * <pre>
 *   "sprag recording 4\n"
 *   length (4 bytes), CRC-32 of the heading (4), and the heading as JSON
 *   blocks: length of what follows packed (4), length unpacked (4), number of the first tick (8), CRC-32 of these
 *   three numbers and of the packed bytes (4), packed bytes (deflate)
 *   the end: -1 (4), the number of ticks (8), CRC-32 of the whole file up to here (4)
 *   a block holds up to 100 ticks, column by column as {@link ColumnBlock} tells; it can be read without those before it
 *   columns: the readings, the commands, the state
 *   frames of a data bus stand in blocks of their own: -2 (4), then the same as before the packed bytes of other blocks, with the
 *   number of the first frame in the place of the tick's, then columns as {@link FrameRows} tells. They stand before the ticks that
 *   had heard them. Format 3 is the same without such blocks.
 * </pre>
 *
 * <p>All numbers are big-endian. A file without its end was cut off; it is read up to its last whole block.
 */
final class Layout {
    static final int VERSION = 4;
    /** The oldest format that is read too. */
    static final int OLDEST = 3;

    static final int TICKS_PER_BLOCK = 100;
    static final int FRAMES_PER_BLOCK = 100;
    static final int BLOCK_HEAD_BYTES = 20;
    static final int END_MARK = -1;
    static final int FRAMES_MARK = -2;
    static final int END_BYTES = 16;
    private static final String NAME = "sprag recording ";

    static final byte[] MAGIC = (NAME + VERSION + "\n").getBytes(StandardCharsets.US_ASCII);

    private Layout() {}

    /** What is wrong with the first bytes of a file; nothing when they are those of a recording of this version. */
    static Optional<String> wrongMagic(byte[] found) {
        String text = new String(found, StandardCharsets.US_ASCII);
        if (text.matches(NAME + "[0-9]\n")) {
            int version = text.charAt(NAME.length()) - '0';
            return version >= OLDEST && version <= VERSION
                    ? Optional.empty()
                    : Optional.of("is a recording of format " + version + "; this version reads the formats " + OLDEST
                            + " to " + VERSION + ". Replay it with the version that made it");
        }
        return Optional.of("is not a recording");
    }
}
