package sprag.supervisor.input;

/**
 * What the proximity contact says, for both connector families.
 *
 * <pre>
 *   5 V --- 330 ohm ---+--- contact --- plug's resistor --- ground     volts = 5 * R / (R + 330),
 *                      |                                               R = plug's resistor beside 2.7 kohm
 *                      +--- 2.7 kohm --- ground
 * </pre>
 *
 * <p>An open inlet shows 4.46 V; 5 V is a broken wire and no open inlet. In type-1 plugs 150 ohm says latched and 480 ohm
 * says that the latch button is pressed; in type-2 plugs the resistor codes the cable: 1500, 680, 220 and 100 ohm for 13, 20,
 * 32 and 63 A. The nominal values are published; the windows around them are from memory of the two standards.
 */
enum Proximity {
    // @formatter:off
    //               family   from              to                cable
    /** No plug. */
    OPEN            (null,    4.13,             4.78,             0),
    /** Type 1: plug home and latched. Its cable is part of the station, which knows it. */
    LATCHED         ("1",     1.23,             1.82,             Double.POSITIVE_INFINITY),
    /** Type 1: somebody presses the latch button and is about to pull. */
    BUTTON_PRESSED  ("1",     2.38,             3.16,             0),
    /** Type 2, 1500 ohm. */
    CABLE_13_A      ("2",     volts(1100),      volts(2460),      13),
    /** Type 2, 680 ohm. */
    CABLE_20_A      ("2",     volts(400),       volts(936),       20),
    /** Type 2, 220 ohm. */
    CABLE_32_A      ("2",     volts(164),       volts(308),       32),
    /** Type 2, 100 ohm. */
    CABLE_63_A      ("2",     volts(80),        volts(140),       63),
    /** None of these, or not known. */
    INVALID         (null,    Double.NaN,       Double.NaN,       0);
    // @formatter:on

    /** Supply of the proximity network in the car (V). */
    private static final double SUPPLY_V = 5;
    /** From the supply to the proximity contact (ohm). SAE J1772, from memory; gives the published 4.46 V and 1.51 V. */
    private static final double PULL_UP_OHM = 330;
    /** From the proximity contact to ground, in the inlet (ohm). */
    private static final double PULL_DOWN_OHM = 2700;

    private static final Proximity[] VALUES = values();

    private final boolean typeOne;
    private final boolean typeTwo;
    private final double fromV;
    private final double toV;
    /** What the cable can carry (A a.c.); 0 when no charge may run through it. */
    final double cableA;

    Proximity(String family, double fromV, double toV, double cableA) {
        this.typeOne = !"2".equals(family);
        this.typeTwo = !"1".equals(family);
        this.fromV = fromV;
        this.toV = toV;
        this.cableA = cableA;
    }

    /** The voltage at the contact for a resistor in the plug: 150 ohm gives 1.505 V.
     *
     * @param plugOhm the resistor; infinite for an open inlet
     * @return volts
     */
    static double volts(double plugOhm) {
        double downOhm = 1 / (1 / plugOhm + 1 / PULL_DOWN_OHM);
        return SUPPLY_V * downOhm / (downOhm + PULL_UP_OHM);
    }

    /** Whether a voltage lies in this window. */
    boolean fits(double contactV) {
        return contactV >= fromV && contactV <= toV;
    }

    /** What a voltage says.
     *
     * @param contactV voltage at the contact
     * @param ofTypeTwo the inlet's family
     * @return what it says
     */
    static Proximity of(double contactV, boolean ofTypeTwo) {
        for (Proximity row : VALUES) {
            boolean family = ofTypeTwo ? row.typeTwo : row.typeOne;
            if (family && row.fits(contactV)) {
                return row;
            }
        }
        return INVALID;
    }
}
