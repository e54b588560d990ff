package sprag.supervisor.vocabulary;

/** What sets an interlock off: a fact with a certain value, or something that only the contactor sequence can see. */
public final class Cause {
    private final Fact fact;
    private final int value;
    private final String words;

    private Cause(Fact fact, int value, String words) {
        this.fact = fact;
        this.value = value;
        this.words = words;
    }

    /** The fact is true.
     *
     * @param fact a yes-or-no fact
     * @return the cause
     */
    static Cause when(Fact fact) {
        return new Cause(fact, 1, fact.meaning);
    }

    /** The fact is not true.
     *
     * @param fact a yes-or-no fact
     * @param words what is so when the fact is not true, a clause
     * @return the cause
     */
    static Cause unless(Fact fact, String words) {
        return new Cause(fact, 0, words);
    }

    /** Something that is known only inside a sequence of steps.
     *
     * @param words what, for people
     * @return the cause
     */
    static Cause inSequence(String words) {
        return new Cause(null, 0, words);
    }

    /** Whether it can be read from the facts alone.
     *
     * @return false for a cause within a sequence
     */
    public boolean isFact() {
        return fact != null;
    }

    /** The fact it looks at.
     *
     * @return the fact, null for a cause within a sequence
     */
    public Fact fact() {
        return fact;
    }

    /** The value at which it acts.
     *
     * @return 1 for true, 0 for not true
     */
    public int value() {
        return value;
    }

    /** What is waited for where the cause is that something is not so yet.
     *
     * @return a clause, empty for any other cause
     */
    public String awaited() {
        return fact != null && value == 0 ? fact.meaning : "";
    }

    /** The parameter that says how long the cause must last before it counts.
     *
     * @return a duration, null when it counts at once or within a sequence
     */
    public Parameter detection() {
        return fact == null ? null : fact.detection;
    }

    @Override
    public String toString() {
        return words;
    }
}
