package sprag.hal;

import java.util.ArrayList;
import java.util.List;
import java.util.function.BooleanSupplier;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/**
 * The fixed-rate loop: sample, decide, command, once a tick.
 *
 * <p>Deadlines are absolute, so that a late tick does not shift the next. A tick that begins later than half a tick after its
 * deadline, or that takes longer than a tick, is an overrun and the supervisor is told in the next one. Samples older than
 * {@code loop.stale_ms} reach the supervisor as unknown.
 */
public final class Loop implements AutoCloseable {
    private static final long NS_PER_MS = 1_000_000;

    private final Supervisor supervisor;
    private final Device device;
    private final Clock clock;
    private final long tickNs;
    private final long staleNs;
    private final Samples samples = new Samples();
    private final Readings readings = new Readings();
    private final Commands commands = new Commands();
    private final List<TickListener> listeners = new ArrayList<>();
    private long tick;
    private boolean overran;
    private long overruns;
    private long worstLateNs;
    private final LatencyMeter lateness = new LatencyMeter();
    private final LatencyMeter work = new LatencyMeter();

    /** A loop that has not begun.
     *
     * @param supervisor who decides
     * @param settings the vehicle's values: tick and stale time
     * @param device where the pins are
     * @param clock where the time comes from
     */
    public Loop(Supervisor supervisor, Settings settings, Device device, Clock clock) {
        this.supervisor = supervisor;
        this.device = device;
        this.clock = clock;
        tickNs = Math.round(settings.get(Parameter.LOOP_TICK_MS) * NS_PER_MS);
        staleNs = Math.round(settings.get(Parameter.LOOP_STALE_MS) * NS_PER_MS);
    }

    /** Adds a listener that gets every tick.
     *
     * @param listener who
     */
    public void listen(TickListener listener) {
        listeners.add(listener);
    }

    /** Where the time comes from.
     *
     * @return as given
     */
    public Clock clock() {
        return clock;
    }

    /** Runs one tick at the clock's present time. */
    public void tick() {
        long nowNs = clock.nowNs();
        device.sample(samples, nowNs);
        samples.read(readings, nowNs, staleNs);
        readings.set(Signal.LOOP_OVERRUN, overran);
        readings.set(Signal.LINK_LOST, !device.health().isWell());
        overran = false;
        supervisor.step(tick, readings, commands);
        device.command(commands, clock.nowNs());
        for (int i = 0; i < listeners.size(); i++) {
            listeners.get(i).ticked(tick, readings, commands);
        }
        tick++;
        long tookNs = clock.nowNs() - nowNs;
        work.record(tookNs);
        if (tookNs > tickNs) {
            overran();
        }
    }

    /** Runs ticks at the fixed rate until told to stop, then releases every output.
     *
     * @param goOn asked before each tick
     */
    public void run(BooleanSupplier goOn) {
        long deadlineNs = clock.nowNs();
        try {
            while (goOn.getAsBoolean()) {
                clock.waitUntil(deadlineNs);
                long lateNs = clock.nowNs() - deadlineNs;
                worstLateNs = Math.max(worstLateNs, lateNs);
                lateness.record(lateNs);
                if (lateNs > tickNs / 2) {
                    overran();
                }
                tick();
                deadlineNs += tickNs;
                if (clock.nowNs() - deadlineNs > tickNs) {
                    deadlineNs = clock.nowNs();
                }
            }
        } finally {
            device.release();
        }
    }

    private void overran() {
        overran = true;
        overruns++;
    }

    /** The last readings.
     *
     * @return live
     */
    public Readings readings() {
        return readings;
    }

    /** The last commands.
     *
     * @return live
     */
    public Commands commands() {
        return commands;
    }

    /** How many ticks have run.
     *
     * @return a count; also the number of the next tick
     */
    public long ticks() {
        return tick;
    }

    /** How many ticks came late or took too long.
     *
     * @return a count
     */
    public long overruns() {
        return overruns;
    }

    /** The latest that a paced tick has begun after its deadline.
     *
     * @return nanoseconds
     */
    public long worstLateNs() {
        return worstLateNs;
    }

    /** The jitter: how long after its deadline each paced tick has begun.
     *
     * @return the meter, still running
     */
    public LatencyMeter lateness() {
        return lateness;
    }

    /** How long each tick took, from sampling until every listener has returned.
     *
     * @return the meter, still running
     */
    public LatencyMeter work() {
        return work;
    }

    @Override
    public void close() {
        device.close();
    }
}
