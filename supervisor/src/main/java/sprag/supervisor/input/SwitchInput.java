package sprag.supervisor.input;

import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** Key, start, lever, brake, loops, permits and the loop about itself: everything that switches alone decide. */
final class SwitchInput {
    private final boolean hasCover;
    private final boolean hasCrash;

    SwitchInput(Settings settings) {
        hasCover = settings.has(Signal.COVER_LOOP_CLOSED);
        hasCrash = settings.has(Signal.CRASH_LOOP_CLOSED);
    }

    void update(Readings in, TickFacts facts, Debounce debounce) {
        if (debounce.isSteady()) {
            return;
        }
        driver(in, facts);
        lever(in, facts);
        loops(in, facts, debounce);
        debounce.into(facts, Fact.DISCHARGE_WITHDRAWN, !in.isOn(Signal.DISCHARGE_PERMIT));
        debounce.into(facts, Fact.CHARGE_WITHDRAWN, !in.isOn(Signal.CHARGE_PERMIT));
    }

    private static void driver(Readings in, TickFacts facts) {
        facts.set(Fact.KEY_ON, in.isOn(Signal.KEY_ON));
        facts.set(Fact.KEY_OFF, in.isOff(Signal.KEY_ON));
        facts.set(Fact.START_REQUESTED, in.isOn(Signal.START_REQUEST));
        facts.set(Fact.START_RELEASED, in.isOff(Signal.START_REQUEST));
        facts.set(Fact.SERVICE_RESET, in.isOn(Signal.SERVICE_RESET));
        facts.set(Fact.BRAKE_PRESSED, in.isOn(Signal.BRAKE_PRESSED));
    }

    private static void lever(Readings in, TickFacts facts) {
        boolean forward = in.isOn(Signal.FORWARD_SWITCH) && in.isOff(Signal.REVERSE_SWITCH);
        boolean reverse = in.isOn(Signal.REVERSE_SWITCH) && in.isOff(Signal.FORWARD_SWITCH);
        boolean neutral = in.isOff(Signal.FORWARD_SWITCH) && in.isOff(Signal.REVERSE_SWITCH);
        Direction asked = forward ? Direction.FORWARD : reverse ? Direction.REVERSE : Direction.NEUTRAL;
        facts.set(Fact.DIRECTION, asked.ordinal());
        facts.set(Fact.DIRECTION_CONFLICT, !forward && !reverse && !neutral);
    }

    private void loops(Readings in, TickFacts facts, Debounce debounce) {
        facts.set(Fact.CUT_LOOP_OPEN, !in.isOn(Signal.CUT_LOOP_CLOSED));
        facts.set(Fact.CRASH_SEEN, hasCrash && in.isOff(Signal.CRASH_LOOP_CLOSED));
        boolean coverOpen = hasCover && !in.isOn(Signal.COVER_LOOP_CLOSED);
        debounce.into(facts, Fact.COVER_LOOP_OPEN, coverOpen);
        debounce.into(facts, Fact.LINK_LOST, !in.isOff(Signal.LINK_LOST));
        debounce.into(facts, Fact.LOOP_LATE, !in.isOff(Signal.LOOP_OVERRUN));
    }
}
