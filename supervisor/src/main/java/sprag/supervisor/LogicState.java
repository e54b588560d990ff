package sprag.supervisor;

/**
 * Everything that Logic remembers from one tick to the next, and nothing else. It packs into one long, so that two of
 * them can be compared and all of them can be explored.
 */
public final class LogicState {
    /** The most ticks a step can count; longer waits saturate there. */
    public static final int MAX_TICKS = 0xFFFF;

    /** What the vehicle is doing. */
    State state = State.OFF;
    /** Where the contactors are. */
    Step step = Step.IDLE;
    /** How long, in ticks. */
    int stepTicks;
    /** What is done about charge, while a plug is there. */
    ChargePhase charge = ChargePhase.WAITING;
    /** What it takes to leave FAULT, or to finish a rundown elsewhere than there. */
    Reset latched = Reset.NONE;
    /** What it takes to get torque back in DRIVE_ENABLE. */
    Reset torqueLatched = Reset.NONE;
    /** The direction in which torque drives. */
    Direction engaged = Direction.NEUTRAL;
    /** The key has been seen off since power came. */
    boolean keySeenOff;
    /** The start button has been seen released since the key was turned on. */
    boolean startSeenReleased;
    /** In FAULT: the key has been seen on, so that turning it off is a deliberate act. */
    boolean keySeenOn;

    /** What the vehicle is doing.
     *
     * @return the state
     */
    public State state() {
        return state;
    }

    /** Where the contactors are in their sequence.
     *
     * @return the step
     */
    public Step step() {
        return step;
    }

    /** How long it has been in the step.
     *
     * @return ticks, at most {@link #MAX_TICKS}
     */
    public int stepTicks() {
        return stepTicks;
    }

    /** What is done about charge.
     *
     * @return the phase
     */
    public ChargePhase charge() {
        return charge;
    }

    /** What it takes to leave FAULT.
     *
     * @return the reset, {@link Reset#NONE} when nothing is latched
     */
    public Reset latched() {
        return latched;
    }

    /** What it takes to get torque back.
     *
     * @return the reset, {@link Reset#NONE} when nothing is latched
     */
    public Reset torqueLatched() {
        return torqueLatched;
    }

    /** The direction in which torque drives.
     *
     * @return the engaged direction
     */
    public Direction engaged() {
        return engaged;
    }

    /** Whether the key has been seen off since power came.
     *
     * @return true once it was
     */
    public boolean keySeenOff() {
        return keySeenOff;
    }

    /** Whether the start button has been seen released since the key was turned on.
     *
     * @return true once it was
     */
    public boolean startSeenReleased() {
        return startSeenReleased;
    }

    /** Enters a step.
     *
     * @param next which one
     */
    void enter(Step next) {
        step = next;
        stepTicks = 0;
    }

    /** All of it in one number: equal states give equal numbers and the reverse.
     *
     * @return the packed state
     */
    public long pack() {
        long bits = stepTicks;
        bits = bits << 3 | state.ordinal();
        bits = bits << 4 | step.ordinal();
        bits = bits << 3 | charge.ordinal();
        bits = bits << 3 | latched.ordinal();
        bits = bits << 3 | torqueLatched.ordinal();
        bits = bits << 2 | engaged.ordinal();
        bits = bits << 1 | (keySeenOff ? 1 : 0);
        bits = bits << 1 | (startSeenReleased ? 1 : 0);
        return bits << 1 | (keySeenOn ? 1 : 0);
    }

    /** Takes over a packed state.
     *
     * @param packed a number that {@link #pack()} gave
     */
    public void unpack(long packed) {
        long bits = packed;
        keySeenOn = (bits & 1) != 0;
        startSeenReleased = (bits >> 1 & 1) != 0;
        keySeenOff = (bits >> 2 & 1) != 0;
        engaged = Direction.of((int) (bits >> 3 & 3));
        torqueLatched = Reset.of((int) (bits >> 5 & 7));
        latched = Reset.of((int) (bits >> 8 & 7));
        charge = ChargePhase.of((int) (bits >> 11 & 7));
        step = Step.of((int) (bits >> 14 & 15));
        state = State.of((int) (bits >> 18 & 7));
        stepTicks = (int) (bits >> 21 & MAX_TICKS);
    }
}
