package sprag.hal.board.firmata;

import sprag.hal.board.LineSettings;
import sprag.hal.board.LinkLost;

/** Counts the signs of a bad line: bytes that belong to no message, and more bytes than the line speed allows. */
final class LineNoise {
    private static final long WINDOW_NS = 1_000_000_000;
    private static final int STRAY_LIMIT_BYTES = 32;
    private static final double FLOOD_SHARE = 1.5;

    private final FirmataLink link;
    private final LineSettings line;
    private final long floodLimitBytes;
    private long beganNs;
    private long strayAtBegin;
    private long bytesAtBegin;

    LineNoise(FirmataLink link, LineSettings line) {
        this.link = link;
        this.line = line;
        this.floodLimitBytes = Math.round(FLOOD_SHARE * line.baud() / line.bitsPerCharacter());
    }

    void begin(long nowNs) {
        beganNs = nowNs;
        strayAtBegin = link.strayBytes();
        bytesAtBegin = link.bytesSeen();
    }

    void check(long nowNs) throws LinkLost {
        long stray = link.strayBytes() - strayAtBegin;
        if (stray > STRAY_LIMIT_BYTES) {
            throw new LinkLost("the line garbles: " + stray + " bytes within a second belong to no message (limit "
                    + STRAY_LIMIT_BYTES + "); check cable, shielding, ground and speed");
        }
        long bytes = link.bytesSeen() - bytesAtBegin;
        if (bytes > floodLimitBytes) {
            throw new LinkLost("the board floods: " + bytes + " bytes within a second, more than " + line.baud()
                    + " baud carry; is an input left open, or is other firmware on the board?");
        }
        if (nowNs - beganNs > WINDOW_NS) {
            begin(nowNs);
        }
    }
}
