package sprag.bench.evidence.prove.promise;

import java.util.Set;
import sprag.bench.evidence.prove.explore.Choices;
import sprag.bench.evidence.prove.explore.Stepper;
import sprag.bench.evidence.prove.explore.Successors;
import sprag.supervisor.logic.Journal;
import sprag.supervisor.logic.Logic;
import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.Bounds;
import sprag.supervisor.vocabulary.BusLevel;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Permissions;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;
import sprag.supervisor.vocabulary.TorquePermission;
import sprag.supervisor.vocabulary.Transition;

/**
 * One tick of the shipped Logic under exploration, with everything that promises may look at.
 *
 * <p>Labels that it notes: each state, contactor step, transition, interlock, charge phase and goal that was seen.
 */
public final class Tick implements GateView.Sight, Stepper, Journal {
    private static final int CONTROL_BITS = LogicState.CONTROL_BITS;
    private static final long CONTROL = (1L << CONTROL_BITS) - 1;
    private static final int TORQUE_BITS = 2;
    private static final int ENGAGED_BITS = 2;
    /** The permissions that are yes or no. */
    private static final int SWITCH_BITS = 7;

    private static final int TRANSITIONS = Transition.values().length;
    private static final int TRANSITION_BITS = Integer.SIZE - Integer.numberOfLeadingZeros(TRANSITIONS);
    /** How many of the lowest bits of a shape can differ from 0. */
    static final int SHAPE_BITS = 2 * CONTROL_BITS + TORQUE_BITS + ENGAGED_BITS + SWITCH_BITS + TRANSITION_BITS;

    static {
        Bounds.counted(TorquePermission.values().length, 1 << TORQUE_BITS, "permissions of torque");
        Bounds.counted(Direction.COUNT, 1 << ENGAGED_BITS, "directions");
        Bounds.counted(SHAPE_BITS, Long.SIZE, "bits of a shape");
    }

    private static final int STATES = State.values().length;
    private static final int STEPS = Step.values().length;
    private static final int PHASES = ChargePhase.values().length;
    private static final int LABELS = STATES + STEPS + TRANSITIONS + Interlock.COUNT + PHASES + Goal.values().length;

    private final Logic logic;
    private final LogicState after;
    private final Permissions may;
    private final LogicState before = new LogicState();
    private final BranchingFacts facts = new BranchingFacts();
    private final PromiseLimits limits;
    private final boolean gated;
    /** What {@link #asked} is in each state. */
    private final long[] asked = new long[STATES];

    private long packedBefore;
    private long packedAfter;
    private Successors out;
    private Transition via;
    private int leastCount;
    private int mostCount;

    /**
     * Puts a Logic under exploration.
     *
     * @param settings the vehicle's values, for Logic
     * @param promised the values that promises use; the same, unless a value is weakened to see what breaks
     * @param gated whether the Gate has the last word
     */
    public Tick(Settings settings, Settings promised, Set<Interlock> without, boolean gated) {
        logic = new Logic(settings, without, this);
        after = logic.state();
        may = logic.permissions();
        limits = PromiseLimits.of(promised);
        this.gated = gated;
        packedBefore = before.pack();
        for (State state : State.values()) {
            for (Interlock row : without) {
                boolean missing = row.cause.isFact() && row.where.contains(state);
                asked[state.ordinal()] = missing ? 1 + row.ordinal() : asked[state.ordinal()];
            }
        }
    }

    public static int label(State state) {
        return state.ordinal();
    }

    public static int label(Step step) {
        return STATES + step.ordinal();
    }

    public static int label(Transition transition) {
        return STATES + STEPS + transition.ordinal();
    }

    public static int label(Interlock row) {
        return STATES + STEPS + TRANSITIONS + row.ordinal();
    }

    public static int label(ChargePhase phase) {
        return STATES + STEPS + TRANSITIONS + Interlock.COUNT + phase.ordinal();
    }

    public static int label(Goal goal) {
        return STATES + STEPS + TRANSITIONS + Interlock.COUNT + PHASES + goal.ordinal();
    }

    @Override
    public int labels() {
        return LABELS;
    }

    @Override
    public long initial() {
        return new LogicState().pack();
    }

    @Override
    public int bits() {
        return LogicState.BITS;
    }

    @Override
    public int keys() {
        return BranchingFacts.KEYS;
    }

    /**
     * The row that was taken out of those asked in this state, which moves the numbers of the others. Ticks that are recalled
     * together have at most one row taken out.
     */
    @Override
    public long asked(long state) {
        return asked[LogicState.stateOf(state).ordinal()];
    }

    @Override
    public long step(long state, Choices choices, Successors labels) {
        if (out != labels) {
            out = labels;
        }
        via = null;
        leastCount = 0;
        mostCount = Integer.MAX_VALUE;
        if (state != packedBefore) {
            before.unpack(state);
            packedBefore = state;
        }
        after.copyFrom(before);
        facts.begin(choices, LogicState.stateOf(state).ordinal());
        logic.step(facts);
        packedAfter = after.pack();
        if (via != null) {
            labels.note(label(after.state()));
        }
        if (after.step() != before.step()) {
            labels.note(label(after.step()));
        }
        if (after.charge() != before.charge()) {
            labels.note(label(after.charge()));
        }
        return packedAfter;
    }

    /** The Gate has the last word about what is permitted, and none about the state. */
    @Override
    public void conclude() {
        if (gated) {
            GateView.apply(this);
        }
        if (may.torque != TorquePermission.NONE || may.charging) {
            out.note(label(Goal.of(may)));
        }
    }

    /** The ticks that a state has counted. */
    public static int count(long state) {
        return (int) (state >>> CONTROL_BITS);
    }

    @Override
    public int countFrom() {
        return CONTROL_BITS;
    }

    @Override
    public int leastCount() {
        return leastCount;
    }

    @Override
    public int mostCount() {
        return mostCount;
    }

    /** Both states without their count of ticks, what is permitted, and the transition. */
    @Override
    public long shape() {
        long shape = packedBefore & CONTROL;
        shape = shape << CONTROL_BITS | packedAfter & CONTROL;
        shape = shape << TORQUE_BITS | may.torque.ordinal();
        shape = shape << ENGAGED_BITS | may.engaged.ordinal();
        shape = shape << 1 | (may.inverterEnabled ? 1 : 0);
        shape = shape << 1 | (may.limited ? 1 : 0);
        shape = shape << 1 | (may.charging ? 1 : 0);
        shape = shape << 1 | (may.negativeClosed ? 1 : 0);
        shape = shape << 1 | (may.prechargeClosed ? 1 : 0);
        shape = shape << 1 | (may.positiveClosed ? 1 : 0);
        shape = shape << 1 | (may.busConnected ? 1 : 0);
        return shape << TRANSITION_BITS | (via == null ? TRANSITIONS : via.ordinal());
    }

    @Override
    public void entered(Transition transition) {
        via = transition;
        out.note(label(transition));
    }

    @Override
    public void acted(Interlock row) {
        out.note(label(row));
    }

    public LogicState before() {
        return before;
    }

    public LogicState after() {
        return after;
    }

    @Override
    public Permissions may() {
        return may;
    }

    public PromiseLimits limits() {
        return limits;
    }

    public BranchingFacts facts() {
        return facts;
    }

    /** The transition taken in this tick, null for none. */
    public Transition via() {
        return via;
    }

    @Override
    public boolean is(Fact fact) {
        return facts.is(fact);
    }

    /** Whether any of these is true. Asks for them. */
    public boolean any(FactSet set) {
        return facts.any(set);
    }

    /** Whether Logic has seen in this tick that one of these is true. Asks nothing. */
    public boolean seen(FactSet set) {
        for (Fact fact : set.facts) {
            if (facts.isKnown(fact)) {
                return true;
            }
        }
        return false;
    }

    /** Whether Logic has seen in this tick that this is true. Asks nothing. */
    public boolean seen(Fact fact) {
        return facts.isKnown(fact);
    }

    /** Whether Logic has seen in this tick that a fact is not true. Asks nothing. */
    public boolean knownOff(Fact fact) {
        return facts.hasValue(fact) && !facts.is(fact);
    }

    /** Whether Logic has seen in this tick that the key is off. Asks nothing. */
    public boolean keySeenOff() {
        return facts.isKnown(Fact.KEY_OFF) && !facts.isKnown(Fact.KEY_ON);
    }

    /** Whether an interlock opened everything in this tick. */
    public boolean opensAtOnce() {
        return via != null && via.kind == Transition.Kind.INTERLOCK && via.to == State.FAULT;
    }

    /** Whether a charge that had ended is considered again while the plug is still in. */
    public boolean resumes(ChargePhase from) {
        return before.charge() == from
                && after.charge() != from
                && was(State.CHARGE_LOCKOUT)
                && isNow(State.CHARGE_LOCKOUT);
    }

    public boolean entersFault() {
        return isNow(State.FAULT) && !was(State.FAULT);
    }

    /** Whether a weld test ended in a fault because the bus rose. */
    public boolean failsWeldTest() {
        return isTest(before.step())
                && isNow(State.FAULT)
                && facts.hasValue(Fact.BUS_LEVEL)
                && bus() != BusLevel.DISCHARGED;
    }

    @Override
    public BusLevel bus() {
        return facts.busLevel();
    }

    public Direction lever() {
        return facts.direction();
    }

    /** Whether the previous step has lasted for so many ticks, including this one. */
    public boolean lasted(int ticks) {
        boolean lasted = Math.min(before.stepTicks() + 1, LogicState.MAX_TICKS) >= ticks;
        if (lasted) {
            leastCount = Math.max(leastCount, ticks - 1);
        } else {
            mostCount = Math.min(mostCount, ticks - 2);
        }
        return lasted;
    }

    public boolean was(State state) {
        return before.state() == state;
    }

    public boolean isNow(State state) {
        return after.state() == state;
    }

    public boolean isNow(Step step) {
        return after.step() == step;
    }

    public boolean goes(Step from, Step to) {
        return before.step() == from && after.step() == to;
    }

    @Override
    public boolean follows() {
        return may.torque == TorquePermission.FOLLOW_PEDAL;
    }

    public boolean ramps() {
        return may.torque == TorquePermission.RAMP_TO_ZERO;
    }

    @Override
    public boolean torque() {
        return may.torque != TorquePermission.NONE;
    }

    public boolean anyClosed() {
        return may.negativeClosed || may.prechargeClosed || may.positiveClosed;
    }

    /**
     * Whether exactly the contactors that {@link StepOrder} names for the step after this tick are commanded closed.
     */
    boolean contactorsAsTheStep() {
        return StepOrder.closes(after.step(), may.negativeClosed, may.prechargeClosed, may.positiveClosed);
    }

    /** Whether the supervisor has anything switched on: a contactor, the inverter, torque or charge. */
    @Override
    public boolean live() {
        return anyClosed() || may.inverterEnabled || torque() || may.charging;
    }

    /** Whether a contactor closes that was open before. */
    public boolean closes() {
        Step was = before.step();
        return may.negativeClosed && !was.negativeClosed
                || may.prechargeClosed && !was.prechargeClosed
                || may.positiveClosed && !was.positiveClosed;
    }

    @Override
    public boolean positiveCloses() {
        return may.positiveClosed && !before.step().positiveClosed;
    }

    /** Whether the first contactor of a sequence closes. */
    public boolean begins() {
        return before.step() == Step.IDLE && anyClosed();
    }

    /** Whether the drive goes on, or a start towards it. */
    public boolean goesOn() {
        return isNow(State.PRECHARGE) || isNow(State.DRIVE_ENABLE);
    }

    /** Whether the closing sequence goes on, for driving or for charging. */
    public boolean goesUp() {
        return switch (after.step()) {
            case TEST_NEGATIVE, TEST_PAUSE, TEST_POSITIVE, RAISE_BUS, OVERLAP -> true;
            default -> goes(Step.OVERLAP, Step.HOLD);
        };
    }

    /** Whether a drive is being started in this tick. */
    public boolean starts() {
        return was(State.IGNITION) && isNow(State.PRECHARGE);
    }

    /** Whether a charge that was offered begins. */
    boolean beginsCharge() {
        return before.charge() != ChargePhase.CHARGING
                && after.charge() == ChargePhase.CHARGING
                && seen(Fact.CHARGE_OFFERED);
    }

    /** Whether a start, a drive or a charge ends in this tick, or Logic has seen something that must end it. */
    boolean wishesToStop() {
        boolean drove = was(State.PRECHARGE) || was(State.DRIVE_ENABLE);
        boolean charged = before.charge() == ChargePhase.CHARGING;
        return drove && (!goesOn() || knownOff(Fact.KEY_ON) || seen(Fact.PLUG_SEEN))
                || charged && (after.charge() != ChargePhase.CHARGING || seen(Fact.CHARGE_DONE))
                || charged && (knownOff(Fact.CHARGE_OFFERED) || knownOff(Fact.PLUG_SEEN) || knownOff(Fact.PLUG_HELD))
                || (drove || charged) && (seen(Fact.COVER_LOOP_OPEN) || seen(Fact.CUT_LOOP_OPEN));
    }

    public boolean charges() {
        return may.charging;
    }

    /** Whether the precharge goes on after this tick, or was found complete in it. */
    public boolean keepsRaising() {
        return before.step() == Step.RAISE_BUS && (after.step() == Step.RAISE_BUS || after.step() == Step.OVERLAP);
    }

    private static boolean isTest(Step step) {
        return step == Step.TEST_NEGATIVE || step == Step.TEST_PAUSE || step == Step.TEST_POSITIVE;
    }

    /** Whether a weld test that has begun goes on, or was passed in this tick. */
    public boolean testsOn() {
        return isTest(before.step()) && (isTest(after.step()) || after.step() == Step.RAISE_BUS);
    }

    /** Whether a part of the weld test was passed in this tick. */
    public boolean testAdvances() {
        return testsOn() && before.step() != after.step();
    }

    /** Whether the part of the weld test that was passed lasted as long as it must. */
    public boolean testLasted() {
        return switch (before.step()) {
            case TEST_NEGATIVE -> lasted(limits.weldTest());
            case TEST_PAUSE -> lasted(limits.release());
            default -> lasted(Math.max(limits.weldTest(), limits.close()));
        };
    }

    /** Whether contactors were not at rest, or a charge was under way. */
    public boolean wasWorking() {
        ChargePhase charge = before.charge();
        return before.step() != Step.IDLE || charge == ChargePhase.CHARGING || charge == ChargePhase.ENDING;
    }
}
