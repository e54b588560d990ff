package sprag.bench.panel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.bus.BusFile;
import sprag.bench.bus.BusReader;
import sprag.bench.car.Lever;
import sprag.bench.loop.record.Recorder;
import sprag.bench.loop.record.Recording;
import sprag.bench.loop.record.Recordings;
import sprag.bench.loop.record.Replay;
import sprag.bench.panel.bench.ControlLease;
import sprag.bench.panel.session.Subject;
import sprag.bench.panel.web.Panel;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;

/** What is done on the panel can be decided again afterwards. */
class PanelRecordingTest {
    @TempDir
    Path folder;

    private final ManualClock clock = new ManualClock();

    private Panel panel(Recordings recordings) {
        return new Panel(
                new Subject(PanelBench.vehicle("parcel-van"), null, null),
                clock,
                List.of(),
                new ControlLease(),
                recordings);
    }

    private static long ticks(Panel panel) {
        return panel.bench().session().loop.loop().ticks();
    }

    private static void run(Panel panel, int ticks) {
        long end = ticks(panel) + ticks;
        while (ticks(panel) < end) {
            panel.thread().advance();
        }
    }

    @Test
    void twoCars_twoRecordings_decidedAgainTheSame() throws Exception {
        Recordings recordings = Recordings.into(folder, Recorder.Pace.SIMULATED);
        Panel panel = panel(recordings);
        panel.bench().session().move(Lever.KEY, 1);
        run(panel, 150);
        panel.bench().renew();
        run(panel, 70);
        recordings.close();
        assertEquals("", recordings.trouble());
        try (Stream<Path> files = Files.list(folder)) {
            assertEquals(2, files.count());
        }
        assertEquals(150, same(folder.resolve("panel.sprag")));
        assertEquals(70, same(folder.resolve("panel-2.sprag")));
    }

    private static long same(Path file) throws Exception {
        try (Recording recording = new Recording(file)) {
            Replay replay = new Replay(recording);
            assertTrue(replay.run().isEmpty(), file.toString());
            return replay.ticks();
        }
    }

    @Test
    void carOnASimulatedBus_itsFramesStandInTheRecordingOfEachCar() throws Exception {
        Vehicle van = PanelBench.vehicle("parcel-van");
        BusFile bus = BusReader.read(Catalogue.installed().bus("van-pair"), van);
        Recordings recordings = Recordings.into(folder, Recorder.Pace.SIMULATED);
        Panel panel = new Panel(new Subject(van, bus, null), clock, List.of(), new ControlLease(), recordings);
        run(panel, 150);
        panel.bench().renew();
        run(panel, 70);
        recordings.close();
        for (String name : List.of("panel.sprag", "panel-2.sprag")) {
            long[] firstAndCount = {-1, 0};
            try (Recording recording = new Recording(folder.resolve(name))) {
                recording.listen((frame, sent, timeNs) -> {
                    firstAndCount[0] = firstAndCount[0] < 0 ? timeNs : firstAndCount[0];
                    firstAndCount[1]++;
                });
                assertTrue(new Replay(recording).run().isEmpty());
                assertEquals(0, firstAndCount[0], "its time begins with its recording");
                assertTrue(firstAndCount[1] > 3 * recording.tick(), firstAndCount[1] + " frames");
            }
        }
    }

    @Test
    void folderGone_isToldAndTheCarGoesOn() {
        Recordings recordings = Recordings.into(folder.resolve("gone"), Recorder.Pace.REAL_TIME);
        Panel panel = panel(recordings);
        run(panel, 20);
        assertEquals(20, ticks(panel));
        assertFalse(recordings.trouble().isEmpty());
    }
}
