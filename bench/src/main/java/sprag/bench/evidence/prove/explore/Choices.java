package sprag.bench.evidence.prove.explore;

import java.util.Arrays;

/**
 * The questions that a step asks about the outside world. Every combination of answers that the step can tell apart is
 * tried.
 *
 * <p>A step is run again and again. Each question has a key and a number of answers. When a key is asked again within a
 * step, it keeps its answer. After each run {@link #next} goes on to the next combination. The last question changes
 * first, like the last wheel of a counter. A question that a run does not ask is not branched on.
 *
 * <pre>
 * choices.begin();
 * do {
 *     ... choices.choose(KEY, 2) ...
 * } while (choices.next());
 * </pre>
 */
public final class Choices {
    private static final int OPEN = -1;

    private final int[] answer;
    private final int[] askedKey;
    private final int[] lastAnswer;
    private int asked;

    /** Makes choices over keys.
     *
     * @param keys how many; a key is a number from 0 to this number less one
     */
    public Choices(int keys) {
        answer = new int[keys];
        askedKey = new int[keys];
        lastAnswer = new int[keys];
        Arrays.fill(answer, OPEN);
    }

    /** Forgets everything: the next run is the first of its step. */
    public void begin() {
        while (asked > 0) {
            answer[askedKey[--asked]] = OPEN;
        }
    }

    /** Asks a question.
     *
     * @param answers how many answers it has, at least 1
     * @return the answer, from 0 to {@code answers} less one
     */
    public int choose(int key, int answers) {
        int known = answer[key];
        return known != OPEN ? known : ask(key, 0, answers - 1);
    }

    /**
     * States that, with the answers so far, a question has this answer and no other.
     *
     * @param value its only answer
     */
    public void assume(int key, int value) {
        if (answer[key] == OPEN) {
            ask(key, value, value);
        } else if (answer[key] != value) {
            throw new IllegalStateException(
                    "question " + key + " is answered " + answer[key] + " and cannot be assumed to be " + value);
        }
    }

    private int ask(int key, int first, int last) {
        answer[key] = first;
        askedKey[asked] = key;
        lastAnswer[asked++] = last;
        return first;
    }

    /** Turns to the next combination. Returns false when all have been tried. */
    public boolean next() {
        for (int deepest = asked - 1; deepest >= 0; deepest--) {
            int key = askedKey[deepest];
            int tried = answer[key];
            if (tried < lastAnswer[deepest]) {
                answer[key] = tried + 1;
                asked = deepest + 1;
                return true;
            }
            answer[key] = OPEN;
        }
        asked = 0;
        return false;
    }

    /** How many questions have been asked or assumed in this run. */
    public int asked() {
        return asked;
    }

    /** A question of this run, in the order they were asked.
     *
     * @param i from 0 to {@link #asked()} less one
     */
    public int key(int i) {
        return askedKey[i];
    }

    /** Whether a question has an answer in this run. Returns true when it was asked or assumed. */
    public boolean knows(int key) {
        return answer[key] != OPEN;
    }

    /** The answer a question has in this run.
     *
     * @param key a question that {@link #knows} an answer
     */
    public int answer(int key) {
        if (answer[key] == OPEN) {
            throw new IllegalStateException("question " + key + " has not been asked in this run");
        }
        return answer[key];
    }
}
