package sprag.bench.car.simulation;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.DoubleConsumer;
import sprag.bench.car.FaultSpec;
import sprag.bench.car.Lever;
import sprag.bench.car.PartFault;
import sprag.bench.car.Quantity;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.hal.Samples;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/** A car driven by hand, without a supervisor: commands stay until changed, the heart beats. */
public final class Driven {
    static final double TICK_S = 0.01;
    private static final Map<String, Vehicle> SHIPPED = new ConcurrentHashMap<>();

    public final SimulatedCar car;
    public final Vehicle vehicle;
    final Commands commands = new Commands();
    private final Samples samples = new Samples();
    private boolean beat;
    private int piecesATick = 1;

    public Driven(Vehicle vehicle) {
        this.vehicle = vehicle;
        car = new SimulatedCar(vehicle, 1);
    }

    public static Vehicle shipped(String name) {
        return SHIPPED.computeIfAbsent(name, Driven::read);
    }

    private static Vehicle read(String name) {
        try {
            return VehicleReader.read(Catalogue.installed().vehicle(name));
        } catch (BadInput e) {
            throw new AssertionError(name + " is not good", e);
        }
    }

    public static Driven of(String name) {
        return new Driven(shipped(name));
    }

    public Driven on(Output... outputs) {
        for (Output output : outputs) {
            commands.set(output, true);
        }
        return this;
    }

    public Driven off(Output... outputs) {
        for (Output output : outputs) {
            commands.set(output, false);
        }
        return this;
    }

    public Driven set(Output output, double value) {
        commands.set(output, value);
        return this;
    }

    public Driven set(Lever lever, double value) {
        car.levers().set(lever, value);
        return this;
    }

    public Driven inject(PartFault fault) {
        car.faults().inject(FaultSpec.of(fault));
        return this;
    }

    public Driven inject(PartFault fault, double magnitude) {
        car.faults().inject(FaultSpec.of(fault, magnitude));
        return this;
    }

    public Driven runS(double seconds) {
        return runS(seconds, atS -> {});
    }

    public Driven runS(double seconds, DoubleConsumer eachTick) {
        for (long i = Math.round(seconds / TICK_S); i > 0; i--) {
            tick();
            eachTick.accept(car.nowS());
        }
        return this;
    }

    public void tick() {
        beat = !beat;
        commands.set(Output.HEARTBEAT, beat);
        car.command(commands, 0);
        for (int i = 0; i < piecesATick; i++) {
            car.advance(TICK_S / piecesATick);
        }
    }

    /** Lets every tick pass in ten pieces, so that the car cannot take longer steps than a millisecond. */
    Driven inMilliseconds() {
        piecesATick = 10;
        return this;
    }

    /** Milliseconds one by one, the commands standing. */
    Driven runMs(int ms) {
        beat = !beat;
        commands.set(Output.HEARTBEAT, beat);
        car.command(commands, 0);
        for (int i = 0; i < ms; i++) {
            car.advance(0.001);
        }
        return this;
    }

    public double truth(Quantity quantity) {
        return car.truth(quantity);
    }

    /** A fresh sample; NaN when the car gives none. */
    public double reads(Signal signal) {
        Samples fresh = new Samples();
        car.sample(fresh, 0);
        return fresh.get(signal);
    }

    public void sample() {
        car.sample(samples, 0);
    }

    /** Precharges and closes the main contactors. */
    public Driven connect() {
        on(Output.NEGATIVE_CONTACTOR, Output.PRECHARGE_RELAY).runS(2);
        on(Output.POSITIVE_CONTACTOR).runS(0.1);
        return off(Output.PRECHARGE_RELAY).runS(0.1);
    }

    Driven enable() {
        return on(Output.INVERTER_ENABLE).runS(0.2);
    }

    /** Opens the charge path with the whole current of the vehicle shared among its chargers. */
    public Driven charge() {
        int count = (int) vehicle.get(Parameter.CHARGER_COUNT);
        for (int i = 0; i < count; i++) {
            set(
                    Output.values()[Output.CHARGER_1_LIMIT_A.ordinal() + i],
                    vehicle.get(Parameter.CHARGE_CURRENT_A) / count);
        }
        set(Output.CHARGE_VOLTAGE_LIMIT_V, vehicle.get(Parameter.CHARGE_VOLTAGE_V));
        return on(Output.CHARGER_ENABLE);
    }
}
