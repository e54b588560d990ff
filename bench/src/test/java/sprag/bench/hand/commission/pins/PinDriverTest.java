package sprag.bench.hand.commission.pins;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mockito.AdditionalAnswers.delegatesTo;
import static org.mockito.Mockito.doAnswer;
import static org.mockito.Mockito.mock;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.loop.record.Recorder;
import sprag.bench.loop.record.Recordings;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

class PinDriverTest {
    @TempDir
    Path folder;

    @Test
    void supervisedStepEnds_outputsAreReleasedBeforeTheDiskIsWaitedFor() throws Exception {
        Path home = Catalogue.installed().vehicle("yard-cart");
        Vehicle vehicle = VehicleReader.read(home);
        Wired wired = Wired.of(vehicle, Drawing.read(home), null);
        Loom loom = new Loom(vehicle, wired, null, List.of());
        Path file = folder.resolve("step.sprag");
        List<Long> lengths = new ArrayList<>();
        Pins pins = mock(Pins.class, delegatesTo(loom));
        doAnswer(call -> {
                    loom.disarm();
                    return lengths.add(Files.size(file));
                })
                .when(pins)
                .disarm();
        Recordings recordings = Recordings.into(folder, Recorder.Pace.SIMULATED);
        PinDriver driver = new PinDriver(vehicle, pins, recordings);
        driver.nameStep("step");
        driver.supervise();
        driver.runMs(300);
        driver.stopDriving();
        assertEquals("", recordings.trouble());
        assertEquals(1, lengths.size());
        assertTrue(Files.size(file) > lengths.get(0), "the last ticks are written after the release");
    }
}
