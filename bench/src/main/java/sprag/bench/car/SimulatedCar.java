package sprag.bench.car;

import java.util.EnumSet;
import java.util.Set;
import sprag.bench.config.CarParameter;
import sprag.bench.config.Vehicle;
import sprag.hal.Device;
import sprag.hal.Health;
import sprag.hal.Samples;
import sprag.supervisor.Commands;
import sprag.supervisor.Output;
import sprag.supervisor.Parameter;
import sprag.supervisor.Signal;

/**
 * A car with a connector: what the supervisor samples and drives, levers for a person, faults, and the truth behind it all.
 *
 * <p>One thread owns it. Time passes only in {@link #advance}; nothing is allocated there, in {@link #sample} or in
 * {@link #command}.
 */
public final class SimulatedCar implements Device {
    private final Vehicle vehicle;
    private final Levers levers = new Levers();
    private final Faults faults = new Faults();
    private final Commands commands = new Commands();

    /**
     * A car at rest: key off, plug out, everything released, state of charge as the vehicle's file says.
     *
     * @param vehicle what it is made of
     * @param seed where its noise starts; the same seed gives the same run, bit for bit
     */
    public SimulatedCar(Vehicle vehicle, long seed) {
        this.vehicle = vehicle;
    }

    /** Whether the car of a vehicle samples a signal. What the loop says about itself is the loop's. */
    static boolean samplesSignal(Vehicle vehicle, Signal signal) {
        return vehicle.settings().has(signal) && signal != Signal.LOOP_OVERRUN && signal != Signal.LINK_LOST;
    }

    /** Whether the car of a vehicle has what an output drives. */
    static boolean drivesOutput(Vehicle vehicle, Output output) {
        switch (output) {
            case CHARGER_2_LIMIT_A:
                return vehicle.get(Parameter.CHARGER_COUNT) >= 2;
            case CHARGER_3_LIMIT_A:
                return vehicle.get(Parameter.CHARGER_COUNT) >= 3;
            case COOLANT_PUMP:
            case RADIATOR_FAN_DUTY:
                return vehicle.is(CarParameter.THERMAL_COOLING, "liquid");
            case HEATER_BLOWER:
            case HEATER_ELEMENT:
                return vehicle.get(CarParameter.WARMER_POWER_W) > 0;
            default:
                return true;
        }
    }

    /** The vehicle it is built from. */
    public Vehicle vehicle() {
        return vehicle;
    }

    /**
     * Lets time pass under the commands in force.
     *
     * @param seconds how long; rounded to whole milliseconds
     */
    public void advance(double seconds) {
        throw new UnsupportedOperationException("the physics is not built yet; asked to advance " + seconds + " s");
    }

    /** What a person can do to it. */
    public Levers levers() {
        return levers;
    }

    /** What is broken. */
    public Faults faults() {
        return faults;
    }

    /** What is true, whatever the sensors say. */
    public double truth(Quantity quantity) {
        throw new UnsupportedOperationException("the physics is not built yet; asked for " + quantity.key());
    }

    /** How much time has passed since the start or the last reset. */
    public double nowS() {
        return 0;
    }

    /** Back to the start: time, levers, faults, charge, temperatures, noise. */
    public void reset() {
        levers.reset();
        faults.clear();
        release();
    }

    @Override
    public String name() {
        return "simulated " + vehicle.name();
    }

    @Override
    public Set<Signal> samples() {
        EnumSet<Signal> all = EnumSet.noneOf(Signal.class);
        for (Signal signal : Signal.values()) {
            if (samplesSignal(vehicle, signal)) {
                all.add(signal);
            }
        }
        return all;
    }

    @Override
    public Set<Output> drives() {
        EnumSet<Output> all = EnumSet.noneOf(Output.class);
        for (Output output : Output.values()) {
            if (drivesOutput(vehicle, output)) {
                all.add(output);
            }
        }
        return all;
    }

    @Override
    public void sample(Samples into, long nowNs) {
        throw new UnsupportedOperationException("the physics is not built yet; asked for samples at " + nowNs);
    }

    @Override
    public void command(Commands asked, long nowNs) {
        commands.copyFrom(asked);
    }

    @Override
    public void release() {
        commands.release();
    }

    @Override
    public Health health() {
        return faults.has(PartFault.LINK_LOST) ? Health.lost("the link to the simulated car is cut") : Health.OK;
    }

    @Override
    public void close() {
        release();
    }
}
