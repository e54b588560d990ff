package sprag.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.record.Recorder;
import sprag.bench.loop.record.Recording;
import sprag.bench.loop.record.Replay;
import sprag.bench.loop.trace.Frame;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.VehicleReader;

/** A whole day's recording stays small: every tick of eight hours at 10 ms in less than 200 MB, which is 69 bytes a tick. */
class RecordingSizeTest {
    private static final double TICKS_OF_A_DAY = 8 * 3600 * 100.0;
    private static final double MOST_BYTES = 200e6;
    private static final int TICKS = 3000;

    @TempDir
    Path folder;

    @ParameterizedTest(name = "{0}, {1}")
    @CsvSource({
        "parcel-van, driving",
        "parcel-van, charging",
        "parcel-van, parked",
        "coupe, driving",
        "coupe, charging",
        "coupe, parked"
    })
    void everyTickOfADay_staysBelow200MB_andReplaysExactly(String vehicle, String doing) throws Exception {
        ClosedLoop loop =
                new ClosedLoop(VehicleReader.read(Catalogue.installed().vehicle(vehicle)), 1);
        Frame frame = loop.channels().newFrame();
        Path file = folder.resolve("day.sprag");
        try (Recorder recorder = loop.record(file, doing)) {
            for (int tick = 0; tick < TICKS; tick++) {
                move(loop, doing, tick);
                loop.tick(frame);
            }
            assertTrue(recorder != null);
        }
        double bytesPerTick = (double) Files.size(file) / TICKS;
        System.out.printf(
                "%s %s: %.1f bytes a tick, %.0f MB in 8 h%n",
                vehicle, doing, bytesPerTick, bytesPerTick * TICKS_OF_A_DAY / 1e6);
        assertTrue(bytesPerTick * TICKS_OF_A_DAY < MOST_BYTES, bytesPerTick + " bytes a tick");
        try (Recording recording = new Recording(file)) {
            Replay replay = new Replay(recording);
            assertTrue(replay.run().isEmpty());
            assertEquals(TICKS, replay.ticks());
        }
    }

    private static void move(ClosedLoop loop, String doing, int tick) {
        switch (doing + " " + tick) {
            case "driving 50" -> loop.move("key", 1);
            case "driving 100" -> {
                loop.move("brake", 0.3);
                loop.move("direction", 1);
                loop.move("start", 1);
            }
            case "driving 130" -> loop.move("start", 0);
            case "driving 400" -> {
                loop.move("brake", 0);
                loop.move("pedal", 0.5);
            }
            case "charging 50" -> loop.move("plug", 1);
            default -> {
                // everything stays as it is
            }
        }
    }
}
