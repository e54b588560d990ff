package sprag.bench.evidence.prove.explore;

import java.util.Arrays;
import java.util.BitSet;
import sprag.bench.evidence.prove.explore.Outcomes.Outcome;

/**
 * The same machine as a {@link Watched} one, but quicker: it asks the watchers once about many states that differ in counts
 * alone.
 *
 * <p>The stepper is stepped from every state, with every answer of the world. When that shows a course that was seen before,
 * the watchers would be told what they were told then, except for the count. They are asked again only when their memories
 * differ, or when the count would have told them something else. Memories that count on may differ too.
 *
 * <p>Successors, their order and the events noted are those of the machine that it stands for.
 */
public final class Recalled<T extends Stepper> implements Machine {
    /** A course of more branches is not kept: no sound machine has one, and it is long. */
    private static final int MOST_BRANCHES = 1 << 13;

    /** How many counts of a state are told apart: that of the stepper, and those of the first observers. */
    private static final int MOST_COUNTS = 5;

    private static final long COUNTS_ON = Long.MIN_VALUE;

    private final Watched<T> watched;
    private final T stepper;
    private final Courses courses;
    private final long ownMask;
    private final long countMask;
    private final Choices choices;
    private final Successors labels;
    private final Successors seen;
    private final Outcomes outcomes;
    private final int counts;
    /** Which memories of observers are counts in the state under expansion. */
    private final boolean[] goesOn;
    /** By how much each count of the state under expansion is above the least such count. */
    private final long[] above;
    /** The sum of these for each combination of counts. */
    private final long[] sum;

    private long[] script = new long[1 << 10];
    private int lines;
    private long[] likelyLines;
    /** Whether the course is the likely one so far. Nothing is written then. */
    private boolean isLikely;

    /** Stands for a machine.
     *
     * @param watched the machine; nobody else may use it meanwhile
     * @param courses what is known of its stepper; shared with machines over equal steppers
     */
    public Recalled(Watched<T> watched, Courses courses) {
        this(watched, courses, new Outcomes(null));
    }

    /** Stands for a machine, with what is known of it and of its like.
     *
     * @param watched the machine; nobody else may use it meanwhile
     * @param known what earlier explorations have found
     * @param watchers a key to those that watch the machine: equal for equal watchers
     */
    public Recalled(Watched<T> watched, Recollection known, Object watchers) {
        this(watched, known.courses(), known.outcomes(watchers));
    }

    private Recalled(Watched<T> watched, Courses courses, Outcomes outcomes) {
        this.watched = watched;
        this.courses = courses;
        this.outcomes = outcomes;
        stepper = watched.stepper();
        ownMask = (1L << stepper.bits()) - 1;
        countMask = ownMask & -1L << stepper.countFrom();
        choices = new Choices(stepper.keys());
        labels = Successors.firstOnly(stepper.labels());
        seen = Successors.firstOnly(watched.events());
        counts = Math.min(MOST_COUNTS, 1 + watched.observers());
        goesOn = new boolean[counts];
        above = new long[counts];
        sum = new long[1 << counts];
    }

    @Override
    public long initial() {
        return watched.initial();
    }

    @Override
    public int bits() {
        return watched.bits();
    }

    @Override
    public int events() {
        return watched.events();
    }

    @Override
    public void expand(long state, Successors out) {
        int course = course(state & ownMask);
        if (course < 0) {
            watched.expand(state, out);
            return;
        }
        measure(state);
        // Above the stepper's own bits are at most 31 more: what lies there and the course make one number.
        long which = state - sum[sum.length - 1] >>> stepper.bits() << Integer.SIZE | course;
        Outcome outcome = outcomes.find(which, (int) ((state & countMask) >>> stepper.countFrom()));
        if (outcome == null) {
            outcome = ask(state, out);
            if (seen.mostBranches() == 0) {
                outcomes.keep(which, outcome);
            }
        }
        outcome.tell(sum, out);
    }

    /** Works out how far the counts of a state are. */
    private void measure(long state) {
        above[0] = state & countMask;
        for (int i = 1; i < counts; i++) {
            goesOn[i] = watched.countsOn(i - 1, state);
            above[i] = goesOn[i] ? watched.memoryAt(i - 1, state) - watched.oneAt(i - 1) : 0;
        }
        for (int i = 1; i < sum.length; i++) {
            sum[i] = sum[i & i - 1] + above[Integer.numberOfTrailingZeros(i)];
        }
    }

    private int course(long own) {
        int course = courses.of(own);
        if (course != Courses.NEW) {
            return course;
        }
        // Most often it is that of the state that has counted one less.
        int likely = courses.likely(own, (own & countMask) == 0 ? own : own - (countMask & -countMask));
        likelyLines = courses.lines(likely);
        boolean whole = write(own);
        if (whole && isLikely) {
            course = lines == likelyLines.length ? likely : courses.numberOf(likelyLines, lines, labels.noted());
        } else {
            course = whole ? courses.numberOf(script, lines, labels.noted()) : Courses.NOT_KEPT;
        }
        courses.keep(own, course);
        return course;
    }

    /** Writes down all that can come of a step. Returns false when it is too long. */
    private boolean write(long own) {
        long count = own & countMask;
        labels.forget();
        labels.from(own, 0);
        lines = 0;
        isLikely = true;
        line(own - count);
        line(stepper.asked(own));
        int branches = 0;
        choices.begin();
        do {
            int changed = Math.max(0, choices.asked() - 1);
            long after = stepper.step(own, choices, labels);
            labels.add(after);
            if (++branches > MOST_BRANCHES || isCountedBack(after, count)) {
                return false;
            }
            for (int i = changed; i < choices.asked(); i++) {
                line((long) choices.key(i) << Integer.SIZE | choices.answer(choices.key(i)));
            }
            line(-1 - changed);
            line(stepper.shape());
            line((after & countMask) == 0 ? after : after - count | COUNTS_ON);
        } while (choices.next());
        BitSet noted = labels.noted();
        for (int label = noted.nextSetBit(0); label >= 0; label = noted.nextSetBit(label + 1)) {
            line((long) label << Integer.SIZE | labels.branchOf(label));
        }
        return true;
    }

    /** Writes a line, unless it is as expected so far. */
    private void line(long text) {
        if (isLikely && lines < likelyLines.length && likelyLines[lines] == text) {
            lines++;
        } else {
            unlikely(text);
        }
    }

    private void unlikely(long text) {
        if (isLikely) {
            isLikely = false;
            script = Arrays.copyOf(likelyLines, Math.max(lines + 1, script.length));
        } else if (lines == script.length) {
            script = Arrays.copyOf(script, 2 * lines);
        }
        script[lines++] = text;
    }

    /** Whether a count neither begins again nor goes on from where it was. */
    private boolean isCountedBack(long after, long count) {
        return (after & countMask) != 0 && (after & countMask) < count;
    }

    /** Asks the watchers. Returns what came of it. */
    private Outcome ask(long state, Successors out) {
        seen.forget();
        seen.from(state, 0);
        watched.expand(state, seen);
        if (seen.mostBranches() > 0) {
            out.giveUp(seen.mostBranches());
        }
        long[] next = new long[seen.count()];
        byte[] counting = new byte[next.length];
        for (int i = 0; i < next.length; i++) {
            counting[i] = (byte) counting(seen.get(i));
            next[i] = seen.get(i) - sum[counting[i]];
        }
        return Outcome.of(next, counting, seen, watched.leastCount(), watched.mostCount());
    }

    /** Which of the counts go on in a successor. */
    private int counting(long after) {
        int counting = (after & countMask) == 0 ? 0 : 1;
        for (int i = 1; i < counts; i++) {
            counting |= goesOn[i] && watched.memoryAt(i - 1, after) != 0 ? 1 << i : 0;
        }
        return counting;
    }
}
