package sprag.bench.hand.commission;

import java.util.Locale;

/** What came of a step. */
enum StepVerdict {
    /** Seen as it must be. */
    PASSED,
    /** Not seen as it must be, or seen otherwise. */
    FAILED,
    /** Left out by whoever did it, with a reason. */
    SKIPPED,
    /** Nobody got to it yet, or it was refused because something it needs is missing. */
    NOT_DONE;

    String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    static StepVerdict of(String word) {
        return valueOf(word.toUpperCase(Locale.ROOT).replace(' ', '_'));
    }
}
