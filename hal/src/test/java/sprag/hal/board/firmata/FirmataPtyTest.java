package sprag.hal.board.firmata;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static sprag.hal.board.BoardBench.relay;
import static sprag.hal.board.BoardBench.switchOn;
import static sprag.hal.board.BoardBench.volts;
import static sprag.hal.board.PseudoTerminals.await;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.locks.LockSupport;
import java.util.function.Supplier;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.hal.Clock;
import sprag.hal.Samples;
import sprag.hal.board.Board;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSetting;
import sprag.hal.board.BoardSettings;
import sprag.hal.board.BoardSpec;
import sprag.hal.board.BoardState;
import sprag.hal.board.LineSettings;
import sprag.hal.board.LinkLost;
import sprag.hal.board.Port;
import sprag.hal.board.PortChoice;
import sprag.hal.board.PseudoTerminals;
import sprag.hal.board.SerialPorts;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Signal;

/** A whole board over the real serial port code, on pseudo-terminals and in real time, against the simulated one. */
@Tag("realtime")
class FirmataPtyTest {
    private static final long SOON_NS = 10_000_000_000L;
    private static final BoardMap MAP = new BoardMap(
            List.of(switchOn(Signal.KEY_ON, "D2"), volts(Signal.PEDAL_A_V, "A0")),
            List.of(relay(Output.POSITIVE_CONTACTOR, "D8")));

    @TempDir
    Path folder;

    private final Clock clock = Clock.real();
    private final BoardSim sim = new BoardSim(clock).counts(0, 1023);
    private final Samples samples = new Samples();
    private final Commands commands = new Commands();
    private PseudoTerminals cable;
    private Board board;
    private volatile boolean pumping = true;
    private volatile boolean looping = true;
    private volatile boolean reading = true;

    @BeforeEach
    void connect() throws IOException {
        cable = new PseudoTerminals(folder);
        start("far end", this::pump);
        Map<Row, Double> settings =
                Map.of(BoardSetting.BAUD, 57600.0, BoardSetting.RETRY_MS, 100.0, BoardSetting.SILENCE_MS, 300.0);
        BoardSpec spec = new BoardSpec(
                "pty", new FirmataDriver(), PortChoice.path(cable.near()), new BoardSettings(settings), MAP);
        board = new Board(spec, clock).start();
        await("the board", SOON_NS, () -> board.state() == BoardState.READY);
        start("loop", this::loop);
    }

    @AfterEach
    void disconnect() {
        looping = false;
        pumping = false;
        if (board != null) {
            board.close();
        }
        if (cable != null) {
            cable.close();
        }
    }

    @Test
    void armedOverARealPort_switchIsReadAndRelayFollows() {
        with(() -> sim.level(2, true));
        await("the key", SOON_NS, () -> get(Signal.KEY_ON) == 1);
        assertEquals(5.0, get(Signal.PEDAL_A_V), 1e-6);
        assertEquals(0, contactor());
        assertTrue(board.arm(2000).isWell(), () -> board.health().toString());
        ask(1);
        await("the contactor", SOON_NS, () -> contactor() == 1);
        ask(0);
        await("its release", SOON_NS, () -> contactor() == 0);
        assertTrue(board.handOver().count() >= 2, board.handOver().summary());
    }

    @Test
    void farProgramStopsThoughTheLinkStays_silenceIsToldAndTheReleaseWaitsForIt() {
        drive();
        with(() -> sim.freeze(true));
        await("the loss", SOON_NS, () -> !board.health().isWell());
        assertTrue(board.health().reason().contains("silent"), board.health().reason());
    }

    @Test
    void cablePulledAndBack_inputsComeBackAndOutputsDoNot() throws IOException {
        drive();
        cable.pull();
        await("the loss", SOON_NS, () -> !board.health().isWell());
        assertTrue(
                board.health().reason().matches(".*(is gone|took|silent|is not there).*"),
                board.health().reason());
        with(() -> sim.restart(true));
        cable.plug();
        await("the board", SOON_NS, () -> board.state() == BoardState.READY);
        await("fresh readings", SOON_NS, () -> ageNs(Signal.PEDAL_A_V) < 100_000_000);
        assertFalse(board.health().isWell());
        assertTrue(
                board.health().reason().contains("armed again"), board.health().reason());
        assertEquals(0, contactor());
        assertTrue(board.arm(2000).isWell());
        await("the contactor", SOON_NS, () -> contactor() == 1);
    }

    @Test
    void farEndStopsReading_nothingHangsAndTheLossIsTold() {
        drive();
        reading = false;
        await("the loss", SOON_NS, () -> !board.health().isWell());
        long before = System.nanoTime();
        board.command(commands, clock.nowNs());
        board.sample(samples, clock.nowNs());
        board.release();
        assertTrue(System.nanoTime() - before < 100_000_000, "the loop's calls do not wait for the line");
    }

    @Test
    void close_releasesWhatWasDriven() {
        drive();
        board.close();
        await("the release", SOON_NS, () -> contactor() == 0);
    }

    /** The serial library closes its ports in a hook of its own, in no order with others: once is not enough. */
    @Test
    void programEndedByASignal_released() throws Exception {
        board.close();
        for (int i = 0; i < 4; i++) {
            Process program = new ProcessBuilder(
                            Path.of(System.getProperty("java.home"), "bin", "java")
                                    .toString(),
                            "-cp",
                            System.getProperty("java.class.path"),
                            DrivingProgram.class.getName(),
                            cable.near())
                    .redirectErrorStream(true)
                    .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                    .start();
            try {
                await("the contactor", SOON_NS, () -> contactor() == 1);
                program.destroy();
                await("the release of ending " + i, SOON_NS, () -> contactor() == 0);
            } finally {
                program.destroyForcibly();
            }
        }
    }

    private void drive() {
        assertTrue(board.arm(2000).isWell(), () -> board.health().toString());
        ask(1);
        await("the contactor", SOON_NS, () -> contactor() == 1);
    }

    private void loop() {
        while (looping) {
            synchronized (commands) {
                board.sample(samples, clock.nowNs());
                board.command(commands, clock.nowNs());
            }
            clock.waitUntil(clock.nowNs() + 10_000_000);
        }
    }

    /** The simulated board at the far end of the cable, plugged in again as often as it is pulled. */
    private void pump() {
        Port port = SerialPorts.of(PortChoice.path(cable.far()), new LineSettings(57600, LineSettings.Parity.NONE, 1));
        byte[] buffer = new byte[4096];
        boolean open = false;
        while (pumping) {
            try {
                if (!open) {
                    port.open();
                    open = true;
                }
                if (reading) {
                    exchange(port, buffer);
                }
            } catch (LinkLost e) {
                open = false;
            }
            LockSupport.parkNanos(300_000);
        }
        port.close();
    }

    private void exchange(Port port, byte[] buffer) throws LinkLost {
        int got = port.read(buffer);
        int said;
        synchronized (sim) {
            if (got > 0) {
                sim.take(buffer, got);
            }
            said = sim.give(buffer);
        }
        if (said > 0) {
            port.write(buffer, said);
        }
    }

    private void start(String name, Runnable what) {
        Thread thread = new Thread(what, name);
        thread.setDaemon(true);
        thread.start();
    }

    private void with(Runnable what) {
        synchronized (sim) {
            what.run();
        }
    }

    private void ask(double contactor) {
        synchronized (commands) {
            commands.set(Output.POSITIVE_CONTACTOR, contactor);
        }
    }

    private double get(Signal signal) {
        return locked(() -> samples.get(signal));
    }

    private long ageNs(Signal signal) {
        return locked(() -> samples.ageNs(signal, clock.nowNs()));
    }

    private <T> T locked(Supplier<T> what) {
        synchronized (commands) {
            return what.get();
        }
    }

    private long contactor() {
        synchronized (sim) {
            return sim.output(8);
        }
    }
}
