package sprag.hal;

import java.util.Set;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** A device without hardware: what it was commanded last is kept, and a release sets it to zero. */
public abstract class CommandKeeper extends PinnedDevice {
    /** What was commanded last; all zero before the first command and after a release. */
    protected final Commands commands = new Commands();

    /** Names it and its pins.
     *
     * @param name a short name
     * @param signals what it samples; not changed afterwards
     * @param outputs what it drives; not changed afterwards
     */
    protected CommandKeeper(String name, Set<Signal> signals, Set<Output> outputs) {
        super(name, signals, outputs);
    }

    @Override
    public final void command(Commands asked, long nowNs) {
        commands.copyFrom(asked);
    }

    @Override
    public final void release() {
        commands.release();
    }

    @Override
    public final void close() {
        release();
    }
}
