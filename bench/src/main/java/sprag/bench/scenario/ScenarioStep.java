package sprag.bench.scenario;

import java.util.List;

/**
 * One step of a scenario.
 *
 * @param waitMs how long it waits after that
 * @param actions what is done, all at once
 */
public record ScenarioStep(String name, int line, Anchor anchor, long waitMs, List<Action> actions, Repeats repeats) {
    /** Once and no more. */
    public static final Repeats ONCE = new Repeats(1, 0);

    /** How often a step is done. */
    public record Repeats(int times, long everyMs) {}
}
