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
import sprag.bench.loop.ClosedLoop;
import sprag.bench.speed.DriveOff;
import sprag.bench.speed.PlainMachine;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Readings;

/**
 * One supervisor step with all interlocks, on readings recorded from a drive, beside a plain machine of seven states and
 * twelve switches written as one switch over an enum ({@link PlainMachine}), fed at the same rate.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class StepBenchmark {
    /** Few enough to stay in the cache, as the one set of readings of a running loop does. */
    private static final int RECORDED_TICKS = 64;

    /** The vehicle. */
    @Param({"parcel-van", "coupe"})
    public String vehicle;

    private final Readings[] recorded = new Readings[RECORDED_TICKS];
    private final Commands out = new Commands();
    private final PlainMachine plain = new PlainMachine();
    private Supervisor supervisor;
    private long tick;

    /** Records a drive: key, start, half pedal.
     *
     * @throws Exception when the vehicle cannot be read
     */
    @Setup(Level.Trial)
    public void record() throws Exception {
        Vehicle read = VehicleReader.read(Path.of(System.getProperty("sprag.home", "."), "config/vehicles", vehicle));
        ClosedLoop loop = DriveOff.of(read);
        supervisor = loop.supervisor();
        for (int i = 0; i < RECORDED_TICKS; i++) {
            loop.tick();
            recorded[i] = new Readings();
            recorded[i].copyFrom(loop.readings());
        }
        tick = loop.loop().ticks();
    }

    /** The supervisor.
     *
     * @return its commands, so that nothing is optimised away
     */
    @Benchmark
    public Commands supervisorStep() {
        supervisor.step(tick, recorded[(int) (tick++ & (RECORDED_TICKS - 1))], out);
        return out;
    }

    /** The baseline.
     *
     * @return its state, so that nothing is optimised away
     */
    @Benchmark
    public int plainMachineStep() {
        return plain.step(recorded[(int) (tick++ & (RECORDED_TICKS - 1))]);
    }
}
