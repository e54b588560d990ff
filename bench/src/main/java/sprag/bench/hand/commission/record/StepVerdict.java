package sprag.bench.hand.commission.record;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** The verdict on a step. */
public enum StepVerdict {
    /** What must be seen was seen. */
    PASSED,
    /** What must be seen was not seen. */
    FAILED,
    /** The person left it out and gave a reason. */
    SKIPPED,
    /** Nobody got to it, or it was refused because an earlier step has not passed. */
    NOT_DONE;

    /** For people and for the journal, e.g. {@code not done}. */
    @JsonValue
    public String word() {
        return key().replace('_', ' ');
    }

    /** For programs, e.g. {@code not_done}. */
    String key() {
        return name().toLowerCase(Locale.ROOT);
    }
}
