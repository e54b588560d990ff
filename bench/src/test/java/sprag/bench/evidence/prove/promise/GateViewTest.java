package sprag.bench.evidence.prove.promise;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.BusLevel;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Permissions;
import sprag.supervisor.vocabulary.Step;
import sprag.supervisor.vocabulary.TorquePermission;

/** What a proof takes the Gate to take back, and how a proof names goals, facts and histories. */
class GateViewTest {
    /** A tick of which everything is given. */
    private static final class Seen implements GateView.Sight {
        private final Permissions may = new Permissions();
        private final Set<Fact> facts = EnumSet.noneOf(Fact.class);
        private BusLevel bus = BusLevel.CHARGED;
        private boolean closes;

        @Override
        public Permissions may() {
            return may;
        }

        @Override
        public boolean is(Fact fact) {
            return facts.contains(fact);
        }

        @Override
        public BusLevel bus() {
            return bus;
        }

        @Override
        public boolean live() {
            return may.negativeClosed
                    || may.positiveClosed
                    || may.prechargeClosed
                    || may.inverterEnabled
                    || may.charging;
        }

        @Override
        public boolean torque() {
            return may.torque != TorquePermission.NONE;
        }

        @Override
        public boolean follows() {
            return may.torque == TorquePermission.FOLLOW_PEDAL;
        }

        @Override
        public boolean positiveCloses() {
            return closes;
        }

        Seen driving(TorquePermission torque) {
            may.negativeClosed = true;
            may.positiveClosed = true;
            may.busConnected = true;
            may.inverterEnabled = true;
            may.torque = torque;
            may.engaged = Direction.FORWARD;
            facts.add(Fact.KEY_ON);
            return this;
        }
    }

    @Test
    void cutLoopOpen_whileAnythingLives_everythingIsTakenBack() {
        Seen seen = new Seen().driving(TorquePermission.FOLLOW_PEDAL);
        seen.may.prechargeClosed = true;
        seen.may.charging = true;
        seen.facts.add(Fact.CUT_LOOP_OPEN);
        GateView.apply(seen);
        assertFalse(seen.live() || seen.torque() || seen.may.busConnected);
        assertEquals(Direction.NEUTRAL, seen.may.engaged);
    }

    @ParameterizedTest
    @CsvSource({
        "FOLLOW_PEDAL, true, true, true, true, false, true, all is as it should be",
        "FOLLOW_PEDAL, false, true, true, true, false, false, no negative contactor",
        "FOLLOW_PEDAL, true, false, true, true, false, false, no positive contactor",
        "FOLLOW_PEDAL, true, true, false, true, false, false, the inverter is not enabled",
        "FOLLOW_PEDAL, true, true, true, false, false, false, no key",
        "RAMP_TO_ZERO, true, true, true, false, false, true, torque may end without a key",
        "RAMP_TO_ZERO, true, true, true, true, true, false, a plug",
        "FOLLOW_PEDAL, true, true, true, true, true, false, a plug"
    })
    void torque_stays_onlyConnectedWithoutAPlugAndWithTheKey(
            TorquePermission torque,
            boolean negative,
            boolean positive,
            boolean inverter,
            boolean key,
            boolean plug,
            boolean stays,
            String because) {
        Seen seen = new Seen().driving(torque);
        seen.may.negativeClosed = negative;
        seen.may.positiveClosed = positive;
        seen.may.inverterEnabled = inverter;
        if (!key) {
            seen.facts.remove(Fact.KEY_ON);
        }
        if (plug) {
            seen.facts.add(Fact.PLUG_SEEN);
        }
        GateView.apply(seen);
        assertEquals(stays ? torque : TorquePermission.NONE, seen.may.torque, because);
        assertEquals(stays ? Direction.FORWARD : Direction.NEUTRAL, seen.may.engaged, because);
        assertEquals(positive, seen.may.positiveClosed, "contactors are left alone");
    }

    @ParameterizedTest
    @EnumSource(BusLevel.class)
    void positiveContactor_closes_ontoAChargedBusOnly(BusLevel bus) {
        for (boolean closes : new boolean[] {true, false}) {
            Seen seen = new Seen().driving(TorquePermission.NONE);
            seen.bus = bus;
            seen.closes = closes;
            GateView.apply(seen);
            assertEquals(!closes || bus == BusLevel.CHARGED, seen.may.positiveClosed);
        }
    }

    @ParameterizedTest
    @CsvSource({
        "false, true, true, true",
        "true, true, true, false",
        "false, false, true, false",
        "false, true, false, false"
    })
    void charge_stays_behindAPlugThatIsHeld_withTheInverterOff(
            boolean inverter, boolean plug, boolean held, boolean stays) {
        Seen seen = new Seen();
        seen.may.charging = true;
        seen.may.inverterEnabled = inverter;
        if (plug) {
            seen.facts.add(Fact.PLUG_SEEN);
        }
        if (held) {
            seen.facts.add(Fact.PLUG_HELD);
        }
        GateView.apply(seen);
        assertEquals(stays, seen.may.charging);
    }

    @ParameterizedTest
    @CsvSource({
        "true, NONE, NEUTRAL, false, CHARGES",
        "true, NONE, NEUTRAL, true, CHARGES_LIMITED",
        "false, RAMP_TO_ZERO, FORWARD, true, RAMPS_OUT",
        "false, FOLLOW_PEDAL, FORWARD, true, DRIVES_LIMITED",
        "false, FOLLOW_PEDAL, FORWARD, false, DRIVES_FORWARD",
        "false, FOLLOW_PEDAL, REVERSE, false, DRIVES_BACKWARD"
    })
    void permissions_areOneGoal(
            boolean charging, TorquePermission torque, Direction engaged, boolean limited, Goal goal) {
        Permissions may = new Permissions();
        may.charging = charging;
        may.torque = torque;
        may.engaged = engaged;
        may.limited = limited;
        assertEquals(goal, Goal.of(may));
    }

    @Test
    void factSet_hasABitForEachFact_inTheWordThatItBelongsTo() {
        Fact first = Fact.values()[0];
        Fact middle = Fact.values()[63];
        Fact next = Fact.values()[64];
        FactSet set = FactSet.of(first, middle).plus(next);
        assertEquals(1 | 1L << 63, set.low);
        assertEquals(1, set.high);
        assertEquals(3, set.facts.length);
        assertEquals(0, FactSet.low(64) + FactSet.high(63));
        assertEquals(2, FactSet.high(65));
    }

    /** The weld test begins at the negative contactor where it can be tested, else at the positive one. */
    @ParameterizedTest
    @CsvSource({
        "IDLE, TEST_NEGATIVE, true, true",
        "IDLE, TEST_NEGATIVE, false, false",
        "IDLE, TEST_POSITIVE, true, false",
        "IDLE, TEST_POSITIVE, false, true",
        "IDLE, HOLD, true, false",
        "RAISE_BUS, OVERLAP, true, true",
        "RAISE_BUS, HOLD, true, false",
        "HOLD, IDLE, false, true",
        "TEST_POSITIVE, RAISE_BUS, false, true"
    })
    void steps_followEachOtherInOneOrder(Step from, Step to, boolean testsNegative, boolean allowed) {
        assertEquals(allowed, StepOrder.allows(from, to, testsNegative));
    }

    @ParameterizedTest
    @EnumSource(HistoryPromise.class)
    void watcherOfAHistory_hasItsNameAndItsExplanation(HistoryPromise history) throws Exception {
        PromiseLimits limits = PromiseLimits.of(
                VehicleReader.read(Catalogue.installed().vehicle("yard-cart")).settings());
        assertEquals(history.name(), history.watcher(limits).name());
        assertEquals(history.explanation, history.watcher(limits).explanation());
        assertTrue(history.watcher(limits).bits() >= 0 && !history.explanation.isBlank());
    }
}
