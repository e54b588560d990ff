package sprag.bench.evidence.prove.explore;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.Locale;
import java.util.Optional;
import java.util.function.LongConsumer;
import java.util.function.Supplier;

/** What an exploration found. Keeps the visited states, so that a shortest way to each event can be told. */
public final class Exploration {
    private final Size size;
    private final String stoppedBy;
    private final Successors events;
    private final Levels levels;
    private final Supplier<? extends Machine> machines;

    /**
     * How large it was.
     *
     * @param transitions successors listed by the machine, repeats included
     * @param depth how many steps deep it goes, the first state counted as 1
     * @param bytes memory for visited states and their order
     */
    public record Size(long states, long transitions, int depth, long bytes, long tookNs) {
        /** The memory a state takes. */
        public double bytesPerState() {
            return (double) bytes / states;
        }

        /** The speed. */
        public double statesPerS() {
            return states * 1e9 / tookNs;
        }

        /** The speed. */
        public double transitionsPerS() {
            return transitions * 1e9 / tookNs;
        }
    }

    Exploration(Size size, String stoppedBy, Successors events, Levels levels, Supplier<? extends Machine> machines) {
        this.size = size;
        this.stoppedBy = stoppedBy;
        this.events = events;
        this.levels = levels;
        this.machines = machines;
    }

    /** How large it was. Counts, memory and time. */
    public Size size() {
        return size;
    }

    /** Whether every reachable state has been visited: nothing was left waiting and no limit was met. */
    public boolean complete() {
        return stoppedBy == null;
    }

    /** Why it is not complete. Returns the limit that was met, or nothing. */
    public Optional<String> stoppedBy() {
        return Optional.ofNullable(stoppedBy);
    }

    /** Whether an event was seen. When the exploration is not complete, one that was not seen may still be possible. */
    public boolean happened(int event) {
        return events.happened(event);
    }

    /** The length of the shortest way to an event.
     *
     * @param event one that {@link #happened}
     * @return steps from the first state, the step that shows the event included
     */
    public int stepsTo(int event) {
        if (!happened(event)) {
            throw new IllegalArgumentException("event " + event + " was not seen");
        }
        return events.depthOf(event) + 1;
    }

    /**
     * A shortest way to an event, the same for any number of workers: no links are kept while exploring; each step is
     * found by expanding the states one depth nearer, and of several the least state and its first branch are taken.
     * Nothing when it was not seen.
     */
    public Optional<Trace> trace(int event) {
        if (!happened(event)) {
            return Optional.empty();
        }
        Machine machine = machines.get();
        Successors out = new Successors(machine.events());
        Deque<Trace.Step> steps = new ArrayDeque<>();
        long before = events.beforeOf(event);
        int branch = events.branchOf(event);
        out.from(before, 0);
        machine.expand(before, out);
        steps.addFirst(new Trace.Step(before, branch, out.get(branch)));
        for (int depth = events.depthOf(event) - 1; depth >= 0; depth--) {
            Backwards search = new Backwards(machine, out, steps.getFirst().before());
            levels.forEachAt(depth, search);
            steps.addFirst(search.found());
        }
        return Optional.of(new Trace(new ArrayList<>(steps)));
    }

    /** Looks for the least state that leads to a target. */
    private static final class Backwards implements LongConsumer {
        private final Machine machine;
        private final Successors out;
        private final long target;
        private Trace.Step best;

        Backwards(Machine machine, Successors out, long target) {
            this.machine = machine;
            this.out = out;
            this.target = target;
        }

        @Override
        public void accept(long state) {
            if (best != null && best.before() < state) {
                return;
            }
            out.clear();
            out.from(state, 0);
            machine.expand(state, out);
            for (int branch = 0; branch < out.count(); branch++) {
                if (out.get(branch) == target) {
                    best = new Trace.Step(state, branch, target);
                    return;
                }
            }
        }

        Trace.Step found() {
            if (best == null) {
                throw new IllegalStateException(
                        "nothing one step nearer leads to state " + target + ": the machine does not repeat itself");
            }
            return best;
        }
    }

    /** One line for people. States, transitions, depth, and whether that is all. */
    public String summary() {
        return String.format(
                Locale.ROOT,
                "%,d states, %,d transitions, depth %d, %s",
                size.states(),
                size.transitions(),
                size.depth(),
                complete() ? "complete" : "NOT COMPLETE: " + stoppedBy);
    }
}
