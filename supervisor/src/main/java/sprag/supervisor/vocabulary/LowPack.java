package sprag.supervisor.vocabulary;

/**
 * How much room an almost empty pack has left for drive torque. The pack's voltage and its lowest cell each have their own scale,
 * and the lesser room counts.
 *
 * <pre>
 *                    room 1                            room 0                              the stop
 *   pack voltage     15 % of its range above it        5 % of its range above it           pack.min_v
 *   lowest cell      cell.low_v                        a third of the way up to that       cell.min_v     where it is fitted
 * </pre>
 *
 * <p>With room the torque may grow, with less than none it falls, see {@link #FULL_TORQUE_S}. So the voltage under load comes to
 * rest where the room is 0, whatever the resistance of the cells is on that day, and stays above the stop.
 */
public final class LowPack {
    /**
     * With a room of 1 the whole torque may come within this time, with -1 it must go within it (s). Chosen: the voltage answers
     * within some 0.05 s, and a torque that hurried more would swing around the limit of a very cold pack.
     */
    public static final double FULL_TORQUE_S = 0.7;

    /**
     * Below this share of the least voltage of pack or cell nothing is charged: the reading is lost, a fuse is open, or cells are
     * so far down that charging them may start a fire. Common practice.
     */
    public static final double DEAD_SHARE = 0.5;

    /** The share of the pack's range, from its least voltage, at which the room is 1. Chosen. */
    private static final double FROM_SHARE = 0.15;
    /** The share of each range at which the room is 0. Chosen: the rest is for the lag of a car that speeds up, and for noise. */
    private static final double END_SHARE = 0.05;
    /** The same of the way from a cell's least voltage to its low one. */
    private static final double CELL_END_SHARE = END_SHARE / FROM_SHARE;

    private final boolean hasCell;
    private final double packFromV;
    private final double packEndV;
    private final double cellFromV;
    private final double cellEndV;

    /** Reads a vehicle's limits.
     *
     * @param settings the vehicle's values
     */
    public LowPack(Settings settings) {
        hasCell = settings.has(Signal.CELL_MIN_V);
        double packMinV = settings.get(Parameter.PACK_MIN_V);
        double packMaxV = settings.get(Parameter.PACK_MAX_V);
        packFromV = from(packMinV, packMaxV);
        packEndV = end(packMinV, packMaxV);
        cellFromV = settings.get(Parameter.CELL_LOW_V);
        double cellMinV = settings.get(Parameter.CELL_MIN_V);
        cellEndV = cellMinV + CELL_END_SHARE * (cellFromV - cellMinV);
    }

    /** The pack voltage from which drive torque grows more slowly.
     *
     * @param minV {@code pack.min_v}
     * @param maxV {@code pack.max_v}
     * @return volts
     */
    public static double from(double minV, double maxV) {
        return minV + FROM_SHARE * (maxV - minV);
    }

    /** The pack voltage below which drive torque falls.
     *
     * @param minV {@code pack.min_v}
     * @param maxV {@code pack.max_v}
     * @return volts
     */
    public static double end(double minV, double maxV) {
        return minV + END_SHARE * (maxV - minV);
    }

    /** The room that is left.
     *
     * @param c the quantities of this tick
     * @return 1 where less torque begins, 0 where it falls, negative below; NaN while the pack's voltage is unknown. A cell that is
     *     not known has no say: the pack's voltage guards, and a silent monitor limits by itself
     */
    public double room(Conditioned c) {
        double packRoom = (c.packVoltageV - packEndV) / (packFromV - packEndV);
        double cellRoom = (c.cellMinV - cellEndV) / (cellFromV - cellEndV);
        return hasCell && cellRoom < packRoom ? cellRoom : packRoom;
    }
}
