package sprag.supervisor.vocabulary;

/**
 * Where the contactors are in their sequence, and which of them are closed there. Nothing else says so.
 *
 * <pre>
 *   pack + ---+--- positive contactor ---+--- bus +
 *             +--- precharge relay --R---+
 *   pack - ------- negative contactor ------- bus -
 * </pre>
 */
public enum Step {
    // @formatter:off
    //             negative  precharge  positive
    /** All open and at rest. */
    IDLE          (false,    false,     false),
    /** Weld test: only the precharge relay is closed. A bus that rises says the negative contactor is welded. */
    TEST_NEGATIVE (false,    true,      false),
    /** Weld test: all open again, so that the two halves of the test never overlap. */
    TEST_PAUSE    (false,    false,     false),
    /** Weld test: only the negative contactor is closed. A bus that rises says the positive side is welded. */
    TEST_POSITIVE (true,     false,     false),
    /** The bus is charged through the resistor. */
    RAISE_BUS     (true,     true,      false),
    /** The positive contactor closes while the precharge path still holds. */
    OVERLAP       (true,     true,      true),
    /** Bus and pack are connected. */
    HOLD          (true,     false,     true),
    /** Still connected; torque or charge current goes to zero. */
    RAMP_DOWN     (true,     false,     true),
    /** The positive contactor and the precharge relay open first. */
    OPEN_POSITIVE (true,     false,     false),
    /** Then the negative contactor opens. */
    OPEN_NEGATIVE (false,    false,     false),
    /** All open; the bus bleeds down. */
    BLEED         (false,    false,     false);
    // @formatter:on

    private static final Step[] VALUES = values();
    /** How many there are. */
    public static final int COUNT = VALUES.length;

    /** Whether the negative contactor is closed in this step. */
    public final boolean negativeClosed;
    /** Whether the precharge relay is closed in this step. */
    public final boolean prechargeClosed;
    /** Whether the positive contactor is closed in this step. */
    public final boolean positiveClosed;

    Step(boolean negativeClosed, boolean prechargeClosed, boolean positiveClosed) {
        this.negativeClosed = negativeClosed;
        this.prechargeClosed = prechargeClosed;
        this.positiveClosed = positiveClosed;
    }

    /** The step with a certain ordinal. It copies no array, so a tick may call it.
     *
     * @param ordinal 0 to {@link #COUNT} - 1
     * @return the step
     */
    public static Step of(int ordinal) {
        return VALUES[ordinal];
    }
}
