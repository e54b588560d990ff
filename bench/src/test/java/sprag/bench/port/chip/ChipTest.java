package sprag.bench.port.chip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.cli.Trouble;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.port.chip.ChipProgram.Line;
import sprag.bench.port.tool.Tool;
import sprag.bench.port.translate.SharedTranslation;
import sprag.bench.port.translate.Translation;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.Reset;
import sprag.supervisor.vocabulary.State;

/** The supervisor on an emulated Cortex-M4F, with the simulated car at the other end of its serial line. */
@Timeout(value = 300, unit = TimeUnit.SECONDS)
class ChipTest {
    private static final Catalogue CATALOGUE = Catalogue.installed();

    /** What trial.c is told. */
    private static final int STOP = 1;

    private static final int STOP_DEAF = 2;

    /** The first lamp stands for contactors and precharge relay. */
    private static final int CONTACTORS = 1;

    private static final int DAMAGE_NEWER = 3;
    private static final int DAMAGE_BOTH = 4;

    /** Nothing counts any more while the host gets ready, so that no trial depends on how busy it is. */
    private static final int HOLD = 6;

    private static final int GO = 7;

    /** 40 ms pass since the last whole tick, and 60 ms. */
    private static final int LATE = 8;

    private static final int TOO_LATE = 9;
    private static final int STOP_IN_STEP = 10;

    /** Modbus RTU: function 3 of station 1, a register from 0x3000 on, with its checksum. */
    private static final byte[] ASK_ABOUT = {1, 3, 0x30, 0, 0, 1, (byte) 0x8B, 0x0A};

    @TempDir
    static Path folder;

    private static Vehicle vehicle;
    private static ChipProgram program;
    private static Path trial;

    private Chip chip;
    private ClosedLoop loop;

    @BeforeAll
    static void compile() throws Exception {
        assumeTrue(Tool.ARM_GCC.find().isPresent(), Tool.ARM_GCC.missing());
        assumeTrue(Tool.QEMU.find().isPresent(), Tool.QEMU.missing());
        vehicle = VehicleReader.read(CATALOGUE.vehicle("parcel-van"));
        Translation translation = SharedTranslation.whole();
        Map<String, String> files = new LinkedHashMap<>(translation.code());
        files.put("vehicle.c", translation.data(vehicle.settings()));
        program = ChipProgram.compile(folder, files);
        try (InputStream in = ChipTest.class.getResourceAsStream("/sprag/bench/port/trial.c")) {
            trial = program.with("trial.c", new String(in.readAllBytes(), StandardCharsets.UTF_8));
        }
    }

    @BeforeEach
    void start() throws IOException {
        chip = Chip.start(trial, Line.SERIAL);
        chip.trial(HOLD);
        loop = new ClosedLoop(vehicle, 1);
        loop.loop().listen(chip.beside(loop.supervisor()));
    }

    @AfterEach
    void stop() {
        chip.close();
    }

    private void run(int ticks) {
        for (int i = 0; i < ticks; i++) {
            loop.tick();
        }
    }

    private LogicState onChip() {
        LogicState state = new LogicState();
        state.unpack(chip.packed());
        return state;
    }

    /** Until the negative contactor is closed. */
    private void startDriving() {
        run(5);
        loop.move("key", 1);
        loop.move("brake", 1);
        run(10);
        loop.move("start", 1);
        run(30);
        assertEquals(State.PRECHARGE, onChip().state());
    }

    /** The program looks about every millisecond, so it sees a release up to that late and is last alive up to that early. */
    private static void assertMs(double expectedMs, int clocks, String because) {
        assertEquals(expectedMs, clocks / 25_000.0, 2, because);
    }

    @Test
    void start_onTheChip_isDecidedAsInJava() throws Exception {
        startDriving();
        Chip.About about = chip.tickAndTell();
        assertEquals(46, about.ticks());
        assertEquals(CONTACTORS, about.lamps());
        assertTrue(about.selfTest(), "the compiler for the chip keeps the arithmetic of Java");
        assertTrue(about.worstInstructions() > 1_000 && about.worstInstructions() < 100_000, about.toString());
    }

    /** The line is pulled: nothing comes any more. The time is that of the chip. */
    @Test
    void linePulled_contactorsClosed_outputsFallWithin50ms_andTheWatchdogRestarts() throws Exception {
        startDriving();
        Chip.Restart told = chip.fallSilent(GO);
        assertEquals(CONTACTORS, told.lampsBefore());
        assertMs(50, told.releasedAfterClocks(), "outputs released after the last tick");
        assertMs(160, told.aliveUntilClocks(), "restarted after the last tick");
        assertReleasedAfterRestart();
    }

    /** What the supervisor believes closed has fallen, and the bus has emptied: it must not be closed again without a precharge. */
    @Test
    void lineBack_afterTheOutputsFell_tickIsRefused() throws Exception {
        startDriving();
        chip.trial(TOO_LATE);
        IOException told = assertThrows(IOException.class, () -> chip.tick(46, loop.readings()));
        assertTrue(told.getMessage().startsWith("the chip refuses function 23"), told.getMessage());
        assertEquals(0, chip.about().lamps());
        assertTrue(chip.about().released());
    }

    @Test
    void lineBack_afterTheRestart_contactorsStayOpen() throws Exception {
        startDriving();
        chip.fallSilent(GO);
        chip.trial(HOLD);
        for (int tick = 0; tick < 100; tick++) {
            chip.tick(tick, loop.readings());
            assertEquals(0, chip.about().lamps(), "tick " + tick);
        }
    }

    /** Questions have an even number of bytes: a program that drops two at a time would never find a beginning again. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "55",
                "01",
                "0101",
                "0155",
                "010330",
                "01033000000100FF",
                "011000000004080055AA",
                "01FF0301170110"
            })
    void noise_beforeAQuestion_theQuestionIsAnswered(String noise) throws Exception {
        run(3);
        chip.noise(HexFormat.of().parseHex(noise));
        chip.noise(new byte[11]); // what the noise may have claimed to be long
        assertEquals(3, chip.about().ticks());
    }

    /** The first 40 ms went by without a tick, so 10 ms are left. */
    @Test
    void loopStopsInsideALateStep_contactorsClosed_outputsFall50msAfterTheLastWholeTick() throws Exception {
        startDriving();
        chip.trial(LATE);
        assertEquals(CONTACTORS, chip.about().lamps(), "40 ms are not too long");
        Chip.Restart told = chip.stopInTick(STOP_IN_STEP);
        assertEquals(CONTACTORS, told.lampsBefore());
        assertMs(50, told.releasedAfterClocks(), "outputs released after the last whole tick");
        assertReleasedAfterRestart();
    }

    @Test
    void loopStopped_contactorsClosed_outputsFallWithin50ms_andTheWatchdogRestarts() throws Exception {
        startDriving();
        Chip.Restart told = chip.stopInTick(STOP);
        assertEquals(CONTACTORS, told.lampsBefore());
        assertMs(50, told.releasedAfterClocks(), "outputs released after the loop stopped");
        assertMs(160, told.aliveUntilClocks(), "restarted after the loop stopped");
        assertReleasedAfterRestart();
    }

    /** Even with interrupts off: the first call of the watchdog cannot be switched off. */
    @Test
    void loopStoppedDeaf_contactorsClosed_outputsFallWithin80ms() throws Exception {
        startDriving();
        Chip.Restart told = chip.stopInTick(STOP_DEAF);
        assertEquals(CONTACTORS, told.lampsBefore());
        assertMs(80, told.releasedAfterClocks(), "outputs released by the watchdog's first call");
        assertMs(160, told.aliveUntilClocks(), "restarted after the loop stopped");
        assertReleasedAfterRestart();
    }

    private void assertReleasedAfterRestart() throws Exception {
        Chip.About about = chip.about();
        assertEquals(0, about.lamps());
        assertEquals(0, about.ticks());
        assertEquals(2, about.starts());
        assertTrue(about.released());
        assertEquals(2, about.soundCopies());
        assertEquals(State.OFF, about.state());
    }

    /** Zeros look like a chip that is new; nobody knows whether it is. */
    @ParameterizedTest
    @CsvSource({"3, 1, one copy is damaged", "4, 0, both are damaged", "5, 0, both are zero"})
    void memoryDamaged_afterRestart_isLatchedUntilService_andStaysSoWithoutPower(int damage, int sound, String because)
            throws Exception {
        run(3);
        chip.restart(damage);
        Chip.About about = chip.about();
        assertEquals(sound, about.soundCopies(), because);
        assertEquals(State.FAULT, about.state(), because);
        chip.trial(HOLD);
        for (int tick = 0; tick < 3; tick++) {
            chip.tick(tick, loop.readings());
        }
        LogicState latched = onChip();
        assertEquals(Reset.SERVICE, latched.latched());
        chip.stopInTick(STOP);
        about = chip.about();
        assertEquals(2, about.soundCopies(), because);
        assertEquals(State.FAULT, about.state(), because);
    }

    /** A copy that was damaged does not take a latch with it. */
    @Test
    void latchRemembered_oneCopyDamaged_isLatchedStill() throws Exception {
        run(3);
        chip.restart(DAMAGE_BOTH);
        chip.trial(HOLD);
        for (int tick = 0; tick < 3; tick++) {
            chip.tick(tick, loop.readings());
        }
        chip.restart(DAMAGE_NEWER);
        assertEquals(1, chip.about().soundCopies());
        assertEquals(State.FAULT, chip.about().state());
    }

    /** As run, panel and campaign use it. */
    @Test
    void hostsOwnLine_decidesAsTheSerialLine() throws Exception {
        try (Chip quick = Chip.start(program.file(Line.HOST), Line.HOST)) {
            loop.loop().listen(quick.beside(loop.supervisor()));
            startDriving();
            assertEquals(chip.packed(), quick.packed());
            assertEquals(chip.tickAndTell().lamps(), quick.tickAndTell().lamps());
        }
    }

    @Test
    void chipOfAnotherVehicle_besideTheJava_isStoppedWithTickAndField() throws Exception {
        ClosedLoop cart = new ClosedLoop(VehicleReader.read(CATALOGUE.vehicle("yard-cart")), 1);
        try (Chip van = Chip.start(program.file(Line.HOST), Line.HOST)) {
            cart.loop().listen(van.beside(cart.supervisor()));
            Trouble told = assertThrows(Trouble.class, () -> {
                for (int i = 0; i < 100; i++) {
                    cart.tick();
                }
            });
            assertTrue(
                    told.getMessage().matches("Java and chip differ in tick \\d+: .* in Java and .* on the chip"),
                    told.getMessage());
        }
    }

    /** A signal from the terminal goes to all of a process group: the emulator would be gone before the last tick. */
    @Test
    void emulator_started_isInAProcessGroupOfItsOwn() throws Exception {
        assumeTrue(Tool.SETSID.find().isPresent(), Tool.SETSID.missing());
        Process emulator = Chip.emulator(program.file(Line.HOST), Line.HOST).start();
        try {
            // an answer: setsid has done its work
            emulator.getOutputStream().write(ASK_ABOUT);
            emulator.getOutputStream().flush();
            assertEquals(1, emulator.getInputStream().read());
            assertEquals(emulator.pid(), group(emulator.pid()));
            assertNotEquals(group(ProcessHandle.current().pid()), group(emulator.pid()));
        } finally {
            emulator.destroyForcibly();
        }
    }

    /** The fifth field; the second is a name in brackets. */
    private static long group(long pid) throws Exception {
        Path stat = Path.of("/proc/" + pid + "/stat");
        assumeTrue(Files.exists(stat), "this system does not tell process groups in /proc");
        String after = Files.readString(stat).replaceFirst("^.*\\) ", "");
        return Long.parseLong(after.split(" ")[2]);
    }

    /** Nobody kills it when the program itself was killed. */
    @Test
    void emulator_whenTheProgramIsGone_endsByItself() throws Exception {
        Process emulator = Chip.emulator(program.file(Line.HOST), Line.HOST).start();
        emulator.getOutputStream().close();
        emulator.waitFor();
        assertEquals(-1, emulator.getInputStream().read());
    }

    @Test
    void emulatorKilled_nextTick_isToldWithItsStatus() {
        try (Chip quick = Chip.start(program.file(Line.HOST), Line.HOST)) {
            ClosedLoop other = new ClosedLoop(vehicle, 1);
            other.loop().listen(quick.beside(other.supervisor()));
            other.tick();
            quick.kill();
            Trouble told = assertThrows(Trouble.class, other::tick);
            assertEquals("the chip is lost in tick 1: the emulator has ended with status 137", told.getMessage());
        }
    }

    @Test
    void sizes_fitASmallChip() {
        ChipProgram.Sizes sizes = program.sizes();
        assertTrue(sizes.flashBytes() > 30_000 && sizes.flashBytes() < 96_000, sizes.toString());
        assertTrue(sizes.ramBytes() > 1_000 && sizes.ramBytes() < 8_000, sizes.toString());
        assertTrue(sizes.stackBytes() > 100 && sizes.stackBytes() < 1_500, sizes.toString());
    }
}
