package sprag.hal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** The fixed-rate loop on a clock that the test moves: 10 ms ticks, samples stale after 100 ms. */
class LoopTest {
    private static final long MS = 1_000_000;

    private final Settings settings = Vehicle.any();
    private final VirtualClock clock = new VirtualClock();
    private final SimulatedDevice device = new SimulatedDevice(EnumSet.allOf(Signal.class));
    private final Loop loop = new Loop(new Supervisor(settings), settings, device, clock);

    private void passMs(double ms) {
        clock.waitUntil(clock.nowNs() + Math.round(ms * MS));
    }

    private void run(int ticks) {
        long last = loop.ticks() + ticks;
        loop.run(() -> loop.ticks() < last);
    }

    @Test
    void tick_samplesDecidesAndCommands() {
        device.set(Signal.KEY_ON, 1);
        boolean[] shown = new boolean[1];
        loop.listen((tick, in, out) -> {
            assertEquals(0, tick);
            assertSame(loop.readings(), in);
            assertSame(loop.commands(), out);
            assertTrue(in.isOn(Signal.KEY_ON));
            shown[0] = true;
        });
        loop.tick();
        assertTrue(shown[0]);
        assertEquals(1, loop.ticks());
        assertEquals(loop.commands(), device.commands());
        assertTrue(loop.commands().isOn(Output.HEARTBEAT), "the heartbeat beats");
    }

    @Test
    void run_keepsTheRateAndReleasesAtTheEnd() {
        List<Long> beganNs = new ArrayList<>();
        loop.listen((tick, in, out) -> {
            beganNs.add(clock.nowNs());
            passMs(2);
        });
        run(5);
        for (int i = 1; i < beganNs.size(); i++) {
            assertEquals(10 * MS, beganNs.get(i) - beganNs.get(i - 1));
        }
        assertEquals(5, beganNs.size());
        assertEquals(0, loop.overruns());
        assertEquals(0, loop.worstLateNs());
        assertEquals(new Commands(), device.commands(), "all released");
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            LATE_MS | OVERRUNS | BECAUSE
            5       | 0        | half a tick late is still on time
            5.001   | 1        | more is not
            """)
    void tickThatBeginsLate_isAnOverrunAndShiftsNoDeadline(double lateMs, int overruns, String because) {
        List<Boolean> told = new ArrayList<>();
        List<Long> beganNs = new ArrayList<>();
        loop.listen((tick, in, out) -> {
            told.add(in.isOn(Signal.LOOP_OVERRUN));
            beganNs.add(clock.nowNs());
            if (tick == 0) {
                clock.after(10, () -> passMs(lateMs));
            }
        });
        run(3);
        assertEquals(overruns, loop.overruns(), because);
        assertEquals(List.of(false, overruns > 0, false), told);
        assertEquals(Math.round(lateMs * MS), loop.worstLateNs());
        assertEquals(20 * MS, beganNs.get(2) - beganNs.get(0), "the deadline after it is where it was");
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            TOOK_MS | OVERRUNS | BECAUSE
            10      | 0        | a whole tick
            10.001  | 1        | longer
            """)
    void tickThatTakesTooLong_isToldInTheNext(double tookMs, int overruns, String because) {
        List<Boolean> told = new ArrayList<>();
        loop.listen((tick, in, out) -> {
            told.add(in.isOn(Signal.LOOP_OVERRUN));
            passMs(tick == 0 ? tookMs : 0);
        });
        loop.tick();
        loop.tick();
        loop.tick();
        assertEquals(overruns, loop.overruns(), because);
        assertEquals(List.of(false, overruns > 0, false), told, "told once");
    }

    @Test
    void longPause_isNotMadeUpForByABurst() {
        List<Long> beganNs = new ArrayList<>();
        loop.listen((tick, in, out) -> {
            beganNs.add(clock.nowNs());
            passMs(tick == 0 ? 1000 : 1);
        });
        run(4);
        assertEquals(1000 * MS, beganNs.get(1) - beganNs.get(0));
        assertEquals(10 * MS, beganNs.get(2) - beganNs.get(1));
        assertEquals(10 * MS, beganNs.get(3) - beganNs.get(2));
    }

    @Test
    void lateness_isMeasuredOnceATick() {
        loop.listen((tick, in, out) -> {
            if (tick == 0) {
                clock.after(10, () -> passMs(3));
            }
        });
        run(3);
        assertEquals(3, loop.lateness().count());
        assertEquals(3 * MS, loop.lateness().maxNs());
        assertSame(clock, loop.clock());
    }

    /** A whole tick behind may be made up; more is given up. */
    @ParameterizedTest(name = "{0} ms")
    @CsvSource({"20, 20", "20.001, 30.001"})
    void tickEndsLate_aWholeTickIsMadeUpForAndNoMore(double tookMs, double thirdMs) {
        List<Long> beganNs = new ArrayList<>();
        loop.listen((tick, in, out) -> {
            beganNs.add(clock.nowNs());
            passMs(tick == 0 ? tookMs : 0);
        });
        run(3);
        assertEquals(Math.round(tookMs * MS), beganNs.get(1) - beganNs.get(0));
        assertEquals(Math.round(thirdMs * MS), beganNs.get(2) - beganNs.get(0));
    }

    @Test
    void staleSample_reachesTheSupervisorAsUnknown() {
        device.set(Signal.BUS_VOLTAGE_V, 50);
        loop.tick();
        device.freeze(Signal.BUS_VOLTAGE_V, true);
        passMs(100);
        loop.tick();
        assertEquals(50, loop.readings().get(Signal.BUS_VOLTAGE_V), "100 ms old");
        passMs(0.001);
        loop.tick();
        assertEquals(Double.NaN, loop.readings().get(Signal.BUS_VOLTAGE_V), "older");
        assertEquals(100, settings.get(Parameter.LOOP_STALE_MS));
    }

    @Test
    void deviceUnwell_isALostLink() {
        loop.tick();
        assertTrue(loop.readings().isOff(Signal.LINK_LOST));
        device.setHealth(Health.lost("cable out"));
        loop.tick();
        assertTrue(loop.readings().isOn(Signal.LINK_LOST));
        device.setHealth(Health.OK);
        loop.tick();
        assertTrue(loop.readings().isOff(Signal.LINK_LOST));
    }

    @Test
    void listenerThatThrows_releasesEverything() {
        loop.listen((tick, in, out) -> {
            throw new IllegalStateException("tick " + tick);
        });
        assertThrows(IllegalStateException.class, () -> run(1));
        assertFalse(device.commands().isOn(Output.HEARTBEAT));
    }

    @Test
    void close_closesTheDevice() {
        loop.tick();
        loop.close();
        assertEquals(new Commands(), device.commands());
    }

    @Test
    void realClock_neverReturnsEarly() {
        Clock real = Clock.real();
        long deadlineNs = real.nowNs() + 2 * MS;
        real.waitUntil(deadlineNs);
        assertTrue(real.nowNs() >= deadlineNs);
        real.waitUntil(deadlineNs - MS);
        assertTrue(real.nowNs() >= deadlineNs, "a deadline that has passed is no wait");
    }

    /** The time outside is the date, which goes on while the computer sleeps; a clock of a test has one time only. */
    @Test
    void realClock_timeOutsideIsTheDate() {
        long beginOf2020Ns = 1_577_836_800_000_000_000L;
        assertTrue(Clock.real().outsideNs() > beginOf2020Ns);
        Clock other = new Clock() {
            @Override
            public long nowNs() {
                return 7;
            }

            @Override
            public void waitUntil(long deadlineNs) {}
        };
        assertEquals(7, other.outsideNs());
    }
}
