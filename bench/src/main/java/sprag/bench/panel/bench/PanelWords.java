package sprag.bench.panel.bench;

import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Reset;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;

/** What the supervisor's words mean for somebody at the panel. A switch without default: a new word breaks the build here. */
public final class PanelWords {
    private PanelWords() {}

    /** What is true in a state. */
    public static String of(State state) {
        return switch (state) {
            case OFF -> "Key off, plug out, every contactor open.";
            case IGNITION -> "Key on, every contactor still open.";
            case PRECHARGE -> "The contactors are tested for welds, then the bus is charged through the resistor.";
            case DRIVE_ENABLE -> "The contactors are closed. Torque follows the pedal once it may.";
            case RUNDOWN -> "Torque goes to zero, the contactors open at low current, the bus bleeds down.";
            case CHARGE_LOCKOUT -> "A plug is seen. No torque, whatever else is asked.";
            case FAULT -> "Everything is open and latched until the cause is gone and somebody resets on purpose.";
        };
    }

    /** What happens in a step of the contactors. */
    public static String of(Step step) {
        return switch (step) {
            case IDLE -> "all contactors open";
            case TEST_NEGATIVE -> "weld test: only the precharge relay is closed, the bus must not rise";
            case TEST_PAUSE -> "weld test: all open between the two halves";
            case TEST_POSITIVE -> "weld test: only the negative contactor is closed, the bus must not rise";
            case RAISE_BUS -> "the bus is charged through the resistor";
            case OVERLAP -> "the positive contactor closes, the precharge relay still holds";
            case HOLD -> "contactors closed, bus and pack connected";
            case RAMP_DOWN -> "current goes to zero before anything opens";
            case OPEN_POSITIVE -> "the positive contactor opens first";
            case OPEN_NEGATIVE -> "the negative contactor opens";
            case BLEED -> "all open; the bus bleeds down through its resistor";
        };
    }

    /** What is done about charge. */
    public static String of(ChargePhase phase) {
        return switch (phase) {
            case WAITING -> "Waiting: no offer from the station, or nothing wanted yet.";
            case CHARGING -> "Charging.";
            case ENDING -> "The charge is ending: current goes to zero first.";
            case FINISHED -> "Finished: the pack is full.";
            case REFUSED -> "Refused.";
        };
    }

    /** What a person must do to end a latch.
     *
     * @param reset what the latch takes
     * @param causeThere whether the cause may still be there, so that it must go first
     */
    public static String toReset(Reset reset, boolean causeThere) {
        return switch (reset) {
            case NONE -> "";
            case PEDAL_RELEASE -> "Release the pedal.";
            case BRAKED_RELEASE -> "Release the pedal with the brake pressed.";
            case KEY_CYCLE ->
                (causeThere ? "Remove the cause, then turn" : "Turn") + " the key off (on first, if it is off).";
            case SERVICE ->
                (causeThere ? "Remove the cause, turn" : "Turn") + " the key off, then press the service reset.";
        };
    }

    /** What is missing, as a thing to do where the driver can do it, else as the cause. */
    public static String missing(Interlock row) {
        return switch (row) {
            case BRAKE_NOT_PRESSED -> "Press the brake.";
            case PEDAL_NOT_RELEASED -> "Release the pedal.";
            case START_HELD -> "Let go of Start, then hold it again.";
            case KEY_NEVER_OFF -> "Turn the key off once: the supervisor woke up with the key on.";
            case PEDAL_AT_ENABLE -> "Release the pedal with the brake pressed.";
            case DIRECTION_ROLLING -> "Come to a standstill and release the pedal before changing direction.";
            case DIRECTION_CONFLICT -> "Both direction switches are on, or one is unknown: nobody knows which way.";
            case PEDAL_WITH_BRAKE -> "Pedal and brake are pressed together: release the pedal.";
            default -> sentence(row.cause.toString());
        };
    }

    /** What an interlock that acts brings about. */
    public static String consequence(Interlock row) {
        String until = row.reset == Reset.NONE ? "" : ", until " + row.reset.words;
        return row.response.words + until;
    }

    /** A clause as a sentence. */
    public static String sentence(String clause) {
        return Character.toUpperCase(clause.charAt(0)) + clause.substring(1) + ".";
    }
}
