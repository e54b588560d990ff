package sprag.hal.board;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import sprag.hal.Clock;
import sprag.hal.Health;
import sprag.hal.Samples;
import sprag.hal.VirtualClock;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Signal;

/** A board on a bench with virtual time: everything that is planned happens on the test's own thread. */
public final class BoardBench {
    public static final long TICK_MS = 10;
    private static final Scale TEN_BITS = new Scale(5.0 / 1023, 0, 10, false);
    private static final Scale PWM_SHARE = new Scale(1.0 / 255, 0, 8, false);

    public final VirtualClock clock = new VirtualClock();
    public final Samples samples = new Samples();
    public final Commands commands = new Commands();
    public final MemoryPort port;
    public final Board board;
    public final List<String> healths = new ArrayList<>();
    private boolean loopRuns = true;

    public BoardBench(
            BoardDriver driver, BoardMap map, Map<Row, Double> settings, Function<Clock, MemoryPort.FarEnd> farEnd) {
        port = new MemoryPort(farEnd.apply(clock));
        board = new Board(
                new BoardSpec("bench", driver, PortChoice.path("memory"), new BoardSettings(settings), map),
                port,
                clock);
        clock.every(TICK_MS, this::tick);
    }

    public static InputPin switchOn(Signal signal, String pin) {
        return new InputPin(signal, pin, PinKind.DIGITAL, false, Scale.SWITCH, 0);
    }

    public static InputPin volts(Signal signal, String pin) {
        return new InputPin(signal, pin, PinKind.ANALOGUE, false, TEN_BITS, 0);
    }

    public static OutputPin relay(Output output, String pin) {
        return new OutputPin(output, pin, PinKind.DIGITAL, false, Scale.SWITCH, 0);
    }

    public static OutputPin share(Output output, String pin) {
        return new OutputPin(output, pin, PinKind.PWM, false, PWM_SHARE, 0);
    }

    public BoardBench at(long ms, Runnable what) {
        clock.after(ms, what);
        return this;
    }

    public BoardBench armAt(long ms) {
        return at(ms, () -> board.requestArm());
    }

    public BoardBench command(Output output, double value) {
        commands.set(output, value);
        return this;
    }

    /** The loop stops calling, as if it had died. */
    public void killLoop() {
        loopRuns = false;
    }

    public void reviveLoop() {
        loopRuns = true;
    }

    /** Runs the board for a time and closes it. */
    public BoardBench runMs(long ms) {
        clock.after(ms, board::close);
        board.talk().run();
        clock.demandChecks();
        return this;
    }

    /** Whether some health that was seen holds all the words. */
    public boolean said(String... words) {
        return healths.stream().anyMatch(h -> List.of(words).stream().allMatch(h::contains));
    }

    private void tick() {
        Health health = board.health();
        String text = health.toString();
        if (healths.isEmpty() || !healths.get(healths.size() - 1).equals(text)) {
            healths.add(text);
        }
        if (loopRuns) {
            board.sample(samples, clock.nowNs());
            board.command(commands, clock.nowNs());
        }
    }
}
