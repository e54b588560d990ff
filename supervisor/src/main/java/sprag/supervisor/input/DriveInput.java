package sprag.supervisor.input;

import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** Speed, inverter, 12 V supply and heater air: how the car moves and whether it does what was asked. */
final class DriveInput {
    private static final double KPH_PER_MPS = 3.6;
    private static final double SECONDS_PER_MINUTE = 60;
    private static final double RAD_PER_S_PER_RPM = 2 * Math.PI / 60;
    /** The share of a torque's own current that losses, lag and a cold gear may take on top; chosen. */
    private static final double LOSS_SHARE = 0.35;
    /** The share by which the speed may pass its limit before it counts: the limiter works up to the limit itself. */
    private static final double OVERSPEED_SHARE = 1.05;
    /** Time constant of the acceleration: long against the ticks of a speed sensor, short against a driver. */
    private static final double ACCELERATION_S = 0.2;
    /** Less is none: a filter that fades for ever ends in numbers so small that a processor is slow with them. */
    private static final double NO_ACCELERATION_MPS2 = 1e-9;

    private final boolean hasInverterFault;
    private final boolean hasAirflow;
    private final double kphPerRpm;
    private final double standstillKph;
    private final double maxRpm;
    private final double maxKph;
    private final double lvLowV;
    private final double lvLostV;
    private final double unaskedA;
    private final double shareOfTorquePerNm;
    private final double dischargeMaxA;
    private final int regenLevels;
    private final double mps2PerKphTick;
    private final double accelerationShare;
    private double lastSpeedKph = Double.NaN;

    DriveInput(Settings settings) {
        hasInverterFault = settings.has(Signal.INVERTER_FAULT);
        hasAirflow = settings.has(Signal.HEATER_AIRFLOW);
        double metresPerTurn = 2 * Math.PI * settings.get(Parameter.DRIVE_WHEEL_RADIUS_M);
        kphPerRpm = metresPerTurn / settings.get(Parameter.DRIVE_GEAR_RATIO) / SECONDS_PER_MINUTE * KPH_PER_MPS;
        standstillKph = settings.get(Parameter.DRIVE_STANDSTILL_KPH);
        maxRpm = settings.get(Parameter.MOTOR_MAX_RPM);
        maxKph = settings.get(Parameter.DRIVE_MAX_KPH) * OVERSPEED_SHARE;
        lvLowV = settings.get(Parameter.LV_LOW_V);
        lvLostV = settings.get(Parameter.LV_LOST_V);
        unaskedA = settings.get(Parameter.DRIVE_UNASKED_A);
        shareOfTorquePerNm = 1 / settings.get(Parameter.DRIVE_TORQUE_NM);
        dischargeMaxA = settings.get(Parameter.PACK_DISCHARGE_MAX_A);
        regenLevels = (int) settings.get(Parameter.REGEN_LEVELS);
        mps2PerKphTick = 1 / KPH_PER_MPS / settings.tickS();
        accelerationShare = settings.tickS() / (ACCELERATION_S + settings.tickS());
    }

    void update(Readings in, Commands last, TickFacts facts, Debounce debounce, Conditioned out) {
        out.regenLevel = level(in.get(Signal.REGEN_LEVEL));
        motion(in, facts, debounce, out);
        inverter(in, last, facts, debounce);
        double lvV = in.get(Signal.LV_SUPPLY_V);
        out.lvSupplyV = lvV;
        debounce.into(facts, Fact.LV_LOW, !(lvV >= lvLowV));
        debounce.into(facts, Fact.LV_LOST, !(lvV >= lvLostV));
        boolean airless = hasAirflow && last.isOn(Output.HEATER_BLOWER) && !in.isOn(Signal.HEATER_AIRFLOW);
        debounce.into(facts, Fact.HEATER_WITHOUT_AIR, airless);
    }

    /** The level asked for, 0 for coast when it is none of the known ones. */
    private int level(double asked) {
        return asked >= 0 && asked <= regenLevels ? (int) asked : 0;
    }

    private void motion(Readings in, TickFacts facts, Debounce debounce, Conditioned out) {
        double rpm = in.get(Signal.MOTOR_SPEED_RPM);
        boolean known = rpm >= Signal.MOTOR_SPEED_RPM.min && rpm <= Signal.MOTOR_SPEED_RPM.max;
        out.motorSpeedRpm = known ? rpm : Double.NaN;
        out.speedKph = out.motorSpeedRpm * kphPerRpm;
        double speedKph = Math.abs(out.speedKph);
        debounce.into(facts, Fact.SPEED_LOST, !known);
        facts.set(Fact.STANDSTILL, speedKph < standstillKph);
        boolean fast = Math.abs(out.motorSpeedRpm) > maxRpm || speedKph > maxKph;
        debounce.into(facts, Fact.OVERSPEED, fast);
        double along = out.speedKph * facts.direction().sign;
        debounce.into(facts, Fact.ROLLING_AWAY, along < -standstillKph);
        double step = (out.speedKph - lastSpeedKph) * mps2PerKphTick;
        lastSpeedKph = out.speedKph;
        out.accelerationMps2 = step == step ? follow(out.accelerationMps2, step) : 0;
    }

    private double follow(double before, double step) {
        double after = before + (step - before) * accelerationShare;
        return Math.abs(after) < NO_ACCELERATION_MPS2 ? 0 : after;
    }

    private void inverter(Readings in, Commands last, TickFacts facts, Debounce debounce) {
        boolean fault = hasInverterFault && !in.isOff(Signal.INVERTER_FAULT);
        facts.set(Fact.INVERTER_FAULTED, fault);
        boolean enabled = last.isOn(Output.INVERTER_ENABLE);
        boolean notReady = enabled && !in.isOn(Signal.INVERTER_READY);
        debounce.into(facts, Fact.INVERTER_NOT_READY, notReady);
        boolean connected = last.isOn(Output.POSITIVE_CONTACTOR)
                && last.isOn(Output.NEGATIVE_CONTACTOR)
                && !last.isOn(Output.PRECHARGE_RELAY)
                && !last.isOn(Output.CHARGER_ENABLE);
        boolean unasked = connected && flowsUnasked(in, last.get(Output.TORQUE_REQUEST_NM));
        debounce.into(facts, Fact.TORQUE_UNASKED, unasked);
    }

    /**
     * Whether more current flows than the torque asked for can take, or the other way: torque times speed over pack voltage,
     * with an allowance for the loads on the bus and for losses, which grow with the square of the torque. Less current than expected is no unasked torque.
     */
    private boolean flowsUnasked(Readings in, double askedNm) {
        double currentA = in.get(Signal.PACK_CURRENT_A);
        double radPerS = in.get(Signal.MOTOR_SPEED_RPM) * RAD_PER_S_PER_RPM;
        double expectedA = askedNm == 0 ? 0 : askedNm * radPerS / in.get(Signal.PACK_VOLTAGE_V);
        double share = askedNm * shareOfTorquePerNm;
        double lossA = share * share * dischargeMaxA + Math.abs(expectedA);
        double allowedA = unaskedA + LOSS_SHARE * lossA;
        boolean opposite = currentA * expectedA < 0;
        double beyondA = opposite ? Math.abs(currentA) : Math.abs(currentA) - Math.abs(expectedA);
        return beyondA > allowedA;
    }
}
