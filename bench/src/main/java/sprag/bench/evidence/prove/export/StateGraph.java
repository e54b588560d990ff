package sprag.bench.evidence.prove.export;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.function.IntConsumer;
import sprag.bench.evidence.prove.explore.Choices;
import sprag.bench.evidence.prove.explore.Successors;
import sprag.bench.evidence.prove.promise.Promise;
import sprag.bench.evidence.prove.promise.Tick;
import sprag.supervisor.logic.LogicState;

/**
 * The reachable states of Logic and the ways between them, as a labelled transition system.
 *
 * <p>A way stands for one decision: the facts that Logic asked for in a tick, with their values, and what it permitted. All other facts
 * may have had any value. The ways are not kept: they are found again when they are written, so the memory taken grows with the
 * states alone.
 */
public final class StateGraph {
    /** No state of a sound Logic comes near it; a gross defect may. */
    private static final int MOST_BRANCHES = 1 << 20;

    private final Tick tick;
    private final Choices choices;
    private final Successors unused;
    private final Map<Long, Integer> numbers = new HashMap<>();
    private final List<Long> states = new ArrayList<>();
    private long ways;

    /** Takes one way. */
    private interface Taker {
        /** A decision, or the breaking of a promise, which then is not null. The tick shows it. */
        void take(Promise broken, long to) throws IOException;
    }

    private StateGraph(Tick tick) {
        this.tick = tick;
        choices = new Choices(tick.keys());
        unused = new Successors(tick.labels());
    }

    /** Finds every reachable state.
     *
     * @param tick Logic under exploration
     * @param maxStates how many may be found
     * @param done told how many states have been looked at
     * @return the graph; nothing when there are more states, or more ways out of a state than can be tried, or when it was asked to stop
     */
    public static Optional<StateGraph> explore(Tick tick, long maxStates, BooleanSupplier stop, IntConsumer done) {
        StateGraph graph = new StateGraph(tick);
        try {
            return graph.find(maxStates, stop, done) ? Optional.of(graph) : Optional.empty();
        } catch (IOException e) {
            throw new IllegalStateException("nothing is written here", e);
        }
    }

    private boolean find(long maxStates, BooleanSupplier stop, IntConsumer done) throws IOException {
        number(tick.initial());
        for (int i = 0; i < states.size(); i++) {
            boolean whole = ways(states.get(i), (broken, to) -> {
                ways++;
                number(to);
            });
            if (!whole || states.size() > maxStates || stop.getAsBoolean()) {
                return false;
            }
            done.accept(i + 1);
        }
        return true;
    }

    private void number(long state) {
        if (numbers.putIfAbsent(state, states.size()) == null) {
            states.add(state);
        }
    }

    /** Lists the ways out of a state, the decisions first. Returns false when there are too many. */
    private boolean ways(long from, Taker taker) throws IOException {
        int branches = 0;
        choices.begin();
        do {
            long to = tick.step(from, choices, unused);
            taker.take(null, to);
        } while (choices.next() && ++branches < MOST_BRANCHES);
        return branches < MOST_BRANCHES && breaks(from, taker);
    }

    /** The promises about single ticks that a tick from here can break. Each is told once, or each would multiply the rest. */
    private boolean breaks(long from, Taker taker) throws IOException {
        Promise[] promises = Promise.values();
        boolean[] broken = new boolean[promises.length];
        int branches = 0;
        choices.begin();
        do {
            long to = tick.step(from, choices, unused);
            for (Promise promise : promises) {
                int i = promise.ordinal();
                if (!broken[i] && promise.concerns(tick) && !promise.holds(tick)) {
                    broken[i] = true;
                    taker.take(promise, to);
                }
            }
        } while (choices.next() && ++branches < MOST_BRANCHES);
        return branches < MOST_BRANCHES;
    }

    /** How many states there are. */
    public int states() {
        return states.size();
    }

    /** How many ways there are between them. */
    public long ways() {
        return ways;
    }

    /** Writes the graph in the text form that tools for labelled transition systems read.
     *
     * @param done told how many states have been looked at, those that were found included
     */
    public void write(Appendable out, IntConsumer done) throws IOException {
        out.append("des (0, " + ways + ", " + states.size() + ")\n");
        for (int from = 0; from < states.size(); from++) {
            String begins = "(" + from + ", \"";
            ways(states.get(from), (broken, to) -> {
                out.append(begins)
                        .append(broken == null ? Label.of(tick) : "breaks " + broken)
                        .append("\", ")
                        .append(String.valueOf(numbers.get(to)))
                        .append(")\n");
            });
            done.accept(states.size() + from + 1);
        }
    }

    /** Writes what each number of a state stands for. */
    public void writeStates(Appendable out) throws IOException {
        out.append("number,state,step,ticks,charge,latched,torque_latched,engaged,"
                + "key_seen_off,start_seen_released,key_seen_on\n");
        LogicState s = new LogicState();
        for (int i = 0; i < states.size(); i++) {
            s.unpack(states.get(i));
            List<Object> cells = List.of(
                    i,
                    s.state(),
                    s.step(),
                    s.stepTicks(),
                    s.charge(),
                    s.latched(),
                    s.torqueLatched(),
                    s.engaged(),
                    s.keySeenOff(),
                    s.startSeenReleased(),
                    s.keySeenOn);
            out.append(String.join(",", cells.stream().map(String::valueOf).toList()))
                    .append('\n');
        }
    }
}
