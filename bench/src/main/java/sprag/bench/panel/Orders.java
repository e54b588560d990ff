package sprag.bench.panel;

import java.util.List;
import sprag.bench.car.FaultSpec;
import sprag.bench.car.Lever;
import sprag.bench.cli.Numbers;
import sprag.bench.panel.Note.Kind;
import sprag.bench.scenario.Scenario;
import sprag.hal.Health;
import sprag.supervisor.vocabulary.Signal;

/** Carries out what the page in control wants, between two ticks, on the bench's thread. */
final class Orders {
    private static final long NS_PER_MS = 1_000_000;
    private static final String PERSON = "a person at the panel";

    private final BenchThread bench;
    private final List<Scenario> scenarios;

    Orders(BenchThread bench, List<Scenario> scenarios) {
        this.bench = bench;
        this.scenarios = List.copyOf(scenarios);
    }

    void carryOut(Order order, long nowNs) {
        if (order instanceof Order.Move move) {
            move(move);
        } else if (order instanceof Order.Break broken) {
            breakIt(broken.fault());
        } else if (order instanceof Order.Mend mend) {
            mend(mend.fault());
        } else if (order instanceof Order.MendAll) {
            bench.plant().car.faults().present().forEach(fault -> mend(fault.name()));
        } else if (order instanceof Order.Force force) {
            force(force, nowNs);
        } else if (order instanceof Order.Unforce unforce) {
            bench.plant().device.drop(unforce.signal());
            bench.notes().add(Kind.FORCED, unforce.signal().key(), PERSON, "shows again what the wire says");
        } else if (order instanceof Order.Arm) {
            arm();
        } else if (order instanceof Order.Disarm && bench.board() != null) {
            bench.board().disarm();
            bench.notes().add(Kind.PANEL, "board", PERSON, "disarmed: its outputs are released");
        } else {
            time(order);
        }
    }

    /** Orders about time itself. A board lives in real time: there they are refused. */
    private void time(Order order) {
        if (bench.board() != null && !(order instanceof Order.Afresh)) {
            bench.notes().add(Kind.PANEL, "time", "a board is attached", "it lives in real time: not done");
        } else if (order instanceof Order.Speed speed) {
            bench.speed(speed.factor());
        } else if (order instanceof Order.Pause pause) {
            bench.pause(pause.on());
        } else if (order instanceof Order.SingleTick) {
            bench.singleTick();
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
        Plant plant = bench.plant();
        if (bench.isPlaying()) {
            bench.notes().add(Kind.LEVER, lever.key(), PERSON, "not moved: a scenario has the levers");
            return;
        }
        double before = plant.car.levers().get(lever);
        if (before == move.to() && lever.way == Lever.Way.HELD) {
            return;
        }
        plant.car.levers().set(lever, move.to());
        bench.doings().add(new ActionLog.Moved(plant.timeMs(), lever, move.to()));
        if (lever.unit == sprag.supervisor.vocabulary.Unit.SWITCH
                || lever.max - lever.min <= 4 && lever != Lever.PEDAL && lever != Lever.BRAKE) {
            bench.notes().add(Kind.LEVER, lever.key() + " to " + Numbers.text(move.to()), PERSON, "");
        } else if (before == lever.initial || move.to() == lever.initial) {
            String what = move.to() == lever.initial ? " back to " + Numbers.text(lever.initial) : " moved";
            bench.notes().add(Kind.LEVER, lever.key() + what, PERSON, "");
        }
    }

    private void breakIt(FaultSpec fault) {
        Plant plant = bench.plant();
        if (bench.isPlaying()) {
            bench.notes().add(Kind.FAULT, fault.name(), PERSON, "not injected: a scenario has the car");
            return;
        }
        plant.car.faults().inject(fault);
        bench.doings().add(new ActionLog.Broke(plant.timeMs(), fault.toString()));
        bench.notes().add(Kind.FAULT, fault.toString(), PERSON, fault.meaning());
    }

    private void mend(String fault) {
        Plant plant = bench.plant();
        boolean there =
                plant.car.faults().present().stream().anyMatch(f -> f.name().equals(fault));
        if (there && !bench.isPlaying()) {
            plant.car.faults().clear(fault);
            bench.doings().add(new ActionLog.Mended(plant.timeMs(), fault));
            bench.notes().add(Kind.FAULT, fault, PERSON, "mended");
        }
    }

    private void force(Order.Force force, long nowNs) {
        Signal signal = force.signal();
        Plant plant = bench.plant();
        boolean armed = bench.board() != null && bench.board().stage() == BoardLink.Stage.ARMED;
        if (armed) {
            bench.notes()
                    .add(
                            Kind.FORCED,
                            signal.key(),
                            "the board is armed",
                            "not forced: real outputs would follow an invented reading");
            return;
        }
        boolean anew = !plant.device.isForced(signal);
        plant.device.force(signal, force.to(), nowNs + BenchThread.FORCED_MS * NS_PER_MS);
        String reading = Double.isNaN(force.to()) ? "unknown" : Numbers.show(force.to(), signal.unit);
        bench.doings().add(new ActionLog.Other(plant.timeMs(), signal.key() + " forced to " + reading));
        if (anew) {
            bench.notes()
                    .add(
                            Kind.FORCED,
                            signal.key(),
                            PERSON,
                            "forced to " + reading + " for " + BenchThread.FORCED_MS / 1000 + " s");
        }
    }

    private void arm() {
        if (bench.board() == null) {
            bench.notes().add(Kind.PANEL, "board", PERSON, "not armed: there is none");
            return;
        }
        if (bench.plant().device.count() > 0) {
            bench.notes().add(Kind.PANEL, "board", "signals are forced", "not armed: let go of them first");
            return;
        }
        Health asked = bench.board().arm();
        bench.notes()
                .add(
                        Kind.PANEL,
                        "board",
                        PERSON,
                        asked.isWell() ? "armed: its outputs follow the supervisor" : "not armed: " + asked.reason());
    }

    private void afresh() {
        bench.stopPlaying();
        if (bench.board() != null) {
            bench.board().disarm();
        }
        bench.renew();
        bench.notes().add(Kind.PANEL, "new car", PERSON, "key off, nothing broken, nothing latched");
    }

    private void play(String name) {
        if (bench.isPlaying()) {
            bench.notes().add(Kind.SCENARIO, name, "another one is played", "not begun: stop that first");
            return;
        }
        scenarios.stream().filter(s -> s.name().equals(name)).findFirst().ifPresent(bench::play);
    }
}
