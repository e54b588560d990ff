package sprag.hal.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static sprag.hal.board.BoardBench.relay;
import static sprag.hal.board.BoardBench.switchOn;
import static sprag.hal.board.BoardBench.volts;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import sprag.hal.Clock;
import sprag.hal.Samples;
import sprag.hal.board.firmata.BoardSim;
import sprag.hal.board.firmata.FirmataDriver;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** What the loop calls every tick allocates nothing, so that no collection ever falls into it on a board's account. */
class BoardAllocationTest {
    private static final ThreadMXBean THREADS = (ThreadMXBean) ManagementFactory.getThreadMXBean();

    /** The least of five rounds: the first ones carry a few hundred bytes of the compiler's own. */
    @Test
    void tenThousandTicks_allocateNothingOnTheLoopsThread() {
        BoardMap map = new BoardMap(
                List.of(switchOn(Signal.KEY_ON, "D2"), volts(Signal.PEDAL_A_V, "A0")),
                List.of(relay(Output.POSITIVE_CONTACTOR, "D8")));
        Clock clock = Clock.real();
        BoardSpec spec = new BoardSpec(
                "still",
                new FirmataDriver(),
                PortChoice.path("memory"),
                new BoardSettings(Map.of(BoardSetting.BAUD, 57600.0)),
                map);
        Board board = new Board(spec, new MemoryPort(new BoardSim(clock)), clock);
        Samples samples = new Samples();
        Commands commands = new Commands();
        long leastBytes = Long.MAX_VALUE;
        for (int round = 0; round < 5; round++) {
            long before = THREADS.getCurrentThreadAllocatedBytes();
            for (int tick = 0; tick < 10_000; tick++) {
                commands.set(Output.POSITIVE_CONTACTOR, (tick & 1) != 0);
                board.sample(samples, tick);
                board.command(commands, tick);
                board.health();
                board.release();
            }
            leastBytes = Math.min(leastBytes, THREADS.getCurrentThreadAllocatedBytes() - before);
        }
        assertEquals(0, leastBytes, "bytes allocated in 10,000 ticks");
    }
}
