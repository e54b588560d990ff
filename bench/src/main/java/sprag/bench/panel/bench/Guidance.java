package sprag.bench.panel.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import sprag.supervisor.Diagnostics;
import sprag.supervisor.Supervisor;
import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.TorquePermission;

/**
 * Where the vehicle stands and what is missing to go on, in words.
 *
 * @param now what is true
 * @param missing what keeps it from going on, strongest first
 * @param next what to do; empty when there is nothing to do but wait
 */
public record Guidance(String now, List<String> missing, String next) {

    /** Tells where a supervisor stands after its last tick. */
    static Guidance of(Supervisor supervisor) {
        LogicState s = supervisor.state();
        return switch (s.state()) {
            case OFF -> off(supervisor);
            case IGNITION -> ignition(supervisor);
            case PRECHARGE -> new Guidance(PanelWords.sentence(PanelWords.of(s.step())), List.of(), "");
            case DRIVE_ENABLE -> drive(supervisor);
            case RUNDOWN ->
                new Guidance(PanelWords.sentence(PanelWords.of(s.step())), causes(supervisor, Guidance::stops), "");
            case CHARGE_LOCKOUT -> charge(supervisor);
            case FAULT -> fault(supervisor);
        };
    }

    private static Guidance off(Supervisor supervisor) {
        boolean woke = supervisor.facts().is(Fact.KEY_ON);
        List<String> missing = woke ? List.of(PanelWords.missing(Interlock.KEY_NEVER_OFF)) : List.of();
        return new Guidance(
                PanelWords.of(State.OFF), missing, woke ? "" : "Turn the key on to drive, or plug in to charge.");
    }

    private static Guidance ignition(Supervisor supervisor) {
        Diagnostics seen = supervisor.diagnostics();
        List<String> missing = causes(supervisor, seen::blocksStart);
        boolean ready = missing.isEmpty();
        if (ready && !supervisor.state().startSeenReleased()) {
            missing.add(PanelWords.missing(Interlock.START_HELD));
        } else if (ready && seen.isActive(Interlock.BUS_NOT_DISCHARGED)) {
            missing.add(PanelWords.missing(Interlock.BUS_NOT_DISCHARGED));
        }
        return new Guidance(
                PanelWords.of(State.IGNITION), missing, missing.isEmpty() ? "Nothing is missing: press Start." : "");
    }

    private static Guidance drive(Supervisor supervisor) {
        LogicState s = supervisor.state();
        List<String> missing = causes(supervisor, row -> row.response == Response.ZERO_TORQUE && row.cause.isFact());
        boolean neutral = supervisor.facts().direction() == Direction.NEUTRAL;
        if (neutral && missing.isEmpty()) {
            missing.add("Choose a direction.");
        }
        String reset = PanelWords.toReset(s.torqueLatched(), true);
        if (!reset.isEmpty() && !missing.contains(reset)) {
            missing.add(reset);
        }
        if (supervisor.diagnostics().isActive(Interlock.DIRECTION_ROLLING)) {
            missing.add(PanelWords.missing(Interlock.DIRECTION_ROLLING));
        }
        boolean follows = supervisor.permissions().torque == TorquePermission.FOLLOW_PEDAL;
        if (follows) {
            causes(supervisor, row -> row.response == Response.LIMIT).forEach(c -> missing.add("Limited: " + c));
        }
        String now = follows ? "Torque follows the pedal." : "Contactors closed, no torque.";
        return new Guidance(now, missing, follows && missing.isEmpty() ? "Press the pedal." : "");
    }

    private static Guidance charge(Supervisor supervisor) {
        LogicState s = supervisor.state();
        List<String> missing = causes(supervisor, row -> row.response == Response.BLOCK_CHARGE || stops(row));
        boolean running = s.charge() == ChargePhase.CHARGING || s.charge() == ChargePhase.FINISHED;
        return new Guidance(PanelWords.of(s.charge()), missing, running ? "Unplug to drive." : "");
    }

    private static Guidance fault(Supervisor supervisor) {
        List<String> missing = causes(supervisor, Guidance::stops);
        String next = PanelWords.toReset(supervisor.state().latched(), !missing.isEmpty());
        return new Guidance(PanelWords.of(State.FAULT), missing, next);
    }

    private static boolean stops(Interlock row) {
        return row.response == Response.OPEN_NOW || row.response == Response.STOP_THEN_OPEN;
    }

    /** The causes that are there now, of rows that are asked in this state. */
    private static List<String> causes(Supervisor supervisor, Predicate<Interlock> which) {
        List<String> found = new ArrayList<>();
        Diagnostics seen = supervisor.diagnostics();
        for (Interlock row : Interlock.values()) {
            if (seen.isActive(row) && row.where.contains(supervisor.state().state()) && which.test(row)) {
                String words = PanelWords.missing(row);
                if (!found.contains(words)) {
                    found.add(words);
                }
            }
        }
        return found;
    }
}
