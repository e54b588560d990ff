package sprag.bench.drawing.draft;

import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/** Where parts sit. A distance between two places is asked of the builder once. */
enum Place {
    PACK,
    MOTOR,
    CABIN,
    INLET,
    REAR;

    static final List<String> WORDS = Stream.of(values()).map(Place::word).toList();

    /** The distance that is taken while nobody has measured (m). */
    static final double DEFAULT_M = 2.0;

    /** As it is written in files. */
    String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** The key of the distance to another place, such as {@code pack_to_motor_m}. */
    String key(Place other) {
        Place first = compareTo(other) < 0 ? this : other;
        Place second = first == this ? other : this;
        return first.word() + "_to_" + second.word() + "_m";
    }
}
