package sprag.bench.hand.commission.pins;

import java.util.EnumSet;
import java.util.Set;
import sprag.hal.Device;
import sprag.hal.Health;
import sprag.hal.Samples;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** Pins without some of their signals, which a simulation gives instead. */
final class WithoutTraction implements Device {
    private final Device pins;
    private final Set<Signal> kept;
    private final Samples all = new Samples();

    WithoutTraction(Device pins, Set<Signal> without) {
        this.pins = pins;
        this.kept = EnumSet.noneOf(Signal.class);
        kept.addAll(pins.samples());
        kept.removeAll(without);
    }

    @Override
    public String name() {
        return pins.name();
    }

    @Override
    public Set<Signal> samples() {
        return kept;
    }

    @Override
    public Set<Output> drives() {
        return pins.drives();
    }

    @Override
    public void sample(Samples into, long nowNs) {
        pins.sample(all, nowNs);
        for (Signal signal : kept) {
            long ageNs = all.ageNs(signal, nowNs);
            if (ageNs != Long.MAX_VALUE) {
                into.put(signal, all.get(signal), nowNs - ageNs);
            }
        }
    }

    @Override
    public void command(Commands commands, long nowNs) {
        pins.command(commands, nowNs);
    }

    @Override
    public void release() {
        pins.release();
    }

    @Override
    public Health health() {
        return pins.health();
    }

    @Override
    public void close() {
        pins.close();
    }
}
