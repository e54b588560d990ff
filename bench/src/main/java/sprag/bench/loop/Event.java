package sprag.bench.loop;

import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Transition;

/** Something that the supervisor did in one tick. */
public sealed interface Event {
    /** An interlock began to act. */
    record Began(Interlock row) implements Event {}

    /** A state was entered.
     *
     * @param stopper the interlock that asked for it, null when none did
     */
    record Entered(Transition via, Interlock stopper) implements Event {
        /** Why it was entered. Returns one clause, with the cause of the interlock in brackets. */
        public String why() {
            return via.reason + (stopper == null ? "" : " (" + stopper.cause + ")");
        }
    }
}
