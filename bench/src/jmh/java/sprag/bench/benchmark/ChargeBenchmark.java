package sprag.bench.benchmark;

import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import sprag.bench.car.Lever;
import sprag.bench.car.Quantity;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.speed.SevenEquations;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Signal;

/**
 * Wall seconds for a night of eight hours on the cable, closed loop: from a quarter full, car and supervisor at every 10 ms,
 * no trace kept.
 *
 * <p>The baseline is {@link SevenEquations} over the same eight hours at 1 ms. The score is seconds a night.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.SECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class ChargeBenchmark {
    private static final int NIGHT_S = 8 * 3600;
    private static final int TICKS_A_SECOND = 100;

    /** The vehicle. */
    @Param({"parcel-van", "coupe", "yard-cart"})
    public String vehicle;

    private Vehicle read;
    private final SevenEquations equations = new SevenEquations();

    /** Reads the vehicle.
     *
     * @throws Exception when it cannot be read
     */
    @Setup(Level.Trial)
    public void read() throws Exception {
        read = VehicleReader.read(Path.of(System.getProperty("sprag.home", "."), "config/vehicles", vehicle));
    }

    /** The closed loop.
     *
     * @return the charge in the pack, so that nothing is optimised away
     */
    @Benchmark
    public double night() {
        ClosedLoop loop = new ClosedLoop(read, 1);
        SimulatedCar car = loop.car();
        car.levers().set(Lever.SOC, 0.25);
        car.levers().set(Lever.PLUG, 1);
        for (int i = 0; i < NIGHT_S * TICKS_A_SECOND; i++) {
            loop.tick();
        }
        double soc = car.truth(Quantity.SOC);
        if (!(soc > 0.9) || !loop.readings().isOn(Signal.PLUG_PRESENT)) {
            throw new IllegalStateException("the night ended with the pack at " + soc);
        }
        return soc;
    }

    /** The baseline.
     *
     * @return a state, so that nothing is optimised away
     */
    @Benchmark
    public double sevenEquationsAlone() {
        return equations.advance(NIGHT_S);
    }
}
