package sprag.bench.hand.commission.steps;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.function.BooleanSupplier;
import java.util.stream.Stream;
import sprag.bench.cli.Numbers;
import sprag.bench.hand.commission.record.Measure;
import sprag.bench.hand.commission.record.StepAbandoned;
import sprag.bench.hand.commission.record.StepDescription;
import sprag.bench.hand.commission.record.StepResult;
import sprag.supervisor.Diagnostics;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/** Each interlock that a person can set off at the low-voltage side must act in its time. */
final class InterlockSteps {
    private static final long BLOCKED_MS = 1500;
    private static final long REACTION_MS = 5000;
    private static final long RECONNECT_MS = 30_000;
    /** What an unplugged pedal shows: its input is pulled up (V). */
    private static final double UNPLUGGED_V = 5;

    private InterlockSteps() {}

    static List<BringUpStep> all(StepContext context) {
        return Contactors.wired(context).isEmpty()
                ? List.of()
                : possible(context).map(way -> of(context, way)).toList();
    }

    private static Stream<Provocation> possible(StepContext context) {
        return Stream.of(Provocation.values())
                .filter(way -> way.needs().isEmpty() || way.needs().stream().anyMatch(context.signals()::contains));
    }

    /** The interlocks that are not set off here. */
    static Set<Interlock> missing(StepContext context) {
        Set<Interlock> missing = EnumSet.allOf(Interlock.class);
        possible(context).forEach(way -> missing.remove(way.interlock));
        return missing;
    }

    private static BringUpStep of(StepContext context, Provocation way) {
        Interlock interlock = way.interlock;
        return new BringUpStep(
                new StepDescription(
                        BringUpStep.idOf("interlock", interlock.id()),
                        StepDescription.Part.INTERLOCKS,
                        interlock.id() + ": " + interlock.why,
                        List.of(way.instruction()),
                        expect(context, interlock)),
                BringUpStep.Need.PROVED,
                () -> way.from == Provocation.From.READY ? fromReady(context, way) : blocked(context, way));
    }

    private static String expect(StepContext context, Interlock interlock) {
        double budgetMs = context.vehicle().get(interlock.budget);
        String within = " within " + Numbers.text(budgetMs) + " ms";
        return switch (interlock.response) {
            case BLOCK_START -> "no contactor is switched on, and the blocked start says why";
            case ZERO_TORQUE -> "torque zero" + within + "; the contactors stay closed";
            case OPEN_NOW -> "everything released" + within;
            default ->
                "torque zero" + within + ", everything open within "
                        + Numbers.text(budgetMs + Contactors.stopMs(context)) + " ms";
        };
    }

    private static StepResult blocked(StepContext context, Provocation way) throws StepAbandoned {
        SupervisedRun run;
        if (way.from == Provocation.From.KEY) {
            context.askFor(LeverAction.KEY_ON);
            context.console().confirm("Leave the key on. Enter then arms the outputs and starts the supervisor");
            run = SupervisedRun.beginAsItIs(context);
            context.simulate(LeverAction.KEY_ON);
        } else {
            run = SupervisedRun.begin(context);
        }
        for (LeverAction action : way.actions) {
            run.perform(action);
            context.driver().runMs(100);
        }
        if (way.from != Provocation.From.HELD) {
            context.driver().runMs(500);
            run.perform(LeverAction.START_PRESSED);
        }
        run.expectNoContactor(BLOCKED_MS);
        String id = way.interlock.id();
        boolean told = run.diagnostics().isActive(way.interlock) || hasActed(run, way.interlock);
        return told
                ? StepResult.passed("no contactor was switched on in " + BLOCKED_MS + " ms; " + id + " says so")
                : StepResult.failed("no contactor was switched on, but not because of " + id + ": " + run.why());
    }

    private static boolean hasActed(SupervisedRun run, Interlock interlock) {
        return run.diagnostics().lastActedTick(interlock) != Diagnostics.NEVER;
    }

    private static StepResult fromReady(StepContext context, Provocation way) throws StepAbandoned {
        SupervisedRun run = SupervisedRun.begin(context);
        run.start();
        provoke(context, run, way);
        long sinceMs = context.driver().nowMs();
        Interlock interlock = way.interlock;
        double budgetMs = context.vehicle().get(interlock.budget);
        if (context.driver().waitFor(() -> hasActed(run, interlock), REACTION_MS) < 0) {
            return StepResult.failed(interlock.id() + " did not act; state " + run.state() + "; " + run.why());
        }
        List<Measure> measures = new ArrayList<>();
        BooleanSupplier reacted = interlock.response == Response.OPEN_NOW
                ? run::isReleased
                : () -> run.commands().get(Output.TORQUE_REQUEST_NM) == 0;
        context.await("the reaction", REACTION_MS, reacted);
        measures.add(new Measure(reaction(context), context.driver().nowMs() - sinceMs, "ms", 0, budgetMs));
        if (interlock.response == Response.ZERO_TORQUE) {
            return run.isDriveEnabled() && run.commands().isOn(Output.POSITIVE_CONTACTOR)
                    ? StepResult.judged(interlock.id() + " acted; torque zero, contactors closed", measures)
                    : StepResult.failed("the contactors opened; state " + run.state());
        }
        context.await("every contactor released", REACTION_MS, run::isReleased);
        if (way == Provocation.CABLE_PULLED) {
            reconnect(context);
            return StepResult.judged(
                    interlock.id() + " acted; state " + State.FAULT + " follows; the cable is back", measures);
        }
        context.await("every auxiliary contact open", REACTION_MS, run::areContactsOpen);
        double openMs = budgetMs
                + (interlock.response == Response.OPEN_NOW
                        ? Contactors.releaseMs(context)
                        : Contactors.stopMs(context));
        measures.add(new Measure("cause to all open", context.driver().nowMs() - sinceMs, "ms", 0, openMs));
        return StepResult.judged(interlock.id() + " acted; state " + run.state(), measures);
    }

    /** The cause is known here when a tick has read it, so 0 is a reaction in the same tick and no faster than that. */
    private static String reaction(StepContext context) {
        return "cause read to reaction, in ticks of " + context.driver().tickMs() + " ms";
    }

    /** Sets it off and waits until the pins show the cause. */
    private static void provoke(StepContext context, SupervisedRun run, Provocation way) throws StepAbandoned {
        if (way == Provocation.PEDAL_UNPLUGGED) {
            context.tellNow(way.instruction());
            if (context.isRehearsal()) {
                context.loom().force(Signal.PEDAL_A_V, UNPLUGGED_V);
            }
            double maxV = context.vehicle().get(Parameter.PEDAL_MAX_V);
            double minV = context.vehicle().get(Parameter.PEDAL_MIN_V);
            context.await("pedal_a_v out of its range", context.byHandMs(), () -> {
                double volts = run.readings().get(Signal.PEDAL_A_V);
                return volts > maxV || volts < minV;
            });
        } else if (way == Provocation.CABLE_PULLED) {
            context.driver().allowLoss(true);
            context.tellNow(way.instruction());
            if (context.isRehearsal()) {
                context.loom().unplug(true);
            }
            context.await(
                    "the link lost", context.byHandMs(), () -> run.readings().isOn(Signal.LINK_LOST));
        } else {
            run.perform(way.actions.toArray(new LeverAction[0]));
        }
    }

    private static void reconnect(StepContext context) throws StepAbandoned {
        context.driver().runMs(500);
        boolean open = !context.isRehearsal() || Contactors.ALL.stream().noneMatch(context.loom()::isClosed);
        if (!context.console().askYesNo("Did every contactor open by itself?", open)) {
            throw StepAbandoned.failed(
                    "a contactor stayed closed with the cable out: no pull-down or no watchdog relay");
        }
        context.console().confirm("Put the cable in again");
        if (context.isRehearsal()) {
            context.loom().unplug(false);
        }
        context.await("an answer of the board", RECONNECT_MS, context.pins()::isConnected);
    }
}
