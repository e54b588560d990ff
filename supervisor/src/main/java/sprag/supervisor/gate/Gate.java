package sprag.supervisor.gate;

import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/**
 * The last veto, straight from readings to commands: a handful of absolutes, written without looking at Logic.
 *
 * <p>If it ever has to act, two judgements of the same readings differ and one of them is wrong: that is itself a fault
 * ({@link Interlock#GATE_VETOED}). Its thresholds lie inside those of the conditioner, so that it never acts first.
 */
public final class Gate {
    /** Proximity below this is a plug in any connector family (an open inlet shows 4.46 V). */
    private static final double PROXIMITY_PLUGGED_V = 4.0;
    /** A pilot above this has a station behind it. */
    private static final double PILOT_PLUGGED_V = 2.0;
    /** How far past the longest of these the precharge relay may stay closed, as a factor: a precharge has an overlap behind it. */
    private static final int PRECHARGE_PATIENCE = 2;

    private static final Parameter[] PRECHARGE_CLOSED = {
        Parameter.PRECHARGE_TIMEOUT_MS,
        Parameter.CONTACTOR_WELD_TEST_MS,
        Parameter.CONTACTOR_OVERLAP_MS,
        Parameter.CONTACTOR_CLOSE_MS
    };

    /** What must be off while the cut-off loop is open. */
    private static final Output[] CUT_LOOP_OPENS = {
        Output.NEGATIVE_CONTACTOR,
        Output.PRECHARGE_RELAY,
        Output.POSITIVE_CONTACTOR,
        Output.INVERTER_ENABLE,
        Output.TORQUE_REQUEST_NM,
        Output.CHARGER_ENABLE,
        Output.CHARGE_CURRENT_LIMIT_A,
        Output.CHARGER_1_LIMIT_A,
        Output.CHARGER_2_LIMIT_A,
        Output.CHARGER_3_LIMIT_A
    };
    /** What charges. */
    private static final Output[] CHARGE = {
        Output.CHARGER_ENABLE,
        Output.CHARGE_CURRENT_LIMIT_A,
        Output.CHARGER_1_LIMIT_A,
        Output.CHARGER_2_LIMIT_A,
        Output.CHARGER_3_LIMIT_A
    };

    /** The shares of the charge current, one a charger. */
    private static final Output[] SHARES = {Output.CHARGER_1_LIMIT_A, Output.CHARGER_2_LIMIT_A, Output.CHARGER_3_LIMIT_A
    };

    private static final Signal[] CHARGER_OK = {Signal.CHARGER_1_OK, Signal.CHARGER_2_OK, Signal.CHARGER_3_OK};

    private final double doneFraction;
    private final double torqueMaxNm;
    private final double chargeMaxA;
    private final double chargeMaxV;
    private final int prechargeMaxTicks;
    private final boolean hasLockContact;
    private final boolean hasPilot;
    private final boolean hasPlugSwitch;
    private final boolean[] hasPlugLine = new boolean[CHARGER_OK.length];
    private boolean positiveWasClosed;
    private double lastTorqueNm;
    private int prechargeTicks;

    /** Makes a gate that has seen no closed contactor and no torque yet.
     *
     * @param settings the vehicle's values
     */
    public Gate(Settings settings) {
        doneFraction = settings.get(Parameter.PRECHARGE_DONE_FRACTION);
        torqueMaxNm = Math.max(settings.get(Parameter.DRIVE_TORQUE_NM), settings.get(Parameter.REGEN_TORQUE_NM));
        chargeMaxA = settings.get(Parameter.PACK_CHARGE_MAX_A);
        chargeMaxV = settings.get(Parameter.PACK_MAX_V);
        hasLockContact = settings.is(Parameter.INLET_LOCK, "fitted") && settings.has(Signal.PLUG_LOCKED);
        boolean plain = settings.is(Parameter.INLET_KIND, "plain");
        hasPilot = settings.has(Signal.PILOT_PEAK_V);
        hasPlugSwitch = settings.has(Signal.PLUG_PRESENT) && (hasPilot || plain);
        for (int i = 0; i < CHARGER_OK.length; i++) {
            boolean there = settings.get(Parameter.CHARGER_COUNT) > i && settings.has(CHARGER_OK[i]);
            hasPlugLine[i] = plain && !hasPlugSwitch && there;
        }
        int longestTicks = 0;
        for (Parameter longest : PRECHARGE_CLOSED) {
            longestTicks = Math.max(longestTicks, settings.ticks(longest));
        }
        prechargeMaxTicks = PRECHARGE_PATIENCE * longestTicks;
    }

    /** Checks one tick's commands and takes back what must not be.
     *
     * @param in the readings of this tick
     * @param c the commands, changed where they break an absolute
     * @return true when something was taken back
     */
    public boolean check(Readings in, Commands c) {
        // A rule stands behind those that can take away what it asks for: torque behind the contactor that it needs.
        boolean vetoed = cutLoop(in, c);
        vetoed |= closing(in, c);
        vetoed |= precharge(c);
        vetoed |= torque(in, c);
        vetoed |= charge(in, c);
        positiveWasClosed = c.isOn(Output.POSITIVE_CONTACTOR);
        lastTorqueNm = c.get(Output.TORQUE_REQUEST_NM);
        return vetoed;
    }

    /** Nothing is closed with the cut-off loop open. */
    private static boolean cutLoop(Readings in, Commands c) {
        if (in.isOn(Signal.CUT_LOOP_CLOSED)) {
            return false;
        }
        return release(c, CUT_LOOP_OPENS);
    }

    /** No torque with a plug, without closed contactors and an enabled inverter, beyond the maximum, or rising with the key off. */
    private boolean torque(Readings in, Commands c) {
        double torqueNm = Math.abs(c.get(Output.TORQUE_REQUEST_NM));
        if (torqueNm == 0) {
            return false;
        }
        boolean connected = c.isOn(Output.NEGATIVE_CONTACTOR)
                && c.isOn(Output.POSITIVE_CONTACTOR)
                && c.isOn(Output.INVERTER_ENABLE);
        boolean growsKeyless = !in.isOn(Signal.KEY_ON) && torqueNm > Math.abs(lastTorqueNm);
        boolean allowed = connected && !plugged(in) && torqueNm <= torqueMaxNm && !growsKeyless;
        return !allowed && release(c, Output.TORQUE_REQUEST_NM);
    }

    /** No main contactor onto an uncharged bus, or one whose voltage is unknown. */
    private boolean closing(Readings in, Commands c) {
        if (!c.isOn(Output.POSITIVE_CONTACTOR) || positiveWasClosed) {
            return false;
        }
        boolean charged = in.get(Signal.BUS_VOLTAGE_V) >= doneFraction * in.get(Signal.PACK_VOLTAGE_V);
        return !charged && release(c, Output.POSITIVE_CONTACTOR);
    }

    /** The resistor is not left in circuit. */
    private boolean precharge(Commands c) {
        prechargeTicks = c.isOn(Output.PRECHARGE_RELAY) ? prechargeTicks + 1 : 0;
        return prechargeTicks > prechargeMaxTicks && release(c, Output.PRECHARGE_RELAY);
    }

    /** No charge without a plug that is seen, behind a lock that is not seen closed, beyond the pack's limits, or with the inverter alive. */
    private boolean charge(Readings in, Commands c) {
        boolean asked = false;
        for (Output output : CHARGE) {
            asked |= c.isOn(output);
        }
        if (!asked) {
            return false;
        }
        double sharesA = 0;
        boolean inside = c.get(Output.CHARGE_VOLTAGE_LIMIT_V) <= chargeMaxV;
        for (Output share : SHARES) {
            inside &= c.get(share) >= 0;
            sharesA += c.get(share);
        }
        double currentA = c.get(Output.CHARGE_CURRENT_LIMIT_A);
        inside &= currentA >= 0 && currentA <= chargeMaxA && sharesA <= chargeMaxA;
        boolean held = !hasLockContact || in.isOn(Signal.PLUG_LOCKED);
        boolean allowed = seesPlug(in) && held && inside && !c.isOn(Output.INVERTER_ENABLE);
        return !allowed && release(c, CHARGE);
    }

    /** Any sign of a plug that this vehicle has, or one of them unknown. */
    private boolean plugged(Readings in) {
        boolean proximityOpen = !hasPilot || in.get(Signal.PROXIMITY_V) >= PROXIMITY_PLUGGED_V;
        boolean pilotSilent = !hasPilot || in.get(Signal.PILOT_PEAK_V) <= PILOT_PLUGGED_V;
        boolean switchOff = !hasPlugSwitch || in.isOff(Signal.PLUG_PRESENT);
        boolean linesOff = true;
        for (int i = 0; i < CHARGER_OK.length; i++) {
            linesOff &= !hasPlugLine[i] || in.isOff(CHARGER_OK[i]);
        }
        return !(switchOff && proximityOpen && pilotSilent && linesOff);
    }

    /** A sign of a plug that is known. Unknown signs stop the drive, but they are no leave to charge. */
    private boolean seesPlug(Readings in) {
        boolean any = hasPilot && in.get(Signal.PROXIMITY_V) < PROXIMITY_PLUGGED_V;
        any |= hasPilot && in.get(Signal.PILOT_PEAK_V) > PILOT_PLUGGED_V;
        any |= hasPlugSwitch && in.isOn(Signal.PLUG_PRESENT);
        for (int i = 0; i < CHARGER_OK.length; i++) {
            any |= hasPlugLine[i] && in.isOn(CHARGER_OK[i]);
        }
        return any;
    }

    /** Takes all of these back; true when any of them was on. */
    private static boolean release(Commands c, Output[] outputs) {
        boolean any = false;
        for (Output output : outputs) {
            any |= release(c, output);
        }
        return any;
    }

    private static boolean release(Commands c, Output output) {
        boolean was = c.isOn(output);
        c.set(output, 0);
        return was;
    }
}
