package sprag.supervisor.logic;

import sprag.supervisor.vocabulary.Bounds;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Reset;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;

/**
 * Everything that Logic remembers from one tick to the next, and nothing else. It packs into one long, so that two of
 * them can be compared and all of them can be explored.
 */
public final class LogicState {
    /** The most ticks a step can count; longer waits saturate there. */
    public static final int MAX_TICKS = 0xFFFF;

    // Where each part lies in the packed number, from the lowest bit up.
    private static final long KEY_SEEN_ON = 1;
    private static final long START_SEEN_RELEASED = 1 << 1;
    private static final long KEY_SEEN_OFF = 1 << 2;
    private static final int ENGAGED_AT = 3;
    private static final int TORQUE_LATCHED_AT = 5;
    private static final int LATCHED_AT = 8;
    private static final int CHARGE_AT = 11;
    private static final int STEP_AT = 14;
    private static final int STATE_AT = 18;
    private static final int TICKS_AT = 21;

    /** How many of the lowest bits of a packed state hold everything but the count of ticks. */
    public static final int CONTROL_BITS = TICKS_AT;
    /** How many of the lowest bits of a packed state can differ from 0. */
    public static final int BITS = TICKS_AT + Integer.SIZE - Integer.numberOfLeadingZeros(MAX_TICKS);

    /** What a state packs to after power came: off, with nothing seen and nothing latched. */
    static final long AFTER_POWER_CAME = new LogicState().pack();

    static {
        Bounds.counted(Direction.COUNT, 1 << TORQUE_LATCHED_AT - ENGAGED_AT, "directions");
        Bounds.counted(Reset.COUNT, 1 << LATCHED_AT - TORQUE_LATCHED_AT, "resets");
        Bounds.counted(Reset.COUNT, 1 << CHARGE_AT - LATCHED_AT, "resets");
        Bounds.counted(ChargePhase.COUNT, 1 << STEP_AT - CHARGE_AT, "charge phases");
        Bounds.counted(Step.COUNT, 1 << STATE_AT - STEP_AT, "steps");
        Bounds.counted(State.COUNT, 1 << TICKS_AT - STATE_AT, "states");
    }

    /** What the vehicle is doing. */
    public State state = State.OFF;
    /** Where the contactors are. */
    public Step step = Step.IDLE;
    /** How long, in ticks. */
    public int stepTicks;
    /** What is done about charge, while a plug is there. */
    public ChargePhase charge = ChargePhase.WAITING;
    /** What it takes to leave FAULT, or to finish a rundown elsewhere than there. */
    public Reset latched = Reset.NONE;
    /** What it takes to get torque back in DRIVE_ENABLE. */
    public Reset torqueLatched = Reset.NONE;
    /** The direction in which torque drives. */
    public Direction engaged = Direction.NEUTRAL;
    /** The key has been seen off since power came. */
    public boolean keySeenOff;
    /** The start button has been seen released since the key was turned on. */
    public boolean startSeenReleased;
    /** In FAULT: the key has been seen on, so that turning it off is a deliberate act. */
    public boolean keySeenOn;

    /** Starts as after power came: off, with nothing seen and nothing latched. */
    public LogicState() {}

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

    /** Takes over all of another state.
     *
     * @param other where to copy from
     */
    public void copyFrom(LogicState other) {
        state = other.state;
        step = other.step;
        stepTicks = other.stepTicks;
        charge = other.charge;
        latched = other.latched;
        torqueLatched = other.torqueLatched;
        engaged = other.engaged;
        keySeenOff = other.keySeenOff;
        startSeenReleased = other.startSeenReleased;
        keySeenOn = other.keySeenOn;
    }

    /** All of it in one number: equal states give equal numbers and the reverse.
     *
     * @return the packed state
     */
    public long pack() {
        return (long) stepTicks << TICKS_AT
                | (long) state.ordinal() << STATE_AT
                | (long) step.ordinal() << STEP_AT
                | (long) charge.ordinal() << CHARGE_AT
                | (long) latched.ordinal() << LATCHED_AT
                | (long) torqueLatched.ordinal() << TORQUE_LATCHED_AT
                | (long) engaged.ordinal() << ENGAGED_AT
                | (keySeenOff ? KEY_SEEN_OFF : 0)
                | (startSeenReleased ? START_SEEN_RELEASED : 0)
                | (keySeenOn ? KEY_SEEN_ON : 0);
    }

    /** Whether a number can have come from {@link #pack()}: what a memory gives back after power went may be anything.
     *
     * @param packed any number
     * @return false when {@link #unpack} must not be given it
     */
    public static boolean isPacked(long packed) {
        return packed >>> TICKS_AT <= MAX_TICKS
                && (packed >> STATE_AT & 7) < State.COUNT
                && (packed >> STEP_AT & 15) < Step.COUNT
                && (packed >> CHARGE_AT & 7) < ChargePhase.COUNT
                && (packed >> LATCHED_AT & 7) < Reset.COUNT
                && (packed >> TORQUE_LATCHED_AT & 7) < Reset.COUNT
                && (packed >> ENGAGED_AT & 3) < Direction.COUNT;
    }

    /** The state in a packed one, without unpacking the rest.
     *
     * @param packed a number that {@link #pack()} gave
     * @return what the vehicle is doing
     */
    public static State stateOf(long packed) {
        return State.of((int) (packed >> STATE_AT & 7));
    }

    /** Takes over a packed state.
     *
     * @param packed a number that {@link #pack()} gave
     */
    public void unpack(long packed) {
        keySeenOn = (packed & KEY_SEEN_ON) != 0;
        startSeenReleased = (packed & START_SEEN_RELEASED) != 0;
        keySeenOff = (packed & KEY_SEEN_OFF) != 0;
        engaged = Direction.of((int) (packed >> ENGAGED_AT & 3));
        torqueLatched = Reset.of((int) (packed >> TORQUE_LATCHED_AT & 7));
        latched = Reset.of((int) (packed >> LATCHED_AT & 7));
        charge = ChargePhase.of((int) (packed >> CHARGE_AT & 7));
        step = Step.of((int) (packed >> STEP_AT & 15));
        state = stateOf(packed);
        stepTicks = (int) (packed >> TICKS_AT & MAX_TICKS);
    }
}
