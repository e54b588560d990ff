package sprag.supervisor.vocabulary;

/**
 * How much regeneration an almost full pack takes. The pack's voltage, its highest cell and its charge each have their own
 * straight line from all to nothing, and the least of the three counts.
 *
 * <pre>
 *                    all of it up to                    nothing from three quarters of the way to
 *   pack voltage     regen.full_fraction * pack.max_v   pack.max_v
 *   highest cell     cell.high_v                        cell.max_v     where it is fitted
 *   charge           regen.full_fraction                1
 * </pre>
 *
 * <p>The last quarter is left for the time in which the current falls. An unknown voltage or charge takes nothing.
 */
public final class FullPack {
    /** How far on the way to the limit nothing is left. Chosen: the rest is for lag and for noise. */
    private static final double END_SHARE = 0.75;

    private final boolean hasCell;
    private final double packFromV;
    private final double packEndV;
    private final double cellFromV;
    private final double cellEndV;
    private final double chargeFrom;
    private final double chargeEnd;

    /** Reads a vehicle's limits.
     *
     * @param settings the vehicle's values
     */
    public FullPack(Settings settings) {
        hasCell = settings.has(Signal.CELL_MAX_V);
        chargeFrom = settings.get(Parameter.REGEN_FULL_FRACTION);
        chargeEnd = end(chargeFrom, 1);
        double packMaxV = settings.get(Parameter.PACK_MAX_V);
        packFromV = from(chargeFrom, packMaxV);
        packEndV = end(packFromV, packMaxV);
        cellFromV = settings.get(Parameter.CELL_HIGH_V);
        cellEndV = end(cellFromV, settings.get(Parameter.CELL_MAX_V));
    }

    /** The pack voltage from which less is taken.
     *
     * @param fraction {@code regen.full_fraction}
     * @param maxV {@code pack.max_v}
     * @return volts
     */
    public static double from(double fraction, double maxV) {
        return fraction * maxV;
    }

    /** Where nothing is left.
     *
     * @param from where less is taken
     * @param limit what must not be passed
     * @return a value between the two
     */
    public static double end(double from, double limit) {
        return from + END_SHARE * (limit - from);
    }

    /** The pack voltage from which less is taken.
     *
     * @return volts
     */
    public double packFromV() {
        return packFromV;
    }

    /** The share of the regeneration that may be taken.
     *
     * @param c the quantities of this tick
     * @return 0 to 1
     */
    public double regenShare(Conditioned c) {
        double share = Bounds.least(
                falling(c.packVoltageV, packFromV, packEndV), falling(c.stateOfCharge, chargeFrom, chargeEnd));
        return hasCell ? Bounds.least(share, falling(c.cellMaxV, cellFromV, cellEndV)) : share;
    }

    /** A straight line from 1 to 0.
     *
     * @param value what is judged
     * @param from 1 up to this
     * @param to 0 from this on
     * @return 0 to 1; 0 when the value is unknown
     */
    public static double falling(double value, double from, double to) {
        if (value <= from) {
            return 1;
        }
        return value < to ? (to - value) / (to - from) : 0;
    }
}
