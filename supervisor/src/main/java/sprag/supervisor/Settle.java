package sprag.supervisor;

/**
 * Debounces causes: a fact becomes true when its cause has lasted for its detection time, and false when it has been away
 * twice as long.
 *
 * <p>The count climbs by two and falls by one, so that an intermittent contact which is bad for more than a third of the
 * time is still found. A cause first seen in tick 0 makes the fact true in tick n for a detection time of n ticks: not
 * before it has lasted that long.
 */
final class Settle {
    private final int[] count = new int[Fact.COUNT];
    private final int[] limit = new int[Fact.COUNT];
    private final boolean[] settled = new boolean[Fact.COUNT];

    Settle(Settings settings) {
        for (Fact fact : Fact.values()) {
            limit[fact.ordinal()] = fact.detection == null ? 0 : 2 * settings.ticks(fact.detection);
        }
    }

    /** Takes one tick's look at a cause.
     *
     * @param fact the fact it makes true
     * @param cause whether the cause is there in this tick
     * @return whether the fact is true
     */
    boolean settle(Fact fact, boolean cause) {
        int i = fact.ordinal();
        return (cause || count[i] != 0) && count(i, cause);
    }

    /** Takes one tick's look at a cause and sets its fact; while nothing is wrong and nothing is counted there is nothing to set.
     *
     * @param facts where the fact is set, always through here
     * @param fact the fact it makes true
     * @param cause whether the cause is there in this tick
     */
    void into(TickFacts facts, Fact fact, boolean cause) {
        int i = fact.ordinal();
        if (cause || count[i] != 0) {
            facts.set(fact, count(i, cause));
        }
    }

    private boolean count(int i, boolean cause) {
        if (cause) {
            count[i] = Math.min(count[i] + 2, limit[i] + 2);
            settled[i] |= count[i] > limit[i];
        } else {
            count[i]--;
            settled[i] &= count[i] > 0;
        }
        return settled[i];
    }

    /** Forgets how long a cause has been there, when what it is measured against begins anew.
     *
     * @param fact the fact; no longer true
     */
    void forget(Fact fact) {
        count[fact.ordinal()] = 0;
        settled[fact.ordinal()] = false;
    }

    /** Whether a fact was true after the last look, for causes with hysteresis.
     *
     * @param fact which one
     * @return its last value
     */
    boolean was(Fact fact) {
        return settled[fact.ordinal()];
    }
}
