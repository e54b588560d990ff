package sprag.bench.evidence.prove.promise;

import java.util.Arrays;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import sprag.bench.evidence.prove.explore.Choices;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Facts;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Watch;

/**
 * Facts as lying sensors could give them. Each fact that is asked for is tried with every value, and keeps that value
 * for the tick.
 *
 * <p>A watch asks for the first row whose cause is present. That is one question, and each row is one answer. The
 * answer tells the facts up to that row; the facts of later rows stay open.
 */
public final class BranchingFacts extends Facts {
    /** How many questions there are: the facts, and one watch. */
    public static final int KEYS = Fact.COUNT + 1;

    private static final int WATCH = Fact.COUNT;
    private static final byte OPEN = -1;
    private static final Fact[] FACTS = Fact.values();
    private static final int[] VALUES = new int[Fact.COUNT];

    static {
        for (Fact fact : Fact.values()) {
            VALUES[fact.ordinal()] = fact.labels.size();
        }
    }

    private final Map<Watch, Answers> known = new IdentityHashMap<>();
    private final Watch[] lastWatch = new Watch[State.values().length];
    private final Answers[] lastAnswers = new Answers[State.values().length];
    private Choices choices;
    private int state;
    /**
     * What each answer of the watch says about the facts: one row of values for each answer, after a row in which all
     * is open.
     */
    private byte[] implied = allOpen();

    private int impliedFrom;
    private long untrueLow;
    private long untrueHigh;

    /**
     * The rows that can be the first active one, and what each tells about the facts. The answer that no row is active
     * comes first, so that of two equally short counterexamples the one with fewer causes is shown.
     */
    private static final class Answers {
        final int[] row;
        final byte[] implied;
        final long[] untrueLow;
        final long[] untrueHigh;

        Answers(Watch watch) {
            int[] rows = new int[watch.size() + 1];
            byte[][] tells = new byte[watch.size() + 1][];
            byte[] before = allOpen();
            int count = 1;
            for (int i = 0; i < watch.size(); i++) {
                Interlock row = watch.row(i);
                int fact = row.cause.fact().ordinal();
                byte wanted = (byte) row.cause.value();
                if (before[fact] == OPEN || before[fact] == wanted) {
                    rows[count] = i;
                    tells[count] = before.clone();
                    tells[count++][fact] = wanted;
                    before[fact] = (byte) (1 - wanted);
                }
            }
            rows[0] = -1;
            tells[0] = before;
            row = Arrays.copyOf(rows, count);
            implied = Arrays.copyOf(allOpen(), (count + 1) * Fact.COUNT);
            untrueLow = new long[count];
            untrueHigh = new long[count];
            for (int answer = 0; answer < count; answer++) {
                System.arraycopy(tells[answer], 0, implied, (answer + 1) * Fact.COUNT, Fact.COUNT);
                for (int fact = 0; fact < Fact.COUNT; fact++) {
                    untrueLow[answer] |= tells[answer][fact] == 0 ? FactSet.low(fact) : 0;
                    untrueHigh[answer] |= tells[answer][fact] == 0 ? FactSet.high(fact) : 0;
                }
            }
        }
    }

    private static byte[] allOpen() {
        byte[] open = new byte[Fact.COUNT];
        Arrays.fill(open, OPEN);
        return open;
    }

    /** Begins a run of a tick.
     *
     * @param stateBefore the ordinal of the state before the tick
     */
    public void begin(Choices world, int stateBefore) {
        if (choices != world) { // storing a reference costs the collector's note, which counts here
            choices = world;
        }
        state = stateBefore;
        impliedFrom = 0;
        untrueLow = 0;
        untrueHigh = 0;
    }

    @Override
    public int value(Fact fact) {
        int i = fact.ordinal();
        int known = implied[impliedFrom + i];
        return known != OPEN ? known : choices.choose(i, VALUES[i]);
    }

    @Override
    public int firstActive(Watch watch) {
        if (impliedFrom != 0 || choices.asked() > 0 && choices.key(0) != WATCH) {
            return oneByOne(watch);
        }
        Answers answers = answersOf(watch);
        int answer = choices.choose(WATCH, answers.row.length);
        if (implied != answers.implied) {
            implied = answers.implied;
        }
        impliedFrom = (answer + 1) * Fact.COUNT;
        untrueLow = answers.untrueLow[answer];
        untrueHigh = answers.untrueHigh[answer];
        return answers.row[answer];
    }

    /** Asks fact by fact. This is for a watch that is not the first question of the tick. */
    private int oneByOne(Watch watch) {
        for (int i = 0; i < watch.size(); i++) {
            Interlock row = watch.row(i);
            if (value(row.cause.fact()) == row.cause.value()) {
                return i;
            }
        }
        return -1;
    }

    private Answers answersOf(Watch watch) {
        if (lastWatch[state] != watch) {
            lastWatch[state] = watch;
            lastAnswers[state] = known.computeIfAbsent(watch, Answers::new);
        }
        return lastAnswers[state];
    }

    /**
     * Whether any of these facts is true. It asks one after the other and stops at the first true one. When the watch
     * told about all of them, it asks nothing.
     */
    public boolean any(FactSet set) {
        if ((set.low & ~untrueLow | set.high & ~untrueHigh) == 0) {
            return false;
        }
        for (Fact fact : set.facts) {
            if (value(fact) != 0) {
                return true;
            }
        }
        return false;
    }

    /** Whether Logic has learnt in this tick that a fact is true. Does not ask.
     *
     * @param fact a yes-or-no fact
     * @return true when it has been seen to be true
     */
    public boolean isKnown(Fact fact) {
        int i = fact.ordinal();
        int known = implied[impliedFrom + i];
        return known != OPEN ? known == 1 : choices.knows(i) && choices.answer(i) == 1;
    }

    /** Whether anything is known of a fact in this tick. Does not ask. Returns true when it has a value. */
    public boolean hasValue(Fact fact) {
        return implied[impliedFrom + fact.ordinal()] != OPEN || choices.knows(fact.ordinal());
    }

    /**
     * A fact that was asked for by itself in this tick.
     *
     * @param value the value it had
     */
    public record Asked(Fact fact, int value) {}

    /** The interlock that a watch gave as the first active one in this tick; nothing when none was active or no watch was asked. */
    public Optional<Interlock> acting() {
        if (!choices.knows(WATCH)) {
            return Optional.empty();
        }
        int row = lastAnswers[state].row[choices.answer(WATCH)];
        return row < 0 ? Optional.empty() : Optional.of(lastWatch[state].row(row));
    }

    /** The facts that were asked for by themselves in this tick, in the order they were asked. What a watch told is not among them. */
    public List<Asked> asked() {
        return IntStream.range(0, choices.asked())
                .map(choices::key)
                .filter(key -> key != WATCH)
                .mapToObj(key -> new Asked(FACTS[key], choices.answer(key)))
                .toList();
    }
}
