package sprag.bench.panel.bench;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.car.Lever;
import sprag.supervisor.vocabulary.State;

/** What was done since the car was new, and which states came of it, so that it can become a scenario. */
final class ActionLog {
    /** More than this is not a scenario any more; what comes later is not kept, and the scenario says so. */
    static final int KEPT = 20_000;

    /** One thing that was done. */
    sealed interface Done {
        /** When, in the time of the car. */
        long timeMs();
    }

    /** A lever was moved. */
    record Moved(long timeMs, Lever lever, double to) implements Done {}

    /** A fault came. */
    record Broke(long timeMs, String fault) implements Done {}

    /** A fault went. */
    record Mended(long timeMs, String fault) implements Done {}

    /** Something that no scenario can do. */
    record Other(long timeMs, String words) implements Done {}

    /** A state was entered. */
    record Entered(long timeMs, State state) implements Done {}

    private final List<Done> done = new ArrayList<>();
    private boolean full;

    /** Starts anew with a new car. */
    synchronized void restart() {
        done.clear();
        full = false;
    }

    /** Keeps an action. */
    synchronized void add(Done each) {
        if (done.size() < KEPT) {
            done.add(each);
        } else {
            full = true;
        }
    }

    /** All of them, in order. */
    synchronized List<Done> all() {
        return List.copyOf(done);
    }

    /** Whether some were not kept. */
    synchronized boolean isFull() {
        return full;
    }
}
