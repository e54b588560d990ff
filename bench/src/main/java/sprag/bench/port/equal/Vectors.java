package sprag.bench.port.equal;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.IntConsumer;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.Event;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioRun;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.TickListener;
import sprag.supervisor.Supervisor;
import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;

/**
 * Readings with the results that every port of the supervisor must give: ticks of scenarios, branches of Logic alone, and what comes
 * of each kind of memory when power comes back.
 */
public final class Vectors {
    /** A sequence is not longer. What a vehicle does only after that is left to the branches of Logic. */
    static final int MOST_TICKS = 12_000;

    /** What is remembered besides the ticks of a step. */
    private static final long CONTROL = (1L << LogicState.CONTROL_BITS) - 1;

    private final Vehicle vehicle;
    private final Set<Enum<?>> crossed = new LinkedHashSet<>();
    private final List<Sequence> sequences = new ArrayList<>();
    private final List<LogicWalk.Row> logic = new ArrayList<>();
    private final Wakes wakes;

    /** None yet.
     *
     * @param vehicle whose supervisor decides
     */
    public Vectors(Vehicle vehicle) {
        this.vehicle = vehicle;
        wakes = Wakes.of(vehicle.settings(), 1);
    }

    /**
     * Ticks in a row from a supervisor that has just woken up.
     *
     * @param name the scenario
     * @param ticks how many
     * @param readings a number for each signal of each tick
     * @param outputs a number for each output of each tick
     * @param states the packed state after each tick
     */
    public record Sequence(String name, int ticks, double[] readings, double[] outputs, long[] states) {}

    /** The transitions and interlocks that are crossed. */
    public Set<Enum<?>> crossed() {
        return crossed;
    }

    /** The chosen ticks. */
    public List<Sequence> sequences() {
        return sequences;
    }

    /** How many branches of Logic were chosen. */
    public int logicRows() {
        return logic.size();
    }

    List<LogicWalk.Row> logic() {
        return logic;
    }

    Wakes wakes() {
        return wakes;
    }

    /** Plays scenarios and keeps ticks of as few as needed: for each transition and interlock those of the shortest way to it.
     *
     * @param done told how many scenarios are played
     */
    public void play(List<Scenario> scenarios, IntConsumer done) throws IOException {
        Map<Scenario, Map<Enum<?>, Integer>> firsts = new LinkedHashMap<>();
        for (Scenario scenario : scenarios) {
            Map<Enum<?>, Integer> first = new LinkedHashMap<>();
            tape(scenario, MOST_TICKS, first);
            firsts.put(scenario, first);
            done.accept(firsts.size());
        }
        Map<Enum<?>, Scenario> shortest = new LinkedHashMap<>();
        firsts.forEach((scenario, first) -> first.forEach((row, tick) -> {
            if (!shortest.containsKey(row)
                    || tick < firsts.get(shortest.get(row)).get(row)) {
                shortest.put(row, scenario);
            }
        }));
        Comparator<Enum<?>> byLength =
                Comparator.comparing(row -> firsts.get(shortest.get(row)).get(row));
        Map<Scenario, Integer> keep = new LinkedHashMap<>();
        for (Enum<?> row :
                shortest.keySet().stream().sorted(byLength.reversed()).toList()) {
            if (crossed.add(row)) {
                Map<Enum<?>, Integer> first = firsts.get(shortest.get(row));
                int ticks = first.get(row);
                keep.merge(shortest.get(row), ticks, Math::max);
                first.forEach((other, tick) -> {
                    if (tick <= ticks) {
                        crossed.add(other);
                    }
                });
            }
        }
        for (Map.Entry<Scenario, Integer> kept : keep.entrySet()) {
            Tape tape = tape(kept.getKey(), kept.getValue(), new LinkedHashMap<>());
            sequences.add(tape.cut(kept.getKey().name(), kept.getValue()));
        }
    }

    private Tape tape(Scenario scenario, int most, Map<Enum<?>, Integer> first) throws IOException {
        ClosedLoop loop = ClosedLoop.on(scenario.on(vehicle), scenario.about().bus(), scenario.seed());
        Tape tape = new Tape(loop.supervisor());
        loop.loop().listen(tape);
        ScenarioRun.Observer look = frame -> {
            for (Event event : loop.news()) {
                Enum<?> row = event instanceof Event.Entered entered ? entered.via() : ((Event.Began) event).row();
                if (tape.count <= most) {
                    first.putIfAbsent(row, tape.count);
                }
            }
        };
        new ScenarioRun(scenario, loop).play(vehicle.name(), (step, at) -> {}, List.of(look), () -> tape.count >= most);
        return tape;
    }

    /**
     * Goes through the whole of Logic. Keeps each branch that crosses a transition or an interlock for the first time in a step of the
     * sequence, or that changes what is remembered or permits something in a way not seen before there, also by what the key shows.
     */
    public void walkLogic() throws IOException {
        Set<List<Object>> kinds = new HashSet<>();
        LogicState state = new LogicState();
        new LogicWalk(vehicle.settings()).walk(row -> {
            state.unpack(row.before());
            List<Object> kind = new ArrayList<>(Arrays.asList(state.state(), state.step(), state.charge()));
            kind.addAll(Arrays.asList(state.latched(), state.torqueLatched, state.keySeenOff, state.keySeenOn));
            kind.addAll(Arrays.asList((row.before() ^ row.after()) & CONTROL, row.permitted()));
            kind.addAll(Arrays.asList(row.facts()[Fact.KEY_OFF.ordinal()], row.facts()[Fact.KEY_ON.ordinal()]));
            kind.addAll(row.crossed());
            if (kinds.add(kind)) {
                crossed.addAll(row.crossed());
                logic.add(row);
            }
            return true;
        });
    }

    /** Every tick of a run. */
    private static final class Tape implements TickListener {
        private final Supervisor supervisor;
        private double[] readings = new double[1024 * Signal.COUNT];
        private double[] outputs = new double[1024 * Output.COUNT];
        private long[] states = new long[1024];
        private int count;

        Tape(Supervisor supervisor) {
            this.supervisor = supervisor;
        }

        @Override
        public void ticked(long tick, Readings in, Commands out) {
            if (count == states.length) {
                readings = Arrays.copyOf(readings, 2 * readings.length);
                outputs = Arrays.copyOf(outputs, 2 * outputs.length);
                states = Arrays.copyOf(states, 2 * states.length);
            }
            in.copyTo(readings, count * Signal.COUNT);
            out.copyTo(outputs, count * Output.COUNT);
            states[count] = supervisor.state().pack();
            count++;
        }

        Sequence cut(String name, int ticks) {
            return new Sequence(
                    name,
                    ticks,
                    Arrays.copyOf(readings, ticks * Signal.COUNT),
                    Arrays.copyOf(outputs, ticks * Output.COUNT),
                    Arrays.copyOf(states, ticks));
        }
    }
}
