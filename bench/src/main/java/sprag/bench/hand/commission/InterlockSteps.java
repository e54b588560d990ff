package sprag.bench.hand.commission;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.function.BooleanSupplier;
import sprag.bench.cli.Numbers;
import sprag.supervisor.Diagnostics;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/** Each interlock that hands can set off at the low-voltage side, shown to act in its time. */
final class InterlockSteps {
    private static final long BLOCKED_MS = 1500;
    private static final long LONG_MS = 5000;
    /** What an unplugged pedal shows: its input is pulled up (V). */
    private static final double UNPLUGGED_V = 5;

    private static final long BACK_MS = 30_000;

    private InterlockSteps() {}

    static List<BringUpStep> all(StepContext f) {
        List<BringUpStep> steps = new ArrayList<>();
        if (Supervised.COILS.stream().noneMatch(f.wired().outputs()::contains)) {
            return steps;
        }
        for (Provocation way : Provocation.values()) {
            if (isPossible(f, way)) {
                steps.add(of(f, way));
            }
        }
        return steps;
    }

    private static boolean isPossible(StepContext f, Provocation way) {
        return way.needs().isEmpty() || way.needs().stream().anyMatch(f.signals()::contains);
    }

    /** The interlocks that are not set off here. */
    static Set<Interlock> missing(StepContext f) {
        Set<Interlock> left = EnumSet.allOf(Interlock.class);
        for (Provocation way : Provocation.values()) {
            if (isPossible(f, way)) {
                left.remove(way.row);
            }
        }
        return left;
    }

    private static BringUpStep of(StepContext f, Provocation way) {
        Interlock row = way.row;
        return new BringUpStep(
                BringUpStep.idOf("interlock", row.id()),
                BringUpStep.Part.INTERLOCKS,
                row.id() + ": " + row.why,
                List.of(way.words()),
                expect(f, way),
                BringUpStep.Need.PROVED,
                floor -> switch (way.from) {
                    case READY -> fromReady(floor, way);
                    default -> blocked(floor, way);
                });
    }

    private static String expect(StepContext f, Provocation way) {
        double budgetMs = f.vehicle().get(way.row.budget);
        return switch (way.row.response) {
            case BLOCK_START -> "no contactor is asked for, and the blocked start says why";
            case ZERO_TORQUE -> "torque zero within " + Numbers.text(budgetMs) + " ms; the contactors stay";
            case OPEN_NOW -> "everything released within " + Numbers.text(budgetMs) + " ms";
            default ->
                "torque zero within " + Numbers.text(budgetMs) + " ms, everything open within "
                        + Numbers.text(budgetMs + SequenceSteps.stopMs(f)) + " ms";
        };
    }

    private static StepResult blocked(StepContext f, Provocation way) throws StepAbandoned {
        Supervised run;
        if (way.from == Provocation.From.KEY) {
            f.ask(LeverAction.KEY_ON);
            f.talk().go("Leave the key on; Enter arms the outputs and wakes the supervisor");
            run = Supervised.wokenAsItIs(f);
            f.simulate(LeverAction.KEY_ON);
        } else {
            run = Supervised.woken(f);
        }
        for (LeverAction act : way.hands) {
            run.act(act);
            f.bed().let(100);
        }
        if (way.from != Provocation.From.HELD) {
            f.bed().let(500);
            run.act(LeverAction.START);
        }
        run.demandNoContactor(BLOCKED_MS);
        Diagnostics seen = run.diagnostics();
        boolean told = seen.isActive(way.row) || seen.lastActedTick(way.row) != Diagnostics.NEVER;
        return told
                ? StepResult.passed("no contactor was asked for in " + BLOCKED_MS + " ms; " + way.row.id() + " says so")
                : StepResult.failed("nothing was asked for, but not because of " + way.row.id() + ": " + run.why());
    }

    private static StepResult fromReady(StepContext f, Provocation way) throws StepAbandoned {
        Supervised run = Supervised.woken(f);
        run.start();
        provoke(f, run, way);
        long sinceMs = f.bed().nowMs();
        double budgetMs = f.vehicle().get(way.row.budget);
        BooleanSupplier acted = () -> run.diagnostics().lastActedTick(way.row) != Diagnostics.NEVER;
        if (f.bed().until(acted, LONG_MS) < 0) {
            return StepResult.failed(way.row.id() + " did not act; state " + run.state() + "; " + run.why());
        }
        List<Measure> measures = new ArrayList<>();
        BooleanSupplier calm = way.row.response == Response.OPEN_NOW
                ? run::coilsReleased
                : () -> run.commands().get(Output.TORQUE_REQUEST_NM) == 0;
        f.await("the reaction", LONG_MS, calm);
        measures.add(new Measure("cause to reaction", f.bed().nowMs() - sinceMs, "ms", 0, budgetMs));
        if (way.row.response == Response.ZERO_TORQUE) {
            return run.isReady() && run.commands().isOn(Output.POSITIVE_CONTACTOR)
                    ? StepResult.judged(way.row.id() + " acted; torque zero, contactors closed", measures)
                    : StepResult.failed("the contactors opened; state " + run.state());
        }
        f.await("every contactor released", LONG_MS, run::coilsReleased);
        if (way == Provocation.CABLE_PULLED) {
            cableBack(f);
        } else {
            f.await("every auxiliary contact open", LONG_MS, run::contactsOpen);
        }
        double openMs = way.row.response == Response.OPEN_NOW
                ? budgetMs + OutputSteps.releaseMs(f)
                : budgetMs + SequenceSteps.stopMs(f);
        if (way != Provocation.CABLE_PULLED) {
            measures.add(new Measure("cause to all open", f.bed().nowMs() - sinceMs, "ms", 0, openMs));
        }
        return StepResult.judged(way.row.id() + " acted; state " + words(run, way), measures);
    }

    private static String words(Supervised run, Provocation way) {
        return way == Provocation.CABLE_PULLED
                ? State.FAULT + " follows; the cable is back"
                : run.state().toString();
    }

    /** Sets it off and waits until the pins show the cause. */
    private static void provoke(StepContext f, Supervised run, Provocation way) throws StepAbandoned {
        if (way == Provocation.PEDAL_UNPLUGGED) {
            f.talk().say("  ! ", "Now " + way.words() + ".");
            if (f.isRehearsal()) {
                f.loom().force(Signal.PEDAL_A_V, UNPLUGGED_V);
            }
            double maxV = f.vehicle().get(Parameter.PEDAL_MAX_V);
            double minV = f.vehicle().get(Parameter.PEDAL_MIN_V);
            f.await("pedal_a_v out of its range", f.byHandMs(), () -> {
                double volts = run.readings().get(Signal.PEDAL_A_V);
                return volts > maxV || volts < minV;
            });
        } else if (way == Provocation.CABLE_PULLED) {
            f.bed().meanLoss(true);
            f.talk().say("  ! ", "Now " + way.words() + ".");
            if (f.isRehearsal()) {
                f.loom().unplug(true);
            }
            f.await("the link lost", f.byHandMs(), () -> run.readings().isOn(Signal.LINK_LOST));
        } else {
            run.act(way.hands.toArray(new LeverAction[0]));
        }
    }

    private static void cableBack(StepContext f) throws StepAbandoned {
        f.bed().let(500);
        boolean open = !f.isRehearsal() || Supervised.COILS.stream().noneMatch(f.loom()::isClosed);
        if (!f.talk().yes("Did every contactor drop out by itself?", open)) {
            throw StepAbandoned.failed(
                    "a contactor stayed closed with the cable out: no pull-down or no watchdog relay");
        }
        f.talk().go("Put the cable in again");
        if (f.isRehearsal()) {
            f.loom().unplug(false);
        }
        f.await("the board answering again", BACK_MS, f.pins()::isConnected);
    }
}
