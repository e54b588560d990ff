package sprag.supervisor;

import java.util.EnumSet;
import java.util.Set;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;

/**
 * A supervisor on strings: readings are set by hand, bus and contacts answer the commands in the simplest way that is right.
 *
 * <p>Only what every test needs is modelled: the bus charges through the resistor, bleeds when open, and auxiliary contacts
 * follow their coils one tick later. A test that wants anything else sets the reading after {@link #plant()}.
 */
public final class Rig {
    public static final double PACK_V = 350;
    private static final double GLIDE_KPH = 0.5;
    private static final double UNEVEN_KPH = 0.31;

    final Settings settings;
    public final Supervisor supervisor;
    public final Readings in = new Readings();
    public final Commands out = new Commands();
    /** What a test overrides after the plant has answered; null for nothing. */
    Runnable meddle = () -> {};

    /** The pack as it is, whatever its reading says. */
    double packV = PACK_V;
    /** The bus as it is, whatever its reading says. */
    double busV;
    /** Time constant of the bleed resistor with the bus capacitance. */
    double bleedS = 1;

    /** The motor's speed as it is. */
    private double speedRpm;

    long tick;

    public Rig() {
        this(TestVehicle.full());
    }

    public Rig(Settings settings) {
        this(settings, EnumSet.noneOf(Interlock.class));
    }

    /** With interlocks taken out. */
    public Rig(Settings settings, Set<Interlock> without) {
        this.settings = settings;
        supervisor = new Supervisor(settings, without);
        for (Signal signal : Signal.values()) {
            in.set(signal, 0);
        }
        in.set(Signal.CUT_LOOP_CLOSED, 1);
        in.set(Signal.COVER_LOOP_CLOSED, 1);
        in.set(Signal.CRASH_LOOP_CLOSED, 1);
        in.set(Signal.DISCHARGE_PERMIT, 1);
        in.set(Signal.CHARGE_PERMIT, 1);
        in.set(Signal.INVERTER_READY, 1);
        in.set(Signal.HEATER_AIRFLOW, 1);
        in.set(Signal.CHARGER_1_OK, 1);
        in.set(Signal.PEDAL_SUPPLY_V, 5);
        in.set(Signal.PACK_VOLTAGE_V, PACK_V);
        in.set(Signal.CELL_MAX_V, 3.65);
        in.set(Signal.CELL_MIN_V, 3.64);
        in.set(Signal.ISOLATION_KOHM, 5000);
        in.set(Signal.LV_SUPPLY_V, 13.5);
        in.set(Signal.PROXIMITY_V, 4.46);
        for (Signal signal : new Signal[] {
            Signal.MOTOR_TEMP_V,
            Signal.INVERTER_TEMP_V,
            Signal.COOLANT_TEMP_V,
            Signal.PACK_HOT_V,
            Signal.PACK_COLD_V,
            Signal.CHARGER_TEMP_V,
            Signal.HEATER_TEMP_V
        }) {
            in.set(signal, voltsAt(25));
        }
        pedal(0);
    }

    /** Divider voltage for a temperature, by the Beta model. */
    public double voltsAt(double celsius) {
        double r25 = settings.get(Parameter.THERMISTOR_R25_OHM);
        double beta = settings.get(Parameter.THERMISTOR_BETA_K);
        double r = r25 * Math.exp(beta * (1 / (celsius + 273.15) - 1 / 298.15));
        return settings.get(Parameter.THERMISTOR_SUPPLY_V) * r / (r + settings.get(Parameter.THERMISTOR_PULLUP_OHM));
    }

    public Rig pedal(double travel) {
        pedalA(travel);
        in.set(Signal.PEDAL_B_V, at(travel, Parameter.PEDAL_B_RELEASED_V, Parameter.PEDAL_B_FULL_V));
        return this;
    }

    public Rig pedalA(double travel) {
        in.set(Signal.PEDAL_A_V, at(travel, Parameter.PEDAL_A_RELEASED_V, Parameter.PEDAL_A_FULL_V));
        return this;
    }

    private double at(double travel, Parameter released, Parameter full) {
        return settings.get(released) + travel * (settings.get(full) - settings.get(released));
    }

    public Rig given(Signal signal, double value) {
        in.set(signal, value);
        if (signal == Signal.MOTOR_SPEED_RPM) {
            speedRpm = value;
        }
        return this;
    }

    /** Sets the pack's voltage and its reading. */
    public Rig pack(double volts) {
        packV = volts;
        return given(Signal.PACK_VOLTAGE_V, volts);
    }

    /** Sets the reading of a thermistor. */
    public Rig celsius(Signal signal, double celsius) {
        return given(signal, voltsAt(celsius));
    }

    /** Overrides what the plant answers, from now on. */
    public Rig meddle(Signal signal, double value) {
        Runnable before = meddle;
        meddle = () -> {
            before.run();
            in.set(signal, value);
        };
        return this;
    }

    /** Lets the plant answer again. */
    public Rig leave() {
        meddle = () -> {};
        return this;
    }

    /** Brings the car to a speed, as quickly as the speed is believed. That takes ticks. */
    public Rig speedKph(double kph) {
        if (!(Math.abs(speedRpm) <= Signal.MOTOR_SPEED_RPM.max)) {
            speedRpm = 0;
        }
        double now = speedRpm * kphPerRpm();
        while (Math.abs(kph - now) > GLIDE_KPH) {
            now += Math.copySign(GLIDE_KPH, kph - now);
            given(Signal.MOTOR_SPEED_RPM, now / kphPerRpm()).run(1);
        }
        return jumpKph(kph);
    }

    /** As {@link #speedKph}, for a speed of the motor. */
    public Rig speedRpm(double rpm) {
        return speedKph(rpm * kphPerRpm());
    }

    /** Shows another speed in the next tick, whether a car can do that or not. */
    public Rig jumpKph(double kph) {
        return given(Signal.MOTOR_SPEED_RPM, kph / kphPerRpm());
    }

    double kphPerRpm() {
        double turnM = 2 * Math.PI * settings.get(Parameter.DRIVE_WHEEL_RADIUS_M);
        return turnM / settings.get(Parameter.DRIVE_GEAR_RATIO) / 60 * 3.6;
    }

    public Rig run(int ticks) {
        for (int i = 0; i < ticks; i++) {
            plant();
            meddle.run();
            supervisor.step(tick++, in, out);
        }
        return this;
    }

    public Rig runMs(double ms) {
        return run((int) Math.round(ms / settings.get(Parameter.LOOP_TICK_MS)));
    }

    /** Runs until a state is reached, or fails. */
    public Rig until(State state, int maxTicks) {
        for (int i = 0; i < maxTicks && state() != state; i++) {
            run(1);
        }
        if (state() != state) {
            throw new AssertionError(
                    "still " + state() + "/" + supervisor.state().step() + " after " + maxTicks + " ticks");
        }
        return this;
    }

    private void plant() {
        boolean negative = out.isOn(Output.NEGATIVE_CONTACTOR);
        boolean precharge = out.isOn(Output.PRECHARGE_RELAY);
        boolean positive = out.isOn(Output.POSITIVE_CONTACTOR);
        in.set(Signal.NEGATIVE_AUX_CLOSED, negative);
        in.set(Signal.PRECHARGE_AUX_CLOSED, precharge);
        in.set(Signal.POSITIVE_AUX_CLOSED, positive);
        in.set(Signal.WHEEL_SPEED_KPH, Math.abs(speedRpm * kphPerRpm()));
        in.set(Signal.PLUG_LOCKED, out.isOn(Output.PLUG_LOCK));
        double tauS =
                settings.get(Parameter.PRECHARGE_RESISTANCE_OHM) * settings.get(Parameter.BUS_CAPACITANCE_UF) / 1e6;
        if (negative && positive) {
            busV = packV;
        } else if (negative && precharge) {
            busV += (packV - busV) * (1 - Math.exp(-settings.tickS() / tauS));
        } else {
            busV *= Math.exp(-settings.tickS() / bleedS);
        }
        in.set(Signal.BUS_VOLTAGE_V, busV);
        in.set(Signal.MOTOR_SPEED_RPM, torqueNm() == 0 ? speedRpm : speedRpm + uneven() / kphPerRpm());
    }

    /** Under torque no car runs evenly. Without this the speed would look as if its sensor hung. */
    private double uneven() {
        return tick % 2 == 0 ? UNEVEN_KPH : -UNEVEN_KPH;
    }

    public State state() {
        return supervisor.state().state();
    }

    public double torqueNm() {
        return out.get(Output.TORQUE_REQUEST_NM);
    }

    public Step step() {
        return supervisor.state().step();
    }

    public int ticks(Parameter parameter) {
        return settings.ticks(parameter);
    }

    public boolean is(Fact fact) {
        return supervisor.facts().is(fact);
    }

    public int times(Interlock row) {
        return supervisor.diagnostics().timesActed(row);
    }

    /** Whether an interlock acted in the last tick. */
    public boolean acts(Interlock row) {
        return supervisor.diagnostics().lastActedTick(row) == tick - 1;
    }

    public boolean anyContactor() {
        return out.isOn(Output.NEGATIVE_CONTACTOR)
                || out.isOn(Output.PRECHARGE_RELAY)
                || out.isOn(Output.POSITIVE_CONTACTOR);
    }

    /** Key on, self-checks done, nothing pressed but the brake. */
    public Rig ignition() {
        run(20);
        return given(Signal.KEY_ON, 1)
                .given(Signal.BRAKE_PRESSED, 1)
                .until(State.IGNITION, 5)
                .run(5);
    }

    /** Start pressed and let go. */
    public Rig precharging() {
        return ignition()
                .given(Signal.START_REQUEST, 1)
                .until(State.PRECHARGE, 5)
                .given(Signal.START_REQUEST, 0);
    }

    /** Runs until a step is reached, or fails. */
    public Rig until(Step step, int maxTicks) {
        for (int i = 0; i < maxTicks && step() != step; i++) {
            run(1);
        }
        if (step() != step) {
            throw new AssertionError("still " + state() + "/" + step() + " after " + maxTicks + " ticks");
        }
        return this;
    }

    /** Brought to a state the way a driver would. */
    public Rig at(State state) {
        return switch (state) {
            case OFF -> run(20);
            case IGNITION -> ignition();
            case PRECHARGE -> precharging();
            case DRIVE_ENABLE -> driving();
            case RUNDOWN -> driving().given(Signal.KEY_ON, 0).until(State.RUNDOWN, 1);
            case CHARGE_LOCKOUT -> run(20).given(Signal.PLUG_PRESENT, 1).until(State.CHARGE_LOCKOUT, 2);
            case FAULT ->
                driving()
                        .given(Signal.CUT_LOOP_CLOSED, 0)
                        .until(State.FAULT, 1)
                        .given(Signal.CUT_LOOP_CLOSED, 1)
                        .runMs(4000);
        };
    }

    /** Key off, on and off again, with time to be seen. */
    public Rig keyCycle() {
        given(Signal.KEY_ON, 0).run(3);
        given(Signal.KEY_ON, 1).run(3);
        return given(Signal.KEY_ON, 0).run(3);
    }

    /** Connected, forward engaged, brake let go, standing. */
    public Rig driving() {
        precharging().until(State.DRIVE_ENABLE, 400);
        given(Signal.FORWARD_SWITCH, 1).run(5);
        return given(Signal.BRAKE_PRESSED, 0).run(5);
    }
}
