package sprag.hal;

import java.util.Collections;
import java.util.EnumSet;
import java.util.Set;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/**
 * A board for some signals and a simulation for the rest.
 *
 * <p>A signal that the board has is never taken from the simulation, not even when the board falls silent: a lost wire must
 * look lost. Commands go to both, so that the simulated car answers what the real outputs do.
 */
public final class MixedDevice implements Device {
    private final Device board;
    private final Device simulation;
    private final Set<Signal> signals;
    private final Signal[] simulated;
    private final Samples fromSimulation = new Samples();

    /** Combines a board and a simulation.
     *
     * @param board whose signals come first
     * @param simulation where the rest comes from
     */
    public MixedDevice(Device board, Device simulation) {
        this.board = board;
        this.simulation = simulation;
        EnumSet<Signal> rest = EnumSet.noneOf(Signal.class);
        rest.addAll(simulation.samples());
        rest.removeAll(board.samples());
        simulated = rest.toArray(new Signal[0]);
        EnumSet<Signal> all = EnumSet.noneOf(Signal.class);
        all.addAll(board.samples());
        all.addAll(rest);
        signals = Collections.unmodifiableSet(all);
    }

    @Override
    public String name() {
        return board.name() + " with " + simulation.name();
    }

    @Override
    public Set<Signal> samples() {
        return signals;
    }

    @Override
    public Set<Output> drives() {
        EnumSet<Output> all = EnumSet.noneOf(Output.class);
        all.addAll(board.drives());
        all.addAll(simulation.drives());
        return all;
    }

    /** Where a signal comes from.
     *
     * @param signal which one
     * @return the name of the device
     */
    public String sourceOf(Signal signal) {
        return board.samples().contains(signal) ? board.name() : simulation.name();
    }

    @Override
    public void sample(Samples into, long nowNs) {
        board.sample(into, nowNs);
        simulation.sample(fromSimulation, nowNs);
        for (Signal signal : simulated) {
            long ageNs = fromSimulation.ageNs(signal, nowNs);
            if (ageNs != Long.MAX_VALUE) {
                into.put(signal, fromSimulation.get(signal), nowNs - ageNs);
            }
        }
    }

    @Override
    public void command(Commands commands, long nowNs) {
        board.command(commands, nowNs);
        simulation.command(commands, nowNs);
    }

    @Override
    public void release() {
        board.release();
        simulation.release();
    }

    @Override
    public Health health() {
        Health health = board.health();
        return health.isWell() ? simulation.health() : health;
    }

    @Override
    public void close() {
        board.close();
        simulation.close();
    }
}
