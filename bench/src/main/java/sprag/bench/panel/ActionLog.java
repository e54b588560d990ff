package sprag.bench.panel;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.car.Lever;
import sprag.supervisor.vocabulary.State;

/** What was done since the car was new, and which states came of it, so that it can become a scenario. */
final class ActionLog {
    /** More than this is not a scenario any more; what comes later is not kept, and the scenario says so. */
    static final int KEPT = 20_000;

    /** One thing that was done. */
    sealed interface Deed {
        /** When, in the time of the car. */
        long timeMs();
    }

    /** A lever was moved. */
    record Moved(long timeMs, Lever lever, double to) implements Deed {}

    /** A fault came. */
    record Broke(long timeMs, String fault) implements Deed {}

    /** A fault went. */
    record Mended(long timeMs, String fault) implements Deed {}

    /** Something that no scenario can do. */
    record Other(long timeMs, String words) implements Deed {}

    /** A state was entered. */
    record Entered(long timeMs, State state) implements Deed {}

    private final List<Deed> deeds = new ArrayList<>();
    private boolean full;

    /** Starts anew with a new car. */
    synchronized void restart() {
        deeds.clear();
        full = false;
    }

    /** Keeps a deed. */
    synchronized void add(Deed deed) {
        if (deeds.size() < KEPT) {
            deeds.add(deed);
        } else {
            full = true;
        }
    }

    /** All of them, in order. */
    synchronized List<Deed> all() {
        return List.copyOf(deeds);
    }

    /** Whether some were not kept. */
    synchronized boolean isFull() {
        return full;
    }
}
