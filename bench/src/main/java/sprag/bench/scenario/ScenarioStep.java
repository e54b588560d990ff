package sprag.bench.scenario;

import java.util.List;

/**
 * One step of a scenario.
 *
 * @param name what people and expectations call it
 * @param line where it stands in the file
 * @param anchor the moment from which it waits
 * @param waitMs how long it waits after that
 * @param actions what is done, all at once
 * @param repeats how often it is done
 */
public record ScenarioStep(String name, int line, Anchor anchor, long waitMs, List<Action> actions, Repeats repeats) {
    /** Once and no more. */
    public static final Repeats ONCE = new Repeats(1, 0);

    /**
     * How often a step is done.
     *
     * @param times how many times in all
     * @param everyMs from one time to the next
     */
    public record Repeats(int times, long everyMs) {}
}
