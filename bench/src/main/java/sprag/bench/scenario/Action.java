package sprag.bench.scenario;

import sprag.bench.cli.Numbers;

/** One thing that is done to the car. */
public sealed interface Action {
    /** What is done, in words. For example {@code key_on to 1}. */
    String words();

    /** Moves a lever of the bench: what the driver does, the road, the weather.
     *
     * @param overMs how long it takes; 0 is at once
     */
    record Move(String lever, double to, long overMs) implements Action {
        @Override
        public String words() {
            String slowly = overMs > 0 ? " over " + Numbers.text(overMs / 1000.0) + " s" : "";
            return lever + " to " + Numbers.text(to) + slowly;
        }
    }

    /** Breaks something.
     *
     * @param what the part and how, for example {@code positive_contactor.welded}
     */
    record Fault(String what) implements Action {
        @Override
        public String words() {
            return "fault: " + what;
        }
    }

    /** Mends something.
     *
     * @param what the part and how it was broken
     */
    record Clear(String what) implements Action {
        @Override
        public String words() {
            return "mended: " + what;
        }
    }
}
