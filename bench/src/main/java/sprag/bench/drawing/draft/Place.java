package sprag.bench.drawing.draft;

import java.util.Locale;

/** Where parts sit. A distance between two places is asked of the builder once. */
enum Place {
    PACK,
    MOTOR,
    CABIN,
    INLET,
    REAR;

    /** The distance that is taken while nobody has measured (m). */
    static final double DEFAULT_M = 2.0;

    /** The key of the distance to another place, such as {@code pack_to_motor_m}. */
    String key(Place other) {
        Place first = compareTo(other) < 0 ? this : other;
        Place second = first == this ? other : this;
        return first.name().toLowerCase(Locale.ROOT) + "_to_" + second.name().toLowerCase(Locale.ROOT) + "_m";
    }
}
