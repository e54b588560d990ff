package sprag.supervisor.vocabulary;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/** The interlocks that are asked in one state, strongest response first, laid out for a quick look. */
public final class Watch {
    private final byte[] fact;
    private final byte[] wanted;
    private final Interlock[] rows;
    private long lowWhen;
    private long highWhen;
    private long lowUnless;
    private long highUnless;

    /** Collects the rows for a state.
     *
     * @param state where they are asked
     * @param without rows left out, for a demonstration of what each is needed for
     */
    public Watch(State state, Set<Interlock> without) {
        this(asked(state, without));
    }

    private static List<Interlock> asked(State state, Set<Interlock> without) {
        List<Interlock> asked = new ArrayList<>();
        for (Interlock row : Interlock.values()) {
            boolean acts = row.cause.isFact() && row.response != Response.WARN;
            if (acts && row.where.contains(state) && !without.contains(row)) {
                asked.add(row);
            }
        }
        return asked;
    }

    /** Lays out rows that somebody has chosen.
     *
     * @param asked rows whose causes are facts, in order
     */
    public Watch(List<Interlock> asked) {
        rows = asked.toArray(new Interlock[0]);
        fact = new byte[rows.length];
        wanted = new byte[rows.length];
        for (int i = 0; i < rows.length; i++) {
            fact[i] = (byte) rows[i].cause.fact().ordinal();
            wanted[i] = (byte) rows[i].cause.value();
            mask(fact[i], wanted[i] != 0);
        }
    }

    private void mask(int fact, boolean when) {
        long low = fact < 64 ? 1L << fact : 0;
        long high = fact < 64 ? 0 : 1L << fact - 64;
        lowWhen |= when ? low : 0;
        highWhen |= when ? high : 0;
        lowUnless |= when ? 0 : low;
        highUnless |= when ? 0 : high;
    }

    /** Whether none of the causes is there, told from one bit a fact.
     *
     * @param low the facts 0 to 63 that are true
     * @param high the facts from 64 that are true
     * @return true when no row can act
     */
    public boolean isQuiet(long low, long high) {
        return (low & lowWhen | high & highWhen | ~low & lowUnless | ~high & highUnless) == 0;
    }

    /** The first row whose cause is there, found by a look at every fact.
     *
     * @param value the value of each fact, in the order of the facts
     * @return the index of the row, or -1 when no cause is there
     */
    public int firstActive(byte[] value) {
        for (int i = 0; i < fact.length; i++) {
            if (value[fact[i]] == wanted[i]) {
                return i;
            }
        }
        return -1;
    }

    /** How many rows are asked.
     *
     * @return the number of rows
     */
    public int size() {
        return rows.length;
    }

    /** A row.
     *
     * @param index 0 is asked first
     * @return the interlock
     */
    public Interlock row(int index) {
        return rows[index];
    }
}
