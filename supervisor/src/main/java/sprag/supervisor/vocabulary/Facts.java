package sprag.supervisor.vocabulary;

/**
 * What is true in this tick. Logic reads nothing else, and only through this class, so that an explorer can hand it any
 * facts and learn which of them mattered.
 */
public abstract class Facts {
    /** For whoever keeps the values. */
    protected Facts() {}

    /** The value of a fact: 0 or 1, or the index of its label.
     *
     * @param fact which one
     * @return its value
     */
    public abstract int value(Fact fact);

    /** The first row of a watch whose cause is there. Rows behind it are not asked.
     *
     * @param watch rows in order, strongest response first
     * @return the index of the row, or -1 when no cause is there
     */
    public abstract int firstActive(Watch watch);

    /** Whether a yes-or-no fact is true.
     *
     * @param fact which one
     * @return true for yes
     */
    public final boolean is(Fact fact) {
        return value(fact) != 0;
    }

    /** How far the bus is charged.
     *
     * @return the level
     */
    public final BusLevel busLevel() {
        return BusLevel.of(value(Fact.BUS_LEVEL));
    }

    /** Which way the lever stands.
     *
     * @return the direction asked for
     */
    public final Direction direction() {
        return Direction.of(value(Fact.DIRECTION));
    }
}
