package sprag.bench.evidence.prove.explore;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.LongConsumer;
import java.util.function.Supplier;
import java.util.stream.IntStream;
import java.util.stream.LongStream;

/** What an exploration found. It keeps the visited states, so that it can give a shortest way to each event. */
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
     * A shortest way to an event, the same for any number of workers. Nothing when it was not seen.
     */
    public Optional<Trace> trace(int event) {
        return Optional.ofNullable(traces(IntStream.of(event)).get(event));
    }

    /**
     * A shortest way to each of several events, the same for any number of workers. No links are kept while exploring.
     * Each step is found by expanding the states of the depth before, once for all events. Of several states the least
     * is taken, with its first branch. The map is by event, without the events that were not seen.
     */
    public Map<Integer, Trace> traces(IntStream wanted) {
        Map<Integer, Deque<Trace.Step>> ways = new TreeMap<>();
        Machine machine = machines.get();
        wanted.filter(this::happened).forEach(event -> ways.put(event, lastStep(machine, event)));
        int deepest = ways.keySet().stream().mapToInt(events::depthOf).max().orElse(0);
        for (int depth = deepest - 1; depth >= 0; depth--) {
            Backwards search = new Backwards(machine);
            int here = depth;
            ways.forEach((event, steps) -> {
                if (events.depthOf(event) > here) {
                    search.target(steps.getFirst().before());
                }
            });
            levels.forEachAt(depth, search);
            ways.forEach((event, steps) -> {
                if (events.depthOf(event) > here) {
                    steps.addFirst(search.found(steps.getFirst().before()));
                }
            });
        }
        Map<Integer, Trace> traces = new TreeMap<>();
        ways.forEach((event, steps) -> traces.put(event, new Trace(new ArrayList<>(steps))));
        return traces;
    }

    private Deque<Trace.Step> lastStep(Machine machine, int event) {
        long before = events.beforeOf(event);
        Successors out = Successors.of(machine, before);
        int branch = events.branchOf(event);
        if (branch >= out.count()) {
            throw new UnrepeatableMachineException("state " + before + " has no branch " + branch + " any more");
        }
        return new ArrayDeque<>(List.of(new Trace.Step(before, branch, out.get(branch))));
    }

    /** Looks for the least state that leads to each target. */
    private static final class Backwards implements LongConsumer {
        private final Machine machine;
        private final Successors out;
        private final Map<Long, Long> least = new HashMap<>();
        private long[] targets = {};

        Backwards(Machine machine) {
            this.machine = machine;
            out = Successors.different(machine.events());
        }

        void target(long state) {
            targets = LongStream.concat(LongStream.of(targets), LongStream.of(state))
                    .distinct()
                    .sorted()
                    .toArray();
        }

        @Override
        public void accept(long state) {
            out.clear();
            out.from(state, 0);
            machine.expand(state, out);
            for (int i = 0; i < out.count(); i++) {
                if (Arrays.binarySearch(targets, out.get(i)) >= 0) {
                    least.merge(out.get(i), state, Math::min);
                }
            }
        }

        Trace.Step found(long target) {
            Long before = least.get(target);
            if (before == null) {
                throw new UnrepeatableMachineException("nothing one step nearer leads to state " + target);
            }
            return new Trace.Step(before, firstBranch(before, target), target);
        }

        private int firstBranch(long before, long target) {
            Successors every = Successors.of(machine, before);
            return IntStream.range(0, every.count())
                    .filter(branch -> every.get(branch) == target)
                    .findFirst()
                    .orElseThrow(() -> new UnrepeatableMachineException(
                            "state " + before + " leads to state " + target + " no more"));
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
