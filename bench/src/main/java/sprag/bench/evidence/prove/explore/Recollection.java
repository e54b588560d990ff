package sprag.bench.evidence.prove.explore;

import java.util.BitSet;
import java.util.HashMap;
import java.util.Map;

/** What explorations have found out about a stepper, for those that explore it, or one that is nearly the same, after them. */
public final class Recollection {
    /** Where two steppers are the same. */
    public interface Likeness {
        /**
         * Whether all that can come of a step from a state is the same with both, so that nobody needs to look.
         *
         * @param labels what the one that is known notes on the way
         */
        boolean sameStep(long state, BitSet labels);
    }

    private final Recollection before;
    private final Courses courses;
    private final Map<Object, Outcomes> outcomes = new HashMap<>();

    /** Knows nothing yet. */
    public Recollection() {
        this(null, null);
    }

    private Recollection(Recollection before, Likeness likeness) {
        this.before = before;
        this.courses = new Courses(before == null ? null : before.courses, likeness);
    }

    /**
     * Begins with what is known here, for another stepper. Nothing may be learnt here any more while that is used.
     *
     * @param likeness where that other one steps as this one does
     */
    public Recollection of(Likeness likeness) {
        return new Recollection(this, likeness);
    }

    Courses courses() {
        return courses;
    }

    /** What came of the courses with certain watchers. */
    synchronized Outcomes outcomes(Object watchers) {
        return outcomes.computeIfAbsent(
                watchers, key -> new Outcomes(before == null ? null : before.outcomes.get(watchers)));
    }
}
