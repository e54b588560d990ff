package sprag.bench.hand.commission.pins;

import java.util.EnumSet;
import java.util.Locale;
import java.util.Set;
import java.util.function.BooleanSupplier;
import sprag.bench.car.ChargerSignals;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.cli.Trouble;
import sprag.bench.hand.commission.record.StepAbandoned;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.record.Recordings;
import sprag.bench.review.formula.DangerousVoltage;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.Clock;
import sprag.hal.Device;
import sprag.hal.Health;
import sprag.hal.LatencyMeter;
import sprag.hal.MixedDevice;
import sprag.hal.Samples;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/**
 * The pins, tick by tick. They are only read, driven by hand, or driven by the supervisor with a simulated traction side.
 * Everything happens on the caller's thread, also while it waits for a person.
 */
public final class PinDriver {
    /** Simulated while the supervisor runs, because pack, bus, inverter and chargers are absent. */
    public static final Set<Signal> SIMULATED = simulated();

    private static final long NS_PER_MS = 1_000_000;
    /** How long a late reading is waited for: longer than the pauses of a busy machine. */
    private static final long LATE_READING_MS = 1000;

    private final Recordings recordings;
    private final Vehicle vehicle;
    private final Pins pins;
    private final Clock clock;
    private final BooleanSupplier deserted;
    private final long tickNs;
    private final long staleNs;
    private final Samples samples = new Samples();
    private final Commands byHand = new Commands();
    private final LatencyMeter lateness = new LatencyMeter();
    private long nextNs;
    private boolean driving;
    private boolean beats;
    private boolean beat;
    private boolean lossAllowed;
    private String step = "";
    private ClosedLoop loop;

    /** Reads the pins of a vehicle.
     *
     * @param deserted whether nobody is there any more who could stop what is driven
     */
    public PinDriver(Vehicle vehicle, Pins pins, Recordings recordings, BooleanSupplier deserted) {
        this.deserted = deserted;
        this.recordings = recordings;
        this.vehicle = vehicle;
        this.pins = pins;
        this.clock = pins.clock();
        this.tickNs = Math.round(vehicle.get(Parameter.LOOP_TICK_MS) * NS_PER_MS);
        this.staleNs = Math.round(vehicle.get(Parameter.LOOP_STALE_MS) * NS_PER_MS);
        this.nextNs = clock.nowNs();
    }

    /** One tick: waits for its time, samples, and commands when outputs are driven.
     *
     * @throws Trouble when the pins are lost and the step does not allow that, or when outputs are driven and nobody is there
     */
    public void tick() {
        if (isDriven() && deserted.getAsBoolean()) {
            stopDriving();
            throw new Trouble(
                    "the input has ended while outputs were driven, so nobody could have stopped them; every output"
                            + " is released. Continue with --resume at a terminal. Answers may come from a file: < FILE");
        }
        nextNs += tickNs;
        clock.waitUntil(nextNs);
        lateness.record(clock.nowNs() - nextNs);
        if (clock.nowNs() - nextNs > tickNs) {
            nextNs = clock.nowNs();
        }
        if (loop != null) {
            loop.tick();
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
        if (!lossAllowed && isLost()) {
            throw new Trouble(pins.device().health().reason());
        }
    }

    private boolean isDriven() {
        return driving || loop != null;
    }

    /** While outputs are driven every fault of the board counts; else it must only be connected. */
    private boolean isLost() {
        return isDriven() ? !pins.device().health().isWell() : !pins.isConnected();
    }

    /** Names the step that begins. A supervised run in it is recorded under this name. */
    public void nameStep(String id) {
        step = id;
    }

    /** Lets time pass. */
    public void runMs(long ms) {
        long untilNs = clock.nowNs() + ms * NS_PER_MS;
        while (clock.nowNs() < untilNs) {
            tick();
        }
    }

    /** Waits for something. Returns how long it took (ms), -1 when it did not come. */
    public long waitFor(BooleanSupplier seen, long withinMs) {
        long startNs = clock.nowNs();
        while (!seen.getAsBoolean()) {
            if (clock.nowNs() - startNs >= withinMs * NS_PER_MS) {
                return -1;
            }
            tick();
        }
        return (clock.nowNs() - startNs) / NS_PER_MS;
    }

    /** Lets the inputs settle. Waits longer for a late reading: a busy machine is not a broken wire.
     *
     * @param signals what must be read; a signal that stays unknown reads NaN afterwards
     */
    public void settle(long ms, Set<Signal> signals) {
        runMs(ms);
        waitFor(() -> signals.stream().noneMatch(signal -> Double.isNaN(read(signal))), LATE_READING_MS);
    }

    public long nowMs() {
        return clock.nowNs() / NS_PER_MS;
    }

    public long tickMs() {
        return tickNs / NS_PER_MS;
    }

    /** What a pin reads now, NaN when there is no fresh reading. */
    public double read(Signal signal) {
        if (loop != null) {
            return loop.readings().get(signal);
        }
        return samples.ageNs(signal, clock.nowNs()) > staleNs ? Double.NaN : samples.get(signal);
    }

    public boolean isOn(Signal signal) {
        return read(signal) == 1;
    }

    /** Arms and drives by hand from now on. Every output is released until it is set.
     *
     * @param beating whether the heartbeat beats, so that a watchdog relay holds
     */
    public void driveByHand(boolean beating) throws StepAbandoned {
        refuseLive();
        byHand.release();
        beats = beating && pins.device().drives().contains(Output.HEARTBEAT);
        armOrAbandon();
        driving = true;
    }

    /** Sets an output that is driven by hand. The heartbeat ignores this while it beats. */
    public void set(Output output, double value) {
        byHand.set(output, value);
    }

    /** Stops the heartbeat; it stays high. */
    public void stopBeating() {
        beats = false;
        byHand.set(Output.HEARTBEAT, 1);
    }

    /** Runs a fresh supervisor from now on, with a simulated traction side at rest. */
    public void supervise() throws StepAbandoned {
        refuseLive();
        SimulatedCar standIn = new SimulatedCar(vehicle, 1);
        Device mixed = new MixedDevice(new WithoutTraction(pins.device(), SIMULATED), standIn);
        loop = new ClosedLoop(standIn, mixed, clock, EnumSet.noneOf(Interlock.class));
        recordings.begin(step, vehicle.name(), vehicle.settings(), loop.supervisor(), loop.loop());
        armOrAbandon();
    }

    private void armOrAbandon() throws StepAbandoned {
        Health health = pins.arm();
        if (!health.isWell()) {
            throw StepAbandoned.failed("the outputs could not be armed: " + health.reason());
        }
        nextNs = clock.nowNs();
    }

    private static Set<Signal> simulated() {
        EnumSet<Signal> all = EnumSet.of(
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
                Signal.CHARGER_TEMP_V);
        all.addAll(ChargerSignals.ALL);
        return all;
    }

    /** A second check; it does not replace the meter. Contactors must not be pulsed onto a live traction side. */
    private void refuseLive() throws StepAbandoned {
        for (Signal signal : new Signal[] {Signal.PACK_VOLTAGE_V, Signal.BUS_VOLTAGE_V}) {
            if (!pins.device().samples().contains(signal)) {
                continue; // the meter alone has shown it
            }
            waitFor(() -> !Double.isNaN(read(signal)), LATE_READING_MS);
            double volts = read(signal);
            if (Double.isNaN(volts)) {
                throw StepAbandoned.failed(
                        signal.key() + " gives no reading, so the traction side may be live. Nothing was"
                                + " driven. Find out why it is silent");
            }
            if (volts > DangerousVoltage.ABOVE_V) {
                throw StepAbandoned.failed(String.format(
                        Locale.ROOT,
                        "%s reads %.1f V: the traction side is live. Nothing was driven. Disconnect the pack, lock it"
                                + " out, wait, measure again",
                        signal.key(),
                        volts));
            }
        }
    }

    /** Releases every output. From now on the pins are only read. */
    public void stopDriving() {
        driving = false;
        beats = false;
        loop = null;
        byHand.release();
        pins.disarm();
        recordings.end(); // after the release: it waits for the disk
        nextNs = clock.nowNs();
    }

    /** Whether the step itself takes the pins away. */
    public void allowLoss(boolean allowed) {
        lossAllowed = allowed;
    }

    /** How late each tick began. */
    public LatencyMeter lateness() {
        return lateness;
    }

    /** The supervisor in its loop, null while nothing is supervised. */
    public ClosedLoop loop() {
        return loop;
    }
}
