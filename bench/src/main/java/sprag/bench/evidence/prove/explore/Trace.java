package sprag.bench.evidence.prove.explore;

import java.util.List;

/**
 * A shortest way from the first state to something that was noted.
 *
 * @param steps from the first state on; never empty, since events are noted on steps
 */
public record Trace(List<Step> steps) {
    /**
     * One step of a trace; expanding the state before and taking the branch gives the state after.
     *
     * @param before the state before
     * @param branch which successor of it, counted from 0
     * @param after the state after
     */
    public record Step(long before, int branch, long after) {}

    /** Takes an unchangeable copy. */
    public Trace {
        steps = List.copyOf(steps);
    }

    /** The number of steps. At least 1. */
    public int length() {
        return steps.size();
    }

    /** Runs the trace again, step by step.
     *
     * @param machine the machine it was found on, or a changed one
     * @return true when the machine takes every step of it
     */
    public boolean runsOn(Machine machine) {
        long state = machine.initial();
        for (Step step : steps) {
            Successors out = Successors.of(machine, state);
            if (step.before() != state || step.branch() >= out.count() || out.get(step.branch()) != step.after()) {
                return false;
            }
            state = step.after();
        }
        return true;
    }
}
