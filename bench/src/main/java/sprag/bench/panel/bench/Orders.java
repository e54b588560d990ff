package sprag.bench.panel.bench;

import java.util.List;
import sprag.bench.car.Lever;
import sprag.bench.cli.Numbers;
import sprag.bench.hand.board.DecisiveReading;
import sprag.bench.panel.bench.Note.Kind;
import sprag.bench.panel.session.BoardLink;
import sprag.bench.panel.session.ForcedDevice;
import sprag.bench.scenario.Scenario;
import sprag.hal.Device;
import sprag.hal.Health;
import sprag.supervisor.vocabulary.Signal;

/** Carries out what the page in control wants, between two ticks, on the bench's thread. */
public record Orders(Bench bench, Pace pace, List<Scenario> scenarios) {
    private static final String PERSON = "a person at the panel";

    public Orders {
        scenarios = List.copyOf(scenarios);
    }

    private void note(Kind kind, String what, String cause, String consequence) {
        bench.notes().add(kind, what, cause, consequence);
    }

    private long timeMs() {
        return bench.session().loop.timeMs();
    }

    public void carryOut(Order order, long nowNs) {
        if (order instanceof Order.Move move) {
            move(move);
        } else if (order instanceof Order.Break broken) {
            breakIt(broken);
        } else if (order instanceof Order.Mend mend) {
            mend(mend.fault());
        } else if (order instanceof Order.MendAll) {
            bench.session().loop.present().forEach(this::mend);
        } else if (order instanceof Order.Force force) {
            force(force, nowNs);
        } else if (order instanceof Order.Unforce unforce) {
            bench.session().device.drop(unforce.signal());
            note(Kind.FORCED, unforce.signal().key(), PERSON, "shows again what the wire says");
        } else if (order instanceof Order.Arm arm) {
            arm(arm);
        } else if (order instanceof Order.Disarm && bench.board() != null) {
            bench.board().disarm();
            note(Kind.PANEL, "board", PERSON, "disarmed: its outputs are released");
        } else {
            time(order);
        }
    }

    /** Orders about time itself. A board lives in real time: there they are refused. */
    private void time(Order order) {
        if (bench.board() != null && !(order instanceof Order.Afresh)) {
            note(Kind.PANEL, "time", "a board is attached", "it lives in real time: not done");
        } else if (order instanceof Order.Speed speed) {
            pace.speed(speed.factor());
        } else if (order instanceof Order.Pause pause) {
            pace.pause(pause.on());
        } else if (order instanceof Order.SingleTick) {
            pace.singleTick();
        } else if (order instanceof Order.StopPlaying) {
            bench.stopPlaying();
        } else if (order instanceof Order.Afresh) {
            afresh();
        } else if (order instanceof Order.Play play) {
            play(play.scenario());
        }
    }

    private void move(Order.Move move) {
        Lever lever = move.lever();
        if (bench.playing() != null) {
            note(Kind.LEVER, lever.key(), PERSON, "not moved: a scenario has the levers");
            return;
        }
        double before = bench.session().lever(lever);
        if (before == move.to() && lever.way == Lever.Way.HELD) {
            return;
        }
        bench.session().move(lever, move.to());
        bench.actions().add(new ActionLog.Moved(timeMs(), lever, move.to()));
        if (lever.unit == sprag.supervisor.vocabulary.Unit.SWITCH
                || lever.max - lever.min <= 4 && lever != Lever.PEDAL && lever != Lever.BRAKE) {
            note(Kind.LEVER, lever.key() + " to " + Numbers.text(move.to()), PERSON, "");
        } else if (before == lever.initial || move.to() == lever.initial) {
            String what = move.to() == lever.initial ? " back to " + Numbers.text(lever.initial) : " moved";
            note(Kind.LEVER, lever.key() + what, PERSON, "");
        }
    }

    private void breakIt(Order.Break broken) {
        if (bench.playing() != null) {
            note(Kind.FAULT, broken.fault(), PERSON, "not injected: a scenario has the car");
            return;
        }
        bench.session().loop.inject(broken.fault());
        bench.actions().add(new ActionLog.Broke(timeMs(), broken.fault()));
        note(Kind.FAULT, broken.fault(), PERSON, broken.meaning());
    }

    private void mend(String fault) {
        String name = nameOf(fault);
        boolean there =
                bench.session().loop.present().stream().anyMatch(f -> nameOf(f).equals(name));
        if (there && bench.playing() == null) {
            bench.session().loop.clear(name);
            bench.actions().add(new ActionLog.Mended(timeMs(), name));
            note(Kind.FAULT, name, PERSON, "mended");
        }
    }

    private static String nameOf(String fault) {
        return fault.replaceFirst("=.*", "").strip();
    }

    private void force(Order.Force force, long nowNs) {
        Signal signal = force.signal();
        if (bench.board() != null && bench.board().stage() == BoardLink.Stage.ARMED) {
            note(
                    Kind.FORCED,
                    signal.key(),
                    "the board is armed",
                    "not forced: real outputs would follow an invented reading");
            return;
        }
        boolean anew = !bench.session().device.isForced(signal);
        bench.session().device.force(signal, force.to(), nowNs);
        String reading = Double.isNaN(force.to()) ? "unknown" : Numbers.show(force.to(), signal.unit);
        bench.actions().add(new ActionLog.Other(timeMs(), signal.key() + " forced to " + reading));
        if (anew) {
            note(
                    Kind.FORCED,
                    signal.key(),
                    PERSON,
                    "forced to " + reading + " for " + ForcedDevice.HELD_MS / 1000 + " s");
        }
    }

    private void arm(Order.Arm order) {
        if (bench.board() == null) {
            note(Kind.PANEL, "board", PERSON, "not armed: there is none");
            return;
        }
        String against = againstArming(order);
        if (!against.isEmpty()) {
            note(Kind.PANEL, "board", against, "not armed");
            return;
        }
        Health asked = bench.board().arm();
        note(
                Kind.PANEL,
                "board",
                PERSON + (order.isPackAbsent() ? ", who says: pack disconnected, verified" : ""),
                asked.isWell()
                        ? "armed: its outputs follow the supervisor" + invented()
                        : "not armed: " + asked.reason());
    }

    /** Why real outputs must not be driven now, empty when they may. The page asks the same, and is not relied on. */
    private String againstArming(Order.Arm order) {
        if (bench.session().device.count() > 0) {
            return "signals are forced: let go of them first";
        }
        if (!order.areCautionsTaken()) {
            return "the cautions were not confirmed";
        }
        Device device = bench.board().device();
        boolean needsAbsence = DecisiveReading.needsPackAbsent(device.samples(), device.drives());
        if (needsAbsence && !order.isPackAbsent()) {
            return "real contactors would follow an invented bus voltage: disconnect the pack, verify it, and say so";
        }
        return order.isPackAbsent() ? againstAbsence(device) : "";
    }

    /** A pack that the board's own pins show is not absent, whatever is said. */
    private String againstAbsence(Device device) {
        for (Signal signal : List.of(Signal.PACK_VOLTAGE_V, Signal.BUS_VOLTAGE_V)) {
            if (device.samples().contains(signal)) {
                double volts = bench.session().loop.readings().get(signal);
                String against = DecisiveReading.againstAbsence(signal, volts);
                if (!against.isEmpty()) {
                    return "the pack is said to be absent, but " + against;
                }
            }
        }
        return "";
    }

    private String invented() {
        List<String> invented = DecisiveReading.invented(
                bench.vehicle().settings()::has, bench.board().device().samples());
        return invented.isEmpty() ? "" : "; invented: " + String.join("; ", invented);
    }

    private void afresh() {
        bench.stopPlaying();
        if (bench.board() != null) {
            bench.board().disarm();
        }
        bench.renew();
        note(Kind.PANEL, "new car", PERSON, "key off, nothing broken, nothing latched");
    }

    private void play(String name) {
        if (bench.playing() != null) {
            note(Kind.SCENARIO, name, "another one is played", "not begun: stop that first");
            return;
        }
        scenarios.stream().filter(s -> s.name().equals(name)).findFirst().ifPresent(bench::play);
    }
}
