package sprag.hal;

import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** Devices side by side, such as a board and a data bus. Each has signals of its own; commands go to all of them. */
public final class DeviceGroup implements Device {
    private final List<Device> devices;
    private final Set<Signal> signals;
    private final Set<Output> outputs;

    /** Groups devices.
     *
     * @param devices which; no signal may come from two of them
     */
    public DeviceGroup(List<? extends Device> devices) {
        this.devices = List.copyOf(devices);
        EnumSet<Signal> sampled = EnumSet.noneOf(Signal.class);
        EnumSet<Output> driven = EnumSet.noneOf(Output.class);
        for (Device device : devices) {
            for (Signal signal : device.samples()) {
                if (!sampled.add(signal)) {
                    throw new IllegalArgumentException(signal.key() + " comes from two devices: " + devices);
                }
            }
            driven.addAll(device.drives());
        }
        signals = Collections.unmodifiableSet(sampled);
        outputs = Collections.unmodifiableSet(driven);
    }

    @Override
    public String name() {
        return devices.stream().map(Device::name).collect(Collectors.joining(" and "));
    }

    @Override
    public Set<Signal> samples() {
        return signals;
    }

    @Override
    public Set<Output> drives() {
        return outputs;
    }

    @Override
    public void sample(Samples into, long nowNs) {
        for (int i = 0; i < devices.size(); i++) {
            devices.get(i).sample(into, nowNs);
        }
    }

    @Override
    public void command(Commands commands, long nowNs) {
        for (int i = 0; i < devices.size(); i++) {
            devices.get(i).command(commands, nowNs);
        }
    }

    @Override
    public void release() {
        devices.forEach(Device::release);
    }

    @Override
    public Health health() {
        for (int i = 0; i < devices.size(); i++) {
            Health health = devices.get(i).health();
            if (!health.isWell()) {
                return health;
            }
        }
        return Health.OK;
    }

    @Override
    public void close() {
        devices.forEach(Device::release);
        devices.forEach(Device::close);
    }
}
