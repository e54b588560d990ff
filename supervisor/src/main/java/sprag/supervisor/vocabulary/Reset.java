package sprag.supervisor.vocabulary;

/** What it takes, besides the cause being gone, to end a response. Weakest first. */
public enum Reset {
    /** Nothing: it ends with its cause. */
    NONE("by itself"),
    /** The pedal is seen released. */
    PEDAL_RELEASE("pedal released"),
    /** The pedal is seen released with the brake pressed. */
    BRAKED_RELEASE("pedal released with the brake pressed"),
    /** The key is turned off, and on before that if it was off. */
    KEY_CYCLE("key off and on"),
    /** The service reset is pressed with the key off, by somebody who has looked. */
    SERVICE("service reset");

    private static final Reset[] VALUES = values();
    /** How many there are. */
    public static final int COUNT = VALUES.length;

    /** The same for people. */
    public final String words;

    Reset(String words) {
        this.words = words;
    }

    /** The reset with a certain ordinal. It copies no array, so a tick may call it.
     *
     * @param ordinal 0 to {@link #COUNT} - 1
     * @return the reset
     */
    public static Reset of(int ordinal) {
        return VALUES[ordinal];
    }

    /** The stronger of two.
     *
     * @param other the other one
     * @return whichever asks for more
     */
    public Reset orStronger(Reset other) {
        return other.ordinal() > ordinal() ? other : this;
    }
}
