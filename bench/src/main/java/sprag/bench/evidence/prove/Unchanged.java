package sprag.bench.evidence.prove;

import java.util.BitSet;
import sprag.bench.evidence.prove.explore.Recollection.Likeness;
import sprag.bench.evidence.prove.promise.Tick;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.State;

/**
 * In which steps a Logic with something taken out or weakened does as the whole one. There it is not tried again. A test holds
 * what is found out in this way against what is found out without it.
 */
final class Unchanged {
    private Unchanged() {}

    /** A row makes a difference where it acts, and on the way into a state where it is asked. */
    static Likeness without(Interlock row) {
        BitSet touched = new BitSet();
        touched.set(Tick.label(row));
        for (State state : row.where) {
            touched.set(Tick.label(state));
        }
        return (state, labels) -> !labels.intersects(touched);
    }

    /** Logic does nothing with a wait but compare it with a count. So it makes a difference where the count comes near to it. */
    static Likeness weakened(Settings whole, Settings weak, Parameter wait) {
        int least = Math.min(whole.ticks(wait), weak.ticks(wait)) - 1;
        int most = Math.max(whole.ticks(wait), weak.ticks(wait));
        return (state, labels) -> Tick.count(state) < least || Tick.count(state) > most;
    }
}
