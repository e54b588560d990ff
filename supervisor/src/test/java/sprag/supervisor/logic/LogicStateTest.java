package sprag.supervisor.logic;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.supervisor.NastyCar;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Reset;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;

/** Everything remembered, in one number and back. */
class LogicStateTest {
    private static final int[] TICKS = {0, 1, 0x1234, LogicState.MAX_TICKS};

    @Test
    void everyCombination_packsToItsOwnNumberAndBack() {
        LogicState s = new LogicState();
        LogicState back = new LogicState();
        Set<Long> packed = new HashSet<>();
        long count = 0;
        for (State state : State.values()) {
            for (Step step : Step.values()) {
                for (ChargePhase charge : ChargePhase.values()) {
                    for (Reset latched : Reset.values()) {
                        s.state = state;
                        s.step = step;
                        s.charge = charge;
                        s.latched = latched;
                        count += restOfIt(s, back, packed);
                    }
                }
            }
        }
        assertEquals(count, packed.size(), "no two states share a number");
    }

    private static long restOfIt(LogicState s, LogicState back, Set<Long> packed) {
        long count = 0;
        for (Reset torqueLatched : Reset.values()) {
            for (Direction engaged : Direction.values()) {
                for (int flags = 0; flags < 8; flags++) {
                    s.torqueLatched = torqueLatched;
                    s.engaged = engaged;
                    s.keySeenOff = (flags & 1) != 0;
                    s.startSeenReleased = (flags & 2) != 0;
                    s.keySeenOn = (flags & 4) != 0;
                    s.stepTicks = TICKS[(int) (count % TICKS.length)];
                    packed.add(s.pack());
                    back.unpack(s.pack());
                    assertSame(s, back);
                    count++;
                }
            }
        }
        return count;
    }

    private static void assertSame(LogicState s, LogicState back) {
        assertEquals(s.state(), back.state());
        assertEquals(s.step(), back.step());
        assertEquals(s.stepTicks(), back.stepTicks());
        assertEquals(s.charge(), back.charge());
        assertEquals(s.latched(), back.latched());
        assertEquals(s.torqueLatched(), back.torqueLatched());
        assertEquals(s.engaged(), back.engaged());
        assertEquals(s.keySeenOff(), back.keySeenOff());
        assertEquals(s.startSeenReleased(), back.startSeenReleased());
        assertEquals(s.keySeenOn, back.keySeenOn);
        assertEquals(s.pack(), back.pack());
    }

    @Test
    void newState_isOffAndForgetsNothingYet() {
        LogicState s = new LogicState();
        assertEquals(State.OFF, s.state());
        assertEquals(Step.IDLE, s.step());
        assertEquals(Reset.NONE, s.latched());
        assertTrue(s.pack() >= 0);
    }

    /** Two machines in the same remembered state, given the same facts, do the same: nothing else is remembered. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
    void machineFromUnpackedState_doesTheSame(long seed) {
        Settings settings = TestVehicle.full();
        NastyCar car = new NastyCar(seed);
        Logic other = new Logic(settings, Set.of(), Journal.SILENT);
        for (int i = 0; i < 800; i++) {
            long before = car.rig.supervisor.state().pack();
            car.tick();
            other.state().unpack(before);
            other.step(car.rig.supervisor.facts());
            assertEquals(car.rig.supervisor.state().pack(), other.state().pack(), "tick " + i);
            assertEquals(car.rig.supervisor.permissions().torque, other.permissions().torque);
            assertEquals(car.rig.supervisor.permissions().charging, other.permissions().charging);
            assertEquals(car.rig.supervisor.permissions().limited, other.permissions().limited);
        }
    }
}
