package sprag.bench.loop.record;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static sprag.hal.board.PseudoTerminals.WATCHDOG_NS;
import static sprag.hal.board.PseudoTerminals.await;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Random;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

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
            assertFalse(recording.isCutOff());
        }
    }

    /** A recording of minutes that are lived through, not computed, must not wait in memory for more. */
    @Test
    void ticksAtTheirOwnPace_blockIsWhole_isReadableWhileTheRecordingGoesOn() throws Exception {
        AtomicLong now = new AtomicLong();
        Path other = folder.resolve("other.sprag");
        try (Recorder recorder = new Recorder(
                other,
                Heading.of("coupe", "slow", settings),
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

    @Test
    void oneByteChanged_checksumNamesTheTick() throws Exception {
        byte[] bytes = Files.readAllBytes(file);
        bytes[bytes.length - 20] ^= 1;
        Path damaged = folder.resolve("damaged.sprag");
        Files.write(damaged, bytes);
        IOException e = assertThrows(IOException.class, () -> ticksIn(damaged));
        assertTrue(e.getMessage().contains("tick 1200"), e.getMessage());
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
