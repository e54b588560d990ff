package sprag.bench.hand.commission.steps;

import java.util.Locale;
import sprag.bench.hand.commission.record.StepAbandoned;
import sprag.bench.hand.commission.record.StepDescription;
import sprag.bench.hand.commission.record.StepResult;

/**
 * One step.
 *
 * @param need which steps must have passed before it
 */
public record BringUpStep(StepDescription text, Need need, Work work) {
    /** What must have passed before a step. */
    public enum Need {
        /** Nothing: no hand and no tool comes near the car. */
        NOTHING,
        /** All safety steps before it. */
        EARLIER,
        /** The same. The step itself is repeated in each session, because the car may have changed. */
        EARLIER_EACH_SESSION,
        /** That no voltage was found in this session: the work is on the 12 V side, away from the traction side. */
        NO_VOLTAGE,
        /** Every safety step: hands or tools come near the traction side. */
        SAFE,
        /** The same. The step itself is repeated in each session. */
        SAFE_EACH_SESSION,
        /** Every safety step and the arming. */
        ARMED,
        /** All that, and every contactor and the cut-off: now the supervisor drives. */
        PROVED;

        public boolean isRepeated() {
            return this == EARLIER_EACH_SESSION || this == SAFE_EACH_SESSION;
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
