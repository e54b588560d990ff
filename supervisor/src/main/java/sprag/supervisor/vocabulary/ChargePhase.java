package sprag.supervisor.vocabulary;

/** What a plugged-in vehicle is doing about charge. */
public enum ChargePhase {
    /** Nothing is going on: no plug, no offer from the station, or nothing wanted yet. */
    WAITING,
    /** Contactors close if they must, then current flows. */
    CHARGING,
    /** Current goes to zero, contactors open if they were closed. */
    ENDING,
    /** The pack is full; it stays so until it has fallen by the stated amount. */
    FINISHED,
    /** An interlock refuses the charge. */
    REFUSED;

    private static final ChargePhase[] VALUES = values();
    /** How many there are. */
    public static final int COUNT = VALUES.length;

    /** The phase with a certain ordinal. It copies no array, so a tick may call it.
     *
     * @param ordinal 0 to {@link #COUNT} - 1
     * @return the phase
     */
    public static ChargePhase of(int ordinal) {
        return VALUES[ordinal];
    }
}
