package sprag.bench.hand.commission.pins;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mockito.AdditionalAnswers.delegatesTo;
import static org.mockito.Mockito.doAnswer;
import static org.mockito.Mockito.mock;
import static org.mockito.Mockito.never;
import static org.mockito.Mockito.verify;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.cli.Trouble;
import sprag.bench.loop.record.Recorder;
import sprag.bench.loop.record.Recordings;
import sprag.bench.review.pins.Drawing;
import sprag.bench.review.pins.Wired;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Output;

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
        PinDriver driver = new PinDriver(vehicle, pins, recordings, () -> false);
        driver.nameStep("step");
        driver.supervise();
        driver.runMs(300);
        driver.stopDriving();
        assertEquals("", recordings.trouble());
        assertEquals(1, lengths.size());
        assertTrue(Files.size(file) > lengths.get(0), "the last ticks are written after the release");
    }

    @Test
    void drivenByHand_nobodyThereAnyMore_releasedBeforeTheNextTick() throws Exception {
        Path home = Catalogue.installed().vehicle("yard-cart");
        Vehicle vehicle = VehicleReader.read(home);
        Loom loom = new Loom(vehicle, Wired.of(vehicle, Drawing.read(home), null), null, List.of());
        Pins pins = mock(Pins.class, delegatesTo(loom));
        AtomicBoolean deserted = new AtomicBoolean();
        PinDriver driver = new PinDriver(vehicle, pins, Recordings.none(), deserted::get);
        deserted.set(true);
        driver.runMs(100);
        verify(pins, never()).disarm(); // nothing is driven: a file of answers may go on
        deserted.set(false);
        driver.driveByHand(true);
        driver.set(Output.POSITIVE_CONTACTOR, 1);
        driver.runMs(200);
        deserted.set(true);
        long endedMs = driver.nowMs();
        Trouble told = assertThrows(Trouble.class, () -> driver.runMs(800));
        assertTrue(told.getMessage().contains("every output is released"), told.getMessage());
        assertTrue(driver.nowMs() - endedMs <= driver.tickMs(), "released " + (driver.nowMs() - endedMs) + " ms later");
        verify(pins).disarm();
        driver.runMs(100);
    }
}
