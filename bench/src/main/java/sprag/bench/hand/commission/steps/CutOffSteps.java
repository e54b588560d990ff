package sprag.bench.hand.commission.steps;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import sprag.bench.cli.Numbers;
import sprag.bench.hand.commission.record.Measure;
import sprag.bench.hand.commission.record.StepAbandoned;
import sprag.bench.hand.commission.record.StepDescription;
import sprag.bench.hand.commission.record.StepResult;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** What must open every contactor without any program: the emergency cut-off, and the watchdog relay. */
final class CutOffSteps {
    private static final long HOLD_MS = 600;
    private static final long WATCH_MS = 3000;
    /** The slowest watchdog relay that is of use: common practice is 100 to 300 ms. */
    private static final double WATCHDOG_MS = 500;

    private CutOffSteps() {}

    static List<BringUpStep> all(StepContext context) {
        List<BringUpStep> steps = new ArrayList<>();
        if (Contactors.wired(context).isEmpty()) {
            return steps;
        }
        String names = Contactors.wired(context).stream().map(Output::key).collect(Collectors.joining(", "));
        steps.add(step(
                "cut_off.hardware",
                "the emergency cut-off opens every contactor by itself",
                List.of(
                        "Enter closes " + names,
                        LeverAction.CUT_OFF.instruction + " when told; the outputs stay commanded on"),
                Contactors.releaseMs(context),
                "of the loop opening",
                () -> cutOff(context)));
        if (context.wired().outputs().contains(Output.HEARTBEAT)) {
            steps.add(step(
                    "cut_off.watchdog",
                    "the watchdog relay opens every contactor when the heartbeat stops",
                    List.of("Enter closes " + names + ", with the heartbeat beating; then the heartbeat stays high"),
                    WATCHDOG_MS,
                    "of the last beat",
                    () -> watchdog(context)));
        }
        return steps;
    }

    private static BringUpStep step(
            String id, String title, List<String> todo, double withinMs, String since, BringUpStep.Work work) {
        String expect = "every contactor opens within " + Numbers.text(withinMs) + " ms " + since
                + ", though its output is still on";
        return new BringUpStep(
                new StepDescription(id, StepDescription.Part.CUT_OFF, title, todo, expect),
                BringUpStep.Need.ARMED,
                work);
    }

    private static void close(StepContext context) throws StepAbandoned {
        context.console()
                .say(
                        "  CAUTION ",
                        "Every contactor closes at once. The traction battery must be disconnected and locked out. If it"
                                + " is not, stop here.");
        context.console().confirm("Release the cut-off. Keep your hands clear of the contactors");
        context.driver().driveByHand(true);
        Contactors.wired(context).forEach(contactor -> context.driver().set(contactor, 1));
        context.driver().runMs(HOLD_MS);
        for (Signal contact : Contactors.contacts(context)) {
            if (!context.driver().isOn(contact)) {
                throw StepAbandoned.failed(contact.key() + " is not closed though its contactor is commanded");
            }
        }
    }

    private static StepResult cutOff(StepContext context) throws StepAbandoned {
        close(context);
        if (context.signals().contains(Signal.CUT_LOOP_CLOSED)) {
            context.tellNow(LeverAction.CUT_OFF);
            context.await(
                    "cut_loop_closed opening",
                    context.byHandMs(),
                    () -> context.driver().read(Signal.CUT_LOOP_CLOSED) == 0);
        } else {
            context.console().confirm("Press the emergency cut-off");
            context.simulate(LeverAction.CUT_OFF);
        }
        return opened(context, Contactors.releaseMs(context), "after the loop opened");
    }

    private static StepResult watchdog(StepContext context) throws StepAbandoned {
        close(context);
        context.driver().stopBeating();
        return opened(context, WATCHDOG_MS, "after the last beat");
    }

    private static StepResult opened(StepContext context, double withinMs, String since) throws StepAbandoned {
        List<Signal> contacts = Contactors.contacts(context);
        List<Output> contactors = Contactors.wired(context);
        long ms = context.driver()
                .waitFor(() -> contacts.stream().allMatch(c -> context.driver().read(c) == 0), WATCH_MS);
        if (ms < 0) {
            String closed = contacts.stream()
                    .filter(context.driver()::isOn)
                    .map(Signal::key)
                    .collect(Collectors.joining(", "));
            throw StepAbandoned.failed("still closed " + WATCH_MS + " ms " + since + ": " + closed);
        }
        if (contacts.size() < contactors.size()) {
            context.driver().runMs(HOLD_MS);
            boolean open = !context.isRehearsal() || contactors.stream().noneMatch(context.loom()::isClosed);
            if (!context.console().askYesNo("Did every contactor open at once, by itself?", open)) {
                throw StepAbandoned.failed("not every contactor opened");
            }
        }
        if (contacts.isEmpty()) {
            return StepResult.passed("seen by hand; there is no contact to measure with");
        }
        return StepResult.judged(
                contacts.size() + " auxiliary contacts opened while the outputs were still on",
                List.of(new Measure("all open " + since, ms, "ms", 0, withinMs)));
    }
}
