package sprag.supervisor.input;

import sprag.supervisor.vocabulary.Bounds;
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
    private static final double RAD_PER_S_PER_RPM = 2 * Math.PI / 60;
    /** The share of a torque's own current that losses, lag and a cold gear may take on top; chosen. */
    private static final double LOSS_SHARE = 0.35;

    /** A lever or a pressure below this share is at rest (chosen). */
    private static final double REST_SHARE = 0.03;

    private static final double KPH_PER_MPS = 3.6;

    private final boolean hasInverterFault;
    private final boolean hasAirflow;
    private final SpeedInput speed;
    private final double kphPerRadPerS;
    private final double lvLowV;
    private final double lvLostV;
    private final double unaskedA;
    private final double shareOfTorquePerNm;
    private final double dischargeMaxA;
    private final int regenLevels;
    private final boolean hasDemand;
    private final boolean byBrake;
    private final double demandMinV;
    private final double demandMaxV;
    private final double demandRestV;
    private final double demandPerV;
    private boolean demandSeenAtRest;

    DriveInput(Settings settings) {
        hasInverterFault = settings.has(Signal.INVERTER_FAULT);
        hasAirflow = settings.has(Signal.HEATER_AIRFLOW);
        speed = new SpeedInput(settings);
        kphPerRadPerS =
                settings.get(Parameter.DRIVE_WHEEL_RADIUS_M) / settings.get(Parameter.DRIVE_GEAR_RATIO) * KPH_PER_MPS;
        lvLowV = settings.get(Parameter.LV_LOW_V);
        lvLostV = settings.get(Parameter.LV_LOST_V);
        unaskedA = settings.get(Parameter.DRIVE_UNASKED_A);
        shareOfTorquePerNm = 1 / settings.get(Parameter.DRIVE_TORQUE_NM);
        dischargeMaxA = settings.get(Parameter.PACK_DISCHARGE_MAX_A);
        byBrake = settings.is(Parameter.REGEN_BY, "brake-pressure");
        hasDemand = settings.has(Signal.REGEN_DEMAND_V) && !settings.is(Parameter.REGEN_BY, "pedal");
        demandMinV = settings.get(Parameter.PEDAL_MIN_V);
        demandMaxV = settings.get(Parameter.PEDAL_MAX_V);
        demandRestV = settings.get(Parameter.REGEN_DEMAND_REST_V);
        demandPerV = 1 / (settings.get(Parameter.REGEN_DEMAND_FULL_V) - demandRestV);
        regenLevels = (int) settings.get(Parameter.REGEN_LEVELS);
    }

    void update(Readings in, Commands last, TickFacts facts, Debounce debounce, Conditioned out) {
        out.regenLevel = level(in.get(Signal.REGEN_LEVEL));
        out.regenAsked = hasDemand ? regenAsked(in.get(Signal.REGEN_DEMAND_V), facts) : 0;
        boolean demandLost = hasDemand && !isSoundDemand(in.get(Signal.REGEN_DEMAND_V));
        debounce.into(facts, Fact.REGEN_DEMAND_LOST, demandLost);
        speed.update(in, last, facts, debounce, out);
        inverter(in, last, facts, debounce, out);
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

    /**
     * What brake pressure or a lever asks for. A voltage that no sound sensor shows asks for nothing: the friction brake is there, and
     * braking that nobody asked for surprises the driver behind. So does a lever that was never seen at rest since the key was turned
     * on, and a pressure without the brake switch.
     */
    private double regenAsked(double volts, TickFacts facts) {
        boolean sound = isSoundDemand(volts);
        double share = sound ? Bounds.share((volts - demandRestV) * demandPerV) : 0;
        boolean atRest = sound && share < REST_SHARE;
        demandSeenAtRest = facts.is(Fact.KEY_ON) && (demandSeenAtRest || atRest);
        boolean meant = demandSeenAtRest && !atRest && (!byBrake || facts.is(Fact.BRAKE_PRESSED));
        return meant ? share : 0;
    }

    private boolean isSoundDemand(double volts) {
        return volts >= demandMinV && volts <= demandMaxV;
    }

    private void inverter(Readings in, Commands last, TickFacts facts, Debounce debounce, Conditioned out) {
        boolean fault = hasInverterFault && !in.isOff(Signal.INVERTER_FAULT);
        facts.set(Fact.INVERTER_FAULTED, fault);
        boolean enabled = last.isOn(Output.INVERTER_ENABLE);
        boolean notReady = enabled && !in.isOn(Signal.INVERTER_READY);
        debounce.into(facts, Fact.INVERTER_NOT_READY, notReady);
        boolean connected = last.isOn(Output.POSITIVE_CONTACTOR)
                && last.isOn(Output.NEGATIVE_CONTACTOR)
                && !last.isOn(Output.PRECHARGE_RELAY)
                && !last.isOn(Output.CHARGER_ENABLE);
        double askedNm = last.get(Output.TORQUE_REQUEST_NM);
        double powerW = in.get(Signal.PACK_CURRENT_A) * in.get(Signal.PACK_VOLTAGE_V);
        boolean unasked = connected && flowsUnasked(in, askedNm, out.motorSpeedRpm);
        debounce.into(facts, Fact.TORQUE_UNASKED, unasked);
        double explainsKph = Math.abs(powerW / askedNm) * kphPerRadPerS;
        speed.power(unasked && askedNm != 0, explainsKph, facts, debounce, out);
    }

    /**
     * Whether more current flows than the torque asked for can take, or the other way: torque times speed over pack voltage,
     * with an allowance for the loads on the bus and for losses, which grow with the square of the torque. Less current than
     * expected is no unasked torque. An unknown speed explains no current.
     *
     * <p>While torque is asked for, such a current has two explanations: the inverter does not obey, or the speed is wrong. So
     * the speed is doubted first, which ends the torque. When current flows on, it is the inverter.
     */
    private boolean flowsUnasked(Readings in, double askedNm, double motorSpeedRpm) {
        double currentA = in.get(Signal.PACK_CURRENT_A);
        double radPerS = motorSpeedRpm == motorSpeedRpm ? motorSpeedRpm * RAD_PER_S_PER_RPM : 0;
        double expectedA = askedNm == 0 ? 0 : askedNm * radPerS / in.get(Signal.PACK_VOLTAGE_V);
        double share = askedNm * shareOfTorquePerNm;
        double lossA = share * share * dischargeMaxA + Math.abs(expectedA);
        double allowedA = unaskedA + LOSS_SHARE * lossA;
        boolean opposite = currentA * expectedA < 0;
        double beyondA = opposite ? Math.abs(currentA) : Math.abs(currentA) - Math.abs(expectedA);
        return beyondA > allowedA;
    }
}
