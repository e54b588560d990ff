package sprag.supervisor.logic;

import java.util.Set;
import sprag.supervisor.vocabulary.BusLevel;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Facts;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Permissions;
import sprag.supervisor.vocabulary.Reset;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;
import sprag.supervisor.vocabulary.TorquePermission;
import sprag.supervisor.vocabulary.Transition;
import sprag.supervisor.vocabulary.Watch;

/**
 * The state machine. It reads the facts of one tick and its own state, and says what each actuator may do.
 *
 * <p>It is a finite machine: everything it remembers is one {@link LogicState}, everything it asks is in {@link Facts}. In
 * each state the interlocks are asked first, strongest response first, and the first that acts decides.
 */
public final class Logic {
    private final LogicState s = new LogicState();
    private final Permissions permissions = new Permissions();
    private final Watch[] watches = new Watch[State.values().length];
    private final Set<Interlock> without;
    private final Journal journal;
    private final ContactorSequence sequence;
    private final DriveRules drive;
    private final ChargeRules charge;

    /** Makes a machine for a vehicle, in {@link State#OFF}.
     *
     * @param settings the vehicle's values
     * @param without interlocks taken out, to show what each is needed for; empty in any vehicle
     * @param journal who is told what happens
     */
    public Logic(Settings settings, Set<Interlock> without, Journal journal) {
        for (State state : State.values()) {
            watches[state.ordinal()] = new Watch(state, without);
        }
        this.without = Set.copyOf(without);
        this.journal = journal;
        sequence = new ContactorSequence(settings, without);
        boolean enableGuard = !without.contains(Interlock.PEDAL_AT_ENABLE);
        boolean rollingGuard = !without.contains(Interlock.DIRECTION_ROLLING);
        drive = new DriveRules(journal, enableGuard, rollingGuard);
        charge = new ChargeRules(settings, sequence, journal, !without.contains(Interlock.PLUG_PULLED));
    }

    /** Wakes up with what was remembered when power went: only a latch that needs service survives. A number that no state
     * packs to is a memory that has failed: it may have held such a latch, and somebody has to look.
     *
     * @param packed what {@link LogicState#pack()} gave then, or what has become of it
     */
    public void wake(long packed) {
        boolean lost = !LogicState.isPacked(packed);
        if (!lost) {
            s.unpack(packed);
        }
        boolean needsService = lost || s.latched == Reset.SERVICE;
        s.unpack(LogicState.AFTER_POWER_CAME);
        if (needsService) {
            s.state = State.FAULT;
            s.latched = Reset.SERVICE;
        }
    }

    /** What it remembers.
     *
     * @return the state, live
     */
    public LogicState state() {
        return s;
    }

    /** What each actuator may do since the last step.
     *
     * @return the permissions, live
     */
    public Permissions permissions() {
        return permissions;
    }

    /** Runs one tick. Each line reads only what the lines above it wrote.
     *
     * @param f the facts of this tick
     */
    public void step(Facts f) {
        s.stepTicks = Math.min(s.stepTicks + 1, sequence.longestTicks(s.step));
        permissions.forbidAll();
        Transition via = leave(f);
        if (via != null) {
            enter(via);
        }
        permissions.negativeClosed = s.step.negativeClosed;
        permissions.prechargeClosed = s.step.prechargeClosed;
        permissions.positiveClosed = s.step.positiveClosed;
        permissions.busConnected = s.step == Step.HOLD;
    }

    /**
     * What the state that it is in makes of this tick: the transition out of it, null to stay. The table in {@link Transition}
     * says from where to where each of them leads.
     */
    private Transition leave(Facts f) {
        return switch (s.state) {
            case OFF -> off(f);
            case IGNITION -> ignition(f);
            case PRECHARGE -> precharge(f);
            case DRIVE_ENABLE -> driveEnable(f);
            case RUNDOWN -> rundown(f);
            case CHARGE_LOCKOUT -> chargeLockout(f);
            case FAULT -> fault(f);
        };
    }

    private Transition off(Facts f) {
        Interlock acting = acting(f);
        s.keySeenOff |= f.is(Fact.KEY_OFF) && !f.is(Fact.KEY_ON);
        if (acting != null) {
            return fail(Transition.FAULT_WHILE_OFF, acting);
        }
        if (f.is(Fact.PLUG_SEEN)) {
            s.charge = ChargePhase.WAITING;
            return Transition.PLUGGED_WHILE_OFF;
        }
        return f.is(Fact.KEY_ON) ? turnedOn() : null;
    }

    private Transition turnedOn() {
        if (s.keySeenOff || without.contains(Interlock.KEY_NEVER_OFF)) {
            s.startSeenReleased = false;
            return Transition.KEY_TURNED_ON;
        }
        journal.acted(Interlock.KEY_NEVER_OFF);
        return null;
    }

    private Transition ignition(Facts f) {
        Interlock acting = acting(f);
        if (acting != null && acting.reset == Reset.SERVICE) {
            return fail(Transition.FAULT_AT_KEY_ON, acting);
        }
        if (f.is(Fact.PLUG_SEEN)) {
            s.charge = ChargePhase.WAITING;
            return Transition.PLUGGED_AT_KEY_ON;
        }
        if (!f.is(Fact.KEY_ON)) {
            return Transition.KEY_TURNED_OFF;
        }
        if (f.is(Fact.START_RELEASED)) {
            s.startSeenReleased = true;
        } else if (f.is(Fact.START_REQUESTED) && mayStart(f, acting)) {
            sequence.begin(s);
            return Transition.STARTED;
        }
        return null;
    }

    private boolean mayStart(Facts f, Interlock acting) {
        if (!s.startSeenReleased && !without.contains(Interlock.START_HELD)) {
            journal.acted(Interlock.START_HELD);
            return false;
        }
        if (f.busLevel() != BusLevel.DISCHARGED && !without.contains(Interlock.BUS_NOT_DISCHARGED)) {
            journal.acted(Interlock.BUS_NOT_DISCHARGED);
            return false;
        }
        return acting == null;
    }

    private Transition precharge(Facts f) {
        Interlock acting = acting(f);
        if (acting != null && acting.response == Response.OPEN_NOW) {
            return fail(Transition.START_FAILED, acting);
        }
        if (acting != null || !f.is(Fact.KEY_ON)) {
            return giveUp(Transition.START_GIVEN_UP, acting, f);
        }
        Interlock failure = sequence.raise(s, f);
        if (failure != null) {
            journal.acted(failure);
            return fail(Transition.START_FAILED, failure);
        }
        if (s.step != Step.HOLD) {
            return null;
        }
        drive.begin(s);
        return Transition.CONNECTED;
    }

    private Transition driveEnable(Facts f) {
        Interlock acting = acting(f);
        Response response = acting == null ? Response.WARN : acting.response;
        if (response == Response.OPEN_NOW) {
            return fail(Transition.OPENED_DRIVING, acting);
        }
        if (response == Response.STOP_THEN_OPEN) {
            return giveUp(Transition.STOP_DRIVING, acting, f);
        }
        if (!f.is(Fact.KEY_ON)) {
            return keyOffDriving(f, response == Response.ZERO_TORQUE ? acting : null);
        }
        permissions.torque = drive.decide(s, f, acting);
        permissions.engaged = s.engaged;
        permissions.inverterEnabled = true;
        permissions.limited = response == Response.LIMIT;
        return null;
    }

    /** Torque ramps out, unless an interlock takes it away or has done so: then it ends at once. */
    private Transition keyOffDriving(Facts f, Interlock takesTorque) {
        boolean ramps = takesTorque == null && s.torqueLatched == Reset.NONE;
        if (takesTorque != null) {
            s.torqueLatched = s.torqueLatched.orStronger(takesTorque.reset);
        }
        permissions.torque = ramps ? TorquePermission.RAMP_TO_ZERO : TorquePermission.NONE;
        permissions.inverterEnabled = ramps;
        return giveUp(Transition.KEY_OFF_DRIVING, null, f);
    }

    private Transition rundown(Facts f) {
        Interlock acting = acting(f);
        if (acting != null && acting.response == Response.OPEN_NOW) {
            return fail(Transition.OPENED_RUNNING_DOWN, acting);
        }
        latch(acting);
        boolean plugged = f.is(Fact.PLUG_SEEN);
        sequence.lower(s, f);
        boolean ramps = s.step == Step.RAMP_DOWN && s.latched == Reset.NONE && !plugged;
        permissions.torque = ramps ? TorquePermission.RAMP_TO_ZERO : TorquePermission.NONE;
        permissions.inverterEnabled = ramps;
        return s.step == Step.IDLE ? leaveRundown(f, plugged) : null;
    }

    private Transition leaveRundown(Facts f, boolean plugged) {
        if (s.latched != Reset.NONE) {
            return openAll(Transition.RUN_DOWN_LATCHED);
        }
        if (plugged) {
            s.charge = ChargePhase.WAITING;
            return Transition.RUN_DOWN_PLUGGED;
        }
        if (f.is(Fact.KEY_ON)) {
            s.startSeenReleased = false;
            return Transition.RUN_DOWN_KEY_ON;
        }
        return Transition.RUN_DOWN_KEY_OFF;
    }

    private Transition chargeLockout(Facts f) {
        Interlock acting = acting(f);
        boolean atRest = charge.atRest(s);
        if (acting != null && acting.response == Response.OPEN_NOW && !(atRest && acting.reset != Reset.SERVICE)) {
            return fail(Transition.OPENED_CHARGING, acting);
        }
        if (acting != null && (!atRest || acting.reset == Reset.SERVICE)) {
            latch(acting);
        }
        if (atRest && s.latched != Reset.NONE) {
            return openAll(Transition.CHARGE_LATCHED);
        }
        if (atRest && !f.is(Fact.PLUG_SEEN)) {
            s.charge = ChargePhase.WAITING;
            return Transition.UNPLUGGED;
        }
        Interlock failure = charge.advance(s, f, acting);
        if (failure != null) {
            journal.acted(failure);
            return fail(Transition.OPENED_CHARGING, failure);
        }
        permissions.charging = charge.mayDeliver(s);
        permissions.limited = permissions.charging && acting != null;
        return null;
    }

    private Transition fault(Facts f) {
        Interlock acting = acting(f);
        latch(acting);
        if (f.is(Fact.KEY_ON)) {
            s.keySeenOn = true;
            return null;
        }
        boolean reset = s.latched == Reset.SERVICE ? f.is(Fact.SERVICE_RESET) : s.keySeenOn;
        if (acting != null || !reset || !f.is(Fact.KEY_OFF)) {
            return null;
        }
        s.latched = Reset.NONE;
        s.keySeenOn = false;
        s.keySeenOff = true;
        return Transition.RESET_DONE;
    }

    /** The strongest interlock whose cause is there, null for none. */
    private Interlock acting(Facts f) {
        Watch watch = watches[s.state.ordinal()];
        int index = f.firstActive(watch);
        if (index < 0) {
            return null;
        }
        Interlock row = watch.row(index);
        journal.acted(row);
        return row;
    }

    private void latch(Interlock acting) {
        if (acting != null && acting.reset.ordinal() >= Reset.KEY_CYCLE.ordinal()) {
            s.latched = s.latched.orStronger(acting.reset);
        }
    }

    /** Everything opens at once and stays open. */
    private Transition fail(Transition via, Interlock because) {
        latch(because);
        return openAll(via);
    }

    private Transition openAll(Transition via) {
        s.enter(Step.IDLE);
        s.charge = ChargePhase.WAITING;
        s.torqueLatched = Reset.NONE;
        s.engaged = Direction.NEUTRAL;
        s.keySeenOn = false;
        return via;
    }

    /** Torque ends and the contactors open in order. A torque latch that needs the key survives, unless the key is off. */
    private Transition giveUp(Transition via, Interlock because, Facts f) {
        latch(because);
        if (s.torqueLatched == Reset.KEY_CYCLE && !f.is(Fact.KEY_OFF)) {
            s.latched = s.latched.orStronger(s.torqueLatched);
        }
        sequence.beginLowering(s);
        s.torqueLatched = Reset.NONE;
        s.engaged = Direction.NEUTRAL;
        return via;
    }

    /** The only place where the state changes. */
    private void enter(Transition via) {
        assert via.from == s.state : via + " leaves " + via.from + " but the state is " + s.state;
        journal.entered(via);
        s.state = via.to;
    }
}
