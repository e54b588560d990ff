package sprag.bench.benchmark;

import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import sprag.bench.car.Lever;
import sprag.bench.car.SimulatedCar;
import sprag.bench.config.Vehicle;
import sprag.bench.config.VehicleReader;
import sprag.hal.Clock;
import sprag.hal.Loop;
import sprag.supervisor.Supervisor;

/**
 * Simulated seconds a wall second, closed loop: car at 1 ms, supervisor at 10 ms, the car driving up and down in pedal.
 *
 * <p>The baseline is seven coupled first-order equations stepped at 1 ms by the semi-implicit rule and nothing else. The score
 * is simulated seconds per second.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class DriveBenchmark {
    private static final int SIMULATED_S = 10;
    private static final int TICKS = SIMULATED_S * 100;

    /** The vehicle. */
    @Param({"parcel-van", "coupe"})
    public String vehicle;

    private SimulatedCar car;
    private Loop loop;
    private long nowNs;
    private int tick;
    private final double[] states = new double[7];

    /** Starts the car and drives off.
     *
     * @throws Exception when the vehicle cannot be read
     */
    @Setup(Level.Trial)
    public void start() throws Exception {
        Vehicle read = VehicleReader.read(Path.of(System.getProperty("sprag.home", "."), "config/vehicles", vehicle));
        car = new SimulatedCar(read, 1);
        Supervisor supervisor = new Supervisor(read.settings());
        loop = new Loop(supervisor, read.settings(), car, new Clock() {
            @Override
            public long nowNs() {
                return nowNs;
            }

            @Override
            public void waitUntil(long deadlineNs) {
                nowNs = deadlineNs;
            }
        });
        for (tick = 0; tick < 1000; tick++) {
            StepBenchmark.Script.pull(car, tick);
            one();
        }
        if (supervisor.state().state() != sprag.supervisor.State.DRIVE_ENABLE) {
            throw new IllegalStateException("the drive did not begin: " + supervisor.state().state());
        }
    }

    private void one() {
        loop.tick();
        car.advance(0.01);
        nowNs += 10_000_000;
    }

    /** The closed loop; the pedal goes down and up every twenty seconds and the charge is kept up.
     *
     * @return the road speed, so that nothing is optimised away
     */
    @Benchmark
    @OperationsPerInvocation(SIMULATED_S)
    public double simulatedSeconds() {
        car.levers().set(Lever.SOC, 0.7);
        for (int i = 0; i < TICKS; i++) {
            if (tick++ % 100 == 0) {
                car.levers().set(Lever.PEDAL, tick / 1000 % 2 == 0 ? 0.35 : 0.05);
            }
            one();
        }
        return loop.readings().get(sprag.supervisor.Signal.MOTOR_SPEED_RPM);
    }

    /** The baseline.
     *
     * @return a state, so that nothing is optimised away
     */
    @Benchmark
    @OperationsPerInvocation(SIMULATED_S)
    public double sevenEquationsAlone() {
        for (int i = 0; i < SIMULATED_S * 1000; i++) {
            double drive = i / 5000 % 2;
            for (int k = 0; k < states.length; k++) {
                double pull = k == 0 ? drive : states[k - 1];
                states[k] = (states[k] + 0.001 * (k + 1) * pull) / (1 + 0.001 * (k + 1));
            }
        }
        return states[6];
    }
}
