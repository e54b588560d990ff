package sprag.bench.benchmark;

import java.nio.file.Path;
import java.util.Set;
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
import sprag.bench.loop.ClosedLoop;
import sprag.bench.speed.DriveOff;
import sprag.bench.speed.SevenEquations;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.bench.wired.WiredPlan;
import sprag.bench.wired.WiredRigs;

/**
 * Simulated seconds a wall second, closed loop: supervisor at 10 ms, the car driving up and down in pedal.
 *
 * <p>The baseline is {@link SevenEquations} at 1 ms. The score is simulated seconds per second.
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

    private ClosedLoop loop;
    private ClosedLoop wired;
    private int tick = DriveOff.TICKS;
    private final SevenEquations equations = new SevenEquations();

    /** Starts the car and drives off.
     *
     * @throws Exception when the vehicle cannot be read
     */
    @Setup(Level.Trial)
    public void start() throws Exception {
        Vehicle read = VehicleReader.read(Path.of(System.getProperty("sprag.home", "."), "config/vehicles", vehicle));
        loop = DriveOff.of(read);
        wired = DriveOff.started(
                WiredRigs.of(WiredPlan.of(read), read, null, 1, Set.of()).loop());
    }

    /** The closed loop; the pedal goes down and up every twenty seconds and the charge is kept up.
     *
     * @return the road speed, so that nothing is optimised away
     */
    @Benchmark
    @OperationsPerInvocation(SIMULATED_S)
    public double simulatedSeconds() {
        return drive(loop);
    }

    /** The same with the drawn circuit between supervisor and car.
     *
     * @return the road speed
     */
    @Benchmark
    @OperationsPerInvocation(SIMULATED_S)
    public double simulatedSecondsWired() {
        return drive(wired);
    }

    private double drive(ClosedLoop which) {
        which.car().levers().set(Lever.SOC, 0.7);
        for (int i = 0; i < TICKS; i++) {
            if (tick++ % 100 == 0) {
                which.car().levers().set(Lever.PEDAL, tick / 1000 % 2 == 0 ? 0.35 : 0.05);
            }
            which.tick();
        }
        return which.readings().get(sprag.supervisor.vocabulary.Signal.MOTOR_SPEED_RPM);
    }

    /** The baseline.
     *
     * @return a state, so that nothing is optimised away
     */
    @Benchmark
    @OperationsPerInvocation(SIMULATED_S)
    public double sevenEquationsAlone() {
        return equations.advance(SIMULATED_S);
    }
}
