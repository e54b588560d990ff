package sprag.hal.board.modbus;

import static org.junit.jupiter.api.Assertions.assertTrue;
import static sprag.hal.board.BoardBench.switchOn;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import sprag.hal.board.BoardBench;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSetting;
import sprag.hal.board.BoardState;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Signal;

/** H14, the supervisor is blind: a module whose answers come too late, by any delay up to a second, from the start or suddenly. */
@Execution(ExecutionMode.CONCURRENT)
class LateAnswersTest {
    private static final BoardMap MAP = new BoardMap(List.of(switchOn(Signal.KEY_ON, "discrete:0")), List.of());
    private static final long RUN_MS = 6000;
    private static final long TOGGLE_MS = 400;
    /** The cases with 0, 1 and 2 retries take every third delay each, so that together they try one in so many milliseconds. */
    private static final long DELAY_STEP_MS = 37;

    /**
     * A line and its module.
     *
     * @param baud speed of the line
     * @param timeoutMs how long an answer may take
     * @param retries how often a request is repeated
     * @param sudden whether the module is quick for the first second
     */
    record Case(double baud, double timeoutMs, double retries, boolean sudden) {}

    static List<Case> cases() {
        List<Case> all = new ArrayList<>();
        for (double baud : new double[] {9600, 115200}) {
            for (double timeoutMs : new double[] {20, 50, 100}) {
                for (double retries : new double[] {0, 1, 2}) {
                    all.add(new Case(baud, timeoutMs, retries, false));
                    all.add(new Case(baud, timeoutMs, retries, true));
                }
            }
        }
        return all;
    }

    @ParameterizedTest
    @MethodSource("cases")
    @DisplayName("an answer to an earlier request is never shown as the newest")
    void slowModule_neverShowsAnOldAnswerAsNew(Case line) {
        long firstMs = (long) line.timeoutMs() + 30 + DELAY_STEP_MS * (long) line.retries();
        for (long delayMs = firstMs; delayMs <= 1000; delayMs += 3 * DELAY_STEP_MS) {
            oldestReading(line, delayMs);
        }
    }

    /** The module's switch goes on and off; a reading that differs from it must not claim to be younger than the change. */
    private static void oldestReading(Case line, long delayMs) {
        Map<Row, Double> settings = Map.of(
                BoardSetting.BAUD, line.baud(),
                BoardSetting.SILENCE_MS, 2000.0,
                BoardSetting.RETRY_MS, 100.0,
                ModbusSetting.TIMEOUT_MS, line.timeoutMs(),
                ModbusSetting.RETRIES, line.retries());
        ModuleSim[] module = new ModuleSim[1];
        BoardBench bench = new BoardBench(new ModbusDriver(), MAP, settings, clock -> {
            module[0] = new ModuleSim(clock, 1).delayMs(line.sudden() ? 1 : delayMs);
            return module[0];
        });
        bench.at(1000, () -> module[0].delayMs(delayMs));
        boolean[] level = {false};
        long[] changedNs = {0};
        bench.clock.every(TOGGLE_MS, () -> {
            level[0] = !level[0];
            module[0].discrete(0, level[0]);
            changedNs[0] = bench.clock.nowNs();
        });
        bench.clock.every(5, () -> {
            boolean differs = bench.board.state() == BoardState.READY && bench.board.value(0) != (level[0] ? 1 : 0);
            long youngerNs = bench.clock.nowNs() - changedNs[0] - bench.board.ageNs(0);
            assertTrue(
                    !differs || youngerNs <= line.timeoutMs() * 1e6,
                    () -> line + ", answers after " + delayMs + " ms: a reading " + youngerNs / 1_000_000
                            + " ms older than told");
        });
        bench.runMs(RUN_MS);
    }
}
