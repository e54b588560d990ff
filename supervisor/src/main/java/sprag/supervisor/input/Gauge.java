package sprag.supervisor.input;

import sprag.supervisor.vocabulary.Bounds;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/**
 * State of charge and how far it may be off.
 *
 * <p>Charge is counted: {@code change = -I * t / capacity}, of what goes in {@value #CHARGE_EFFICIENCY} (the usual figure for
 * lithium-ion) stays. 100 Ah at 80 % are at 40 % after two hours of 20 A out. Every tick of counting adds what it may be wrong by:
 * {@code gauge.current_error_a} for the sensor and {@code gauge.capacity_error} of the counted charge for the capacity. A current
 * beyond the limits at which the pack trips is more likely a broken wire: it is counted, and all of it is doubted.
 *
 * <p>A rested voltage is a second opinion: the curve at the voltage plus and minus its error gives a least and a greatest state
 * of charge, and the truth is taken to lie in both intervals. Where the curve is flat the second interval is wide, and nothing
 * changes. Voltages are asked at wake-up, with a wide error; after every {@code gauge.rest_min} of low current; and at the end
 * of a charge, when the cells are close to rest at their top. A cell that is being charged stands above its rest, also by the little
 * current at the end of a charge, so that is no rest.
 *
 * <p>It calls itself unsure only when that matters: when the pack may be nearly empty. After a wake-up in the middle of a flat curve
 * it knows little and says nothing.
 */
final class Gauge {
    /** Share of the charge put in that can be taken out again. */
    static final double CHARGE_EFFICIENCY = 0.995;
    /** Above this uncertainty the gauge calls itself unsure, when less than the next share may be left. */
    static final double UNSURE_ABOVE = 0.10;

    static final double NEARLY_EMPTY = 0.15;

    /** Current below which a pack rests, as a share of what would empty it in an hour. */
    private static final double REST_SHARE_PER_H = 0.02;
    /** A sensor at rest may show its error into the pack, and a little more. */
    private static final double REST_ERRORS = 2;
    /** How far from rest a cell may be at wake-up, both ways. */
    private static final double WAKE_ERROR_V = 0.05;
    /** The same when current flows at wake-up, or nobody knows. */
    private static final double LOADED_ERROR_V = 0.25;
    /** How far above its rest a cell is at most at the end of a charge. */
    private static final double CHARGED_ABOVE_REST_V = 0.05;
    /** No correction makes the gauge surer than this. */
    private static final double LEAST_UNCERTAINTY = 0.01;

    private static final double S_PER_H = 3600;

    private final OpenCircuitCurve curve;
    private final double perCell;
    private final double voltageErrorV;
    private final double restA;
    private final double restChargeA;
    private final double fractionPerAmpereTick;
    private final double driftPerTick;
    private final double capacityError;
    private final double dischargeTripA;
    private final double chargeTripA;
    private final double mostPerTick;
    private final int restLimitTicks;

    private double soc = Double.NaN;
    private double uncertainty = 1;
    private int restTicks;
    private boolean wasDone;

    Gauge(Settings settings) {
        double capacityAh = settings.get(Parameter.PACK_CAPACITY_AH);
        curve = new OpenCircuitCurve(settings);
        perCell = 1 / settings.get(Parameter.PACK_CELLS);
        voltageErrorV = settings.get(Parameter.GAUGE_VOLTAGE_ERROR_V);
        restA = REST_SHARE_PER_H * capacityAh;
        restChargeA = Math.min(restA, REST_ERRORS * settings.get(Parameter.GAUGE_CURRENT_ERROR_A));
        fractionPerAmpereTick = settings.tickS() / S_PER_H / capacityAh;
        driftPerTick = settings.get(Parameter.GAUGE_CURRENT_ERROR_A) * fractionPerAmpereTick;
        capacityError = settings.get(Parameter.GAUGE_CAPACITY_ERROR);
        double dischargeMaxA = settings.get(Parameter.PACK_DISCHARGE_MAX_A);
        double chargeMaxA = settings.get(Parameter.PACK_CHARGE_MAX_A);
        double overFactor = settings.get(Parameter.PACK_OVER_FACTOR);
        dischargeTripA = dischargeMaxA * overFactor;
        chargeTripA = chargeMaxA * overFactor;
        mostPerTick = Bounds.greatest(dischargeMaxA, chargeMaxA) * fractionPerAmpereTick;
        restLimitTicks = (int) Math.ceil(settings.get(Parameter.GAUGE_REST_MIN) * 60 / settings.tickS());
    }

    /** Counts one tick.
     *
     * @param c the quantities of this tick; the state of charge is set there
     * @param facts where {@link Fact#GAUGE_UNSURE} is set; {@link Fact#CHARGE_DONE} is read, from the tick before
     */
    void update(Conditioned c, TickFacts facts) {
        boolean done = facts.is(Fact.CHARGE_DONE);
        double cellV = c.packVoltageV * perCell;
        if (soc != soc) {
            wakeUp(c.packCurrentA, cellV);
        } else {
            count(c.packCurrentA);
            rest(c.packCurrentA, cellV);
            if (done && !wasDone) {
                correct(cellV - CHARGED_ABOVE_REST_V - voltageErrorV, cellV + voltageErrorV);
            }
        }
        wasDone = done;
        c.stateOfCharge = soc;
        c.stateOfChargeUncertainty = uncertainty;
        facts.set(Fact.GAUGE_UNSURE, uncertainty > UNSURE_ABOVE && !(soc - uncertainty >= NEARLY_EMPTY));
    }

    private void wakeUp(double outA, double cellV) {
        if (cellV > 0 && cellV < Signal.CELL_MAX_V.max) {
            double errorV = (isRest(outA) ? WAKE_ERROR_V : LOADED_ERROR_V) + voltageErrorV;
            between(curve.fraction(cellV - errorV), curve.fraction(cellV + errorV));
        }
    }

    private void count(double outA) {
        if (!(outA >= Signal.PACK_CURRENT_A.min && outA <= Signal.PACK_CURRENT_A.max)) {
            uncertainty += mostPerTick;
        } else {
            double change = -outA * fractionPerAmpereTick * (outA < 0 ? CHARGE_EFFICIENCY : 1);
            soc = Bounds.share(soc + change);
            uncertainty += driftPerTick + capacityError * Math.abs(change);
            if (outA > dischargeTripA || outA < -chargeTripA) {
                uncertainty += Math.abs(change) + mostPerTick;
            }
        }
        uncertainty = Bounds.least(uncertainty, 1);
    }

    private boolean isRest(double outA) {
        return outA <= restA && outA >= -restChargeA;
    }

    private void rest(double outA, double cellV) {
        restTicks = isRest(outA) ? restTicks + 1 : 0;
        if (restTicks >= restLimitTicks) {
            restTicks = 0;
            correct(cellV - voltageErrorV, cellV + voltageErrorV);
        }
    }

    /** Takes the truth to lie where both opinions overlap; believes the voltage where they do not; else changes nothing. */
    private void correct(double lowV, double highV) {
        if (!(lowV > 0 && highV < Signal.CELL_MAX_V.max)) {
            return;
        }
        double low = curve.fraction(lowV);
        double high = curve.fraction(highV);
        double countedLow = Bounds.greatest(soc - uncertainty, 0);
        double countedHigh = Bounds.least(soc + uncertainty, 1);
        if (high < countedLow || low > countedHigh) {
            between(low, high);
        } else if (low > countedLow || high < countedHigh) {
            between(Bounds.greatest(low, countedLow), Bounds.least(high, countedHigh));
        }
    }

    private void between(double low, double high) {
        double least = Bounds.greatest(low, 0);
        double greatest = Bounds.least(high, 1);
        soc = (least + greatest) / 2;
        uncertainty = Bounds.greatest((greatest - least) / 2, LEAST_UNCERTAINTY);
    }
}
