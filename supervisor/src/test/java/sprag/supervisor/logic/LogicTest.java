package sprag.supervisor.logic;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.supervisor.Diagnostics;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.input.TickFacts;
import sprag.supervisor.vocabulary.Cause;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Permissions;
import sprag.supervisor.vocabulary.Reset;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;
import sprag.supervisor.vocabulary.TorquePermission;
import sprag.supervisor.vocabulary.Watch;

/** The state machine on facts set by hand: every interlock in every state, one cause at a time, and without it. */
class LogicTest {
    private final Settings settings = TestVehicle.full();
    private final TickFacts good = new TickFacts();
    private final Diagnostics journal = new Diagnostics();

    LogicTest() {
        good.set(Fact.KEY_ON, true);
        good.set(Fact.BRAKE_PRESSED, true);
        good.set(Fact.PEDAL_RELEASED, true);
        good.set(Fact.STANDSTILL, true);
        good.set(Fact.BUS_FLAT, true);
        good.set(Fact.NEGATIVE_CONFIRMED, true);
        good.set(Fact.POSITIVE_CONFIRMED, true);
        good.set(Fact.DIRECTION, Direction.FORWARD.ordinal());
    }

    private Logic in(State state, Step step) {
        return in(state, step, Set.of());
    }

    private Logic in(State state, Step step, Set<Interlock> without) {
        Logic logic = new Logic(settings, without, journal);
        logic.state().state = state;
        logic.state().step = step;
        logic.state().engaged = Direction.FORWARD;
        return logic;
    }

    private static Step usualStep(State state) {
        return switch (state) {
            case PRECHARGE -> Step.RAISE_BUS;
            case DRIVE_ENABLE -> Step.HOLD;
            case RUNDOWN -> Step.RAMP_DOWN;
            default -> Step.IDLE;
        };
    }

    @TestFactory
    List<DynamicTest> everyInterlock_inEveryState() {
        List<DynamicTest> tests = new ArrayList<>();
        for (Interlock row : Interlock.values()) {
            for (State state : State.values()) {
                if (row.cause.isFact() && row.response != Response.WARN) {
                    tests.add(dynamicTest(
                            state + "_" + row + "_acts_" + row.where.contains(state),
                            () -> new LogicTest().one(row, state)));
                }
            }
        }
        return tests;
    }

    private void one(Interlock row, State state) {
        Logic logic = in(state, usualStep(state));
        if (state == State.CHARGE_LOCKOUT) {
            good.set(Fact.PLUG_SEEN, true);
        }
        good.set(row.cause.fact(), row.cause.value());
        journal.begin(1);
        logic.step(good);
        if (row.where.contains(state) && firstOf(row, state)) {
            assertTrue(acted(row), row + " must act in " + state);
        }
        if (!row.where.contains(state)) {
            assertFalse(acted(row), row + " does not apply in " + state);
            return;
        }
        if (firstOf(row, state)) {
            responds(row, state, logic);
        }
        removed(row, state);
    }

    private boolean acted(Interlock row) {
        return journal.timesActed(row) > 0;
    }

    /** Two rows may look at the same fact; then the stronger acts. */
    private static boolean firstOf(Interlock row, State state) {
        for (Interlock other : Interlock.values()) {
            boolean same = other.cause.isFact() && other.cause.fact() == row.cause.fact();
            if (same && other.where.contains(state)) {
                return other == row;
            }
        }
        return true;
    }

    private static void responds(Interlock row, State state, Logic logic) {
        Permissions p = logic.permissions();
        State now = logic.state().state();
        if (row.response == Response.OPEN_NOW) {
            assertFalse(p.negativeClosed || p.prechargeClosed || p.positiveClosed);
        }
        if (row.response.ordinal() <= Response.ZERO_TORQUE.ordinal()) {
            assertEquals(TorquePermission.NONE, p.torque);
        }
        if (row.reset.ordinal() >= Reset.KEY_CYCLE.ordinal()
                && !Set.of(State.IGNITION, State.CHARGE_LOCKOUT).contains(state)) {
            assertNotEquals(
                    Reset.NONE,
                    row.response == Response.ZERO_TORQUE
                            ? logic.state().torqueLatched()
                            : logic.state().latched());
        }
        assertEquals(
                switch (state) {
                    case OFF -> State.FAULT;
                    case IGNITION -> row.reset == Reset.SERVICE ? State.FAULT : State.IGNITION;
                    case PRECHARGE -> row.response == Response.OPEN_NOW ? State.FAULT : State.RUNDOWN;
                    case DRIVE_ENABLE ->
                        switch (row.response) {
                            case OPEN_NOW -> State.FAULT;
                            case STOP_THEN_OPEN -> State.RUNDOWN;
                            default -> State.DRIVE_ENABLE;
                        };
                    case RUNDOWN -> row.response == Response.OPEN_NOW ? State.FAULT : State.RUNDOWN;
                    case CHARGE_LOCKOUT -> row.reset == Reset.SERVICE ? State.FAULT : State.CHARGE_LOCKOUT;
                    case FAULT -> State.FAULT;
                },
                now);
        assertEquals(row.response == Response.LIMIT && state == State.DRIVE_ENABLE, p.limited);
    }

    /** Taken out, it does nothing: that is how a simulation shows what it is needed for. */
    private void removed(Interlock row, State state) {
        Set<Interlock> same = EnumSet.noneOf(Interlock.class);
        for (Interlock other : Interlock.values()) {
            if (other.cause.isFact() && other.cause.fact() == row.cause.fact()) {
                same.add(other);
            }
        }
        Logic without = in(state, usualStep(state), same);
        int times = journal.timesActed(row);
        journal.begin(10);
        without.step(good);
        assertEquals(times, journal.timesActed(row));
    }

    @Test
    void firstActive_isTheFirstRowWhoseCauseIsThere_forAnyFacts() {
        Random random = new Random(1);
        for (int run = 0; run < 20_000; run++) {
            TickFacts facts = new TickFacts();
            int density = 1 + random.nextInt(200);
            for (Fact fact : Fact.values()) {
                facts.set(fact, random.nextInt(density) == 0 ? 1 : 0);
            }
            facts.set(Fact.BRAKE_PRESSED, random.nextBoolean());
            facts.set(Fact.PEDAL_RELEASED, random.nextBoolean());
            Watch watch = new Watch(State.values()[random.nextInt(State.values().length)], Set.of());
            int expected = -1;
            for (int i = watch.size() - 1; i >= 0; i--) {
                Cause cause = watch.row(i).cause;
                expected = facts.value(cause.fact()) == cause.value() ? i : expected;
            }
            assertEquals(expected, facts.firstActive(watch));
        }
    }

    @ParameterizedTest(name = "{0}")
    @EnumSource(State.class)
    void watch_asksStrongestFirst(State state) {
        Watch watch = new Watch(state, Set.of());
        for (int i = 1; i < watch.size(); i++) {
            Response before = watch.row(i - 1).response;
            assertTrue(
                    before.ordinal() <= watch.row(i).response.ordinal(), watch.row(i) + " after " + watch.row(i - 1));
        }
    }

    @ParameterizedTest(name = "{0}")
    @EnumSource(Step.class)
    void step_closesWhatItsRowSays(Step step) {
        State state = step == Step.IDLE ? State.IGNITION : State.RUNDOWN;
        if (step.ordinal() < Step.RAMP_DOWN.ordinal() && step != Step.IDLE) {
            state = step == Step.HOLD ? State.DRIVE_ENABLE : State.PRECHARGE;
        }
        good.set(Fact.BUS_LEVEL, step.ordinal() < Step.RAISE_BUS.ordinal() ? 0 : 1);
        Logic logic = in(state, step);
        logic.step(good);
        assertEquals(step, logic.state().step());
        assertEquals(step.negativeClosed, logic.permissions().negativeClosed);
        assertEquals(step.prechargeClosed, logic.permissions().prechargeClosed);
        assertEquals(step.positiveClosed, logic.permissions().positiveClosed);
        assertEquals(step == Step.HOLD, logic.permissions().busConnected);
        assertFalse(step.positiveClosed && !step.negativeClosed, "never the positive one alone");
    }

    @ParameterizedTest(name = "{0}")
    @EnumSource(
            value = Step.class,
            names = {"TEST_NEGATIVE", "TEST_PAUSE", "TEST_POSITIVE", "RAISE_BUS", "OVERLAP", "HOLD"})
    void anyStep_stopWishedFor_closesNothingOnTheWayDown(Step step) {
        for (Fact stop : List.of(Fact.COVER_LOOP_OPEN, Fact.PLUG_SEEN, Fact.CUT_LOOP_OPEN, Fact.KEY_OFF)) {
            good.set(Fact.KEY_ON, stop != Fact.KEY_OFF);
            good.set(stop, true);
            onlyOpens(in(step == Step.HOLD ? State.DRIVE_ENABLE : State.PRECHARGE, step), step, stop);
            good.set(stop, false);
        }
        good.set(Fact.KEY_ON, true);
        for (Fact end : List.of(Fact.CHARGE_DONE, Fact.COVER_LOOP_OPEN, Fact.PILOT_INVALID, Fact.CUT_LOOP_OPEN)) {
            good.set(Fact.PLUG_SEEN, true);
            good.set(Fact.CHARGE_OFFERED, true);
            good.set(end, true);
            Logic charging = in(State.CHARGE_LOCKOUT, step);
            charging.state().charge = ChargePhase.CHARGING;
            onlyOpens(charging, step, end);
            good.set(end, false);
        }
    }

    @Test
    void packSideChargeEnding_currentStillFlows_isAwaitedForTheBoundedWait() {
        int waitTicks = settings.ticks(Parameter.RUNDOWN_WAIT_MS);
        Logic logic = ending();
        for (int tick = 1; tick < waitTicks; tick++) {
            logic.step(good);
            assertEquals(ChargePhase.ENDING, logic.state().charge(), "tick " + tick + " of " + waitTicks);
            assertEquals(State.CHARGE_LOCKOUT, logic.state().state(), "the plug is out, but current flows");
            assertFalse(logic.permissions().charging);
        }
        logic.step(good);
        assertEquals(ChargePhase.WAITING, logic.state().charge());
    }

    @Test
    void packSideChargeEnding_currentIsLow_endsInThatTick() {
        Logic logic = ending();
        logic.step(good);
        assertEquals(ChargePhase.ENDING, logic.state().charge());
        good.set(Fact.CURRENT_LOW, true);
        logic.step(good);
        assertEquals(ChargePhase.WAITING, logic.state().charge());
    }

    private Logic ending() {
        Logic logic = new Logic(settings.with(Parameter.CHARGER_SIDE, 0), Set.of(), journal);
        logic.state().state = State.CHARGE_LOCKOUT;
        logic.state().charge = ChargePhase.ENDING;
        good.set(Fact.CURRENT_LOW, false);
        return logic;
    }

    private void onlyOpens(Logic logic, Step from, Fact stop) {
        boolean negative = from.negativeClosed;
        boolean relay = from.prechargeClosed;
        boolean positive = from.positiveClosed;
        for (int tick = 0; tick < 2000 && (tick == 0 || logic.state().step() != Step.IDLE); tick++) {
            logic.step(good);
            Permissions p = logic.permissions();
            String where = stop + " in " + from + ", tick " + tick;
            assertFalse(p.negativeClosed && !negative, where + ": the negative contactor closes");
            assertFalse(p.prechargeClosed && !relay, where + ": the precharge relay closes");
            assertFalse(p.positiveClosed && !positive, where + ": the positive contactor closes");
            negative = p.negativeClosed;
            relay = p.prechargeClosed;
            positive = p.positiveClosed;
        }
        assertFalse(negative || relay || positive, stop + " in " + from + " ends with something closed");
    }

    @Test
    void wake_keepsOnlyALatchThatNeedsService() {
        for (Reset latched : Reset.values()) {
            for (State state : State.values()) {
                LogicState before = new LogicState();
                before.state = state;
                before.latched = latched;
                before.step = Step.HOLD;
                before.keySeenOff = true;
                Logic logic = in(State.OFF, Step.IDLE);
                logic.wake(before.pack());
                boolean service = latched == Reset.SERVICE;
                assertEquals(service ? State.FAULT : State.OFF, logic.state().state());
                assertEquals(service ? Reset.SERVICE : Reset.NONE, logic.state().latched());
                assertEquals(Step.IDLE, logic.state().step());
                assertFalse(logic.state().keySeenOff());
            }
        }
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            PACKED            | STATE | BECAUSE
            0                 | OFF   | a memory that was never written, and the first state
            -1                | FAULT | an erased memory: nobody knows what it held
            137436856320      | OFF   | all sixteen bits of the ticks
            137438953472      | FAULT | a bit above the ticks
            1572864           | OFF   | the last state, unlatched
            1835008           | FAULT | no such state
            163840            | OFF   | the last step
            180224            | FAULT | no such step
            8192              | OFF   | the last charge phase
            10240             | FAULT | no such charge phase
            768               | OFF   | a latch that the key resets
            1024              | FAULT | a service latch
            1280              | FAULT | no such reset
            128               | OFF   | the last torque reset
            160               | FAULT | no such torque reset
            16                | OFF   | the last direction
            24                | FAULT | no such direction
            """)
    void wake_withAnyNumber_isOffOrLatched(long packed, State state, String because) {
        Logic logic = in(State.OFF, Step.IDLE);
        logic.wake(packed);
        assertEquals(state, logic.state().state(), because);
        assertEquals(
                state == State.FAULT ? Reset.SERVICE : Reset.NONE, logic.state().latched(), because);
        assertEquals(state == State.FAULT, packed == 1024 || !LogicState.isPacked(packed), because);
    }
}
