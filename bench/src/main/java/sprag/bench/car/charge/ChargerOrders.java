package sprag.bench.car.charge;

/** What each charger has been told, by wire or by message. */
public final class ChargerOrders {
    /** Whether it may deliver. */
    public final boolean[] enabled = new boolean[Chargers.MOST];
    /** The direct current that it may give. */
    public final double[] limitA = new double[Chargers.MOST];
    /** The voltage that it must not pass. */
    public final double[] limitV = new double[Chargers.MOST];

    /** No orders yet: no charger may deliver. */
    public ChargerOrders() {}
}
