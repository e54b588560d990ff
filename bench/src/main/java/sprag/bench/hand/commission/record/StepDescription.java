package sprag.bench.hand.commission.record;

import java.util.List;

/**
 * A step as people read it.
 *
 * @param id its stable name, e.g. {@code input.key_on}
 * @param part the part of the work that it belongs to
 * @param todo what to do, in order
 * @param expect what must be seen
 */
public record StepDescription(String id, Part part, String title, List<String> todo, String expect) {
    /** The parts of the work, in their order. */
    public enum Part {
        SAFETY("Before anything is touched"),
        SUPPLIES("Supplies"),
        LINK("The link"),
        INPUTS("Inputs, one by one"),
        ARMING("Arming"),
        OUTPUTS("Outputs, one by one"),
        CUT_OFF("Cut-off and watchdog"),
        SEQUENCE("Start and stop, pack absent"),
        INTERLOCKS("Interlocks that can be provoked safely");

        public final String heading;

        Part(String heading) {
            this.heading = heading;
        }
    }

    public StepDescription {
        todo = List.copyOf(todo);
    }
}
