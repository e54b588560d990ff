package sprag.supervisor.charge;

import sprag.supervisor.vocabulary.Bounds;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.FullPack;
import sprag.supervisor.vocabulary.LowPack;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/**
 * The most direct current that may be asked of the chargers now, apart from the regulation of the voltage.
 *
 * <p>It is {@code charge.current_a} times the least of these shares, and never more than the pack's limit or what the a.c. side
 * allows ({@code allowed current * phases * supply * power factor * efficiency / pack voltage}; 16 A at 230 V with 0.98 and
 * 0.92 make 3318 W, at 100 V 33.2 A):
 *
 * <pre>
 *   coldest place   0 at pack.cold_c and below, pack.cool_share up to pack.cool_c, 1 from 2 K above
 *   warmest place   1 up to charge.warm_c, 0 at charge.hot_c
 *   highest cell    1 up to cell.high_v, 0 three quarters of the way to cell.max_v: it bends the current before it trips
 *   lowest cell     a tenth below cell.min_v (or the pack below pack.min_v), to lift a drained pack gently
 * </pre>
 *
 * <p>A temperature, a cell or a voltage that should be there and is unknown allows nothing.
 */
final class ChargeCeiling {
    /** Above {@code pack.cool_c} the share rises to 1 over this, so that a sensor at the edge does not step the current. */
    private static final double BLEND_K = 2;
    /** Common practice for a drained pack: a tenth of the usual current. */
    private static final double DRAINED_SHARE = 0.1;

    private final boolean hasCellMax;
    private final boolean hasCellMin;
    private final double currentA;
    private final double coldC;
    private final double coolC;
    private final double coolShare;
    private final double warmC;
    private final double hotC;
    private final double cellMinV;
    private final double cellHighV;
    private final double cellEndV;
    private final double packMinV;
    private final double acToDcV;

    ChargeCeiling(Settings settings) {
        hasCellMax = settings.has(Signal.CELL_MAX_V);
        hasCellMin = settings.has(Signal.CELL_MIN_V);
        currentA = Math.min(settings.get(Parameter.CHARGE_CURRENT_A), settings.get(Parameter.PACK_CHARGE_MAX_A));
        coldC = settings.get(Parameter.PACK_COLD_C);
        coolC = settings.get(Parameter.PACK_COOL_C);
        coolShare = settings.get(Parameter.PACK_COOL_SHARE);
        warmC = settings.get(Parameter.CHARGE_WARM_C);
        hotC = settings.get(Parameter.CHARGE_HOT_C);
        cellMinV = settings.get(Parameter.CELL_MIN_V);
        cellHighV = settings.get(Parameter.CELL_HIGH_V);
        cellEndV = FullPack.end(cellHighV, settings.get(Parameter.CELL_MAX_V));
        packMinV = settings.get(Parameter.PACK_MIN_V);
        acToDcV = settings.get(Parameter.INLET_PHASES)
                * settings.get(Parameter.INLET_SUPPLY_V)
                * settings.get(Parameter.CHARGER_POWER_FACTOR)
                * settings.get(Parameter.CHARGER_EFFICIENCY);
    }

    /** The most that is ever asked.
     *
     * @return A d.c.
     */
    double greatestA() {
        return currentA;
    }

    /** The ceiling for this tick.
     *
     * @param c the quantities of this tick
     * @return A d.c., 0 or more, never NaN
     */
    double ampere(Conditioned c) {
        double share = share(c);
        double fromStationA = c.allowedAcA * acToDcV / dividingV(c.packVoltageV);
        double ampere = Bounds.least(currentA * share, fromStationA);
        return ampere > 0 ? ampere : 0;
    }

    /** The share of the greatest current that cells and temperatures allow.
     *
     * @param c the quantities of this tick
     * @return 0 to 1, never NaN
     */
    double share(Conditioned c) {
        return Bounds.least(Bounds.least(cold(c.packColdC), warm(c.packHotC)), Bounds.least(high(c.cellMaxV), low(c)));
    }

    /** The pack's voltage as a divisor of power; not below the least, so that a wrong reading cannot make a current large.
     *
     * @param packV the pack's voltage
     * @return volts, greater than 0; NaN when unknown
     */
    double dividingV(double packV) {
        return Bounds.greatest(packV, packMinV);
    }

    private double cold(double coldestC) {
        if (!(coldestC > coldC)) {
            return 0;
        }
        return coldestC <= coolC
                ? coolShare
                : Bounds.least(coolShare + (1 - coolShare) * (coldestC - coolC) / BLEND_K, 1);
    }

    private double warm(double warmestC) {
        return FullPack.falling(warmestC, warmC, hotC);
    }

    private double high(double highestV) {
        return hasCellMax ? FullPack.falling(highestV, cellHighV, cellEndV) : 1;
    }

    private double low(Conditioned c) {
        boolean packLives = c.packVoltageV >= LowPack.DEAD_SHARE * packMinV;
        boolean cellsLive = !hasCellMin || c.cellMinV >= LowPack.DEAD_SHARE * cellMinV;
        if (!packLives || !cellsLive) {
            return 0; // also when one of them is unknown
        }
        return hasCellMin && c.cellMinV < cellMinV || c.packVoltageV < packMinV ? DRAINED_SHARE : 1;
    }
}
