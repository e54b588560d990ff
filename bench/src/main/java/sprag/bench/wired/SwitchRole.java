package sprag.bench.wired;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import sprag.bench.drawing.live.CircuitPlan;
import sprag.bench.drawing.live.element.Control;
import sprag.supervisor.vocabulary.Signal;

/** What moves a drawn switch: a word of its name says it, or else the input of the supervisor that it is wired to. */
enum SwitchRole {
    // @formatter:off
    BRAKE    ("brake",     Signal.BRAKE_PRESSED),
    COVER    ("cover",     Signal.COVER_LOOP_CLOSED),
    LID      ("lid",       Signal.COVER_LOOP_CLOSED),
    CRASH    ("crash",     Signal.CRASH_LOOP_CLOSED),
    INERTIA  ("inertia",   Signal.CRASH_LOOP_CLOSED),
    RESET    ("reset",     Signal.SERVICE_RESET),
    START    ("start",     Signal.START_REQUEST),
    DISCHARGE("discharge", Signal.DISCHARGE_PERMIT),
    CHARGE   ("charge",    Signal.CHARGE_PERMIT),
    PLUG     ("plug",      Signal.PLUG_PRESENT),
    HEAT     ("heat",      Signal.HEATER_REQUEST),
    FORWARD  ("forward",   Signal.FORWARD_SWITCH),
    REVERSE  ("reverse",   Signal.REVERSE_SWITCH);
    // @formatter:on

    private final String word;
    private final Signal signal;

    SwitchRole(String word, Signal signal) {
        this.word = word;
        this.signal = signal;
    }

    /** The signal that is on while a switch is closed; empty when nobody knows what moves it. */
    static Optional<Signal> of(CircuitPlan plan, int number) {
        Control control = plan.controls().get(number);
        if (control.kind() == Control.Kind.KEY) {
            return Optional.of(Signal.KEY_ON);
        }
        if (control.kind() == Control.Kind.KEY_START) {
            return Optional.of(Signal.START_REQUEST);
        }
        List<String> words = List.of(control.part().split("[_-]"));
        Optional<Signal> byName = Stream.of(values())
                .filter(role -> words.stream().anyMatch(w -> w.startsWith(role.word)))
                .map(role -> role.signal)
                .findFirst();
        List<String> inputs = plan.inputsBehind(number);
        return byName.or(() -> Stream.of(Signal.values())
                .filter(signal -> inputs.contains(signal.key()))
                .findFirst());
    }
}
