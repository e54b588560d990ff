package sprag.bench.panel.bench;

import java.util.concurrent.atomic.AtomicReferenceArray;
import sprag.bench.panel.bench.Note.Kind;

/** The newest notes. One thread writes, any thread reads, nobody waits. */
public final class NoteBook {
    /** How many are kept. */
    static final int KEPT = 1024;

    private final AtomicReferenceArray<Note> ring = new AtomicReferenceArray<>(KEPT);
    private volatile long count;
    private volatile long carBegins;
    private int car = -1;
    private long timeMs;
    private long tick;

    /** What is written from now on belongs to a new car, whose time begins at 0. */
    void newCar() {
        carBegins = count;
        car++;
        at(0, 0);
    }

    /** Sets the moment of the notes to come. */
    void at(long nowMs, long nowTick) {
        timeMs = nowMs;
        tick = nowTick;
    }

    /** Writes one; only the bench's thread may. */
    void add(Kind kind, String what, String cause, String consequence) {
        long index = count;
        ring.set((int) (index % KEPT), new Note(index, car, timeMs, tick, kind, what, cause, consequence));
        count = index + 1;
    }

    /** The first note of the present car that is still kept. */
    long first() {
        return Math.max(carBegins, count - KEPT);
    }

    /** How many there were in all. */
    public long count() {
        return count;
    }

    /** A note, null when it was never written or is gone. */
    public Note get(long index) {
        Note note = ring.get((int) (index % KEPT));
        return note != null && note.index() == index ? note : null;
    }
}
