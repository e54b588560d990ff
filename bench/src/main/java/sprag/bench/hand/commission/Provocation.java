package sprag.bench.hand.commission;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Signal;

/** How an interlock is set off without danger, pack absent: only by hand, at the low-voltage side. One row each. */
enum Provocation {
    // @formatter:off
    //                  interlock                     from         hands
    BRAKE_NOT_PRESSED  (Interlock.BRAKE_NOT_PRESSED,  From.START,  LeverAction.KEY_ON),
    PEDAL_PRESSED      (Interlock.PEDAL_NOT_RELEASED, From.START,  LeverAction.BRAKE, LeverAction.PEDAL, LeverAction.KEY_ON),
    START_HELD         (Interlock.START_HELD,         From.HELD,   LeverAction.BRAKE, LeverAction.START, LeverAction.KEY_ON),
    KEY_LEFT_ON        (Interlock.KEY_NEVER_OFF,      From.KEY,    LeverAction.BRAKE),
    PLUG_IN            (Interlock.PLUG_PRESENT,       From.READY,  LeverAction.PLUG),
    CUT_OFF            (Interlock.CUT_LOOP_OPEN,      From.READY,  LeverAction.CUT),
    COVER_OPENED       (Interlock.COVER_LOOP_OPEN,    From.READY,  LeverAction.COVER_OPEN),
    INERTIA_SWITCH     (Interlock.CRASH_SEEN,         From.READY,  LeverAction.CRASH),
    PEDAL_AND_BRAKE    (Interlock.PEDAL_WITH_BRAKE,   From.READY,  LeverAction.PEDAL),
    PEDAL_UNPLUGGED    (Interlock.PEDAL_OUT_OF_RANGE, From.READY),
    CABLE_PULLED       (Interlock.LINK_LOST,          From.READY);
    // @formatter:on

    /** Where it begins. */
    enum From {
        /** At rest; then the hands act, and start is pressed. */
        START,
        /** At rest; the hands press start before the key. */
        HELD,
        /** The key is on while the supervisor wakes. */
        KEY,
        /** At drive-enable, the brake still pressed. */
        READY
    }

    final Interlock row;
    final From from;
    final List<LeverAction> hands;

    Provocation(Interlock row, From from, LeverAction... hands) {
        this.row = row;
        this.from = from;
        this.hands = List.of(hands);
    }

    /** The pins without which it cannot be set off for real; any one of them is enough. */
    Set<Signal> needs() {
        return switch (this) {
            case BRAKE_NOT_PRESSED -> EnumSet.of(Signal.BRAKE_PRESSED);
            case PEDAL_PRESSED, PEDAL_AND_BRAKE, PEDAL_UNPLUGGED -> EnumSet.of(Signal.PEDAL_A_V);
            case START_HELD -> EnumSet.of(Signal.START_REQUEST);
            case KEY_LEFT_ON -> EnumSet.of(Signal.KEY_ON);
            case CABLE_PULLED -> EnumSet.noneOf(Signal.class);
            default -> hands.get(0).seenOn;
        };
    }

    /** What is done, in words. */
    String words() {
        return switch (this) {
            case PEDAL_UNPLUGGED -> "pull the connector of the accelerator pedal";
            case CABLE_PULLED -> "pull the board's cable out of the computer";
            case BRAKE_NOT_PRESSED -> "key on and start without the brake";
            case PEDAL_PRESSED -> "brake and accelerator pressed, key on, start";
            case START_HELD -> "hold start, then turn the key on";
            case KEY_LEFT_ON -> "leave the key on while the supervisor wakes, then start";
            case PEDAL_AND_BRAKE -> "at drive-enable, brake still pressed, press the accelerator";
            default -> "at drive-enable, " + hands.get(0).words;
        };
    }
}
