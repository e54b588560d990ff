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
import sprag.bench.car.Lever;
import sprag.bench.loop.record.Recorder;
import sprag.bench.loop.record.Recording;
import sprag.bench.loop.record.Recordings;
import sprag.bench.loop.record.Replay;

/** What is done on the panel can be decided again afterwards. */
class PanelRecordingTest {
    @TempDir
    Path folder;

    private final ManualClock clock = new ManualClock();

    private BenchThread bench(Recordings recordings) {
        return new Panel(PanelBench.vehicle("parcel-van"), null, clock, List.of(), new ControlLease(), recordings)
                .bench();
    }

    private void run(BenchThread bench, int ticks) {
        long end = bench.plant().loop.ticks() + ticks;
        while (bench.plant().loop.ticks() < end) {
            bench.advance();
        }
    }

    @Test
    void twoCars_twoRecordings_decidedAgainTheSame() throws Exception {
        Recordings recordings = Recordings.into(folder, Recorder.Pace.SIMULATED);
        BenchThread bench = bench(recordings);
        bench.plant().car.levers().set(Lever.KEY, 1);
        run(bench, 150);
        bench.renew();
        run(bench, 70);
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
    void folderGone_isToldAndTheCarGoesOn() {
        Recordings recordings = Recordings.into(folder.resolve("gone"), Recorder.Pace.REAL_TIME);
        BenchThread bench = bench(recordings);
        run(bench, 20);
        assertEquals(20, bench.plant().loop.ticks());
        assertFalse(recordings.trouble().isEmpty());
    }
}
