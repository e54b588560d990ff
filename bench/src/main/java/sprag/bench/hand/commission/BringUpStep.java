package sprag.bench.hand.commission;

import java.util.List;
import java.util.Locale;

/**
 * One step: what to do, what must be seen, and how that is found out.
 *
 * @param id its stable name, e.g. {@code input.key_on}
 * @param part the part of the work that it belongs to
 * @param title one line for people
 * @param todo what to do, in order
 * @param expect what must be seen
 * @param need what it must not be done without
 * @param work how it is done
 */
record BringUpStep(String id, Part part, String title, List<String> todo, String expect, Need need, Work work) {
    /** The parts of the work, in their order. */
    enum Part {
        SAFETY("Before anything is touched"),
        SUPPLIES("Supplies"),
        LINK("The link"),
        INPUTS("Inputs, one by one"),
        ARMING("Arming"),
        OUTPUTS("Outputs, one by one"),
        CUT_OFF("Cut-off and watchdog"),
        SEQUENCE("Start and stop, pack absent"),
        INTERLOCKS("Interlocks that can be provoked safely");

        final String heading;

        Part(String heading) {
            this.heading = heading;
        }
    }

    /** What must have passed in this very session. */
    enum Need {
        /** Nothing. */
        NOTHING,
        /** Nothing, but it is asked again in each session, since the world may have changed. */
        EACH_SESSION,
        /** The steps about safety that are asked in each session; it is asked in each itself. */
        SAFE,
        /** Those, and the arming. */
        ARMED,
        /** All that, and every contactor and the cut-off have been shown to do what they should: the supervisor drives now. */
        PROVED;

        boolean isAskedAnew() {
            return this == EACH_SESSION || this == SAFE;
        }
    }

    /** How a step is done. */
    interface Work {
        StepResult run(StepContext floor) throws StepAbandoned;
    }

    BringUpStep {
        todo = List.copyOf(todo);
    }

    static String idOf(String family, String name) {
        return family + "." + name.toLowerCase(Locale.ROOT);
    }
}
