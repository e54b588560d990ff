package sprag.bench.panel.session;

import java.util.Arrays;
import java.util.Set;
import sprag.hal.Device;
import sprag.hal.Health;
import sprag.hal.Samples;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/**
 * A device whose readings a person may overrule, one signal at a time and never for long: what is forced and not renewed
 * falls back to what the device says.
 */
public final class ForcedDevice implements Device {
    /** How long a signal stays forced that is not forced again. */
    public static final long HELD_MS = 30_000;

    private static final Signal[] SIGNALS = Signal.values();

    private final Device device;
    private final Set<Signal> signals;
    private final boolean[] forced = new boolean[Signal.COUNT];
    private final double[] value = new double[Signal.COUNT];
    private final long[] untilNs = new long[Signal.COUNT];
    private int count;

    /** Wraps a device; nothing is forced. */
    ForcedDevice(Device device) {
        this.device = device;
        this.signals = device.samples();
    }

    /** Overrules a signal that the device samples, for {@link #HELD_MS}.
     *
     * @param reading what the supervisor is to see; NaN for unknown
     */
    public void force(Signal signal, double reading, long nowNs) {
        if (!signals.contains(signal)) {
            throw new IllegalArgumentException(signal.key() + " is not sampled by " + device.name());
        }
        int i = signal.ordinal();
        count += forced[i] ? 0 : 1;
        forced[i] = true;
        value[i] = reading;
        untilNs[i] = nowNs + HELD_MS * 1_000_000;
    }

    /** Lets go of a signal. */
    public void drop(Signal signal) {
        if (forced[signal.ordinal()]) {
            forced[signal.ordinal()] = false;
            count--;
        }
    }

    /** Lets go of every signal; true when there was one. */
    public boolean dropAll() {
        boolean any = count > 0;
        Arrays.fill(forced, false);
        count = 0;
        return any;
    }

    /** Lets go of the next signal whose time is over. Returns that signal, null when there is none. */
    public Signal expire(long nowNs) {
        for (int i = 0; count > 0 && i < forced.length; i++) {
            if (forced[i] && nowNs >= untilNs[i]) {
                drop(SIGNALS[i]);
                return SIGNALS[i];
            }
        }
        return null;
    }

    public boolean isForced(Signal signal) {
        return forced[signal.ordinal()];
    }

    /** How many signals are forced. */
    public int count() {
        return count;
    }

    /** How long a signal stays forced; 0 when it is not. */
    public double leftS(Signal signal, long nowNs) {
        return isForced(signal) ? Math.max(0, untilNs[signal.ordinal()] - nowNs) / 1e9 : 0;
    }

    @Override
    public String name() {
        return device.name();
    }

    @Override
    public Set<Signal> samples() {
        return signals;
    }

    @Override
    public Set<Output> drives() {
        return device.drives();
    }

    @Override
    public void sample(Samples into, long nowNs) {
        device.sample(into, nowNs);
        for (int i = 0; count > 0 && i < forced.length; i++) {
            if (forced[i]) {
                into.put(SIGNALS[i], value[i], nowNs);
            }
        }
    }

    @Override
    public void command(Commands commands, long nowNs) {
        device.command(commands, nowNs);
    }

    @Override
    public void release() {
        device.release();
    }

    @Override
    public Health health() {
        return device.health();
    }

    @Override
    public void close() {
        device.close();
    }
}
