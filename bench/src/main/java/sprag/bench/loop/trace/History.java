package sprag.bench.loop.trace;

import java.util.ArrayList;
import java.util.List;

/** The frames of a run that were kept, for plots. */
public final class History {
    private final Channels channels;
    private final List<float[]> rows = new ArrayList<>();
    private final List<long[]> marks = new ArrayList<>();

    /** Starts empty. */
    public History(Channels channels) {
        this.channels = channels;
    }

    /** Keeps a frame. */
    public void add(Frame frame) {
        float[] row = new float[frame.value.length];
        for (int i = 0; i < row.length; i++) {
            row[i] = (float) frame.value[i];
        }
        rows.add(row);
        marks.add(new long[] {frame.timeMs, frame.state});
    }

    /** The columns. */
    public Channels channels() {
        return channels;
    }

    /** How many frames were kept. */
    public int size() {
        return rows.size();
    }

    /** When a frame was. Milliseconds since the start. */
    public long timeMs(int row) {
        return marks.get(row)[0];
    }

    /** The state in a frame. */
    public int state(int row) {
        return (int) marks.get(row)[1];
    }

    /** A value in a frame. Returns the value, NaN when unknown. */
    public double value(int row, int column) {
        return rows.get(row)[column];
    }

    /** Whether a column was ever known.
     *
     * @param column which column, may be -1 for none
     * @return true when at least one frame has a value
     */
    public boolean known(int column) {
        if (column < 0) {
            return false;
        }
        for (float[] row : rows) {
            if (!Float.isNaN(row[column])) {
                return true;
            }
        }
        return false;
    }
}
