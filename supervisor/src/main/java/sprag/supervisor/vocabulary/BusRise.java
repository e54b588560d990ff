package sprag.supervisor.vocabulary;

/**
 * How the rise of the bus is judged while it is charged through the resistor. The supervisor and a program that sizes parts
 * for it use the same figures. They are chosen, not published.
 */
public final class BusRise {
    /** The slope is taken over this many ticks: long against one sample's noise, short against any precharge. */
    public static final int SLOPE_TICKS = 5;
    /** A dead bus counts as live again when it passes {@code bus.discharged_v} by this factor: noise at the limit is no weld. */
    public static final double LIVE_AGAIN = 1.05;

    /** A bus that rises less than this share of the flat limit has stalled. */
    private static final double STALL_SHARE = 0.1;
    /** The share of the slope of a sound precharge at the done fraction, below which it has stalled however slow it is. */
    private static final double SLOW_SHARE = 0.3;

    private BusRise() {}

    /** The slope below which a bus that is not yet charged has stalled.
     *
     * @param flatPerS {@code precharge.flat_fraction}: the slope of a charged bus, as a share of the pack voltage each second
     * @param doneFraction {@code precharge.done_fraction}
     * @param timeConstantS resistance times capacitance
     * @return share of the pack voltage each second
     */
    public static double stallPerS(double flatPerS, double doneFraction, double timeConstantS) {
        return Math.min(flatPerS * STALL_SHARE, (1 - doneFraction) / timeConstantS * SLOW_SHARE);
    }
}
