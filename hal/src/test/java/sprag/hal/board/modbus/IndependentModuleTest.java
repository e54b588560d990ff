package sprag.hal.board.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;
import static sprag.hal.board.BoardBench.relay;
import static sprag.hal.board.BoardBench.switchOn;
import static sprag.hal.board.PseudoTerminals.await;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.hal.Clock;
import sprag.hal.Health;
import sprag.hal.board.Board;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSetting;
import sprag.hal.board.BoardSettings;
import sprag.hal.board.BoardSpec;
import sprag.hal.board.BoardState;
import sprag.hal.board.InputPin;
import sprag.hal.board.OutputPin;
import sprag.hal.board.PinKind;
import sprag.hal.board.PortChoice;
import sprag.hal.board.PseudoTerminals;
import sprag.hal.board.Scale;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Signal;

/** A whole board against an independent implementation of the protocol: libmodbus, compiled here, in real time on a pseudo-terminal. */
@Tag("realtime")
class IndependentModuleTest {
    private static final long SOON_NS = 10_000_000_000L;
    private static final Scale TENTHS = new Scale(0.1, 0, 16, true);
    private static final BoardMap MAP = new BoardMap(
            List.of(
                    switchOn(Signal.POSITIVE_AUX_CLOSED, "discrete:3"),
                    new InputPin(Signal.PACK_CURRENT_A, "input:20", PinKind.ANALOGUE, false, TENTHS, 0)),
            List.of(
                    relay(Output.NEGATIVE_CONTACTOR, "coil:2"),
                    relay(Output.POSITIVE_CONTACTOR, "coil:3"),
                    new OutputPin(Output.TORQUE_REQUEST_NM, "holding:20", PinKind.ANALOGUE, false, TENTHS, 0)));

    @TempDir
    Path folder;

    private final Clock clock = Clock.real();
    private final Commands commands = new Commands();
    private PseudoTerminals cable;
    private Process module;
    private Board board;

    @BeforeEach
    void compileAndStart() throws Exception {
        assumeTrue(PseudoTerminals.installed("gcc"), "gcc is not installed: no independent module is tried");
        Path source = folder.resolve("module.c");
        Files.copy(IndependentModuleTest.class.getResourceAsStream("/modbus/module.c"), source);
        Path program = folder.resolve("module");
        assumeTrue(compiles(source, program), "libmodbus-dev is not installed: no independent module is tried");
        cable = new PseudoTerminals(folder);
        module = new ProcessBuilder(program.toString(), cable.far(), "17").start();
        BufferedReader said =
                new BufferedReader(new InputStreamReader(module.getInputStream(), StandardCharsets.UTF_8));
        assertEquals("ready", said.readLine());
    }

    @AfterEach
    void stop() {
        if (board != null) {
            board.close();
        }
        if (module != null) {
            module.destroy();
        }
        if (cable != null) {
            cable.close();
        }
    }

    @Test
    void driven_itsInputsShowWhatWasWritten() {
        open(MAP, 17);
        await("the module", SOON_NS, () -> board.state() == BoardState.READY);
        assertTrue(board.arm(2000).isWell(), () -> board.health().toString());
        commands.set(Output.POSITIVE_CONTACTOR, 1);
        commands.set(Output.TORQUE_REQUEST_NM, -12.5);
        await("the coil and the register", SOON_NS, () -> {
            board.command(commands, clock.nowNs());
            return board.value(0) == 1 && Math.abs(board.value(1) + 12.5) < 1e-9;
        });
        board.release();
        await("the release", SOON_NS, () -> board.value(0) == 0 && board.value(1) == 0);
    }

    @Test
    void addressItDoesNotHave_isToldInItsOwnWords() {
        open(new BoardMap(List.of(switchOn(Signal.KEY_ON, "discrete:32")), List.of()), 17);
        await("the refusal", SOON_NS, () -> board.health().reason().contains("(exception"));
        assertTrue(
                board.health().reason().contains("no such address (exception 2)"),
                board.health().reason());
    }

    @Test
    void otherUnitId_nobodyAnswers() {
        open(MAP, 18);
        await("the loss", SOON_NS, () -> board.health().reason().contains("unit 18"));
        assertTrue(
                board.health().reason().contains("not one byte came"),
                board.health().reason());
    }

    @Test
    void moduleStops_lostAndNotArmedWhenItIsBack() throws IOException {
        open(MAP, 17);
        await("the module", SOON_NS, () -> board.state() == BoardState.READY);
        assertTrue(board.arm(2000).isWell());
        module.destroy();
        await("the loss", SOON_NS, () -> {
            board.command(commands, clock.nowNs());
            return !board.health().isWell();
        });
        module = new ProcessBuilder(folder.resolve("module").toString(), cable.far(), "17").start();
        await("the module", SOON_NS, () -> board.state() == BoardState.READY);
        Health health = board.health();
        assertTrue(health.reason().contains("armed again"), health.toString());
    }

    private void open(BoardMap map, int unit) {
        Map<Row, Double> settings = new HashMap<>();
        settings.put(BoardSetting.BAUD, 115200.0);
        settings.put(BoardSetting.CONNECT_MS, 500.0);
        settings.put(BoardSetting.RETRY_MS, 100.0);
        settings.put(BoardSetting.SILENCE_MS, 500.0);
        settings.put(BoardSetting.COMMAND_MS, 2000.0);
        settings.put(ModbusSetting.UNIT_ID, (double) unit);
        settings.put(ModbusSetting.TIMEOUT_MS, 100.0);
        board = new Board(
                        new BoardSpec(
                                "module",
                                new ModbusDriver(),
                                PortChoice.path(cable.near()),
                                new BoardSettings(settings),
                                map),
                        clock)
                .start();
    }

    private static boolean compiles(Path source, Path program) {
        try {
            Process gcc = new ProcessBuilder(
                            "gcc", "-I/usr/include/modbus", source.toString(), "-lmodbus", "-o", program.toString())
                    .redirectErrorStream(true)
                    .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                    .start();
            return gcc.waitFor(60, TimeUnit.SECONDS) && gcc.exitValue() == 0;
        } catch (IOException e) {
            throw new UncheckedIOException("gcc cannot be run", e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return false;
        }
    }
}
