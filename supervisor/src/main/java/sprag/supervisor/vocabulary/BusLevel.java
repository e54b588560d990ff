package sprag.supervisor.vocabulary;

/** How far the bus is charged. */
public enum BusLevel {
    /** At or below {@code bus.discharged_v}: dead enough to test for welds and to touch nothing by it. */
    DISCHARGED,
    /** In between. Also the answer when the bus or pack voltage is unknown: neither dead nor charged. */
    PARTIAL,
    /** At or above {@code precharge.done_fraction} of the pack voltage, and not far above the pack either. */
    CHARGED;

    private static final BusLevel[] VALUES = values();

    static BusLevel of(int ordinal) {
        return VALUES[ordinal];
    }
}
