package sprag.bench.panel.guide;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Predicate;
import sprag.bench.cli.Numbers;
import sprag.bench.loop.DeadVoltage;
import sprag.bench.loop.Seen;
import sprag.bench.panel.session.CarSession;
import sprag.supervisor.Diagnostics;
import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.BusLevel;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Facts;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Reset;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;
import sprag.supervisor.vocabulary.TorquePermission;

/**
 * Finds what is missing after the last tick, from the facts and latches that the supervisor itself decides by. A driver
 * who does what is listed gets the car to drive, unless the cause is beyond a driver's reach.
 */
public final class Guide {
    private final CarSession session;
    private final Settings settings;
    private final LogicState s;
    private final Facts f;
    private final Diagnostics diagnostics;
    private final Seen seen;
    private final List<String> missing = new ArrayList<>();

    private Guide(CarSession session) {
        this.session = session;
        settings = session.loop.car().vehicle().settings();
        s = session.loop.supervisor().state();
        f = session.loop.supervisor().facts();
        diagnostics = session.loop.supervisor().diagnostics();
        seen = Seen.of(session.loop);
    }

    /** Tells where the supervisor of a car stands after its last tick. */
    public static Guidance of(CarSession session) {
        Guide guide = new Guide(session);
        return switch (guide.s.state()) {
            case OFF -> guide.off();
            case IGNITION -> guide.ignition();
            case PRECHARGE -> guide.told(PanelWords.sentence(PanelWords.of(guide.s.step())), "");
            case DRIVE_ENABLE -> guide.drive();
            case RUNDOWN -> guide.rundown();
            case CHARGE_LOCKOUT -> guide.charge();
            case FAULT -> guide.fault();
        };
    }

    private Guidance told(String now, String next) {
        return new Guidance(now, seen.path(), List.copyOf(missing), next);
    }

    private void add(boolean when, String words) {
        if (when && !missing.contains(words)) {
            missing.add(words);
        }
    }

    private void add(boolean when, DriverAct act) {
        add(when, act.words);
    }

    /** A key that nobody can read is neither on nor off. */
    private void addKey() {
        add(!f.is(Fact.KEY_ON) && !f.is(Fact.KEY_OFF), "The key cannot be read: nobody knows whether it is on or off.");
    }

    private Guidance off() {
        addKey();
        boolean woke = f.is(Fact.KEY_ON);
        add(woke, "The supervisor woke up with the key on: the key must be off once.");
        return told(
                PanelWords.of(State.OFF),
                woke
                        ? DriverAct.KEY_OFF.words
                        : missing.isEmpty() ? "Turn the key on to drive, or plug in to charge." : "");
    }

    private Guidance ignition() {
        addCauses(diagnostics::blocksStart);
        if (f.busLevel() != BusLevel.DISCHARGED) {
            add(
                    true,
                    "The bus is above " + Numbers.text(settings.get(Parameter.BUS_DISCHARGED_V))
                            + " V (bus.discharged_v): a start waits until it has bled down.");
            addStandstill();
        }
        add(!s.startSeenReleased(), DriverAct.LET_START_GO);
        return told(PanelWords.of(State.IGNITION), missing.isEmpty() ? "Nothing is missing: press Start." : "");
    }

    /** A turning permanent-magnet motor feeds the bus. */
    private void addStandstill() {
        boolean feeds = settings.is(Parameter.MOTOR_KIND, "permanent-magnet") && !f.is(Fact.STANDSTILL);
        add(feeds, DriverAct.STAND_STILL);
    }

    private Guidance drive() {
        addCauses(
                row -> row.response == Response.ZERO_TORQUE && row.cause.isFact() && row != Interlock.PEDAL_WITH_BRAKE);
        boolean conflict = diagnostics.isActive(Interlock.DIRECTION_CONFLICT);
        Direction asked = f.direction();
        add(asked == Direction.NEUTRAL && !conflict, DriverAct.CHOOSE_DIRECTION);
        boolean turns = asked != Direction.NEUTRAL && asked != s.engaged();
        add(turns && !f.is(Fact.STANDSTILL), DriverAct.STAND_STILL);
        boolean byPedal = s.torqueLatched() == Reset.PEDAL_RELEASE || s.torqueLatched() == Reset.BRAKED_RELEASE;
        if ((byPedal || turns) && !f.is(Fact.PEDAL_RELEASED)) {
            add(true, releasePedal());
        }
        add(s.torqueLatched() == Reset.BRAKED_RELEASE && !f.is(Fact.BRAKE_PRESSED), DriverAct.PRESS_BRAKE);
        boolean byKey = s.torqueLatched().ordinal() >= Reset.KEY_CYCLE.ordinal();
        if (byKey) {
            addLatched();
            return told(torque(), "Remove the cause, then turn the key off.");
        }
        boolean follows = session.loop.supervisor().permissions().torque == TorquePermission.FOLLOW_PEDAL;
        if (follows) {
            addLimits();
        }
        return told(torque(), follows ? pedal() : "");
    }

    /** What the pedal asks for a torque; whether torque comes is seen by the current. */
    private String torque() {
        boolean follows = session.loop.supervisor().permissions().torque == TorquePermission.FOLLOW_PEDAL;
        if (follows) {
            return "The torque request follows the pedal.";
        }
        boolean unasked = diagnostics.isActive(Interlock.TORQUE_UNASKED);
        return "No torque is asked for" + (unasked ? ", yet " + seen.current() : "") + ".";
    }

    private String pedal() {
        boolean braked = f.is(Fact.BRAKE_PRESSED);
        boolean pressed = session.loop.supervisor().conditioned().travel > 0;
        if (braked) {
            return pressed
                    ? DriverAct.LET_BRAKE_GO.words
                    : DriverAct.LET_BRAKE_GO.words + " " + DriverAct.PRESS_PEDAL.words;
        }
        return pressed ? "" : DriverAct.PRESS_PEDAL.words;
    }

    private void addLimits() {
        for (Interlock row : Interlock.values()) {
            if (asked(row) && row.response == Response.LIMIT) {
                add(true, "Limited: " + PanelWords.missing(row));
            }
        }
    }

    private String releasePedal() {
        double travel = session.loop.supervisor().conditioned().travel;
        if (Double.isNaN(travel)) {
            return "The pedal cannot be believed: it does not count as released.";
        }
        return travel > 0
                ? DriverAct.RELEASE_PEDAL.words
                : DriverAct.RELEASE_PEDAL.words + " It reads above its released share (pedal.released_share).";
    }

    private Guidance rundown() {
        add(true, "It stops because " + session.loop.why() + ".");
        addCauses(Guide::stops);
        if (s.step() == Step.BLEED || s.step() == Step.RAMP_DOWN) {
            addStandstill();
        }
        return told(PanelWords.sentence(PanelWords.of(s.step())), f.is(Fact.PLUG_SEEN) ? unplug() : "");
    }

    private Guidance charge() {
        addCauses(row -> row.response == Response.BLOCK_CHARGE || stops(row));
        boolean waits = s.charge() == ChargePhase.WAITING || s.charge() == ChargePhase.REFUSED;
        if (waits && f.busLevel() != BusLevel.DISCHARGED && settings.is(Parameter.CHARGER_SIDE, "bus-side")) {
            add(
                    true,
                    "The bus is above " + Numbers.text(settings.get(Parameter.BUS_DISCHARGED_V))
                            + " V (bus.discharged_v): a charge waits until it has bled down.");
        }
        addNoCurrent();
        return told(charging(), unplug());
    }

    /** A drained pack is charged gently. When nothing is asked of the chargers, the voltage is far lower still, or unknown. */
    private void addNoCurrent() {
        boolean may =
                s.charge() == ChargePhase.CHARGING && session.loop.supervisor().permissions().charging;
        if (!may || session.loop.commands().get(Output.CHARGE_CURRENT_LIMIT_A) != 0) {
            return;
        }
        Conditioned c = session.loop.supervisor().conditioned();
        DeadVoltage.reasons(settings, c.packVoltageV, c.cellMinV).forEach(reason -> add(true, reason));
    }

    private String charging() {
        if (s.charge() != ChargePhase.CHARGING) {
            return PanelWords.of(s.charge());
        }
        if (!session.loop.supervisor().permissions().charging) {
            return PanelWords.sentence(PanelWords.of(s.step()));
        }
        return "Charging is allowed: " + seen.current() + ".";
    }

    /** A broken wire at the inlet counts as a plug as well. */
    private String unplug() {
        if (session.loop.commands().isOn(Output.PLUG_LOCK)) {
            return "The lock is asked to hold the plug. Press Start to get the plug out: the charge ends, then the"
                    + " lock opens.";
        }
        boolean switchSeesNone = session.loop.readings().isOff(Signal.PLUG_PRESENT);
        return DriverAct.UNPLUG.words + " Driving needs the plug out."
                + (switchSeesNone
                        ? " The plug switch sees no plug, but proximity or pilot shows one or is unknown, or did so"
                                + " just now."
                        : "");
    }

    private Guidance fault() {
        addKey();
        boolean there = addLatched();
        boolean off = f.is(Fact.KEY_OFF);
        String next;
        if (s.latched() == Reset.SERVICE) {
            next = off ? "press the service reset." : "turn the key off, then press the service reset.";
        } else if (!s.keySeenOn) {
            next = "turn the key on, then off.";
        } else {
            next = off ? "it resets by itself." : "turn the key off.";
        }
        String all =
                there ? "Remove the cause, then " + next : Character.toUpperCase(next.charAt(0)) + next.substring(1);
        return told(PanelWords.of(State.FAULT), all);
    }

    /** Lists what has latched and what keeps the latch, with the time; returns whether a cause is still there. */
    private boolean addLatched() {
        boolean any = false;
        boolean known = false;
        for (Interlock row : Interlock.values()) {
            boolean there = asked(row);
            boolean latched = session.latches.isLatched(row);
            boolean keeps = there && s.state() == State.FAULT;
            if (latched || keeps) {
                add(true, latched(row, latched, there));
            }
            any |= keeps;
            known |= latched;
        }
        add(!known && s.state() == State.FAULT, "What latched it happened before the supervisor woke up.");
        return any;
    }

    private String latched(Interlock row, boolean latched, boolean there) {
        double atS = session.latches.sinceTick(row) * session.loop.tickMs() / 1000.0;
        String when = latched ? String.format(Locale.ROOT, " latched at %.2f s", atS) : "";
        String still = there ? "still there" : "not there now";
        String comma = latched ? ", " : ": ";
        return row.id() + when + comma + still + ": " + row.cause + ".";
    }

    private static boolean stops(Interlock row) {
        return row.response == Response.OPEN_NOW || row.response == Response.STOP_THEN_OPEN;
    }

    /** Whether the cause of a row is there and the row is asked in this state. */
    private boolean asked(Interlock row) {
        return diagnostics.isActive(row) && row.where.contains(s.state());
    }

    private void addCauses(Predicate<Interlock> which) {
        for (Interlock row : Interlock.values()) {
            boolean byPedal = row == Interlock.PEDAL_NOT_RELEASED;
            add(asked(row) && which.test(row), byPedal ? releasePedal() : PanelWords.missing(row));
        }
    }
}
