package sprag.bench.charge;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import sprag.bench.car.FaultSpec;
import sprag.bench.car.Lever;
import sprag.bench.car.Quantity;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.hal.Clock;
import sprag.hal.Loop;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/** The supervisor and a simulated car in lockstep, without a trace, driven by hand. */
final class ClosedCar implements Clock {
    private static final Map<String, Vehicle> READ = new ConcurrentHashMap<>();

    final Vehicle vehicle;
    final SimulatedCar car;
    final Supervisor supervisor;
    private final Loop loop;
    private final double tickS;
    private long nowNs;
    /** Looks at every tick. */
    Runnable watch = () -> {};

    private ClosedCar(Vehicle vehicle, long seed, double soc) {
        this.vehicle = vehicle;
        car = new SimulatedCar(vehicle, seed);
        supervisor = new Supervisor(vehicle.settings());
        loop = new Loop(supervisor, vehicle.settings(), car, this);
        tickS = vehicle.get(Parameter.LOOP_TICK_MS) / 1000;
        set(Lever.SOC, soc);
        car.advance(0.1);
    }

    static ClosedCar of(String name, long seed, double soc) {
        return new ClosedCar(read(name), seed, soc);
    }

    /** A shipped vehicle, read once: hundreds of runs need it, and none can change it. */
    static Vehicle read(String name) {
        return READ.computeIfAbsent(name, ClosedCar::readFile);
    }

    private static Vehicle readFile(String name) {
        try {
            return VehicleReader.read(Catalogue.installed().vehicle(name));
        } catch (BadInput e) {
            throw new AssertionError(name + " cannot be read: " + e.getMessage(), e);
        }
    }

    ClosedCar set(Lever lever, double position) {
        car.levers().set(lever, position);
        return this;
    }

    ClosedCar inject(String fault) {
        car.faults().inject(FaultSpec.parse(fault, vehicle));
        return this;
    }

    ClosedCar clear(String fault) {
        car.faults().clear(FaultSpec.parse(fault, vehicle));
        return this;
    }

    ClosedCar runS(double seconds) {
        long ticks = Math.round(seconds / tickS);
        for (long i = 0; i < ticks; i++) {
            loop.tick();
            watch.run();
            car.advance(tickS);
            nowNs += Math.round(tickS * 1e9);
        }
        return this;
    }

    double nowS() {
        return nowNs / 1e9;
    }

    double truth(Quantity quantity) {
        return car.truth(quantity);
    }

    double reading(Signal signal) {
        return loop.readings().get(signal);
    }

    Readings readings() {
        return loop.readings();
    }

    Commands commands() {
        return loop.commands();
    }

    double command(Output output) {
        return loop.commands().get(output);
    }

    State state() {
        return supervisor.state().state();
    }

    @Override
    public long nowNs() {
        return nowNs;
    }

    @Override
    public void waitUntil(long deadlineNs) {
        throw new UnsupportedOperationException("the ticks set the pace; asked to wait until " + deadlineNs);
    }
}
