package sprag.bench.loop.bus;

import java.util.Locale;
import sprag.hal.bus.BusMessage;
import sprag.hal.bus.CheckSum;

/** What can go wrong with the frames of one message. One row each. */
public enum FrameFault {
    // @formatter:off
    /** Nothing arrives. */
    LOST("its frames do not arrive"),
    /** Takes a magnitude. */
    LATE("its frames arrive later by this many milliseconds"),
    /** The same frame again. */
    DOUBLED("each frame arrives twice"),
    /** One byte less. */
    WRONG_LENGTH("its frames have a byte too few"),
    /** Old values sent again and again. */
    STUCK_COUNTER("its counter and its values stand still"),
    /** One bit changed. */
    WRONG_SUM("its check sum is wrong"),
    /** Another node, all zeros. */
    TWO_SENDERS("a second node sends the same identifier with all values 0"),
    /** Ten times as often. */
    TOO_OFTEN("it is sent ten times as often");
    // @formatter:on

    /** For people. */
    public final String meaning;

    FrameFault(String meaning) {
        this.meaning = meaning;
    }

    /** The word in a fault's name. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** Whether a message can have it. */
    boolean appliesTo(BusMessage message) {
        return switch (this) {
            case STUCK_COUNTER -> message.counter() != null;
            case WRONG_SUM -> message.sum() != CheckSum.NONE;
            case WRONG_LENGTH -> message.length() > 0;
            case TOO_OFTEN, DOUBLED, LATE -> !message.isSent();
            default -> true;
        };
    }
}
