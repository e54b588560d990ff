package sprag.hal;

import java.util.EnumSet;
import java.util.Set;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;

/** A device made of levers: every signal shows what was last set, always fresh unless frozen, and commands are remembered. */
public final class SimulatedDevice extends CommandKeeper {
    private final Readings levers = new Readings();
    private final EnumSet<Signal> frozen = EnumSet.noneOf(Signal.class);
    private Health health = Health.OK;

    /** Makes levers for some signals; all unknown until set.
     *
     * @param signals which
     */
    public SimulatedDevice(Set<Signal> signals) {
        super("levers", EnumSet.copyOf(signals), EnumSet.allOf(Output.class));
    }

    /** Sets a lever.
     *
     * @param signal which one
     * @param reading its value in the signal's unit
     */
    public void set(Signal signal, double reading) {
        levers.set(signal, reading);
    }

    /** Stops or resumes giving samples of a signal, as a cut wire of a polled device would.
     *
     * @param signal which one
     * @param stop true to stop
     */
    public void freeze(Signal signal, boolean stop) {
        if (stop) {
            frozen.add(signal);
        } else {
            frozen.remove(signal);
        }
    }

    /** Sets the health that the device reports.
     *
     * @param newHealth its health
     */
    public void setHealth(Health newHealth) {
        health = newHealth;
    }

    /** The last commands.
     *
     * @return live; all zero after a release
     */
    public Commands commands() {
        return commands;
    }

    @Override
    public void sample(Samples into, long nowNs) {
        for (Signal signal : samples()) {
            if (!frozen.contains(signal)) {
                into.put(signal, levers.get(signal), nowNs);
            }
        }
    }

    @Override
    public Health health() {
        return health;
    }
}
