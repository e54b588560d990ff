package sprag.supervisor;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/** The interlocks that are asked in one state, strongest response first, laid out for a quick look. */
public final class Watch {
    final byte[] fact;
    final byte[] wanted;
    private final Interlock[] rows;

    /** Collects the rows for a state.
     *
     * @param state where they are asked
     * @param without rows left out, for a demonstration of what each is needed for
     */
    Watch(State state, Set<Interlock> without) {
        List<Interlock> asked = new ArrayList<>();
        for (Interlock row : Interlock.values()) {
            boolean acts = row.cause.isFact() && row.response != Response.WARN;
            if (acts && row.where.contains(state) && !without.contains(row)) {
                asked.add(row);
            }
        }
        rows = asked.toArray(new Interlock[0]);
        fact = new byte[rows.length];
        wanted = new byte[rows.length];
        for (int i = 0; i < rows.length; i++) {
            fact[i] = (byte) rows[i].cause.fact().ordinal();
            wanted[i] = (byte) rows[i].cause.value();
        }
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
