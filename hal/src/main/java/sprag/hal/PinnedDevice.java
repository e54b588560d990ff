package sprag.hal;

import java.util.Collections;
import java.util.Set;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** A device whose name and pins are known when it is made, and stay. */
public abstract class PinnedDevice implements Device {
    private final String name;
    private final Set<Signal> signals;
    private final Set<Output> outputs;

    /** Names it and its pins.
     *
     * @param name a short name
     * @param signals what it samples; not changed afterwards
     * @param outputs what it drives; not changed afterwards
     */
    protected PinnedDevice(String name, Set<Signal> signals, Set<Output> outputs) {
        this.name = name;
        this.signals = Collections.unmodifiableSet(signals);
        this.outputs = Collections.unmodifiableSet(outputs);
    }

    @Override
    public final String name() {
        return name;
    }

    @Override
    public final Set<Signal> samples() {
        return signals;
    }

    @Override
    public final Set<Output> drives() {
        return outputs;
    }
}
