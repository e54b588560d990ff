package sprag.bench.loop;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import sprag.supervisor.Diagnostics;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.Transition;

/** Reads the supervisor's memory after each tick: which interlocks act now, and what was new in this tick. */
final class EventReader {
    private final Diagnostics seen;
    private final Set<Interlock> acting = EnumSet.noneOf(Interlock.class);
    private final List<Event> news = new ArrayList<>();
    private long read;
    private String why = "";

    EventReader(Diagnostics seen) {
        this.seen = seen;
    }

    /** Reads what one tick has brought; call it after every tick. */
    void read(long tick) {
        news.clear();
        if (!acting.isEmpty()) {
            acting.removeIf(row -> seen.lastActedTick(row) != tick);
        }
        Interlock stopper = null;
        for (; read < seen.eventCount(); read++) {
            Object event = seen.event(read);
            if (event instanceof Interlock row) {
                acting.add(row);
                news.add(new Event.Began(row));
                stopper = row.response.compareTo(Response.STOP_THEN_OPEN) <= 0 ? row : stopper;
            } else if (event instanceof Transition via) {
                boolean asked = via.kind == Transition.Kind.INTERLOCK;
                Event.Entered entered = new Event.Entered(via, asked ? stopper : null);
                news.add(entered);
                why = entered.why();
            }
        }
    }

    Set<Interlock> acting() {
        return acting;
    }

    List<Event> news() {
        return news;
    }

    String why() {
        return why;
    }
}
