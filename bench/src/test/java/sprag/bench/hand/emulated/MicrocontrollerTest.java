package sprag.bench.hand.emulated;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.bench.hand.board.BoardReader;
import sprag.hal.Samples;
import sprag.hal.board.Board;
import sprag.hal.board.BoardState;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/**
 * A whole board, from the map's file to the pins, against firmware that others made, on an emulated microcontroller: versions,
 * pins, levels, timing, and the link pulled in every state. Board, loop and microcontroller share one virtual clock.
 */
@Execution(ExecutionMode.CONCURRENT)
class MicrocontrollerTest {
    private static final long SOON_MS = 10_000;
    private static final long TICK_MS = 10;
    private static final int BRAKE = 6;
    private static final int KEY = 2;
    private static final int LAMP = 8;
    private static final int CONTACTOR = 10;

    private static final String MAP = """
            [board]
            name = "desk"
            protocol = "firmata"
            port = "emulated"
            baud = 57600
            retry_ms = 100
            silence_ms = 600
            [[input]]
            signal = "brake_pressed"
            pin = "D6"
            kind = "digital"
            [[input]]
            signal = "key_on"
            %s
            [[input]]
            signal = "pedal_a_v"
            pin = "A0"
            kind = "analogue"
            unit = "v"
            scale = 0.00488758
            bits = 10
            [[output]]
            output = "ready_lamp"
            pin = "D8"
            kind = "digital"
            [[output]]
            output = "positive_contactor"
            pin = "D10"
            kind = "digital"
            [[output]]
            output = "radiator_fan_duty"
            pin = "D11"
            kind = "pwm"
            scale = 0.00392157
            bits = 8
            """;

    @TempDir
    Path folder;

    private final LockstepClock clock = new LockstepClock();
    private final Samples samples = new Samples();
    private final Commands commands = new Commands();
    private Microcontroller chip;
    private Board board;
    private boolean loops;
    /** Whether the lamp follows the brake, as the supervisor would make it. */
    private boolean follows;

    @AfterEach
    void stop() {
        loops = false;
        if (board != null) {
            board.close();
        }
        if (chip != null) {
            chip.close();
        }
    }

    private void map(Microcontroller.Kind kind, String key) throws Exception {
        Path file = Files.writeString(folder.resolve("board.toml"), MAP.formatted(key));
        chip = new Microcontroller(kind);
        clock.follow(chip::advanceTo);
        board = new Board(BoardReader.read(file), chip.line(), clock);
        start();
        loops = true;
        clock.every(TICK_MS, this::tick);
    }

    private void start() {
        clock.announceThread();
        board.start();
    }

    private void pulledUp(Microcontroller.Kind kind) throws Exception {
        map(kind, "pin = \"D2\"\nkind = \"pull-up\"\ninvert = true");
    }

    private void ready(Microcontroller.Kind kind) throws Exception {
        pulledUp(kind);
        await("the board", () -> board.state() == BoardState.READY);
    }

    private void driving() throws Exception {
        ready(Microcontroller.Kind.SMALL_2_5);
        ask(Output.POSITIVE_CONTACTOR, 1);
        assertTrue(board.arm(2000).isWell(), () -> board.health().toString());
        await("the contactor", () -> chip.drivesHigh(CONTACTOR));
    }

    private void tick() {
        if (loops) {
            board.sample(samples, clock.nowNs());
            if (follows) {
                commands.set(Output.READY_LAMP, samples.get(Signal.BRAKE_PRESSED));
            }
            board.command(commands, clock.nowNs());
        }
    }

    private void ask(Output output, double value) {
        commands.set(output, value);
    }

    private double get(Signal signal) {
        return samples.get(signal);
    }

    private void let(long ms) {
        clock.waitUntil(clock.nowNs() + ms * 1_000_000);
    }

    private void await(String what, BooleanSupplier done) {
        long untilNs = clock.nowNs() + SOON_MS * 1_000_000;
        while (!done.getAsBoolean()) {
            assertTrue(
                    clock.nowNs() < untilNs, () -> what + " did not come within " + SOON_MS + " ms: " + board.health());
            let(1);
        }
    }

    @ParameterizedTest
    @EnumSource(names = {"SMALL_2_5", "LARGE_2_5"})
    void anyBoard_levelsAndVoltages_areReadAndOutputsFollow(Microcontroller.Kind kind) throws Exception {
        ready(kind);
        assertTrue(board.identity().contains("Firmata 2.5") && board.identity().contains(" pins"), board.identity());
        await("the key, whose pin nobody holds", () -> get(Signal.KEY_ON) == 0);
        chip.wire(KEY, false);
        await("the key closed to ground", () -> get(Signal.KEY_ON) == 1);
        chip.wire(BRAKE, true);
        await("the brake", () -> get(Signal.BRAKE_PRESSED) == 1);
        for (double volts : new double[] {0, 0.5, 2.5, 4.5, 4.99}) {
            chip.volts(0, volts);
            await(volts + " V", () -> Math.abs(get(Signal.PEDAL_A_V) - volts) < 0.011);
        }
        ask(Output.POSITIVE_CONTACTOR, 1);
        let(200);
        assertFalse(chip.drivesHigh(CONTACTOR), "nothing is driven before arming");
        assertTrue(board.arm(2000).isWell(), () -> board.health().toString());
        await("the contactor", () -> chip.drivesHigh(CONTACTOR));
        assertFalse(chip.drivesHigh(LAMP));
        ask(Output.POSITIVE_CONTACTOR, 0);
        await("its release", () -> !chip.drivesHigh(CONTACTOR));
    }

    @Test
    void firmwareWithoutPullUps_mapThatWantsThem_isRefusedWithNothingSet() throws Exception {
        pulledUp(Microcontroller.Kind.SMALL_2_4);
        await("the refusal", () -> board.health().reason().contains("does not fit"));
        assertTrue(
                board.health().reason().contains("key_on on D2: pin 2 cannot be input with pull-up"),
                board.health().reason());
        assertFalse(chip.drivesHigh(CONTACTOR));
    }

    @Test
    void standardFirmware24_switchesWithoutPullUps_areRead() throws Exception {
        map(Microcontroller.Kind.SMALL_2_4, "pin = \"D2\"\nkind = \"digital\"");
        await("the board", () -> board.state() == BoardState.READY);
        assertTrue(board.identity().startsWith("StandardFirmata"), board.identity());
        chip.wire(BRAKE, true);
        await("the brake", () -> get(Signal.BRAKE_PRESSED) == 1 && get(Signal.KEY_ON) == 0);
        assertTrue(board.arm(2000).isWell());
        ask(Output.POSITIVE_CONTACTOR, 1);
        await("the contactor", () -> chip.drivesHigh(CONTACTOR));
    }

    @Test
    void standardFirmware23_switchCannotBeAskedFor_isRefused() throws Exception {
        map(Microcontroller.Kind.LARGE_2_3, "pin = \"D2\"\nkind = \"digital\"");
        await("the refusal", () -> board.health().reason().contains("need 2.4 or newer"));
    }

    @Test
    @Tag("long")
    void cablePulledWhileTheBoardStarts_foundAgain() throws Exception {
        pulledUp(Microcontroller.Kind.SMALL_2_5);
        for (int ms = 0; ms < 900; ms += 150) {
            let(ms);
            chip.pull();
            let(50);
            chip.plug();
        }
        await("the board", () -> board.state() == BoardState.READY);
        await("fresh readings", () -> board.health().isWell());
    }

    @Test
    @Tag("long")
    void cablePulledWhileReady_backWithoutArming() throws Exception {
        ready(Microcontroller.Kind.SMALL_2_5);
        ask(Output.POSITIVE_CONTACTOR, 1);
        chip.pull();
        await("the loss", () -> !board.health().isWell());
        chip.plug();
        await("the board", () -> board.state() == BoardState.READY);
        let(200);
        assertFalse(chip.drivesHigh(CONTACTOR), "never armed, never driven");
    }

    @Test
    void cablePulledWhileDriving_outputsStayReleasedUntilArmedAnew() throws Exception {
        driving();
        chip.pull();
        await("the loss", () -> !board.health().isWell());
        assertTrue(chip.drivesHigh(CONTACTOR), "no program can release it now: that is the watchdog relay's work");
        chip.plug();
        await("the board", () -> board.state() == BoardState.READY);
        assertFalse(chip.drivesHigh(CONTACTOR));
        assertTrue(
                board.health().reason().contains("armed again"), board.health().reason());
        assertTrue(board.arm(2000).isWell());
        await("the contactor", () -> chip.drivesHigh(CONTACTOR));
    }

    @Test
    @Tag("long")
    void resetPressedWhileDriving_isToldAndNothingIsDrivenAfterwards() throws Exception {
        driving();
        chip.restart();
        await("the loss", () -> !board.health().isWell());
        await("the board", () -> board.state() == BoardState.READY);
        assertFalse(chip.drivesHigh(CONTACTOR));
        assertFalse(board.health().isWell());
    }

    @Test
    @Tag("long")
    void boardHungWhileDriving_isReleasedAsSoonAsItListensAgain() throws Exception {
        driving();
        chip.freeze();
        await("the loss", () -> !board.health().isWell());
        assertTrue(board.health().reason().contains("silent"), board.health().reason());
        chip.thaw();
        await("the release", () -> !chip.drivesHigh(CONTACTOR));
        await("the board", () -> board.state() == BoardState.READY);
        assertFalse(chip.drivesHigh(CONTACTOR));
    }

    @Test
    void loopDiesWhileDriving_released() throws Exception {
        driving();
        loops = false;
        await("the release", () -> !chip.drivesHigh(CONTACTOR));
        await("the word", () -> !board.health().isWell());
    }

    @Test
    void closedWhileDriving_released() throws Exception {
        driving();
        board.close();
        await("the release", () -> !chip.drivesHigh(CONTACTOR));
    }

    /** Such a board starts anew when its port is opened; one that does not must be found driven and be released. */
    @Test
    @Tag("long")
    void outputLeftOnByAKilledProgram_isReleasedAtTheNextConnection() throws Exception {
        driving();
        chip.keepRunning();
        loops = false;
        chip.freeze(); // what it is told on closing is lost, as when a process is killed
        board.close();
        assertTrue(chip.drivesHigh(CONTACTOR));
        chip.thaw();
        board = new Board(board.spec(), chip.line(), clock);
        start();
        await("the board", () -> board.state() == BoardState.READY);
        assertFalse(chip.drivesHigh(CONTACTOR));
    }

    /** The board's own clock measures from the change of its pin to the change of the other; the middle one is printed. */
    @Test
    @Tag("long")
    void switchMoves_lampFollows_everyTime() throws Exception {
        ready(Microcontroller.Kind.SMALL_2_5);
        assertTrue(board.arm(2000).isWell());
        follows = true;
        long[] us = new long[60];
        for (int i = 0; i < us.length; i++) {
            boolean on = i % 2 == 0;
            chip.wire(BRAKE, on);
            await("the lamp", () -> chip.drivesHigh(LAMP) == on);
            us[i] = chip.sinceUs(LAMP);
            let(20 + i % 10);
        }
        Arrays.sort(us);
        assertTrue(us[0] > 0, "a lamp cannot follow before its switch: " + us[0]);
        System.out.printf(
                "pin to pin on an emulated board, 57,600 baud, ticks of 10 ms: median %.1f ms, worst of %d %.1f ms%n",
                us[us.length / 2] / 1000.0, us.length, us[us.length - 1] / 1000.0);
    }
}
