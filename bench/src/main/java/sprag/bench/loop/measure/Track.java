package sprag.bench.loop.measure;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import sprag.bench.loop.trace.Channels;
import sprag.bench.loop.trace.Frame;

/** The ticks of a run that were kept, and when its named steps happened. */
public final class Track {
    private final Channels channels;
    private final List<Frame> frames = new ArrayList<>();
    private final Map<String, Long> steps = new HashMap<>();

    /** Starts empty. */
    public Track(Channels channels) {
        this.channels = channels;
    }

    /** Keeps a copy of a tick. */
    public void add(Frame frame) {
        frames.add(frame.copy());
    }

    /** Notes that a step of the scenario was done; only the first time counts. */
    public void did(String step, long timeMs) {
        steps.putIfAbsent(step, timeMs);
    }

    /** The columns. */
    public Channels channels() {
        return channels;
    }

    /** The ticks, in order. */
    public List<Frame> frames() {
        return List.copyOf(frames);
    }

    /** When a step was done, in milliseconds since the start; null when it was not done. */
    Long stepMs(String name) {
        return steps.get(name);
    }

    int size() {
        return frames.size();
    }

    Frame frame(int row) {
        return frames.get(row);
    }

    /** The first tick at or after a time; the number of ticks when the run ended earlier. */
    int rowAt(double timeMs) {
        int low = 0;
        int high = frames.size();
        while (low < high) {
            int middle = (low + high) / 2;
            if (frames.get(middle).timeMs < timeMs) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
    }
}
