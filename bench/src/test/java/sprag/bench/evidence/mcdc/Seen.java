package sprag.bench.evidence.mcdc;

/**
 * What the instrumented classes report: how each condition of a decision came out, and the decision with it. A condition that was not
 * asked, because the ones before it decided, is told apart from one that was false.
 *
 * <p>One thread only. A decision never runs again inside itself.
 */
public final class Seen {
    private static final int MOST_DECISIONS = 1000;
    private static final int MOST_CONDITIONS = 7;
    private static final int[] PLACE = new int[MOST_CONDITIONS + 1];

    static {
        PLACE[0] = 1;
        for (int i = 1; i < PLACE.length; i++) {
            PLACE[i] = PLACE[i - 1] * 3;
        }
    }

    private static final int[] VECTOR = new int[MOST_DECISIONS];
    /** For each decision, each vector of conditions with each outcome. */
    private static final boolean[][] HITS = new boolean[MOST_DECISIONS][];

    private static final boolean[] ARMS = new boolean[MOST_DECISIONS];

    private Seen() {}

    /** A condition came out. */
    public static boolean condition(int decision, int condition, boolean value) {
        VECTOR[decision] += (value ? 2 : 1) * PLACE[condition];
        return value;
    }

    /** A decision came out. */
    public static boolean decision(int decision, int conditions, boolean value) {
        boolean[] hits = HITS[decision];
        if (hits == null) {
            hits = new boolean[PLACE[conditions] * 2];
            HITS[decision] = hits;
        }
        hits[VECTOR[decision] * 2 + (value ? 1 : 0)] = true;
        VECTOR[decision] = 0;
        return value;
    }

    /** A case of a switch was taken. */
    public static <T> T arm(int arm, T value) {
        ARMS[arm] = true;
        return value;
    }

    /** A case of a switch was taken. */
    public static boolean arm(int arm, boolean value) {
        ARMS[arm] = true;
        return value;
    }

    /** A case of a switch was taken. */
    public static int arm(int arm, int value) {
        ARMS[arm] = true;
        return value;
    }

    static boolean[][] hits() {
        return HITS;
    }

    static boolean[] arms() {
        return ARMS;
    }
}
