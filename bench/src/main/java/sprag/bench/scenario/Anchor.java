package sprag.bench.scenario;

/** The moment from which an expectation or a step counts its time. */
public sealed interface Anchor {
    /** The moment in words. For example {@code the start}. */
    String words();

    /** The start of the run. */
    record Start() implements Anchor {
        @Override
        public String words() {
            return "the start";
        }
    }

    /** A named step of the scenario. */
    record AfterStep(String name) implements Anchor {
        @Override
        public String words() {
            return "the step \"" + name + "\"";
        }
    }

    /** The first tick, not before a time, at which a condition holds that did not hold on the tick before.
     *
     * @param condition what must begin
     * @param notBeforeMs beginnings before this do not count
     */
    record Begins(Condition condition, long notBeforeMs) implements Anchor {
        @Override
        public String words() {
            return condition.words();
        }
    }
}
