package sprag.bench.loop.record;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import sprag.hal.Loop;
import sprag.hal.bus.CanFrame;
import sprag.hal.bus.FrameListener;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Settings;

/**
 * The recordings of one occasion: one file for each supervisor that is woken. A disk that is full or gone ends the recording and
 * is told, but never stops what is recorded. A tick never waits for the disk at real pace; beginning and ending do, at the longest for
 * {@link Recorder#END_WITHIN_MS}, so outputs are released before a recording is ended.
 */
public final class Recordings implements FrameListener, AutoCloseable {
    private final Path folder;
    private final Recorder.Pace pace;
    private volatile Recorder recorder;
    private String trouble = "";

    private Recordings(Path folder, Recorder.Pace pace) {
        this.folder = folder;
        this.pace = pace;
    }

    /** Records into a folder.
     *
     * @param folder which one; it is there
     * @return nothing recorded yet
     */
    public static Recordings into(Path folder, Recorder.Pace pace) {
        return new Recordings(folder, pace);
    }

    /** Records nothing. Returns what ignores every beginning. */
    public static Recordings none() {
        return new Recordings(null, Recorder.Pace.SIMULATED);
    }

    /** Ends the recording before and begins one of a loop that has not ticked yet.
     *
     * @param name the file's name without its ending; a number follows when there is such a file
     */
    public void begin(String name, String vehicle, Settings settings, Supervisor supervisor, Loop loop) {
        end();
        if (folder == null) {
            return;
        }
        Path file = folder.resolve(name + ".sprag");
        for (int n = 2; Files.exists(file); n++) {
            file = folder.resolve(name + "-" + n + ".sprag");
        }
        try {
            Recorder begun = new Recorder(file, vehicle, name, settings, supervisor, pace)
                    .startingAt(loop.clock().nowNs());
            loop.listen(begun);
            recorder = begun;
        } catch (IOException e) {
            trouble = "cannot record into " + file + ": " + e.getMessage();
        }
    }

    @Override
    public void frame(CanFrame frame, boolean sent, long nowNs) {
        Recorder present = recorder;
        if (present != null) {
            present.frame(frame, sent, nowNs);
        }
    }

    /** Ends the recording that goes on, if any. */
    public void end() {
        Recorder ended = recorder;
        recorder = null;
        if (ended != null) {
            try {
                ended.close();
            } catch (UncheckedIOException e) {
                trouble = String.valueOf(e.getMessage());
            }
        }
    }

    /** What went wrong last, also in the recording that goes on. Words for people, empty when nothing did. */
    public String trouble() {
        return recorder == null || recorder.trouble().isEmpty() ? trouble : recorder.trouble();
    }

    @Override
    public void close() {
        end();
    }
}
