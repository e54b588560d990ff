package sprag.bench.panel.bench;

import sprag.bench.car.Lever;
import sprag.supervisor.vocabulary.Signal;

/** Something the page in control wants done to the bench. Checked before it is one; done between two ticks. */
public sealed interface Order {
    /** Moves a lever. */
    record Move(Lever lever, double to) implements Order {}

    /**
     * Breaks something.
     *
     * @param fault its name, with a magnitude where it has one
     * @param meaning what it is, for people
     */
    record Break(String fault, String meaning) implements Order {}

    /** Mends something. */
    record Mend(String fault) implements Order {}

    /** Mends everything. */
    record MendAll() implements Order {}

    /** Forces a signal; NaN is unknown. */
    record Force(Signal signal, double to) implements Order {}

    /** Lets go of a forced signal. */
    record Unforce(Signal signal) implements Order {}

    /** Sets how fast time passes. */
    record Speed(double factor) implements Order {}

    /** Stops time or lets it go on. */
    record Pause(boolean on) implements Order {}

    /** Runs one tick while time stands still. */
    record SingleTick() implements Order {}

    /** Puts a new car and a new supervisor in the place of the old. */
    record Afresh() implements Order {}

    /** Plays a scenario on a new car. */
    record Play(String scenario) implements Order {}

    /** Ends a scenario before its end. */
    record StopPlaying() implements Order {}

    /**
     * Lets an attached board drive its outputs.
     *
     * @param isPackAbsent whether the person says that the pack is disconnected and that this was verified
     * @param areCautionsTaken whether the person says to have read and taken every caution
     */
    record Arm(boolean isPackAbsent, boolean areCautionsTaken) implements Order {}

    /** Releases an attached board. */
    record Disarm() implements Order {}
}
