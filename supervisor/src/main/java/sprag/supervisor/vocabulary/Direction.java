package sprag.supervisor.vocabulary;

/** Which way the driver wants to go. */
public enum Direction {
    /** Neither. */
    NEUTRAL(0),
    /** Forward. */
    FORWARD(1),
    /** Backwards. */
    REVERSE(-1);

    private static final Direction[] VALUES = values();
    /** How many there are. */
    public static final int COUNT = VALUES.length;

    /** The sign that a driving torque has. */
    public final int sign;

    Direction(int sign) {
        this.sign = sign;
    }

    /** The direction with a certain ordinal. It copies no array, so a tick may call it.
     *
     * @param ordinal 0 to {@link #COUNT} - 1
     * @return the direction
     */
    public static Direction of(int ordinal) {
        return VALUES[ordinal];
    }
}
