package sprag.bench.hand.commission.steps;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.BooleanSupplier;
import java.util.function.Function;
import java.util.function.Predicate;
import sprag.bench.car.Lever;
import sprag.bench.hand.commission.pins.Loom;
import sprag.bench.hand.commission.pins.PinDriver;
import sprag.bench.hand.commission.pins.Pins;
import sprag.bench.hand.commission.record.StepAbandoned;
import sprag.bench.review.pins.Drawing;
import sprag.bench.review.pins.Wired;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.board.BoardMap;
import sprag.hal.board.InputPin;
import sprag.hal.board.OutputPin;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/**
 * What a step works with.
 *
 * @param loom the same pins when they are simulated, else null
 * @param onBus whether some of the pins are fields of messages on a data bus
 */
public record StepContext(
        Vehicle vehicle,
        Drawing drawing,
        Wired wired,
        Pins pins,
        Loom loom,
        PinDriver driver,
        Console console,
        boolean onBus) {
    private static final long BY_HAND_MS = 60_000;
    private static final long SIMULATED_MS = 2_000;

    public boolean isRehearsal() {
        return loom != null;
    }

    Set<Signal> signals() {
        return wired.signals();
    }

    /** Pin and wire of an input. */
    String place(Signal signal) {
        BoardMap map = pins.map();
        return place(map == null ? List.of() : map.inputs(), p -> p.signal() == signal, InputPin::pin, signal.key());
    }

    /** Pin and wire of an output. */
    String place(Output output) {
        BoardMap map = pins.map();
        return place(map == null ? List.of() : map.outputs(), p -> p.output() == output, OutputPin::pin, output.key());
    }

    private <P> String place(List<P> mapped, Predicate<P> isIt, Function<P, String> pin, String key) {
        String before = mapped.stream()
                .filter(isIt)
                .map(p -> "pin " + pin.apply(p) + "; ")
                .findFirst()
                .orElse("");
        return before + drawing.wiring(key);
    }

    /** What every switch among the pins reads now. */
    Map<Signal, Double> switches() {
        Map<Signal, Double> levels = new EnumMap<>(Signal.class);
        for (Signal signal : signals()) {
            if (signal.isSwitch()) {
                levels.put(signal, driver.read(signal));
            }
        }
        return levels;
    }

    /** Asks for actions and waits for Enter. Moves the simulated levers too. */
    void askFor(LeverAction... actions) throws StepAbandoned {
        console.confirm(LeverAction.sentences(List.of(actions), signals()));
        simulate(actions);
    }

    /** Asks for actions that must be done at once, without Enter. Moves the simulated levers too. */
    void tellNow(LeverAction... actions) {
        String sentences = LeverAction.sentences(List.of(actions), signals());
        tellNow(Character.toLowerCase(sentences.charAt(0)) + sentences.substring(1));
        simulate(actions);
    }

    void tellNow(String what) {
        console.say("  ! ", "Now " + what + ".");
    }

    /** Moves the levers of the simulated loom and of the stand-in; a person has been asked to move the real ones. */
    void simulate(LeverAction... actions) {
        for (LeverAction action : actions) {
            simulate(action.lever, action.to);
        }
    }

    void simulate(Lever lever, double to) {
        if (loom != null) {
            loom.move(lever, to);
        }
        if (driver.loop() != null) {
            driver.loop().car().levers().set(lever, to);
        }
    }

    /** Waits while a person acts. The person may also skip, fail or stop.
     *
     * @throws StepAbandoned when it was not seen, or the person ended the step
     */
    long await(String what, long withinMs, BooleanSupplier seen) throws StepAbandoned {
        long startMs = driver.nowMs();
        while (!seen.getAsBoolean()) {
            if (driver.nowMs() - startMs >= withinMs) {
                throw StepAbandoned.failed(what + " was not seen within " + withinMs + " ms");
            }
            console.checkUnasked();
            driver.tick();
        }
        return driver.nowMs() - startMs;
    }

    /** How long a person may take to do what was said; simulated hands need no time. */
    long byHandMs() {
        return isRehearsal() ? SIMULATED_MS : BY_HAND_MS;
    }

    /** Everything back at rest: nothing driven, simulated levers as at first. */
    public void rest() {
        driver.allowLoss(false);
        if (loom != null) {
            loom.rest();
        }
        driver.stopDriving();
    }
}
