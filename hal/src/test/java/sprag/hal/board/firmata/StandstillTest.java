package sprag.hal.board.firmata;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static sprag.hal.board.BoardBench.relay;
import static sprag.hal.board.BoardBench.switchOn;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.hal.board.BoardBench;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSetting;
import sprag.hal.board.BoardState;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/**
 * The program stands still for a while (stopped by a signal, a debugger, an overloaded or sleeping computer) and goes on. The
 * outputs have kept their last levels all that time with nobody deciding, so the board must not go on driving. Which thread
 * runs first afterwards is chance: each order is tried.
 */
class StandstillTest {
    private static final long COMMAND_MS = 250;

    private enum First {
        LOOP,
        BOARD
    }

    private BoardSim sim;
    private BoardState before;

    private BoardBench driving() {
        BoardMap map =
                new BoardMap(List.of(switchOn(Signal.KEY_ON, "D2")), List.of(relay(Output.POSITIVE_CONTACTOR, "D8")));
        return new BoardBench(
                        new FirmataDriver(),
                        map,
                        Map.of(
                                BoardSetting.BAUD,
                                57600.0,
                                BoardSetting.SILENCE_MS,
                                2000.0,
                                BoardSetting.COMMAND_MS,
                                (double) COMMAND_MS),
                        clock -> {
                            sim = new BoardSim(clock);
                            return sim;
                        })
                .command(Output.POSITIVE_CONTACTOR, 1)
                .armAt(300)
                .at(890, () -> assertEquals(1, sim.output(8)));
    }

    private void note(BoardBench bench) {
        before = bench.board.state();
    }

    @ParameterizedTest
    @EnumSource(First.class)
    void stoppedForLonger_driving_isDisarmedAndReleased_whoeverRunsFirst(First first) {
        BoardBench bench = driving();
        bench.at(1000, () -> {
            bench.clock.standStillMs(3000);
            if (first == First.BOARD) {
                bench.killLoop();
                bench.clock.after(3, bench::reviveLoop);
            }
        });
        bench.at(4050, () -> note(bench));
        bench.runMs(4500);
        assertEquals(BoardState.READY, before);
        assertTrue(bench.said("bench", "armed again"), bench.healths.toString());
        assertTrue(bench.said("stood still") || bench.said("no command came"), bench.healths.toString());
    }

    /** From the first command after the gap the limit counts: one side is at it, the other above. */
    @ParameterizedTest
    @ValueSource(longs = {COMMAND_MS - 20, COMMAND_MS + 20})
    void gapBetweenTwoCommands_bothSidesOfTheLimit(long gapMs) {
        BoardBench bench = driving();
        bench.at(1000, () -> bench.clock.standStillMs(gapMs));
        bench.at(1400, () -> note(bench));
        bench.runMs(1500);
        assertEquals(gapMs > COMMAND_MS ? BoardState.READY : BoardState.ARMED, before);
    }

    /** While a computer sleeps its monotonic clock may stand still: only the time outside shows the gap. */
    @Test
    void computerSleeps_monotonicClockDoesNotShowIt_isDisarmed() {
        BoardBench bench = driving();
        bench.at(1000, () -> bench.clock.sleepUnnoticedMs(3000));
        bench.at(1050, () -> note(bench));
        bench.runMs(1500);
        assertEquals(BoardState.READY, before);
        assertTrue(bench.said("stood still for 30"), bench.healths.toString());
    }

    @Test
    void computerSleeps_armedAndReleased_isDisarmedToo() {
        BoardBench bench = driving();
        bench.at(900, () -> {
            bench.killLoop();
            bench.board.release();
        });
        bench.at(950, () -> assertEquals(BoardState.ARMED, bench.board.state()));
        bench.clock.after(1000, () -> bench.clock.sleepUnnoticedMs(3000));
        bench.clock.after(1050, () -> note(bench));
        bench.runMs(1500);
        assertEquals(BoardState.READY, before);
    }

    /** Outputs that were released on purpose were not in force: commands may pause then. */
    @Test
    void releasedOnPurpose_commandsPause_staysArmed() {
        BoardBench bench = driving();
        bench.at(1000, () -> {
            bench.killLoop();
            bench.board.release();
        });
        bench.clock.after(2000, bench::reviveLoop);
        bench.clock.after(2100, () -> note(bench));
        bench.runMs(2500);
        assertEquals(BoardState.ARMED, before);
    }

    @Test
    void disarmedByAStandstill_armedAgain_drives() {
        BoardBench bench = driving();
        bench.at(1000, () -> bench.clock.standStillMs(3000));
        bench.at(4200, () -> bench.board.requestArm());
        bench.at(4300, () -> note(bench));
        bench.at(4300, () -> assertEquals(1, sim.output(8)));
        bench.runMs(4500);
        assertEquals(BoardState.ARMED, before);
    }
}
