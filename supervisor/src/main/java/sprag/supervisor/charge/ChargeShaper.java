package sprag.supervisor.charge;

import sprag.supervisor.input.ChargerLines;
import sprag.supervisor.vocabulary.Bounds;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.FullPack;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Permissions;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/**
 * Shapes the charge current: constant current, then constant voltage with taper, shared among the chargers.
 *
 * <pre>
 *   ceiling ----> min ----> less trim ----> less what the silent may give ----> share by rating ----> ramp up / at once down
 *   voltage ------^            ^
 *   regulation                 measured current above what is asked
 * </pre>
 *
 * <p>Chargers regulate their own voltage; this one does too, in case they do not: an integrator takes current away while the
 * pack is above {@code charge.voltage_v}, and between a quarter and three quarters of {@code charge.over_v} above it the current
 * falls to nothing at once. A charger that delivers more than it is asked is asked for less until the measured current fits;
 * the asked current is never raised above the ceiling to make up for one that delivers less. Measured is the greater of what the
 * pack takes and what the chargers say they give.
 *
 * <p>A charger that is not well is asked for nothing. It may not hear that: until it says that it gives less, or until
 * {@code charger.silent_ms} is over, the others get only what it leaves of the total.
 *
 * <p>A charger that can only be switched gives all it has or nothing: it is on while cells, temperatures and voltage allow all. One
 * that nothing controls is told the same, and nobody hears it.
 *
 * <p>Everything falls in the tick in which its reason comes, and rises by {@code charge.ramp_a_per_s} at most.
 */
public final class ChargeShaper {
    /** Time in which the full tolerance above the charge voltage takes the full current away. */
    private static final double VOLTAGE_S = 10;
    /** The voltage regulation stays this share of the greatest current above what is asked, to act without delay. */
    private static final double LEAD_SHARE = 0.1;
    /** The trim takes this many times the chargers' lag, to be stable with it. */
    private static final double TRIM_LAGS = 4;
    /** Share of the ratings while the chargers' temperature should be known and is not. */
    private static final double UNKNOWN_HEAT_SHARE = 0.5;
    /** Keeps a sum of shares from passing its whole by rounding. */
    private static final double ROUNDING = 1 - 1e-12;

    private final ChargeCeiling ceiling;
    private final ChargerLines lines;
    private final boolean takesLimit;
    private final boolean hasTemp;
    private final double[] ratingW = new double[ChargerLines.MOST];
    private final double[] askedA = new double[ChargerLines.MOST];
    private final double[] mayGiveA = new double[ChargerLines.MOST];
    private final int[] silentTicks = new int[ChargerLines.MOST];
    private final int mostSilentTicks;
    private final double warmC;
    private final double hotC;
    private final double voltageV;
    private final double overV;
    private final double voltageGain;
    private final double lagShare;
    private final double trimShare;
    private final double rampA;

    private double fromVoltageA;
    private double expectedA;
    private double trimA;
    private double silentA;

    /** Makes a shaper that asks for no current yet.
     *
     * @param settings the vehicle's values
     */
    public ChargeShaper(Settings settings) {
        ceiling = new ChargeCeiling(settings);
        lines = new ChargerLines(settings);
        takesLimit = settings.is(Parameter.CHARGER_CONTROL, "limited");
        hasTemp = settings.has(Signal.CHARGER_TEMP_V);
        ratingW[0] = settings.get(Parameter.CHARGER_1_MAX_W);
        ratingW[1] = settings.get(Parameter.CHARGER_2_MAX_W);
        ratingW[2] = settings.get(Parameter.CHARGER_3_MAX_W);
        warmC = settings.get(Parameter.CHARGER_WARM_C);
        hotC = settings.get(Parameter.CHARGER_HOT_C);
        voltageV = Math.min(settings.get(Parameter.CHARGE_VOLTAGE_V), settings.get(Parameter.PACK_MAX_V));
        overV = settings.get(Parameter.CHARGE_OVER_V);
        double tickS = settings.tickS();
        voltageGain = ceiling.greatestA() / (overV * VOLTAGE_S) * tickS;
        double lagS = settings.get(Parameter.CHARGER_LAG_MS) / 1000;
        lagShare = Bounds.least(tickS / lagS, 1);
        trimShare = Bounds.least(tickS / (TRIM_LAGS * lagS), 1);
        mostSilentTicks = (int) Math.ceil(settings.get(Parameter.CHARGER_SILENT_MS) / 1000 / tickS);
        rampA = settings.get(Parameter.CHARGE_RAMP_A_PER_S) * tickS;
    }

    /** Sets the charge commands for one tick.
     *
     * @param p what is permitted
     * @param c the quantities of this tick
     * @param in the readings
     * @param out where the commands are set
     */
    public void shape(Permissions p, Conditioned c, Readings in, Commands out) {
        if (!p.charging || !takesLimit && !mayHaveAll(c)) {
            rest(out);
            return;
        }
        if (!takesLimit) {
            out.set(Output.CHARGER_ENABLE, true);
            out.set(Output.CHARGE_CURRENT_LIMIT_A, ceiling.greatestA());
            out.set(Output.CHARGE_VOLTAGE_LIMIT_V, voltageV);
            return;
        }
        double ceilingA = ceiling.ampere(c);
        double byVoltageA = regulate(c.packVoltageV);
        double capA = Bounds.least(ceilingA, byVoltageA);
        trim(capA, flowsA(-c.packCurrentA, lines.sumA(in)));
        double wantedA = Bounds.greatest(capA - trimA, 0);
        double totalA = share(wantedA, in, c);
        out.set(Output.CHARGER_ENABLE, true);
        out.set(Output.CHARGE_CURRENT_LIMIT_A, totalA);
        out.set(Output.CHARGE_VOLTAGE_LIMIT_V, voltageV);
        for (int i = 0; i < ChargerLines.MOST; i++) {
            out.set(ChargerLines.limit(i), askedA[i]);
        }
    }

    /** Whether nothing asks for less than all that the chargers have; the meter lets a charge that ended so rest for a while. */
    private boolean mayHaveAll(Conditioned c) {
        boolean cool = !hasTemp || heatShare(c.chargerTempC) >= 1;
        return cool && ceiling.share(c) >= 1 && c.packVoltageV < voltageV + overV * 3 / 4;
    }

    private void rest(Commands out) {
        fromVoltageA = 0;
        expectedA = 0;
        trimA = 0;
        silentA = 0;
        out.set(Output.CHARGER_ENABLE, false);
        out.set(Output.CHARGE_CURRENT_LIMIT_A, 0);
        out.set(Output.CHARGE_VOLTAGE_LIMIT_V, 0);
        for (int i = 0; i < ChargerLines.MOST; i++) {
            askedA[i] = 0;
            mayGiveA[i] = 0;
            out.set(ChargerLines.limit(i), 0);
        }
    }

    /** What the voltage allows; nothing while it is unknown. The integrator follows what is asked, so that it never winds up. */
    private double regulate(double packV) {
        double belowV = voltageV - packV;
        if (!(belowV > Double.NEGATIVE_INFINITY && belowV < Double.POSITIVE_INFINITY)) {
            return 0;
        }
        double greatestA = ceiling.greatestA();
        double beforeTrimA = askedA[0] + askedA[1] + askedA[2] + silentA + trimA;
        double mostA = Bounds.least(beforeTrimA + LEAD_SHARE * greatestA, greatestA);
        fromVoltageA = Bounds.least(Bounds.greatest(fromVoltageA + voltageGain * belowV, 0), mostA);
        double atOnce = FullPack.falling(packV, voltageV + overV / 4, voltageV + overV * 3 / 4);
        return Bounds.least(fromVoltageA, greatestA * atOnce);
    }

    /** Charge current above what was asked, allowing for the chargers' lag on the way down, adds up; less takes it back. */
    private void trim(double capA, double intoPackA) {
        expectedA = capA >= expectedA ? capA : expectedA + (capA - expectedA) * lagShare;
        double overA = intoPackA - expectedA;
        if (overA == overA) {
            trimA = Bounds.least(Bounds.greatest(trimA + overA * trimShare, 0), capA);
        }
    }

    /** The greater of two measures of the charge current; the chargers' own when the pack's is unknown. */
    private static double flowsA(double intoPackA, double chargersA) {
        return intoPackA > chargersA ? intoPackA : chargersA;
    }

    /** What the chargers that are not well may still give together. Each of them is asked for nothing from now on. */
    private double mayGiveA(Readings in) {
        double sumA = 0;
        for (int i = 0; i < ChargerLines.MOST; i++) {
            double saysA = lines.currentA(i, in);
            if (lines.well(i, in)) {
                mayGiveA[i] = flowsA(saysA, askedA[i]);
                silentTicks[i] = 0;
            } else if (saysA == saysA) {
                mayGiveA[i] = saysA;
                sumA += saysA;
            } else if (silentTicks[i] < mostSilentTicks) {
                silentTicks[i]++;
                sumA += mayGiveA[i];
            }
        }
        return sumA;
    }

    /** Shares a current among the chargers that are well, and gives what they are asked together. */
    private double share(double wantedA, Readings in, Conditioned c) {
        double heat = hasTemp ? heatShare(c.chargerTempC) : 1;
        double wellW = 0;
        for (int i = 0; i < ChargerLines.MOST; i++) {
            wellW += lines.well(i, in) ? ratingW[i] : 0;
        }
        silentA = mayGiveA(in);
        double leftA = Bounds.greatest(wantedA - silentA, 0);
        double ratedA = wellW * heat / ceiling.dividingV(c.packVoltageV);
        double totalA = Bounds.least(leftA, ratedA) * ROUNDING;
        double sumA = 0;
        for (int i = 0; i < ChargerLines.MOST; i++) {
            double part = lines.well(i, in) && wellW > 0 ? ratingW[i] / wellW : 0;
            double targetA = totalA > 0 ? totalA * part : 0;
            askedA[i] = Bounds.least(targetA, askedA[i] + rampA * part);
            sumA += askedA[i];
        }
        return sumA;
    }

    private double heatShare(double chargerC) {
        return chargerC == chargerC ? FullPack.falling(chargerC, warmC, hotC) : UNKNOWN_HEAT_SHARE;
    }
}
