package sprag.hal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static sprag.hal.board.BoardBench.relay;
import static sprag.hal.board.BoardBench.switchOn;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import sprag.hal.board.BoardBench;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSetting;
import sprag.hal.board.firmata.BoardSim;
import sprag.hal.board.firmata.FirmataDriver;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** From a pin to the supervisor's decision and back to a pin, through the real driver, counted on a virtual clock. */
class PinToPinTest {
    private static final BoardMap MAP =
            new BoardMap(List.of(switchOn(Signal.BRAKE_PRESSED, "D2")), List.of(relay(Output.BRAKE_LAMP, "D8")));
    private static final long TICK_MS = BoardBench.TICK_MS;
    /** No multiple of a tick, so that the switch changes at every phase of it. */
    private static final long EVERY_MS = 137;

    private final Settings settings = Vehicle.any();
    private final Supervisor supervisor = new Supervisor(settings);
    private final LatencyMeter pinToPin = new LatencyMeter();
    private BoardSim sim;
    private BoardBench bench;
    private Loop loop;
    private long changedNs = -1;
    private boolean pressed;

    @BeforeEach
    void loopOnABoard() {
        bench = new BoardBench(new FirmataDriver(), MAP, Map.of(BoardSetting.BAUD, 57600.0), clock -> {
            sim = new BoardSim(clock);
            return sim;
        });
        bench.killLoop();
        loop = new Loop(supervisor, settings, bench.board, bench.clock);
        bench.clock.every(TICK_MS, loop::tick);
        bench.armAt(300);
    }

    private void press() {
        pressed = !pressed;
        sim.level(2, pressed);
        changedNs = bench.clock.nowNs();
    }

    private void look() {
        if (changedNs >= 0 && sim.output(8) == (pressed ? 1 : 0)) {
            pinToPin.record(bench.clock.nowNs() - changedNs);
            changedNs = -1;
        }
    }

    @Test
    void brakeSwitch_lampFollowsInLessThanTwoTicks() {
        bench.at(500, () -> {
            bench.clock.every(EVERY_MS, this::press);
            bench.clock.every(1, this::look);
        });
        bench.runMs(500 + 200 * EVERY_MS);
        assertTrue(pinToPin.count() >= 198, pinToPin.summary());
        assertTrue(pinToPin.percentileNs(0.5) < 2 * TICK_MS * 1_000_000, pinToPin.summary());
        assertTrue(pinToPin.maxNs() < 3 * TICK_MS * 1_000_000, pinToPin.summary());
        assertTrue(bench.board.reaction().count() >= 198, "the board's own meter saw them too");
        assertTrue(bench.board.reaction().percentileNs(0.5) < 2 * TICK_MS * 1_000_000);
        assertEquals(loop.ticks(), loop.work().count());
    }

    @Test
    void heartbeat_isNoAnswerToASwitch() {
        BoardMap beating = new BoardMap(
                List.of(switchOn(Signal.BRAKE_PRESSED, "D2")),
                List.of(relay(Output.READY_LAMP, "D8"), relay(Output.HEARTBEAT, "D9")));
        BoardBench beats = new BoardBench(new FirmataDriver(), beating, Map.of(BoardSetting.BAUD, 57600.0), clock -> {
            sim = new BoardSim(clock);
            return sim;
        });
        beats.clock.every(TICK_MS, () -> beats.command(Output.HEARTBEAT, beats.clock.nowNs() / 10_000_000 % 2));
        beats.armAt(300).at(600, () -> sim.level(2, true)).at(660, () -> beats.command(Output.READY_LAMP, 1));
        beats.runMs(1000);
        assertEquals(1, beats.board.reaction().count());
        assertTrue(
                beats.board.reaction().maxNs() > 40_000_000,
                beats.board.reaction().summary());
    }

    @Test
    void ticksThatTakeTooLong_withABoard_areAnInterlocksCause() {
        boolean[] active = new boolean[2];
        bench.at(900, () -> active[0] = supervisor.diagnostics().isActive(Interlock.LOOP_LATE));
        bench.at(950, () -> loop.listen((tick, in, out) -> bench.clock.waitUntil(bench.clock.nowNs() + 12_000_000)));
        bench.at(2000, () -> active[1] = supervisor.diagnostics().isActive(Interlock.LOOP_LATE));
        bench.runMs(2100);
        assertEquals(List.of(false, true), List.of(active[0], active[1]));
        assertTrue(loop.overruns() > 10, loop.overruns() + " overruns");
        assertTrue(loop.work().maxNs() >= 12_000_000, loop.work().summary());
    }
}
