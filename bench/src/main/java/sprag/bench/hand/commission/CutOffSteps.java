package sprag.bench.hand.commission;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import sprag.bench.cli.Numbers;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** What must open everything without any program: the emergency cut-off, and the watchdog relay. */
final class CutOffSteps {
    private static final List<Output> COILS =
            List.of(Output.NEGATIVE_CONTACTOR, Output.PRECHARGE_RELAY, Output.POSITIVE_CONTACTOR);
    private static final long HOLD_MS = 600;
    private static final long WATCH_MS = 3000;
    /** The slowest watchdog relay that is of use: common practice is 100 to 300 ms. */
    private static final double WATCHDOG_MS = 500;

    private CutOffSteps() {}

    static List<BringUpStep> all(StepContext f) {
        List<BringUpStep> steps = new ArrayList<>();
        List<Output> coils = coils(f);
        if (coils.isEmpty()) {
            return steps;
        }
        String names = String.join(", ", coils.stream().map(Output::key).toList());
        steps.add(new BringUpStep(
                "cut_off.hardware",
                BringUpStep.Part.CUT_OFF,
                "the emergency cut-off opens every contactor by itself",
                List.of("Enter closes " + names, LeverAction.CUT.words + " when told; their commands stay on"),
                "every contactor opens within " + Numbers.text(OutputSteps.releaseMs(f))
                        + " ms of the loop opening, though still commanded",
                BringUpStep.Need.ARMED,
                CutOffSteps::hardware));
        if (f.wired().outputs().contains(Output.HEARTBEAT)) {
            steps.add(new BringUpStep(
                    "cut_off.watchdog",
                    BringUpStep.Part.CUT_OFF,
                    "the watchdog relay opens every contactor when the heartbeat stands still",
                    List.of("Enter closes " + names + " with the heartbeat beating; then the beat stops, high"),
                    "every contactor opens within " + Numbers.text(WATCHDOG_MS) + " ms, though still commanded",
                    BringUpStep.Need.ARMED,
                    CutOffSteps::watchdog));
        }
        return steps;
    }

    private static List<Output> coils(StepContext f) {
        return COILS.stream().filter(f.wired().outputs()::contains).toList();
    }

    private static List<Signal> contacts(StepContext f) {
        return coils(f).stream()
                .map(c -> OutputSteps.aux(f, c))
                .filter(java.util.Objects::nonNull)
                .toList();
    }

    private static void close(StepContext f) throws StepAbandoned {
        f.talk()
                .say(
                        "  CAUTION ",
                        "Every contactor closes at once. The traction battery is absent and locked out, or stop here.");
        f.talk().go("Cut-off released, hands clear of the contactors");
        f.bed().drive(true);
        coils(f).forEach(coil -> f.bed().set(coil, 1));
        f.bed().let(HOLD_MS);
        for (Signal contact : contacts(f)) {
            if (!f.bed().isOn(contact)) {
                throw StepAbandoned.failed(contact.key() + " is not closed though its contactor is commanded");
            }
        }
    }

    private static StepResult hardware(StepContext f) throws StepAbandoned {
        close(f);
        if (f.signals().contains(Signal.CUT_LOOP_CLOSED)) {
            f.now(LeverAction.CUT);
            f.await("cut_loop_closed opening", f.byHandMs(), () -> f.bed().read(Signal.CUT_LOOP_CLOSED) == 0);
        } else {
            f.talk().go(StepContext.capital(LeverAction.CUT.words));
            f.simulate(LeverAction.CUT);
        }
        return opened(f, OutputSteps.releaseMs(f), "after the loop opened");
    }

    private static StepResult watchdog(StepContext f) throws StepAbandoned {
        close(f);
        f.bed().stopBeating();
        return opened(f, WATCHDOG_MS, "after the last beat");
    }

    private static StepResult opened(StepContext f, double withinMs, String since) throws StepAbandoned {
        List<Signal> contacts = contacts(f);
        long ms = f.bed().until(() -> contacts.stream().allMatch(c -> f.bed().read(c) == 0), WATCH_MS);
        if (ms < 0) {
            List<String> closed =
                    contacts.stream().filter(f.bed()::isOn).map(Signal::key).toList();
            throw StepAbandoned.failed("still closed " + WATCH_MS + " ms " + since + ": " + String.join(", ", closed));
        }
        boolean open = !f.isRehearsal() || coils(f).stream().noneMatch(f.loom()::isClosed);
        if (contacts.size() < coils(f).size()) {
            f.bed().let(HOLD_MS);
            open = !f.isRehearsal() || coils(f).stream().noneMatch(f.loom()::isClosed);
            if (!f.talk().yes("Did every contactor drop out at once, by itself?", open)) {
                throw StepAbandoned.failed("not every contactor dropped out");
            }
        }
        List<Measure> measures =
                contacts.isEmpty() ? List.of() : List.of(new Measure("all open " + since, ms, "ms", 0, withinMs));
        return StepResult.judged(
                contacts.isEmpty()
                        ? "seen by whoever did it; no contact to measure by"
                        : Set.copyOf(contacts).size() + " auxiliary contacts seen to open, commands still on",
                measures);
    }
}
