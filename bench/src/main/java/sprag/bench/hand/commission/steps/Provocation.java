package sprag.bench.hand.commission.steps;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Signal;

/** How a person sets off an interlock without danger: pack absent, at the low-voltage side. One row each. */
enum Provocation {
    // @formatter:off
    //                  interlock                     from         actions
    BRAKE_NOT_PRESSED  (Interlock.BRAKE_NOT_PRESSED,  From.START,  LeverAction.KEY_ON),
    PEDAL_PRESSED      (Interlock.PEDAL_NOT_RELEASED, From.START,  LeverAction.BRAKE_PRESSED, LeverAction.PEDAL_PRESSED, LeverAction.KEY_ON),
    START_HELD         (Interlock.START_HELD,         From.HELD,   LeverAction.BRAKE_PRESSED, LeverAction.START_PRESSED, LeverAction.KEY_ON),
    KEY_LEFT_ON        (Interlock.KEY_NEVER_OFF,      From.KEY,    LeverAction.BRAKE_PRESSED),
    PLUG_IN            (Interlock.PLUG_PRESENT,       From.READY,  LeverAction.PLUG_IN),
    CUT_OFF            (Interlock.CUT_LOOP_OPEN,      From.READY,  LeverAction.CUT_OFF),
    COVER_OPENED       (Interlock.COVER_LOOP_OPEN,    From.READY,  LeverAction.COVER_OPENED),
    INERTIA_SWITCH     (Interlock.CRASH_SEEN,         From.READY,  LeverAction.INERTIA_TRIPPED),
    PEDAL_AND_BRAKE    (Interlock.PEDAL_WITH_BRAKE,   From.READY,  LeverAction.PEDAL_PRESSED),
    PEDAL_UNPLUGGED    (Interlock.PEDAL_OUT_OF_RANGE, From.READY),
    CABLE_PULLED       (Interlock.LINK_LOST,          From.READY);
    // @formatter:on

    /** Where it begins. */
    enum From {
        /** At rest; then the actions are done, and start is pressed. */
        START,
        /** At rest; the actions press start before the key. */
        HELD,
        /** The key is on while the supervisor starts. */
        KEY,
        /** At drive-enable, the brake still pressed. */
        READY
    }

    final Interlock interlock;
    final From from;
    final List<LeverAction> actions;

    Provocation(Interlock interlock, From from, LeverAction... actions) {
        this.interlock = interlock;
        this.from = from;
        this.actions = List.of(actions);
    }

    /** It can be set off with real hands when any of these pins is there; none are needed when it is empty. */
    Set<Signal> needs() {
        return switch (this) {
            case BRAKE_NOT_PRESSED -> EnumSet.of(Signal.BRAKE_PRESSED);
            case PEDAL_PRESSED, PEDAL_AND_BRAKE, PEDAL_UNPLUGGED -> EnumSet.of(Signal.PEDAL_A_V);
            case START_HELD -> EnumSet.of(Signal.START_REQUEST);
            case KEY_LEFT_ON -> EnumSet.of(Signal.KEY_ON);
            case CABLE_PULLED -> EnumSet.noneOf(Signal.class);
            default -> actions.get(0).seenOn;
        };
    }

    /** What the person does. */
    String instruction() {
        return switch (this) {
            case PEDAL_UNPLUGGED -> "pull the connector of the accelerator pedal";
            case CABLE_PULLED -> "pull the board's cable out of the computer";
            case BRAKE_NOT_PRESSED -> "turn the key on and press start, without the brake";
            case PEDAL_PRESSED -> "press brake and accelerator, turn the key on, press start";
            case START_HELD -> "hold start, then turn the key on";
            case KEY_LEFT_ON -> "leave the key on while the supervisor starts, then press start";
            case PEDAL_AND_BRAKE -> "at drive-enable, with the brake still pressed, press the accelerator";
            default -> "at drive-enable, " + actions.get(0).instruction;
        };
    }
}
