package sprag.bench.loop.measure;

import java.util.function.Predicate;
import sprag.bench.loop.trace.Frame;

/** A moment of a run, found by looking at its ticks. */
sealed interface Moment {
    /** The number of its tick, or -1 when it never came. */
    int row(Track track);

    /** The last tick of the run. */
    record End() implements Moment {
        @Override
        public int row(Track track) {
            return track.size() - 1;
        }
    }

    /** So many milliseconds after another moment; after the start when there is none. */
    record Later(Moment base, double waitMs) implements Moment {
        @Override
        public int row(Track track) {
            int from = base == null ? 0 : base.row(track);
            if (from < 0 || track.size() == 0) {
                return -1;
            }
            int row = track.rowAt((base == null ? 0 : track.frame(from).timeMs) + waitMs);
            return row < track.size() ? row : -1;
        }
    }

    /** When a named step of the scenario was done. */
    record Done(String step) implements Moment {
        @Override
        public int row(Track track) {
            Long atMs = track.stepMs(step);
            int row = atMs == null ? track.size() : track.rowAt(atMs);
            return row < track.size() ? row : -1;
        }
    }

    /** The first tick from another moment on at which something begins to be so. What holds from the beginning on never begins. */
    record Begins(Predicate<Frame> what, Moment from) implements Moment {
        @Override
        public int row(Track track) {
            int row = from == null ? 0 : from.row(track);
            if (row < 0) {
                return -1;
            }
            boolean before = row > 0 && what.test(track.frame(row - 1));
            for (; row < track.size(); row++) {
                boolean now = what.test(track.frame(row));
                if (now && !before) {
                    return row;
                }
                before = now;
            }
            return -1;
        }
    }
}
