package sprag.supervisor.input;

import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.FullPack;
import sprag.supervisor.vocabulary.LowPack;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** Pack, cells and isolation. */
final class PackInput {
    /** How far a voltage must come back before "full" is taken back. */
    private static final double CELL_HYSTERESIS_V = 0.02;
    /** "Low" lasts at least this long: it comes in the tick of a sag, and the heater, which it takes off, makes one itself. */
    private static final int LOW_S = 10;

    private static final double OHM_PER_KOHM = 1000;
    /** The share of its range by which a sound reading may lie below its least value: noise around zero. */
    private static final double SLACK_SHARE = 0.01;

    private static final double LEAST_V = least(Signal.PACK_VOLTAGE_V);
    private static final double LEAST_A = least(Signal.PACK_CURRENT_A);

    private final boolean hasCells;
    private final boolean hasMax;
    private final boolean hasMin;
    private final boolean hasIsolation;
    private final boolean hasCrash;
    private final double packMinV;
    private final double packMaxV;
    private final double cellMinV;
    private final double cellHighV;
    private final double cellMaxV;
    private final boolean hasSecond;
    private final double apartA;
    private final double dischargeTripA;
    private final double chargeTripA;
    private final double isolationMinOhm;
    private final double fullFraction;
    private final double chargedV;
    private final FullPack fullPack;
    private final LowPack lowPack;
    private final int lowTicks;
    private int lowLeftTicks;

    PackInput(Settings settings) {
        hasCells = settings.has(Signal.CELL_MAX_V) || settings.has(Signal.CELL_MIN_V);
        hasMax = settings.has(Signal.CELL_MAX_V);
        hasMin = settings.has(Signal.CELL_MIN_V);
        hasIsolation = settings.has(Signal.ISOLATION_KOHM);
        hasCrash = settings.has(Signal.CRASH_LOOP_CLOSED);
        packMinV = settings.get(Parameter.PACK_MIN_V);
        packMaxV = settings.get(Parameter.PACK_MAX_V);
        cellMinV = settings.get(Parameter.CELL_MIN_V);
        cellHighV = settings.get(Parameter.CELL_HIGH_V);
        cellMaxV = settings.get(Parameter.CELL_MAX_V);
        hasSecond = settings.has(Signal.PACK_CURRENT_2_A);
        apartA = settings.get(Parameter.PACK_APART_SHARE) * settings.get(Parameter.PACK_DISCHARGE_MAX_A);
        double factor = settings.get(Parameter.PACK_OVER_FACTOR);
        dischargeTripA = settings.get(Parameter.PACK_DISCHARGE_MAX_A) * factor;
        chargeTripA = settings.get(Parameter.PACK_CHARGE_MAX_A) * factor;
        isolationMinOhm = settings.get(Parameter.ISOLATION_MIN_OHM_PER_V) * packMaxV;
        fullFraction = settings.get(Parameter.REGEN_FULL_FRACTION);
        chargedV = Math.min(settings.get(Parameter.CHARGE_VOLTAGE_V), packMaxV);
        fullPack = new FullPack(settings);
        lowPack = new LowPack(settings);
        lowTicks = (int) Math.ceil(LOW_S / settings.tickS());
    }

    private static double least(Signal signal) {
        return signal.min - SLACK_SHARE * (signal.max - signal.min);
    }

    void update(Readings in, TickFacts facts, Debounce debounce, Conditioned out) {
        double packV = in.get(Signal.PACK_VOLTAGE_V);
        double currentA = in.get(Signal.PACK_CURRENT_A);
        boolean lost = !isVoltage(packV)
                || !isVoltage(in.get(Signal.BUS_VOLTAGE_V))
                || !isCurrent(currentA)
                || hasCrash && !in.isOn(Signal.CRASH_LOOP_CLOSED) && !in.isOff(Signal.CRASH_LOOP_CLOSED);
        debounce.into(facts, Fact.READINGS_LOST, lost);
        debounce.into(facts, Fact.PACK_OVERVOLTAGE, packV > packMaxV);
        debounce.into(facts, Fact.PACK_UNDERVOLTAGE, packV < packMinV);
        boolean apart = hasSecond && areApart(currentA, in.get(Signal.PACK_CURRENT_2_A));
        debounce.into(facts, Fact.CURRENTS_APART, apart);
        boolean over = isOver(currentA) || hasSecond && isOver(in.get(Signal.PACK_CURRENT_2_A));
        debounce.into(facts, Fact.PACK_OVERCURRENT, over);
        cells(in, facts, debounce, out);
        ends(packV, facts, debounce, out);
        isolation(in.get(Signal.ISOLATION_KOHM) * OHM_PER_KOHM, facts, debounce);
    }

    private boolean isOver(double currentA) {
        return currentA > dischargeTripA || currentA < -chargeTripA;
    }

    /** Whether two pack currents differ. An unknown second one confirms nothing. */
    private boolean areApart(double currentA, double secondA) {
        return !(Math.abs(currentA - secondA) <= apartA);
    }

    private void isolation(double ohm, TickFacts facts, Debounce debounce) {
        boolean leaks = hasIsolation && ohm < isolationMinOhm;
        boolean silent = hasIsolation && !(ohm >= 0);
        debounce.into(facts, Fact.ISOLATION_LOW, leaks);
        debounce.into(facts, Fact.ISOLATION_SILENT, silent);
    }

    private void cells(Readings in, TickFacts facts, Debounce debounce, Conditioned out) {
        boolean maxUnknown = hasMax && unknownCell(in.get(Signal.CELL_MAX_V));
        boolean minUnknown = hasMin && unknownCell(in.get(Signal.CELL_MIN_V));
        out.cellMaxV = hasMax && !maxUnknown ? in.get(Signal.CELL_MAX_V) : Double.NaN;
        out.cellMinV = hasMin && !minUnknown ? in.get(Signal.CELL_MIN_V) : Double.NaN;
        debounce.into(facts, Fact.MONITOR_SILENT, maxUnknown || minUnknown);
        debounce.into(facts, Fact.CELL_OVERVOLTAGE, out.cellMaxV > cellMaxV);
        debounce.into(facts, Fact.CELL_UNDERVOLTAGE, out.cellMinV < cellMinV);
    }

    private static boolean isVoltage(double volts) {
        return volts >= LEAST_V && volts <= Signal.PACK_VOLTAGE_V.max;
    }

    private static boolean isCurrent(double ampere) {
        return ampere >= LEAST_A && ampere <= Signal.PACK_CURRENT_A.max;
    }

    private static boolean unknownCell(double volts) {
        return !(volts >= 0.5 && volts <= 5);
    }

    /**
     * Close to full or empty: by the cells where they are known, by the pack's voltage, and full also by the gauge. On the cable it
     * is full where the charge current bends, which the gauge does not decide; without a plug where regeneration falls.
     */
    private void ends(double packV, TickFacts facts, Debounce debounce, Conditioned out) {
        double fullBackV = debounce.was(Fact.PACK_FULL) ? CELL_HYSTERESIS_V : 0;
        boolean plugged = facts.is(Fact.PLUG_SEEN);
        boolean full = hasCells && out.cellMaxV >= cellHighV - fullBackV
                || packV >= (plugged ? chargedV : fullPack.packFromV())
                || !plugged && out.stateOfCharge >= fullFraction;
        debounce.into(facts, Fact.PACK_FULL, full);
        out.regenShare = fullPack.regenShare(out);
        out.driveRoom = lowPack.room(out);
        lowLeftTicks = out.driveRoom > 1 ? Math.max(0, lowLeftTicks - 1) : lowTicks;
        debounce.into(facts, Fact.PACK_LOW, lowLeftTicks > 0);
    }
}
