package sprag.bench.hand.board;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import sprag.hal.Clock;
import sprag.hal.Health;
import sprag.hal.board.Board;
import sprag.hal.board.InputPin;
import sprag.hal.board.OutputPin;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Signal;

/** Switches one output on for a moment and notes which inputs answer. */
final class Pulse {
    private static final long STEP_NS = 2_000_000;
    private static final long AFTER_NS = 400_000_000;
    private static final long ARM_MS = 2000;

    private final Board board;
    private final Clock clock;
    private final Commands commands = new Commands();
    private final List<String> answers = new ArrayList<>();
    private final Set<Signal> answered = EnumSet.noneOf(Signal.class);
    private final long[] before;

    Pulse(Board board, Clock clock) {
        this.board = board;
        this.clock = clock;
        this.before = new long[board.spec().map().inputs().size()];
    }

    /** Which inputs changed and when, one line each. */
    List<String> answers() {
        return answers;
    }

    /** Arms, drives, releases and disarms; says what went wrong, if anything did. */
    Health give(OutputPin pin, double value, long ms) {
        Health armed = board.arm(ARM_MS);
        if (!armed.isWell()) {
            return armed;
        }
        try {
            for (int i = 0; i < before.length; i++) {
                before[i] = board.raw(i);
            }
            commands.set(pin.output(), value);
            boolean through = hold(ms * 1_000_000, "on");
            commands.release();
            return through && hold(AFTER_NS, "off") ? Health.OK : board.health();
        } finally {
            board.disarm();
        }
    }

    private boolean hold(long forNs, String phase) {
        long startNs = clock.nowNs();
        while (clock.nowNs() - startNs < forNs) {
            board.command(commands, clock.nowNs());
            note(startNs, phase);
            clock.waitUntil(clock.nowNs() + STEP_NS);
            if (!board.health().isWell()) {
                return false;
            }
        }
        return true;
    }

    /** The auxiliary contacts of other contactors that answered: then wires are swapped, or a contact is on the wrong contactor. */
    List<Signal> wrongContacts(OutputPin pin) {
        return DecisiveReading.contacts().stream()
                .filter(contact -> contact != DecisiveReading.contactOf(pin.output()))
                .filter(answered::contains)
                .toList();
    }

    private void note(long startNs, String phase) {
        for (int i = 0; i < before.length; i++) {
            InputPin pin = board.spec().map().inputs().get(i);
            if (pin.kind().twoState && board.raw(i) != before[i]) {
                before[i] = board.raw(i);
                answered.add(pin.signal());
                answers.add(
                        pin.signal().key() + " on " + pin.pin() + " went " + (pin.value(before[i]) == 0 ? "off" : "on")
                                + " " + (clock.nowNs() - startNs) / 1_000_000 + " ms after " + phase);
            }
        }
    }
}
