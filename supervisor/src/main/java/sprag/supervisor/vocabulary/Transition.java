package sprag.supervisor.vocabulary;

import static sprag.supervisor.vocabulary.State.CHARGE_LOCKOUT;
import static sprag.supervisor.vocabulary.State.DRIVE_ENABLE;
import static sprag.supervisor.vocabulary.State.FAULT;
import static sprag.supervisor.vocabulary.State.IGNITION;
import static sprag.supervisor.vocabulary.State.OFF;
import static sprag.supervisor.vocabulary.State.PRECHARGE;
import static sprag.supervisor.vocabulary.State.RUNDOWN;

import java.util.List;
import java.util.stream.Stream;

/** Every way from one state to another. What is not listed here cannot happen. */
public enum Transition {
    // @formatter:off
    //                  from             to              reason, for people
    KEY_TURNED_ON      (OFF,            IGNITION,       "the key was turned on"),
    PLUGGED_WHILE_OFF  (OFF,            CHARGE_LOCKOUT, "a plug was seen"),
    FAULT_WHILE_OFF    (OFF,            FAULT,          "a cause that needs service was seen at rest"),

    KEY_TURNED_OFF     (IGNITION,       OFF,            "the key was turned off"),
    STARTED            (IGNITION,       PRECHARGE,      "start was pressed and nothing was missing"),
    PLUGGED_AT_KEY_ON  (IGNITION,       CHARGE_LOCKOUT, "a plug was seen"),
    FAULT_AT_KEY_ON    (IGNITION,       FAULT,          "a cause that needs service was seen before a start"),

    CONNECTED          (PRECHARGE,      DRIVE_ENABLE,   "the bus is charged and the contactors are closed"),
    START_GIVEN_UP     (PRECHARGE,      RUNDOWN,        "the key was turned off or an interlock asked for a stop"),
    START_FAILED       (PRECHARGE,      FAULT,          "the weld test or the precharge failed, or an interlock opened everything"),

    KEY_OFF_DRIVING    (DRIVE_ENABLE,   RUNDOWN,        "the key was turned off"),
    STOP_DRIVING       (DRIVE_ENABLE,   RUNDOWN,        "an interlock asked for a stop"),
    OPENED_DRIVING     (DRIVE_ENABLE,   FAULT,          "an interlock opened everything"),

    RUN_DOWN_KEY_OFF   (RUNDOWN,        OFF,            "the bus has bled down and the key is off"),
    RUN_DOWN_KEY_ON    (RUNDOWN,        IGNITION,       "the bus has bled down and the key is on"),
    RUN_DOWN_PLUGGED   (RUNDOWN,        CHARGE_LOCKOUT, "the bus has bled down and a plug is there"),
    RUN_DOWN_LATCHED   (RUNDOWN,        FAULT,          "the bus has bled down and what stopped the car is latched"),
    OPENED_RUNNING_DOWN(RUNDOWN,        FAULT,          "an interlock opened everything"),

    UNPLUGGED          (CHARGE_LOCKOUT, OFF,            "the plug is out and everything is open"),
    CHARGE_LATCHED     (CHARGE_LOCKOUT, FAULT,          "what stopped the charge is latched"),
    OPENED_CHARGING    (CHARGE_LOCKOUT, FAULT,          "an interlock opened everything"),

    RESET_DONE         (FAULT,          OFF,            "the cause is gone and the fault was reset");
    // @formatter:on

    /** The state it leaves. */
    public final State from;
    /** The state it enters. */
    public final State to;
    /** Why it happens, one clause for people. */
    public final String reason;

    Transition(State from, State to, String reason) {
        this.from = from;
        this.to = to;
        this.reason = reason;
    }

    /** Every way out of a state.
     *
     * @param state where the ways begin
     * @return the transitions that leave it, in the order they are written
     */
    public static List<Transition> leaving(State state) {
        return Stream.of(values()).filter(row -> row.from == state).toList();
    }
}
