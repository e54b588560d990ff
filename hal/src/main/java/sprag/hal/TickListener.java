package sprag.hal;

import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Readings;

/** Somebody who is shown every tick: a recorder, a page, a trace. Must be quick; what it is shown is reused. */
public interface TickListener {
    /** A tick is over.
     *
     * @param tick its number, from 0
     * @param in what the connector showed
     * @param out what was asked
     */
    void ticked(long tick, Readings in, Commands out);
}
