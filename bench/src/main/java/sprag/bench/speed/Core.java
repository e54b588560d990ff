package sprag.bench.speed;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.List;
import java.util.Set;
import java.util.function.DoubleSupplier;
import java.util.function.Supplier;
import sprag.bench.evidence.prove.explore.Courses;
import sprag.bench.evidence.prove.explore.Explorer;
import sprag.bench.evidence.prove.explore.Machine;
import sprag.bench.evidence.prove.explore.Observer;
import sprag.bench.evidence.prove.explore.Recalled;
import sprag.bench.evidence.prove.explore.Watched;
import sprag.bench.evidence.prove.promise.Promise;
import sprag.bench.evidence.prove.promise.Tick;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;

/**
 * What the program computes all day, measured inside this process.
 *
 * @param rounds the best of so many counts
 * @param work how much is done in a round; 1 is a tenth of a second to a second
 */
record Core(Vehicle vehicle, int rounds, double work) {
    private static final int RECORDED_TICKS = 64;
    private static final int STEPS = 2_000_000;
    private static final int TRANSITIONS = 4_000_000;
    private static final int SIMULATED_S = 2_000;
    private static final double NS_PER_S = 1e9;

    /** A step of the supervisor, on readings recorded from a drive, beside a plain machine on the same. */
    Figure step() {
        ClosedLoop loop = DriveOff.of(vehicle);
        Supervisor supervisor = loop.supervisor();
        Readings[] recorded = new Readings[RECORDED_TICKS];
        for (int i = 0; i < RECORDED_TICKS; i++) {
            loop.tick();
            recorded[i] = new Readings();
            recorded[i].copyFrom(loop.readings());
        }
        long first = loop.loop().ticks();
        Commands out = new Commands();
        long[] tick = {first};
        int steps = amount(STEPS);
        double ns = NS_PER_S
                / best(steps, () -> {
                    for (int i = 0; i < steps; i++) {
                        supervisor.step(tick[0], recorded[(int) (tick[0]++ & RECORDED_TICKS - 1)], out);
                    }
                    return out.get(Output.TORQUE_REQUEST_NM);
                });
        PlainMachine plain = new PlainMachine();
        double plainNs = NS_PER_S
                / best(steps, () -> {
                    int sum = 0;
                    for (int i = 0; i < steps; i++) {
                        sum += plain.step(recorded[i & RECORDED_TICKS - 1]);
                    }
                    return sum;
                });
        return new Figure("step of the supervisor", ns, 100, "ns", plainNs, "plain machine");
    }

    /** Supervisor and car in closed loop, the pedal going down and up. */
    Figure loop() {
        ClosedLoop loop = DriveOff.of(vehicle);
        int seconds = amount(SIMULATED_S);
        double rate = best(seconds, () -> {
            DriveOff.goOn(loop, seconds);
            return loop.readings().get(Signal.MOTOR_SPEED_RPM);
        });
        SevenEquations equations = new SevenEquations();
        double plain = best(seconds, () -> equations.advance(seconds));
        return new Figure("closed loop", rate, 25_000, "s/s", plain, "seven equations");
    }

    /** Every state of Logic on one core, beside the same with every promise watched. */
    List<Figure> logic() {
        double alone = explored(() -> watched(List.of()));
        // A proof of its own each time: what one recalls would make the next look quick.
        double promised = explored(() -> new Recalled<>(watched(List.of(Promise.values())), new Courses()));
        return List.of(
                new Figure("Logic explored", alone / 1e6, 50, "M/s", Double.NaN, "one core"),
                new Figure("Logic with promises", promised / 1e6, 25, "M/s", alone / 1e6, "without them"));
    }

    private Watched<Tick> watched(List<Promise> promises) {
        Tick tick = new Tick(vehicle.settings(), vehicle.settings(), Set.of(), false);
        return new Watched<>(tick, promises, List.<Observer<Tick>>of());
    }

    /** So many transitions in one count that the compiler has seen enough of them. */
    private double explored(Supplier<Machine> machines) {
        long transitions = Explorer.of(machines).explore().size().transitions();
        int times = Math.max(1, (int) (amount(TRANSITIONS) / transitions));
        return best((int) (times * transitions), () -> {
            long states = 0;
            for (int i = 0; i < times; i++) {
                states += Explorer.of(machines).explore().size().states();
            }
            return states;
        });
    }

    private int amount(int whole) {
        return Math.max(1, (int) (whole * work));
    }

    /**
     * How many pieces are done in a second of processor time, so that what else runs counts less. As many rounds go before, for the
     * compiler.
     */
    private double best(int pieces, DoubleSupplier round) {
        ThreadMXBean threads = ManagementFactory.getThreadMXBean();
        double best = 0;
        double sum = 0;
        for (int i = 0; i < 2 * rounds; i++) {
            long beganNs = threads.getCurrentThreadCpuTime();
            sum += round.getAsDouble();
            double rate = pieces * NS_PER_S / Math.max(1, threads.getCurrentThreadCpuTime() - beganNs);
            best = i < rounds ? 0 : Math.max(best, rate);
        }
        assert !Double.isNaN(sum) : "what is computed is used, or it would not be computed";
        return best;
    }
}
