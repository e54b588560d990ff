package sprag.bench.port.equal;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.IntConsumer;
import sprag.bench.cli.Trouble;
import sprag.bench.port.translate.Translation;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.State;

/** Shows that the C of a vehicle decides as its Java does. */
public final class Equality {
    /** In Nm, A and V. */
    private static final double BOUND = 0.05;
    /** A share of the charge: sums of many small parts drift in single precision. */
    private static final double GAUGE_BOUND = 0.02;

    /** A hundred thousand ticks. */
    private static final int GATE_TIMES = 200;

    private final Vehicle vehicle;
    private final Twin twin;

    /** Compiles the C of a vehicle for this machine.
     *
     * @param translation the sources in C
     * @param vehicle which one
     * @param folder where to compile
     */
    public Equality(Translation translation, Vehicle vehicle, Path folder) {
        this(vehicle, Twin.compile(translation, vehicle.settings(), folder));
    }

    /** The same with what is compiled. */
    Equality(Vehicle vehicle, Twin twin) {
        this.vehicle = vehicle;
        this.twin = twin;
    }

    /** How much was compared.
     *
     * @param ticks in the closed loop
     * @param states of Logic
     * @param transitions of Logic
     * @param remembered how many numbers of memory were compared
     * @param orders how many the gate alone has checked
     */
    public record Compared(long ticks, int states, long transitions, int remembered, long orders) {}

    /** Compares. Trouble when something differs, with the first tick or state and the field.
     *
     * @param plays what is played
     * @param hostileTicks how many ticks with hostile readings and no car follow
     * @param progress told how many plays are done
     */
    public Compared compare(Plays plays, long hostileTicks, IntConsumer progress) throws IOException {
        try (HostProgram program = HostProgram.start(twin.folder())) {
            if (!program.selfTest()) {
                throw new Trouble("the self-test fails: this compiler does not compute as Java does");
            }
            Comparison comparison = new Comparison(program, twin.cells());
            plays.play(new Material(vehicle, twin.cells(), comparison::must), progress);
            new Hostile(vehicle, twin.cells(), comparison).play(plays.scenarios(), hostileTicks);
            comparison.gate(GateOrders.of(vehicle.settings(), GATE_TIMES, 1)).ifPresent(Equality::differ);
            WholeLogic logic = new WholeLogic(program, vehicle.settings());
            logic.differs().ifPresent(Equality::differ);
            return new Compared(
                    comparison.ticks(),
                    logic.states(),
                    logic.transitions(),
                    twin.cells().size(),
                    (long) GATE_TIMES * GateOrders.TICKS);
        }
    }

    private static void differ(String difference) {
        throw new Trouble("Java and C differ: " + difference);
    }

    /** What single precision does.
     *
     * @param ticks compared
     * @param differences decisions that differ, each with the limit at which the quantity stands
     * @param unexplained how many of them no limit explains
     * @param most the largest difference of each quantity that is asked for, beside its bound
     */
    public record Rounded(long ticks, List<String> differences, long unexplained, Map<Output, Double> most) {
        /** How far a quantity may be away from that in double precision, while every decision is the same. */
        public static double bound(Output output) {
            return output == Output.GAUGE_FRACTION ? GAUGE_BOUND : BOUND;
        }

        /** The quantities that are beyond their bound. */
        public List<Output> beyond() {
            return most.keySet().stream()
                    .filter(output -> most.get(output) > bound(output))
                    .toList();
        }
    }

    /** Compares the C in single precision with the Java in double precision.
     *
     * @param plays what is played
     * @param progress told how many plays are done
     */
    public Rounded compareSingle(Plays plays, IntConsumer progress) throws IOException {
        try (HostProgram program = HostProgram.start(twin.folder())) {
            SinglePrecision single = new SinglePrecision(twin, program);
            plays.play(new Material(vehicle, twin.cells(), single::take, true), progress);
            List<SinglePrecision.Difference> found = single.differences();
            long unexplained =
                    found.stream().filter(one -> one.limit().isEmpty()).count();
            List<String> words = found.stream().map(Object::toString).toList();
            return new Rounded(single.ticks(), words, unexplained, single.most());
        }
    }

    /** How long a step takes in Java and in C, in the middle of a scenario.
     *
     * @param scenario one that drives
     */
    public Speed speed(Scenario scenario) throws IOException {
        List<Batch> tape = new ArrayList<>();
        new Material(vehicle, twin.cells(), tape::add).play(scenario, 0);
        int drive = 0;
        while (drive < tape.size() - 1 && !(isDriving(tape.get(drive)) && isDriving(tape.get(drive + 1)))) {
            drive++;
        }
        try (HostProgram program = HostProgram.start(twin.folder())) {
            return Speed.measure(vehicle.settings(), program, tape.subList(0, drive + 1));
        }
    }

    private static boolean isDriving(Batch batch) {
        return LogicState.stateOf(batch.decided().states()[0]) == State.DRIVE_ENABLE;
    }

    Twin twin() {
        return twin;
    }

    /** The ticks of scenarios, each as it is and twice disturbed. */
    List<Batch> tape(List<Scenario> scenarios) throws IOException {
        List<Batch> tape = new ArrayList<>();
        Material material = new Material(vehicle, twin.cells(), tape::add);
        for (Scenario scenario : scenarios) {
            for (long seed : new long[] {0, 17, 18}) {
                material.play(scenario, seed);
            }
        }
        return tape;
    }
}
