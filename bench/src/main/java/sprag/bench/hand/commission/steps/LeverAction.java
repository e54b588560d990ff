package sprag.bench.hand.commission.steps;

import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import sprag.bench.car.Lever;
import sprag.supervisor.vocabulary.Signal;

/** What a person does with a lever, switch or pedal. The same is done to the simulated car. One row each. */
public enum LeverAction {
    // @formatter:off
    //               lever             to    instruction                                              seen on
    KEY_ON          (Lever.KEY,          1, "turn the key to drive",                                  Signal.KEY_ON),
    KEY_OFF         (Lever.KEY,          0, "turn the key off",                                       Signal.KEY_ON),
    START_PRESSED   (Lever.START,        1, "press the start button and hold it",                     Signal.START_REQUEST),
    START_RELEASED  (Lever.START,        0, "release the start button",                               Signal.START_REQUEST),
    FORWARD         (Lever.DIRECTION,    1, "put the direction lever to forward",                     Signal.FORWARD_SWITCH),
    REVERSE         (Lever.DIRECTION,   -1, "put the direction lever to reverse",                     Signal.REVERSE_SWITCH),
    NEUTRAL         (Lever.DIRECTION,    0, "put the direction lever to neutral",                     Signal.FORWARD_SWITCH, Signal.REVERSE_SWITCH),
    BRAKE_PRESSED   (Lever.BRAKE,      0.4, "press the brake pedal and hold it",                      Signal.BRAKE_PRESSED),
    BRAKE_RELEASED  (Lever.BRAKE,        0, "release the brake pedal",                                Signal.BRAKE_PRESSED),
    PEDAL_PRESSED   (Lever.PEDAL,        1, "press the accelerator pedal fully down and hold it",     Signal.PEDAL_A_V, Signal.PEDAL_B_V),
    PEDAL_RELEASED  (Lever.PEDAL,        0, "release the accelerator pedal",                          Signal.PEDAL_A_V, Signal.PEDAL_B_V),
    RESET_PRESSED   (Lever.SERVICE_RESET,1, "press the service reset button and hold it",             Signal.SERVICE_RESET),
    RESET_RELEASED  (Lever.SERVICE_RESET,0, "release the service reset button",                       Signal.SERVICE_RESET),
    HEAT_ON         (Lever.HEATER,       1, "switch the cabin heat on",                               Signal.HEATER_REQUEST),
    HEAT_OFF        (Lever.HEATER,       0, "switch the cabin heat off",                              Signal.HEATER_REQUEST),
    CUT_OFF         (Lever.CUT_LOOP,     0, "press the emergency cut-off",                            Signal.CUT_LOOP_CLOSED),
    CUT_OFF_RELEASED(Lever.CUT_LOOP,     1, "release the emergency cut-off and close the service switch", Signal.CUT_LOOP_CLOSED),
    COVER_OPENED    (Lever.COVER_LOOP,   0, "open one lid or connector of the cover loop",            Signal.COVER_LOOP_CLOSED),
    COVER_CLOSED    (Lever.COVER_LOOP,   1, "close every lid and connector of the cover loop",        Signal.COVER_LOOP_CLOSED),
    INERTIA_TRIPPED (Lever.CRASH_LOOP,   0, "trip the inertia switch, or open its connector",         Signal.CRASH_LOOP_CLOSED),
    INERTIA_RESET   (Lever.CRASH_LOOP,   1, "reset the inertia switch and close its connector",       Signal.CRASH_LOOP_CLOSED),
    PLUG_IN         (Lever.PLUG,         1, "put a charging connector without supply into the inlet", Signal.PLUG_PRESENT),
    PLUG_OUT        (Lever.PLUG,         0, "take the charging connector out",                        Signal.PLUG_PRESENT);
    // @formatter:on

    public final Lever lever;
    public final double to;
    public final String instruction;
    final Set<Signal> seenOn;

    LeverAction(Lever lever, double to, String instruction, Signal... seenOn) {
        this.lever = lever;
        this.to = to;
        this.instruction = instruction;
        this.seenOn = Set.of(seenOn);
    }

    /** The actions that a person must do, one sentence each, without the last full stop. The others are simulated. */
    static String sentences(List<LeverAction> actions, Set<Signal> pins) {
        String sentences = actions.stream()
                .filter(a -> a.seenOn.stream().anyMatch(pins::contains))
                .map(a -> Character.toUpperCase(a.instruction.charAt(0)) + a.instruction.substring(1))
                .collect(Collectors.joining(". "));
        return sentences.isEmpty() ? "Do nothing: what moves here is simulated" : sentences;
    }
}
