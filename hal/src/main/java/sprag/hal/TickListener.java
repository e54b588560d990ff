package sprag.hal;

import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Readings;

/** Gets every tick: a recorder, a page, a trace. It must be quick. The two arguments are reused in the next tick. */
public interface TickListener {
    /** A tick is over.
     *
     * @param tick its number, from 0
     * @param in what the connector showed
     * @param out what was asked
     */
    void ticked(long tick, Readings in, Commands out);
}
