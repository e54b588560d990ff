package sprag.supervisor.logic;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.EnumSet;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.supervisor.Diagnostics;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.input.TickFacts;
import sprag.supervisor.vocabulary.BusLevel;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;
import sprag.supervisor.vocabulary.TorquePermission;

/** What the state machine makes of a charge, and of a lever, in the very tick. */
class LogicChargeTest {
    private final TickFacts f = new TickFacts();
    private final Diagnostics journal = new Diagnostics();

    LogicChargeTest() {
        f.set(Fact.PLUG_SEEN, true);
        f.set(Fact.PLUG_HELD, true);
        f.set(Fact.CHARGE_DUE, true);
        f.set(Fact.CHARGE_OFFERED, true);
        f.set(Fact.STANDSTILL, true);
        f.set(Fact.PEDAL_RELEASED, true);
        f.set(Fact.BUS_LEVEL, BusLevel.DISCHARGED.ordinal());
    }

    private Logic charging(Step step, Set<Interlock> without) {
        Logic logic = new Logic(TestVehicle.full(), without, journal);
        logic.state().state = State.CHARGE_LOCKOUT;
        logic.state().charge = ChargePhase.CHARGING;
        logic.state().step = step;
        return logic;
    }

    @Test
    void weldFoundOnTheWayToACharge_opensAndIsTold() {
        f.set(Fact.BUS_LEVEL, BusLevel.PARTIAL.ordinal());
        Logic logic = charging(Step.TEST_NEGATIVE, Set.of());
        logic.step(f);
        assertEquals(State.FAULT, logic.state().state);
        assertEquals(Step.IDLE, logic.state().step);
        assertEquals(1, journal.timesActed(Interlock.NEGATIVE_WELD_FOUND));
    }

    @ParameterizedTest(name = "limited {0}")
    @ValueSource(booleans = {false, true})
    void interlockThatLimits_limitsTheCharge(boolean limited) {
        if (limited) {
            for (Interlock row : Interlock.values()) {
                if (row.response == Response.LIMIT && row.where.contains(State.CHARGE_LOCKOUT)) {
                    f.set(row.cause.fact(), row.cause.value());
                }
            }
        }
        Logic logic = charging(Step.HOLD, Set.of());
        logic.step(f);
        assertEquals(true, logic.permissions().charging);
        assertEquals(limited, logic.permissions().limited);
    }

    @Test
    void limitedButNotDelivering_limitsNothing() {
        for (Interlock row : Interlock.values()) {
            if (row.response == Response.LIMIT && row.where.contains(State.CHARGE_LOCKOUT)) {
                f.set(row.cause.fact(), row.cause.value());
            }
        }
        Logic logic = charging(Step.TEST_NEGATIVE, Set.of());
        logic.step(f);
        assertEquals(false, logic.permissions().charging);
        assertEquals(false, logic.permissions().limited);
    }

    @ParameterizedTest(name = "taken out {0}")
    @ValueSource(booleans = {false, true})
    void latchPressed_actsUnlessTakenOut(boolean takenOut) {
        f.set(Fact.PLUG_RELEASED, true);
        Logic logic = charging(Step.HOLD, takenOut ? EnumSet.of(Interlock.PLUG_PULLED) : Set.of());
        logic.step(f);
        assertEquals(takenOut ? ChargePhase.CHARGING : ChargePhase.ENDING, logic.state().charge);
        assertEquals(takenOut ? 0 : 1, journal.timesActed(Interlock.PLUG_PULLED));
    }

    /** A lever that is moved at standstill takes the new direction and gives torque in the same tick. */
    @Test
    void leverMovedAtStandstill_drivesInTheSameTick() {
        f.set(Fact.PLUG_SEEN, false);
        f.set(Fact.KEY_ON, true);
        f.set(Fact.DIRECTION, Direction.REVERSE.ordinal());
        Logic logic = new Logic(TestVehicle.full(), Set.of(), journal);
        logic.state().state = State.DRIVE_ENABLE;
        logic.state().step = Step.HOLD;
        logic.state().engaged = Direction.FORWARD;
        logic.step(f);
        assertEquals(Direction.REVERSE, logic.permissions().engaged);
        assertEquals(TorquePermission.FOLLOW_PEDAL, logic.permissions().torque);
    }
}
