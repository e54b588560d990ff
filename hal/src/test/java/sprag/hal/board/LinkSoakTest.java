package sprag.hal.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Isolated;
import sprag.hal.Samples;
import sprag.hal.VirtualClock;
import sprag.hal.board.firmata.BoardSim;
import sprag.hal.board.firmata.FirmataDriver;
import sprag.hal.board.modbus.ModbusDriver;
import sprag.hal.board.modbus.ModuleSim;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Signal;

/**
 * Hours of a bad link in virtual time: every few seconds something goes wrong and ends again, and a person arms the board each time it
 * is back. Outputs must never stay on without an armed board, the board must always come back, and memory must not grow.
 *
 * <p>{@code -Dsoak.hours=24} makes it a day; otherwise an hour of each protocol.
 */
@Isolated("it measures the memory of the whole program")
class LinkSoakTest {
    private static final long HOUR_MS = 3_600_000;
    private static final long TICK_MS = 10;
    /** From the end of a fault: look again, connect, take back what the board was left with. */
    private static final long RECOVERY_MS = 4000;

    private static final long LEAK_BYTES = 4L << 20;

    /** A board, its faults, and how its output is seen. */
    private record Line(MemoryPort port, Board board, Runnable[] faults, Runnable well, BooleanSupplier isOn) {}

    private final VirtualClock clock = new VirtualClock();
    private final Samples samples = new Samples();
    private final Commands commands = new Commands();
    private long faults;
    private long reconnects;
    private long armings;
    private long stuck;
    private long unanswered;
    private long notBack;
    private long wellSinceMs;
    private boolean isFaulty;
    private BoardState before = BoardState.SEARCHING;
    private long onSinceMs = -1;
    private double hours;
    private long firstHeap;
    private long lastHeap;

    @Test
    @Tag("long")
    void badLinkForHours_firmata_nothingStuckNothingLeaked() {
        BoardMap map = new BoardMap(
                List.of(BoardBench.switchOn(Signal.KEY_ON, "D2"), BoardBench.volts(Signal.PEDAL_A_V, "A0")),
                List.of(BoardBench.relay(Output.POSITIVE_CONTACTOR, "D8")));
        BoardSim sim = new BoardSim(clock).counts(0, 512);
        MemoryPort port = new MemoryPort(sim);
        Random random = new Random(11);
        Runnable[] faults = {
            () -> sim.cut(0.02 + random.nextDouble() * 0.5, random.nextLong()),
            () -> sim.garble(0.02 + random.nextDouble() * 0.5, random.nextLong()),
            sim::flood,
            () -> sim.freeze(true),
            sim::alien,
            () -> sim.restart(true),
            port::unplug,
            port::stopTaking,
        };
        Map<Row, Double> settings = Map.of(BoardSetting.BAUD, 57600.0);
        Board board = board(new FirmataDriver(), map, settings, port);
        soak(new Line(port, board, faults, sim::well, () -> sim.output(8) != 0), hours(1), "firmata");
    }

    @Test
    @Tag("long")
    void badLinkForHours_modbus_nothingStuckNothingLeaked() {
        BoardMap map = new BoardMap(
                List.of(BoardBench.switchOn(Signal.KEY_ON, "discrete:0")),
                List.of(BoardBench.relay(Output.POSITIVE_CONTACTOR, "coil:3")));
        ModuleSim sim = new ModuleSim(clock, 1).discrete(0, true);
        MemoryPort port = new MemoryPort(sim);
        Runnable[] faults = {
            () -> sim.silent(true),
            () -> sim.wrongSum(true),
            () -> sim.half(true),
            () -> sim.answersAs(2),
            () -> sim.exception(4),
            () -> sim.delayMs(300),
            () -> sim.drop(7),
            port::unplug,
            port::stopTaking,
        };
        Map<Row, Double> settings = Map.of(BoardSetting.BAUD, 115200.0);
        Board board = board(new ModbusDriver(), map, settings, port);
        soak(new Line(port, board, faults, sim::well, () -> sim.coil(3)), hours(1), "modbus");
    }

    private Board board(BoardDriver driver, BoardMap map, Map<Row, Double> settings, MemoryPort port) {
        BoardSpec spec = new BoardSpec("soak", driver, PortChoice.path("memory"), new BoardSettings(settings), map);
        return new Board(spec, port, clock);
    }

    private static double hours(double usual) {
        return Double.parseDouble(System.getProperty("soak.hours", String.valueOf(usual)));
    }

    private void soak(Line line, double forHours, String name) {
        hours = forHours;
        Random random = new Random(5);
        long totalMs = Math.round(hours * HOUR_MS);
        plan(line, random);
        clock.every(TICK_MS, () -> tick(line));
        clock.after(totalMs / 10, () -> firstHeap = heap());
        clock.after(totalMs - 2, () -> lastHeap = heap());
        clock.after(totalMs, line.board()::close);
        line.board().talk().run();
        System.out.printf(
                "soak %s, %.2f h: %d faults, %d reconnections, %d armings, stuck outputs %d, unanswered commands %d,"
                        + " not back in time %d, heap %.1f to %.1f MB%n",
                name, hours, faults, reconnects, armings, stuck, unanswered, notBack, firstHeap / 1e6, lastHeap / 1e6);
        assertEquals(0, stuck, "outputs that stayed on without an armed board");
        assertEquals(0, unanswered, "commands that an armed board on a sound link did not carry out");
        assertEquals(0, notBack, "times that the board was not back " + RECOVERY_MS + " ms after its fault had ended");
        assertTrue(faults > hours * 100 && reconnects > faults / 4, "the link was really bad");
        assertTrue(lastHeap - firstHeap < LEAK_BYTES, "heap grew from " + firstHeap + " to " + lastHeap + " bytes");
        assertEquals(false, line.isOn().getAsBoolean(), "released at the end");
    }

    private void plan(Line line, Random random) {
        clock.after(6000 + random.nextInt(9000), () -> {
            faults++;
            isFaulty = true;
            line.faults()[random.nextInt(line.faults().length)].run();
            clock.after(20 + random.nextInt(3000), () -> {
                line.well().run();
                line.port().plug();
                isFaulty = false;
                wellSinceMs = nowMs();
                plan(line, random);
            });
        });
    }

    /** The loop: commands that toggle every half second, and a person who arms whenever the board is back. */
    private void tick(Line line) {
        Board board = line.board();
        commands.set(Output.POSITIVE_CONTACTOR, nowMs() / 500 % 2);
        board.sample(samples, clock.nowNs());
        board.command(commands, clock.nowNs());
        BoardState state = board.state();
        if (state == BoardState.READY && before == BoardState.SEARCHING) {
            reconnects++;
        }
        if (state == BoardState.READY && board.requestArm().isWell()) {
            armings++;
        }
        before = state;
        boolean sound = !isFaulty && nowMs() - wellSinceMs > RECOVERY_MS;
        if (sound && state != BoardState.ARMED) {
            notBack++;
        }
        boolean meant = state == BoardState.ARMED && commands.isOn(Output.POSITIVE_CONTACTOR);
        boolean on = line.isOn().getAsBoolean();
        onSinceMs = on && !meant ? onSinceMs < 0 ? nowMs() : onSinceMs : -1;
        if (sound && onSinceMs >= 0 && nowMs() - onSinceMs > 100) {
            stuck++;
        }
        if (sound && meant && !on && nowMs() % 500 > 300) {
            unanswered++;
        }
    }

    private long nowMs() {
        return clock.nowNs() / 1_000_000;
    }

    private static long heap() {
        System.gc();
        System.gc();
        Runtime runtime = Runtime.getRuntime();
        return runtime.totalMemory() - runtime.freeMemory();
    }
}
