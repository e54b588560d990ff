package sprag.hal;

import java.util.Set;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/**
 * Something with pins: a board, a simulated car, a set of levers. It may cover only some signals and outputs.
 *
 * <p>No method blocks for longer than a small part of a tick, and none throws on a fault of the wire: a device that has
 * lost its pins stops putting samples and says so in {@link #health()}.
 */
public interface Device extends AutoCloseable {
    /** Its name in messages and on pages.
     *
     * @return a short name
     */
    String name();

    /** The signals it samples.
     *
     * @return a set that does not change
     */
    Set<Signal> samples();

    /** The outputs it drives.
     *
     * @return a set that does not change
     */
    Set<Output> drives();

    /** Puts the samples that are new since the last call. A signal without a new sample keeps its old one, which grows older.
     *
     * @param into where to put
     * @param nowNs the loop's time, monotonic
     */
    void sample(Samples into, long nowNs);

    /** Drives its outputs; outputs that it does not have are ignored.
     *
     * @param commands what is asked
     * @param nowNs the loop's time, monotonic
     */
    void command(Commands commands, long nowNs);

    /** Releases every output at once: relays off, torque zero. Safe to call at any time, more than once, never throws. */
    void release();

    /** Whether its pins can be trusted.
     *
     * @return {@link Health#OK}, or what is wrong in words
     */
    Health health();

    /** Releases every output and closes the hardware. */
    @Override
    void close();
}
