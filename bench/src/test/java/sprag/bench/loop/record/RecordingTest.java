package sprag.bench.loop.record;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static sprag.hal.board.PseudoTerminals.WATCHDOG_NS;
import static sprag.hal.board.PseudoTerminals.await;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.atomic.AtomicLong;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import picocli.CommandLine;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.Supervisor;
import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Reset;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;

/** A recording gives back what was written, to the last bit and to the last whole block. */
class RecordingTest {
    private static final int TICKS = 1_234;

    @TempDir
    Path folder;

    private Path file;
    private Settings settings;

    @BeforeEach
    void record() throws Exception {
        settings = VehicleReader.read(Catalogue.installed().vehicle("coupe")).settings();
        file = folder.resolve("recording.sprag");
        record(file, settings);
    }

    /** Readings that jump about, so that every state is visited and every column changes. */
    private static void record(Path file, Settings settings) throws IOException {
        Supervisor supervisor = new Supervisor(settings);
        Random random = new Random(7);
        Readings in = new Readings();
        Commands out = new Commands();
        try (Recorder recorder =
                new Recorder(file, "coupe", "random readings", settings, supervisor, Recorder.Pace.SIMULATED)) {
            for (int tick = 0; tick < TICKS; tick++) {
                Signal signal = Signal.values()[random.nextInt(Signal.COUNT)];
                boolean lost = random.nextInt(20) == 0;
                double value = signal.isSwitch() ? random.nextInt(2) : random.nextGaussian() * signal.max;
                in.set(signal, lost ? Double.NaN : value);
                supervisor.step(tick, in, out);
                recorder.ticked(tick, in, out);
            }
        }
    }

    private static long size(Path path) {
        try {
            return Files.size(path);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static long ticksIn(Path file) throws IOException {
        try (Recording recording = new Recording(file)) {
            Readings in = new Readings();
            Commands out = new Commands();
            while (recording.next(in, out)) {
                assertTrue(recording.tick() < TICKS);
            }
            return recording.tick() + 1;
        }
    }

    @Test
    void recorded_replayed_everyDecisionIsTheSame() throws Exception {
        try (Recording recording = new Recording(file)) {
            assertEquals(settings, recording.settings());
            Replay replay = new Replay(recording);
            assertTrue(replay.run().isEmpty());
            assertEquals(TICKS, replay.ticks());
            assertEquals("", recording.missing());
            assertFalse(recording.isDamaged());
        }
    }

    /** A recording of minutes that are lived through, not computed, must not wait in memory for more. */
    @Test
    void ticksAtTheirOwnPace_blockIsWhole_isReadableWhileTheRecordingGoesOn() throws Exception {
        AtomicLong now = new AtomicLong();
        Path other = folder.resolve("other.sprag");
        try (Recorder recorder = new Recorder(
                other,
                Heading.of("coupe", "slow", settings, Set.of()),
                new Supervisor(settings),
                Recorder.Pace.SIMULATED,
                now::get)) {
            long heading = Files.size(other);
            now.addAndGet(300_000_000);
            for (int tick = 0; tick < Layout.TICKS_PER_BLOCK; tick++) {
                recorder.ticked(tick, new Readings(), new Commands());
            }
            await("the block, which a thread of its own writes", WATCHDOG_NS, () -> size(other) > heading);
            assertEquals(Layout.TICKS_PER_BLOCK, ticksIn(other));
        }
    }

    @Test
    void recorded_withOneCommandChanged_firstDifferenceIsNamed() throws Exception {
        Path other = folder.resolve("other.sprag");
        Settings changed = settings.with(Parameter.HEATER_MAX_C, settings.get(Parameter.HEATER_MAX_C) + 1);
        Supervisor supervisor = new Supervisor(settings);
        Readings in = new Readings();
        Commands out = new Commands();
        try (Recorder recorder =
                new Recorder(other, "coupe", "changed", changed, supervisor, Recorder.Pace.SIMULATED)) {
            in.set(Signal.PLUG_PRESENT, false);
            for (int tick = 0; tick < 50; tick++) {
                supervisor.step(tick, in, out);
                if (tick == 33) {
                    out.set(Output.GAUGE_FRACTION, 7);
                }
                recorder.ticked(tick, in, out);
            }
        }
        try (Recording recording = new Recording(other)) {
            Replay.Difference difference = new Replay(recording).run().orElseThrow();
            assertEquals(33, difference.tick());
            assertEquals("gauge_fraction", difference.field());
            assertEquals("7.0", difference.recorded());
        }
    }

    @Test
    void fileCutAtEveryLength_isReadToTheLastWholeBlock() throws Exception {
        byte[] whole = Files.readAllBytes(file);
        int heading = new String(whole, java.nio.charset.StandardCharsets.ISO_8859_1).indexOf("\"outputs\"");
        for (int length = heading; length < whole.length; length += 5003) {
            Path cut = folder.resolve("cut.sprag");
            Files.write(cut, Arrays.copyOf(whole, length));
            long ticks;
            try {
                ticks = ticksIn(cut);
            } catch (IOException e) {
                assertTrue(e.getMessage().contains("ends before its first tick"), e.getMessage());
                continue;
            }
            assertEquals(0, ticks % Layout.TICKS_PER_BLOCK, "cut at " + length);
        }
    }

    /** What a recording says at its end about what is missing; of one that cannot be opened, why. */
    private static String missing(byte[] bytes) {
        try (Recording recording = new Recording(new ByteArrayInputStream(bytes))) {
            Readings in = new Readings();
            Commands out = new Commands();
            while (recording.next(in, out)) {
                assertTrue(recording.tick() < TICKS);
            }
            return (recording.isDamaged() ? "damaged: " : "") + recording.missing();
        } catch (IOException e) {
            return "refused: " + e.getMessage();
        }
    }

    @Test
    void fileCut_anywhere_saysThatSomethingIsMissing() throws Exception {
        byte[] whole = Files.readAllBytes(file);
        for (int length = 0; length < whole.length; length += length > whole.length - 40 ? 1 : 997) {
            String said = missing(Arrays.copyOf(whole, length));
            assertTrue(
                    said.startsWith("The recording was cut off after ") || said.startsWith("refused: it "),
                    "cut at " + length + ": " + said);
        }
        assertEquals("", missing(whole));
    }

    @Test
    void tailLost_atABlockBoundary_isCutOffAndNotComplete() throws Exception {
        byte[] whole = Files.readAllBytes(file);

        assertEquals(
                "The recording was cut off after 1234 ticks, or was still being written: what came then is missing.",
                missing(Arrays.copyOf(whole, whole.length - Layout.END_BYTES)));
    }

    @Test
    void anyBit_flipped_isNoticed() throws Exception {
        byte[] whole = Files.readAllBytes(file);
        int heading = new String(whole, StandardCharsets.ISO_8859_1).indexOf("\"outputs\"");
        Random random = new Random(3);
        for (int at = 0; at < whole.length; at += at < 40 || at > whole.length - 40 ? 1 : at < heading ? 29 : 797) {
            byte[] flipped = whole.clone();
            flipped[at] ^= 1 << random.nextInt(8);
            String said = missing(flipped);
            assertFalse(said.isEmpty(), "byte " + at);
            assertFalse(said.contains("Exception") || said.contains("null"), said);
        }
    }

    @Test
    void blocks_swappedLostOrTwice_areDamageAfterThoseBefore() throws Exception {
        byte[] whole = Files.readAllBytes(file);
        int first = Layout.MAGIC.length + 8 + ByteBuffer.wrap(whole).getInt(Layout.MAGIC.length);
        int second = first + Layout.BLOCK_HEAD_BYTES + ByteBuffer.wrap(whole).getInt(first);
        byte[] lost = Arrays.copyOf(whole, whole.length - (second - first));
        System.arraycopy(whole, second, lost, first, whole.length - second);

        assertTrue(
                missing(lost)
                        .startsWith(
                                "damaged: The recording is damaged after 0 ticks: the next block begins with tick 100"),
                missing(lost));
    }

    @Test
    void block_damaged_ticksBeforeAreReplayedAndCounted() throws Exception {
        byte[] bytes = Files.readAllBytes(file);
        bytes[bytes.length - Layout.END_BYTES - 4] ^= 1;
        Path damaged = folder.resolve("damaged.sprag");
        Files.write(damaged, bytes);
        StringWriter said = new StringWriter();
        int status = new CommandLine(new ReplayCommand())
                .setOut(new PrintWriter(said))
                .execute(damaged.toString());

        assertEquals(2, status);
        assertTrue(
                said.toString().contains("damaged after 1200 ticks: the next block is damaged (check sum)"),
                said.toString());
        assertTrue(said.toString().contains("The decisions of these 1200 ticks are the same."), said.toString());
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        sprag recording 2 | is a recording of format 2; this version reads the formats 3 to 4
        sprag recording 5 | is a recording of format 5; this version reads the formats 3 to 4
        sprag recording x | is not a recording
        """)
    void otherFormat_refusedWithAWord(String magic, String says) {
        byte[] bytes = Arrays.copyOf((magic + "\n").getBytes(StandardCharsets.US_ASCII), 4000);
        assertTrue(missing(bytes).contains(says), missing(bytes));
    }

    @Test
    void formatsThatAreRead_standOnThePagesAboutChangesAndTraces() throws IOException {
        String formats = Layout.OLDEST + " and " + Layout.VERSION;
        String changes = Files.readString(Path.of("../docs/changes.md"));
        assertTrue(
                changes.contains("written in format " + Layout.VERSION + "; formats " + formats + " are read"),
                "tell the formats of recordings in docs/changes.md");
        assertTrue(
                Files.readString(Path.of("../docs/traces.md"))
                        .contains("recording of format " + Layout.OLDEST + " or " + Layout.VERSION + " is read"),
                "tell the formats of recordings in docs/traces.md");
    }

    /** A recording stores this number each tick, and vectors do. An older file must not be read with another meaning. */
    @Test
    void stateInARecording_hasTheBitsThatBelongToTheFormat() {
        LogicState s = new LogicState();
        s.state = State.FAULT;
        s.step = Step.HOLD;
        s.stepTicks = 0x1234;
        s.charge = ChargePhase.ENDING;
        s.latched = Reset.SERVICE;
        s.torqueLatched = Reset.KEY_CYCLE;
        s.engaged = Direction.REVERSE;
        s.keySeenOff = true;
        s.keySeenOn = true;
        String remedy =
                "other bits or another order: raise Layout.VERSION and Layout.OLDEST, tell it in docs/changes.md,"
                        + " then write the new ones here";
        assertEquals(0x246999475L, s.pack(), remedy);
        List<Class<? extends Enum<?>>> stored =
                List.of(State.class, Step.class, ChargePhase.class, Reset.class, Direction.class);
        assertEquals(
                """
                [OFF, IGNITION, PRECHARGE, DRIVE_ENABLE, RUNDOWN, CHARGE_LOCKOUT, FAULT]
                [IDLE, TEST_NEGATIVE, TEST_PAUSE, TEST_POSITIVE, RAISE_BUS, OVERLAP, HOLD, RAMP_DOWN, OPEN_POSITIVE, OPEN_NEGATIVE, BLEED]
                [WAITING, CHARGING, ENDING, FINISHED, REFUSED]
                [NONE, PEDAL_RELEASE, BRAKED_RELEASE, KEY_CYCLE, SERVICE]
                [NEUTRAL, FORWARD, REVERSE]""",
                stored.stream()
                        .map(kind -> Arrays.toString(kind.getEnumConstants()))
                        .collect(Collectors.joining("\n")),
                remedy);
    }

    @Test
    void replayOfNothing_saysWhatItIs() {
        StringWriter said = new StringWriter();
        CommandLine replay = new CommandLine(new ReplayCommand()).setErr(new PrintWriter(said));

        assertEquals(2, replay.execute("no-such-file"));
        assertEquals(2, replay.execute(folder.toString()));
        assertTrue(said.toString().contains("cannot replay no-such-file: it "), said.toString());
        assertTrue(said.toString().contains("it is a folder, not a file"), said.toString());
    }

    @Test
    void recordedWithoutAnInterlock_replayed_withoutItToo() throws Exception {
        Path other = folder.resolve("without.sprag");
        Supervisor supervisor = new Supervisor(settings, EnumSet.of(Interlock.KEY_NEVER_OFF));
        Readings in = new Readings();
        Commands out = new Commands();
        try (Recorder recorder =
                new Recorder(other, "coupe", "without", settings, supervisor, Recorder.Pace.SIMULATED)) {
            for (int tick = 0; tick < 50; tick++) {
                in.set(Signal.KEY_ON, true);
                supervisor.step(tick, in, out);
                recorder.ticked(tick, in, out);
            }
        }
        try (Recording recording = new Recording(other)) {
            assertEquals(EnumSet.of(Interlock.KEY_NEVER_OFF), recording.without());
            assertTrue(new Replay(recording).run().isEmpty());
        }
    }

    @Test
    void notARecording_isSaidSo() throws Exception {
        Path text = Files.writeString(folder.resolve("note.txt"), "hello, this is a note and no recording");
        IOException e = assertThrows(IOException.class, () -> ticksIn(text));
        assertTrue(e.getMessage().contains("is not a recording"), e.getMessage());
    }

    @Test
    void diskFull_loopGoesOnAndCloseSaysSo() throws Exception {
        Path full = Path.of("/dev/full");
        org.junit.jupiter.api.Assumptions.assumeTrue(Files.exists(full), "no full device on this system");
        assertThrows(IOException.class, () -> record(full, settings));
    }
}
