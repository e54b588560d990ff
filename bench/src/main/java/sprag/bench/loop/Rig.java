package sprag.bench.loop;

import sprag.bench.loop.trace.Channels;
import sprag.bench.loop.trace.Frame;

/** What a scenario is played on: a car with its supervisor, advanced tick by tick. */
public interface Rig {
    /** The columns of its frames. Returns the same for every call. */
    Channels channels();

    /** The length of a tick. */
    long tickMs();

    /** Moves a lever at once.
     *
     * @param to where to, within its range
     */
    void move(String lever, double to);

    /** Where a lever stands. */
    double position(String lever);

    /** Breaks something. */
    void inject(String what);

    /** Mends something. */
    void clear(String what);

    /** Runs one tick.
     *
     * @param into where to write what was seen, asked for and true in it; {@link Frame#timeMs} included
     */
    void tick(Frame into);
}
