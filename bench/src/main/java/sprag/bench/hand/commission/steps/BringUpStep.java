package sprag.bench.hand.commission.steps;

import java.util.Locale;
import sprag.bench.hand.commission.record.StepAbandoned;
import sprag.bench.hand.commission.record.StepDescription;
import sprag.bench.hand.commission.record.StepResult;

/**
 * One step.
 *
 * @param text what people read
 * @param need which steps must have passed before it
 * @param work how it is done
 */
public record BringUpStep(StepDescription text, Need need, Work work) {
    /** What must have passed in this session. */
    public enum Need {
        /** Nothing. */
        NOTHING,
        /** Nothing. The step itself is repeated in each session, because the car may have changed. */
        EACH_SESSION,
        /** The safety steps of this session. The step itself is repeated in each session. */
        SAFE,
        /** The safety steps and the arming. */
        ARMED,
        /** All that, and every contactor and the cut-off: now the supervisor drives. */
        PROVED;

        public boolean isRepeated() {
            return this == EACH_SESSION || this == SAFE;
        }
    }

    /** How a step is done. */
    public interface Work {
        StepResult run() throws StepAbandoned;
    }

    public String id() {
        return text.id();
    }

    static String idOf(String family, String name) {
        return family + "." + name.toLowerCase(Locale.ROOT);
    }

    /** Whether this is the step that proves an output. */
    public boolean proves(String output) {
        return id().equals(idOf("output", output));
    }
}
