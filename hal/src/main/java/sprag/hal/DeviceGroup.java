package sprag.hal;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** Devices side by side, such as a board and a data bus. Each has signals of its own; commands go to all of them. */
public final class DeviceGroup extends PinnedDevice {
    private final List<Device> devices;

    /** Groups devices.
     *
     * @param devices which; no signal may come from two of them
     */
    public DeviceGroup(List<? extends Device> devices) {
        super(
                devices.stream().map(Device::name).collect(Collectors.joining(" and ")),
                sampled(devices),
                driven(devices));
        this.devices = List.copyOf(devices);
    }

    private static Set<Signal> sampled(List<? extends Device> devices) {
        Set<Signal> sampled = EnumSet.noneOf(Signal.class);
        for (Device device : devices) {
            for (Signal signal : device.samples()) {
                if (!sampled.add(signal)) {
                    throw new IllegalArgumentException(signal.key() + " comes from two devices: " + devices);
                }
            }
        }
        return sampled;
    }

    private static Set<Output> driven(List<? extends Device> devices) {
        Set<Output> driven = EnumSet.noneOf(Output.class);
        devices.forEach(device -> driven.addAll(device.drives()));
        return driven;
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
