package sprag.bench.hand.commission;

import java.util.EnumSet;
import java.util.Set;
import java.util.function.BooleanSupplier;
import sprag.bench.car.SimulatedCar;
import sprag.bench.cli.Trouble;
import sprag.bench.loop.record.Recordings;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.Clock;
import sprag.hal.Device;
import sprag.hal.Health;
import sprag.hal.LatencyMeter;
import sprag.hal.Loop;
import sprag.hal.MixedDevice;
import sprag.hal.Samples;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/**
 * The pins, tick by tick: only looked at, driven by hand, or supervised with a simulated traction side in place of the absent
 * pack. Everything happens on the caller's thread, also while it waits for a person.
 */
final class PinDriver {
    /** What comes from the simulated car while the supervisor runs: the pack, the bus and the inverter are not there. */
    static final Set<Signal> STANDS_IN = EnumSet.of(
            Signal.PACK_VOLTAGE_V,
            Signal.BUS_VOLTAGE_V,
            Signal.PACK_CURRENT_A,
            Signal.CELL_MAX_V,
            Signal.CELL_MIN_V,
            Signal.PACK_HOT_V,
            Signal.PACK_COLD_V,
            Signal.DISCHARGE_PERMIT,
            Signal.CHARGE_PERMIT,
            Signal.ISOLATION_KOHM,
            Signal.INVERTER_READY,
            Signal.INVERTER_FAULT,
            Signal.INVERTER_TEMP_V,
            Signal.MOTOR_SPEED_RPM,
            Signal.CHARGER_1_OK,
            Signal.CHARGER_2_OK,
            Signal.CHARGER_3_OK,
            Signal.CHARGER_TEMP_V);

    /** Above this a person can be killed; nothing is driven while any reading of the traction side shows it. */
    static final double LIVE_V = 60;

    private static final long NS_PER_MS = 1_000_000;
    /** How long a late reading is waited for: well above the pauses of a busy machine. */
    private static final long LATE_READING_MS = 1000;

    private final Recordings recordings;
    private final Vehicle vehicle;
    private final Pins pins;
    private final Clock clock;
    private final long tickNs;
    private final long staleNs;
    private final Samples samples = new Samples();
    private final Commands byHand = new Commands();
    private final LatencyMeter lateness = new LatencyMeter();
    private long nextNs;
    private boolean driving;
    private boolean beats;
    private boolean beat;
    private boolean lossMeant;
    private String step = "";
    private Loop loop;
    private Supervisor supervisor;
    private SimulatedCar standIn;

    PinDriver(Vehicle vehicle, Pins pins, Recordings recordings) {
        this.recordings = recordings;
        this.vehicle = vehicle;
        this.pins = pins;
        this.clock = pins.clock();
        this.tickNs = Math.round(vehicle.get(Parameter.LOOP_TICK_MS) * NS_PER_MS);
        this.staleNs = Math.round(vehicle.get(Parameter.LOOP_STALE_MS) * NS_PER_MS);
        this.nextNs = clock.nowNs();
    }

    /** One tick: waits for its time, samples, and drives when something is driven.
     *
     * @throws Trouble when the pins are lost and that was not meant
     */
    void tick() {
        nextNs += tickNs;
        clock.waitUntil(nextNs);
        lateness.record(clock.nowNs() - nextNs);
        if (clock.nowNs() - nextNs > tickNs) {
            nextNs = clock.nowNs();
        }
        if (loop != null) {
            loop.tick();
            standIn.advance(tickNs / 1e9);
        } else {
            pins.device().sample(samples, clock.nowNs());
            if (driving) {
                beat = !beat;
                if (beats) {
                    byHand.set(Output.HEARTBEAT, beat);
                }
                pins.device().command(byHand, clock.nowNs());
            }
        }
        if (!lossMeant && isLost()) {
            throw new Trouble(pins.device().health().reason());
        }
    }

    /** While outputs are driven any doubt counts; while pins are only looked at they must be there. */
    private boolean isLost() {
        boolean driven = driving || loop != null;
        return driven ? !pins.device().health().isWell() : !pins.isConnected();
    }

    /** Names the step that begins: what is supervised in it is recorded under its name. */
    void about(String id) {
        step = id;
    }

    /** Lets time pass. */
    void let(long ms) {
        long untilNs = clock.nowNs() + ms * NS_PER_MS;
        while (clock.nowNs() < untilNs) {
            tick();
        }
    }

    /** Waits for something.
     *
     * @return how long it took (ms), -1 when it did not come
     */
    long until(BooleanSupplier seen, long withinMs) {
        long startNs = clock.nowNs();
        while (!seen.getAsBoolean()) {
            if (clock.nowNs() - startNs >= withinMs * NS_PER_MS) {
                return -1;
            }
            tick();
        }
        return (clock.nowNs() - startNs) / NS_PER_MS;
    }

    /** Lets things settle, and waits a little longer for a reading that is late just now: a busy machine is not a broken wire.
     *
     * @param signals what must be read; what stays unknown is for the caller to see
     */
    void settle(long ms, Set<Signal> signals) {
        let(ms);
        until(() -> signals.stream().noneMatch(signal -> Double.isNaN(read(signal))), LATE_READING_MS);
    }

    long nowMs() {
        return clock.nowNs() / NS_PER_MS;
    }

    long tickMs() {
        return tickNs / NS_PER_MS;
    }

    /** What a pin shows now, NaN when it shows nothing or nothing new. */
    double read(Signal signal) {
        if (loop != null) {
            return loop.readings().get(signal);
        }
        return samples.ageNs(signal, clock.nowNs()) > staleNs ? Double.NaN : samples.get(signal);
    }

    boolean isOn(Signal signal) {
        return read(signal) == 1;
    }

    /** Arms and drives by hand from now on: everything released but what is set.
     *
     * @param beating whether the heartbeat beats, so that a watchdog relay holds
     */
    void drive(boolean beating) throws StepAbandoned {
        refuseLive();
        byHand.release();
        beats = beating && pins.device().drives().contains(Output.HEARTBEAT);
        armOrLeave();
        driving = true;
    }

    /** Sets an output that is driven by hand; the heartbeat's own level only when it does not beat. */
    void set(Output output, double value) {
        byHand.set(output, value);
    }

    /** Lets the heartbeat stand still, high. */
    void stopBeating() {
        beats = false;
        byHand.set(Output.HEARTBEAT, 1);
    }

    /** Runs the supervisor from now on, freshly woken, with a simulated traction side at rest. */
    void supervise() throws StepAbandoned {
        refuseLive();
        supervisor = new Supervisor(vehicle.settings());
        standIn = new SimulatedCar(vehicle, 1);
        Device mixed = new MixedDevice(new WithoutTraction(pins.device(), STANDS_IN), standIn);
        loop = new Loop(supervisor, vehicle.settings(), mixed, clock);
        recordings.begin(step, vehicle.name(), vehicle.settings(), supervisor, loop);
        armOrLeave();
    }

    private void armOrLeave() throws StepAbandoned {
        Health health = pins.arm();
        if (!health.isWell()) {
            throw StepAbandoned.failed("the outputs could not be armed: " + health.reason());
        }
        nextNs = clock.nowNs();
    }

    /** A last look, never instead of the meter: a live traction side is no place to pulse contactors. */
    private void refuseLive() throws StepAbandoned {
        for (Signal signal : new Signal[] {Signal.PACK_VOLTAGE_V, Signal.BUS_VOLTAGE_V}) {
            double volts = pins.device().samples().contains(signal) ? read(signal) : 0;
            if (volts > LIVE_V) {
                throw StepAbandoned.failed(String.format(
                        java.util.Locale.ROOT,
                        "%s reads %.1f V: the traction side is live. Nothing was driven. Isolate, lock, wait, verify",
                        signal.key(),
                        volts));
            }
        }
    }

    /** Releases everything and only looks from now on. */
    void look() {
        driving = false;
        beats = false;
        loop = null;
        supervisor = null;
        standIn = null;
        byHand.release();
        pins.disarm();
        recordings.end(); // after the release: it waits for the disk
        nextNs = clock.nowNs();
    }

    /** Whether losing the pins is part of the step. */
    void meanLoss(boolean meant) {
        lossMeant = meant;
    }

    /** How long after its time each tick has begun. */
    LatencyMeter lateness() {
        return lateness;
    }

    Supervisor supervisor() {
        return supervisor;
    }

    Loop loop() {
        return loop;
    }

    /** The simulated traction side, null while nothing is supervised. */
    SimulatedCar standIn() {
        return standIn;
    }
}
