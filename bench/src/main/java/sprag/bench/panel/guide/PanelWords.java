package sprag.bench.panel.guide;

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
            case OFF -> "Key off, no plug. Every contactor is asked to open.";
            case IGNITION -> "Key on. Every contactor is still asked to open.";
            case PRECHARGE -> "The contactors are tested for welds, then the bus is charged through the resistor.";
            case DRIVE_ENABLE ->
                "The contactors are asked to close. The torque request follows the pedal once nothing forbids it.";
            case RUNDOWN ->
                "The torque request goes to zero, the contactors are asked to open at low current, the bus has to"
                        + " bleed down.";
            case CHARGE_LOCKOUT -> "A plug is seen. No torque is asked for, whatever the pedal does.";
            case FAULT ->
                "Every contactor is asked to open. This is latched: first the cause must go, then somebody must reset"
                        + " it.";
        };
    }

    /** What happens in a step of the contactors. */
    public static String of(Step step) {
        return switch (step) {
            case IDLE -> "every contactor is asked to open";
            case TEST_NEGATIVE -> "weld test: only the precharge relay is asked to close, the bus must not rise";
            case TEST_PAUSE -> "weld test: every contactor is asked to open between the two halves";
            case TEST_POSITIVE -> "weld test: only the negative contactor is asked to close, the bus must not rise";
            case RAISE_BUS -> "the bus is to be charged through the resistor";
            case OVERLAP -> "the positive contactor is asked to close, the precharge relay still holds";
            case HOLD -> "negative and positive contactor are asked to close: bus and pack connected";
            case RAMP_DOWN -> "the current must go to zero before anything opens";
            case OPEN_POSITIVE -> "the positive contactor is asked to open first";
            case OPEN_NEGATIVE -> "then the negative contactor is asked to open";
            case BLEED -> "every contactor is asked to open; the bus must bleed down through its resistor";
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

    /** What is missing, as a thing to do where the driver can do it, else as the cause. */
    public static String missing(Interlock row) {
        return switch (row) {
            case BRAKE_NOT_PRESSED -> DriverAct.PRESS_BRAKE.words;
            case PEDAL_NOT_RELEASED, PEDAL_WITH_BRAKE, PEDAL_STILL -> DriverAct.RELEASE_PEDAL.words;
            case DIRECTION_CONFLICT -> DriverAct.ONE_DIRECTION.words;
            case RESISTOR_SPENT -> "The precharge resistor is still warm: wait until it has cooled.";
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
