package sprag.bench.hand.commission;

import java.util.List;
import java.util.Set;
import java.util.function.BooleanSupplier;
import sprag.bench.car.Lever;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Signal;

/**
 * Where a step is done: the pins, whoever answers, the drawing.
 *
 * @param vehicle whose car
 * @param drawing its wiring
 * @param wired what is commissioned
 * @param pins the pins
 * @param loom the same when they are simulated, else null
 * @param bed the pins tick by tick
 * @param talk whoever answers
 */
record StepContext(Vehicle vehicle, Drawing drawing, Wired wired, Pins pins, Loom loom, PinDriver bed, Console talk) {
    private static final long BY_HAND_MS = 60_000;
    private static final long SIMULATED_MS = 2_000;

    boolean isRehearsal() {
        return loom != null;
    }

    /** Asks for acts, waits for Enter, and does them to whatever is simulated. */
    void ask(LeverAction... acts) throws StepAbandoned {
        talk.go(capital(LeverAction.sentence(List.of(acts), wired.signals())));
        simulate(acts);
    }

    /** Says what is to be done now, without waiting for Enter, and does it to whatever is simulated. */
    void now(LeverAction... acts) {
        talk.say("  ! ", "Now " + LeverAction.sentence(List.of(acts), wired.signals()) + ".");
        simulate(acts);
    }

    /** Does acts to the simulated loom and to the stand-in; real hands have been asked. */
    void simulate(LeverAction... acts) {
        for (LeverAction act : acts) {
            move(act.lever, act.to);
        }
    }

    private void move(Lever lever, double to) {
        if (loom != null) {
            loom.move(lever, to);
        }
        if (bed.standIn() != null) {
            bed.standIn().levers().set(lever, to);
        }
    }

    /** Waits while a person acts, who may also leave.
     *
     * @return how long it took (ms)
     * @throws StepAbandoned when it was not seen, or somebody left
     */
    long await(String what, long withinMs, BooleanSupplier seen) throws StepAbandoned {
        long startMs = bed.nowMs();
        while (!seen.getAsBoolean()) {
            if (bed.nowMs() - startMs >= withinMs) {
                throw StepAbandoned.failed(what + " was not seen within " + withinMs + " ms");
            }
            talk.heedUnasked();
            bed.tick();
        }
        return bed.nowMs() - startMs;
    }

    /** How long somebody may take to do what was said; simulated hands need no time. */
    long byHandMs() {
        return isRehearsal() ? SIMULATED_MS : BY_HAND_MS;
    }

    /** Everything back at rest: nothing driven, levers home. */
    void rest() {
        bed.meanLoss(false);
        if (loom != null) {
            loom.rest();
        }
        bed.look();
    }

    Set<Signal> signals() {
        return wired.signals();
    }

    static String capital(String text) {
        return Character.toUpperCase(text.charAt(0)) + text.substring(1);
    }
}
