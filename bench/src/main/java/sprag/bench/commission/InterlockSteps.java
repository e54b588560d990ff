package sprag.bench.commission;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.function.BooleanSupplier;
import sprag.supervisor.Diagnostics;
import sprag.supervisor.Interlock;
import sprag.supervisor.Output;
import sprag.supervisor.Parameter;
import sprag.supervisor.Response;
import sprag.supervisor.Signal;
import sprag.supervisor.State;

/** Each interlock that hands can set off at the low-voltage side, shown to act in its time. */
final class InterlockSteps {
    private static final long BLOCKED_MS = 1500;
    private static final long LONG_MS = 5000;
    /** What an unplugged pedal shows: its input is pulled up (V). */
    private static final double UNPLUGGED_V = 5;

    private static final long BACK_MS = 30_000;

    private InterlockSteps() {}

    static List<Step> all(Floor f) {
        List<Step> steps = new ArrayList<>();
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

    private static boolean isPossible(Floor f, Provocation way) {
        return way.needs().isEmpty() || way.needs().stream().anyMatch(f.signals()::contains);
    }

    /** The interlocks that are not set off here. */
    static Set<Interlock> missing(Floor f) {
        Set<Interlock> left = EnumSet.allOf(Interlock.class);
        for (Provocation way : Provocation.values()) {
            if (isPossible(f, way)) {
                left.remove(way.row);
            }
        }
        return left;
    }

    private static Step of(Floor f, Provocation way) {
        Interlock row = way.row;
        return new Step(
                Step.idOf("interlock", row.id()),
                Step.Part.INTERLOCKS,
                row.id() + ": " + row.why,
                List.of(way.words()),
                expect(f, way),
                Step.Need.PROVED,
                floor -> switch (way.from) {
                    case READY -> fromReady(floor, way);
                    default -> blocked(floor, way);
                });
    }

    private static String expect(Floor f, Provocation way) {
        double budgetMs = f.vehicle().get(way.row.budget);
        return switch (way.row.response) {
            case BLOCK_START -> "no contactor is asked for, and the blocked start says why";
            case ZERO_TORQUE -> "torque zero within " + Measure.number(budgetMs) + " ms; the contactors stay";
            case OPEN_NOW -> "everything released within " + Measure.number(budgetMs) + " ms";
            default ->
                "torque zero within " + Measure.number(budgetMs) + " ms, everything open within "
                        + Measure.number(budgetMs + SequenceSteps.stopMs(f)) + " ms";
        };
    }

    private static Outcome blocked(Floor f, Provocation way) throws Left {
        Supervised run;
        if (way.from == Provocation.From.KEY) {
            f.ask(Act.KEY_ON);
            f.talk().go("Leave the key on; Enter arms the outputs and wakes the supervisor");
            run = Supervised.wokenAsItIs(f);
            f.simulate(Act.KEY_ON);
        } else {
            run = Supervised.woken(f);
        }
        for (Act act : way.hands) {
            run.act(act);
            f.bed().let(100);
        }
        if (way.from != Provocation.From.HELD) {
            f.bed().let(500);
            run.act(Act.START);
        }
        run.demandNoContactor(BLOCKED_MS);
        Diagnostics seen = run.diagnostics();
        boolean told = seen.isActive(way.row) || seen.lastActedTick(way.row) != Diagnostics.NEVER;
        return told
                ? Outcome.passed("no contactor was asked for in " + BLOCKED_MS + " ms; " + way.row.id() + " says so")
                : Outcome.failed("nothing was asked for, but not because of " + way.row.id() + ": " + run.why());
    }

    private static Outcome fromReady(Floor f, Provocation way) throws Left {
        Supervised run = Supervised.woken(f);
        run.start();
        provoke(f, run, way);
        long sinceMs = f.bed().nowMs();
        double budgetMs = f.vehicle().get(way.row.budget);
        BooleanSupplier acted = () -> run.diagnostics().lastActedTick(way.row) != Diagnostics.NEVER;
        if (f.bed().until(acted, LONG_MS) < 0) {
            return Outcome.failed(way.row.id() + " did not act; state " + run.state() + "; " + run.why());
        }
        List<Measure> measures = new ArrayList<>();
        BooleanSupplier calm = way.row.response == Response.OPEN_NOW
                ? run::coilsReleased
                : () -> run.commands().get(Output.TORQUE_REQUEST_NM) == 0;
        f.await("the reaction", LONG_MS, calm);
        measures.add(new Measure("cause to reaction", f.bed().nowMs() - sinceMs, "ms", 0, budgetMs));
        if (way.row.response == Response.ZERO_TORQUE) {
            return run.isReady() && run.commands().isOn(Output.POSITIVE_CONTACTOR)
                    ? Outcome.judged(way.row.id() + " acted; torque zero, contactors closed", measures)
                    : Outcome.failed("the contactors opened; state " + run.state());
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
        return Outcome.judged(way.row.id() + " acted; state " + words(run, way), measures);
    }

    private static String words(Supervised run, Provocation way) {
        return way == Provocation.CABLE_PULLED
                ? State.FAULT + " follows; the cable is back"
                : run.state().toString();
    }

    /** Sets it off and waits until the pins show the cause. */
    private static void provoke(Floor f, Supervised run, Provocation way) throws Left {
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
            run.act(way.hands.toArray(new Act[0]));
        }
    }

    private static void cableBack(Floor f) throws Left {
        f.bed().let(500);
        boolean open = !f.isRehearsal() || Supervised.COILS.stream().noneMatch(f.loom()::isClosed);
        if (!f.talk().yes("Did every contactor drop out by itself?", open)) {
            throw Left.failed("a contactor stayed closed with the cable out: no pull-down or no watchdog relay");
        }
        f.talk().go("Put the cable in again");
        if (f.isRehearsal()) {
            f.loom().unplug(false);
        }
        f.await("the board answering again", BACK_MS, f.pins()::isConnected);
    }
}
