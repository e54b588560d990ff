package sprag.bench.hand.commission;

import java.util.List;
import java.util.Set;
import sprag.bench.car.Lever;
import sprag.supervisor.vocabulary.Signal;

/** What a person does with a lever, in words; the same is done to the simulated car. One row each. */
enum LeverAction {
    // @formatter:off
    //               lever             to    words                                                    seen on
    KEY_ON          (Lever.KEY,          1, "turn the key to drive",                                  Signal.KEY_ON),
    KEY_OFF         (Lever.KEY,          0, "turn the key off",                                       Signal.KEY_ON),
    START           (Lever.START,        1, "press the start button and hold it",                     Signal.START_REQUEST),
    START_GO        (Lever.START,        0, "let the start button go",                                Signal.START_REQUEST),
    FORWARD         (Lever.DIRECTION,    1, "put the direction lever to forward",                     Signal.FORWARD_SWITCH),
    REVERSE         (Lever.DIRECTION,   -1, "put the direction lever to reverse",                     Signal.REVERSE_SWITCH),
    NEUTRAL         (Lever.DIRECTION,    0, "put the direction lever to neutral",                     Signal.FORWARD_SWITCH, Signal.REVERSE_SWITCH),
    BRAKE           (Lever.BRAKE,      0.4, "press the brake pedal and hold it",                      Signal.BRAKE_PRESSED),
    BRAKE_GO        (Lever.BRAKE,        0, "let the brake pedal go",                                 Signal.BRAKE_PRESSED),
    PEDAL           (Lever.PEDAL,        1, "press the accelerator pedal fully down and hold it",     Signal.PEDAL_A_V, Signal.PEDAL_B_V),
    PEDAL_GO        (Lever.PEDAL,        0, "take the foot off the accelerator pedal",                Signal.PEDAL_A_V, Signal.PEDAL_B_V),
    RESET           (Lever.SERVICE_RESET,1, "press the service reset button and hold it",             Signal.SERVICE_RESET),
    RESET_GO        (Lever.SERVICE_RESET,0, "let the service reset button go",                        Signal.SERVICE_RESET),
    HEAT            (Lever.HEATER,       1, "ask for cabin heat",                                     Signal.HEATER_REQUEST),
    HEAT_OFF        (Lever.HEATER,       0, "stop asking for cabin heat",                             Signal.HEATER_REQUEST),
    CUT             (Lever.CUT_LOOP,     0, "press the emergency cut-off",                            Signal.CUT_LOOP_CLOSED),
    CUT_BACK        (Lever.CUT_LOOP,     1, "release the emergency cut-off and close the service switch", Signal.CUT_LOOP_CLOSED),
    COVER_OPEN      (Lever.COVER_LOOP,   0, "open one lid or connector of the cover loop",            Signal.COVER_LOOP_CLOSED),
    COVER_SHUT      (Lever.COVER_LOOP,   1, "close every lid and connector of the cover loop",        Signal.COVER_LOOP_CLOSED),
    CRASH           (Lever.CRASH_LOOP,   0, "trip the inertia switch, or open its connector",         Signal.CRASH_LOOP_CLOSED),
    CRASH_BACK      (Lever.CRASH_LOOP,   1, "reset the inertia switch, its connector closed",         Signal.CRASH_LOOP_CLOSED),
    PLUG            (Lever.PLUG,         1, "put a charging connector into the inlet, its cable joined to nothing", Signal.PLUG_PRESENT),
    PLUG_OUT        (Lever.PLUG,         0, "take the charging connector out",                        Signal.PLUG_PRESENT);
    // @formatter:on

    final Lever lever;
    final double to;
    final String words;
    final Set<Signal> seenOn;

    LeverAction(Lever lever, double to, String words, Signal... seenOn) {
        this.lever = lever;
        this.to = to;
        this.words = words;
        this.seenOn = Set.of(seenOn);
    }

    /** Whether somebody must do it: its signals come from the pins, not from the stand-in. */
    boolean isReal(Set<Signal> pins) {
        return seenOn.stream().anyMatch(pins::contains);
    }

    /** The acts that somebody must do, as one sentence; those of the stand-in are done by themselves. */
    static String sentence(List<LeverAction> acts, Set<Signal> pins) {
        List<String> words =
                acts.stream().filter(a -> a.isReal(pins)).map(a -> a.words).toList();
        if (words.isEmpty()) {
            return "nothing to do by hand: what is moved here is simulated";
        }
        return String.join("; ", words);
    }
}
