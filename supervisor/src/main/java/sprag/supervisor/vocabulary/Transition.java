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
    //                  from             to              kind             reason, for people
    KEY_TURNED_ON      (OFF,            IGNITION,       Kind.DRIVER,     "the key was turned on"),
    PLUGGED_WHILE_OFF  (OFF,            CHARGE_LOCKOUT, Kind.PLUG,       "a plug was seen"),
    FAULT_WHILE_OFF    (OFF,            FAULT,          Kind.INTERLOCK,  "a cause that needs service was seen at rest"),

    KEY_TURNED_OFF     (IGNITION,       OFF,            Kind.DRIVER,     "the key was turned off"),
    STARTED            (IGNITION,       PRECHARGE,      Kind.DRIVER,     "start was pressed and nothing was missing"),
    PLUGGED_AT_KEY_ON  (IGNITION,       CHARGE_LOCKOUT, Kind.PLUG,       "a plug was seen"),
    FAULT_AT_KEY_ON    (IGNITION,       FAULT,          Kind.INTERLOCK,  "a cause that needs service was seen before a start"),

    CONNECTED          (PRECHARGE,      DRIVE_ENABLE,   Kind.SEQUENCE,   "the bus is charged and every contactor was asked to close"),
    START_GIVEN_UP     (PRECHARGE,      RUNDOWN,        Kind.INTERLOCK,  "the key was turned off or an interlock asked for a stop"),
    START_FAILED       (PRECHARGE,      FAULT,          Kind.INTERLOCK,  "the weld test or the precharge failed, or an interlock asked for everything to open"),

    KEY_OFF_DRIVING    (DRIVE_ENABLE,   RUNDOWN,        Kind.DRIVER,     "the key was turned off"),
    STOP_DRIVING       (DRIVE_ENABLE,   RUNDOWN,        Kind.INTERLOCK,  "an interlock asked for a stop"),
    OPENED_DRIVING     (DRIVE_ENABLE,   FAULT,          Kind.INTERLOCK,  "an interlock asked for everything to open"),

    RUN_DOWN_KEY_OFF   (RUNDOWN,        OFF,            Kind.SEQUENCE,   "the bus reads as bled down and the key is off"),
    RUN_DOWN_KEY_ON    (RUNDOWN,        IGNITION,       Kind.SEQUENCE,   "the bus reads as bled down and the key is on"),
    RUN_DOWN_PLUGGED   (RUNDOWN,        CHARGE_LOCKOUT, Kind.SEQUENCE,   "the bus reads as bled down and a plug is there"),
    RUN_DOWN_LATCHED   (RUNDOWN,        FAULT,          Kind.SEQUENCE,   "the bus reads as bled down and what stopped the car is latched"),
    OPENED_RUNNING_DOWN(RUNDOWN,        FAULT,          Kind.INTERLOCK,  "an interlock asked for everything to open"),

    UNPLUGGED          (CHARGE_LOCKOUT, OFF,            Kind.PLUG,       "the plug is out and every contactor is asked to open"),
    CHARGE_LATCHED     (CHARGE_LOCKOUT, FAULT,          Kind.SEQUENCE,   "what stopped the charge is latched"),
    OPENED_CHARGING    (CHARGE_LOCKOUT, FAULT,          Kind.INTERLOCK,  "an interlock asked for everything to open"),

    RESET_DONE         (FAULT,          OFF,            Kind.DRIVER,     "the cause is gone and the fault was reset");
    // @formatter:on

    /** What brings a transition about. */
    public enum Kind {
        /** The key, the start button or a reset. */
        DRIVER,
        /** A plug that is put in or taken out. */
        PLUG,
        /** A sequence that has come to its end. */
        SEQUENCE,
        /** An interlock that acts in the same tick; a start may also be given up because the key was turned off. */
        INTERLOCK
    }

    /** The state it leaves. */
    public final State from;
    /** The state it enters. */
    public final State to;
    /** What brings it about. */
    public final Kind kind;
    /** Why it happens, one clause for people. */
    public final String reason;

    Transition(State from, State to, Kind kind, String reason) {
        this.from = from;
        this.to = to;
        this.kind = kind;
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
