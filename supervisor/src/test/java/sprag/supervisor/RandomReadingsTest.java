package sprag.supervisor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.util.EnumSet;
import java.util.Random;
import java.util.Set;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/**
 * Thousands of short runs with a driver who does anything and sensors that lie: the absolutes hold in every tick, nothing is thrown and
 * nothing is allocated. {@code -Dhostile.seeds=20000} tries a hundred times as much.
 */
@Execution(ExecutionMode.CONCURRENT)
class RandomReadingsTest {
    private static final int RUNS_A_SEED = 10;
    private static final int TICKS = 600;

    private static final int ROUNDS = 4;

    static LongStream seeds() {
        return LongStream.rangeClosed(1, Integer.getInteger("hostile.seeds", 200));
    }

    /** The least of some rounds: the first ones carry what compiling and loading of classes allocate. */
    @Test
    void hostileReadings_allocateNothing() {
        ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
        long self = Thread.currentThread().getId();
        long leastBytes = Long.MAX_VALUE;
        for (int round = 0; round < ROUNDS; round++) {
            long bytes = 0;
            for (long seed = 1; seed <= 40; seed++) {
                NastyCar car = new NastyCar(seed);
                long before = threads.getThreadAllocatedBytes(self);
                for (int i = 0; i < TICKS; i++) {
                    car.tick();
                }
                bytes += threads.getThreadAllocatedBytes(self) - before;
            }
            leastBytes = Math.min(leastBytes, bytes);
        }
        assertEquals(0, leastBytes, "bytes in " + 40 * TICKS + " hostile ticks");
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void anyReadings_keepTheAbsolutes(long seed) {
        for (int run = 0; run < RUNS_A_SEED; run++) {
            long one = seed * 1000 + run;
            NastyCar car = new NastyCar(one);
            Absolutes absolutes = new Absolutes(car.rig, "seed " + one);
            for (int i = 0; i < TICKS; i++) {
                car.tick();
                absolutes.check();
            }
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void anyState_survivesPackingAndUnpacking(long seed) {
        NastyCar car = new NastyCar(seed);
        LogicState copy = new LogicState();
        for (int i = 0; i < TICKS; i++) {
            car.tick();
            LogicState s = car.rig.supervisor.state();
            copy.unpack(s.pack());
            assertEquals(s.pack(), copy.pack());
            assertEquals(s.state, copy.state);
            assertEquals(s.step, copy.step);
            assertEquals(s.stepTicks, copy.stepTicks);
            assertEquals(s.charge, copy.charge);
            assertEquals(s.latched, copy.latched);
            assertEquals(s.torqueLatched, copy.torqueLatched);
            assertEquals(s.engaged, copy.engaged);
            assertEquals(s.keySeenOff, copy.keySeenOff);
            assertEquals(s.keySeenOn, copy.keySeenOn);
            assertEquals(s.startSeenReleased, copy.startSeenReleased);
        }
    }

    /** A generator that never gets anywhere would prove nothing. */
    @Test
    void theRandomRuns_visitEveryStateAndMostInterlocks() {
        Set<State> seen = EnumSet.noneOf(State.class);
        Set<Interlock> acted = EnumSet.noneOf(Interlock.class);
        int torqueTicks = 0;
        for (long seed = 1; seed <= 300; seed++) {
            NastyCar car = new NastyCar(seed);
            for (int i = 0; i < TICKS; i++) {
                car.tick();
                seen.add(car.rig.state());
                torqueTicks += car.rig.torqueNm() != 0 ? 1 : 0;
            }
            for (Interlock row : Interlock.values()) {
                if (car.rig.times(row) > 0) {
                    acted.add(row);
                }
            }
        }
        assertEquals(EnumSet.allOf(State.class), seen);
        assertTrue(acted.size() > 45, acted.size() + " interlocks: " + acted);
        assertTrue(torqueTicks > 3_000, "torque in " + torqueTicks + " ticks");
    }

    /** Readings without any sense from the first tick: nothing ever closes. */
    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void noise_closesNothing(long seed) {
        Random random = new Random(seed);
        Rig rig = new Rig();
        rig.meddle = () -> {
            for (Signal signal : Signal.values()) {
                double span = signal.max - signal.min;
                rig.in.set(signal, random.nextInt(8) == 0 ? Double.NaN : signal.min + random.nextDouble() * span);
            }
        };
        for (int i = 0; i < 300; i++) {
            rig.run(1);
            assertEquals(0, rig.torqueNm());
            assertTrue(!rig.anyContactor(), "seed " + seed);
        }
    }
}
