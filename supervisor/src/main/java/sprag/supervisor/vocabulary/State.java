package sprag.supervisor.vocabulary;

/** What the vehicle is doing. The ways from one to another are the rows of {@link Transition}. */
public enum State {
    /** Key off, no plug, everything open. The gauge and an after-running pump may live on. */
    OFF,
    /** Key on, everything still open. The driver is told what is missing for a start. */
    IGNITION,
    /** The contactors are tested for welds, then the bus is charged through the resistor. No torque. */
    PRECHARGE,
    /** The contactors are closed and torque follows the pedal, once it has been seen released with the brake pressed. */
    DRIVE_ENABLE,
    /** Torque goes to zero, contactors open at low current, the bus bleeds down. */
    RUNDOWN,
    /** A plug is seen. No torque whatever else is asked; charging happens here. */
    CHARGE_LOCKOUT,
    /** Everything open and latched, until the cause is gone and somebody resets on purpose. */
    FAULT;

    private static final State[] VALUES = values();
    /** How many there are. */
    public static final int COUNT = VALUES.length;

    /** The state with a certain ordinal. It copies no array, so a tick may call it.
     *
     * @param ordinal 0 to {@link #COUNT} - 1
     * @return the state
     */
    public static State of(int ordinal) {
        return VALUES[ordinal];
    }
}
