package sprag.bench.loop.record;

import java.io.IOException;
import java.util.Locale;
import java.util.Optional;
import sprag.supervisor.Supervisor;
import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Readings;

/** Decides everything in a recording again and compares, to the last bit. */
public final class Replay {
    /**
     * Where a replay first differs.
     *
     * @param field the output, or {@code state}
     */
    public record Difference(long tick, String field, String recorded, String now) {}

    private final Recording recording;
    private long ticks;

    /** A replay that has not begun.
     *
     * @param recording what to replay, at its first tick
     */
    public Replay(Recording recording) {
        this.recording = recording;
    }

    /** Runs to the end or to the first difference.
     *
     * @return the first difference, empty when every decision is the same
     * @throws IOException when the recording is damaged
     */
    public Optional<Difference> run() throws IOException {
        Supervisor supervisor = new Supervisor(recording.settings(), recording.without());
        Readings in = new Readings();
        Commands recorded = new Commands();
        Commands now = new Commands();
        while (recording.next(in, recorded)) {
            supervisor.step(recording.tick(), in, now);
            ticks++;
            for (Output output : Output.values()) {
                if (Double.compare(recorded.get(output), now.get(output)) != 0) {
                    return Optional.of(new Difference(
                            recording.tick(), output.key(), number(recorded.get(output)), number(now.get(output))));
                }
            }
            if (supervisor.state().pack() != recording.state()) {
                LogicState was = new LogicState();
                was.unpack(recording.state());
                return Optional.of(new Difference(recording.tick(), "state", words(was), words(supervisor.state())));
            }
        }
        return Optional.empty();
    }

    private static String number(double value) {
        return String.format(Locale.ROOT, "%s", value);
    }

    private static String words(LogicState s) {
        return s.state() + "/" + s.step() + "+" + s.stepTicks() + " charge " + s.charge() + " latched " + s.latched()
                + " torque " + s.torqueLatched() + " " + s.engaged();
    }

    /** How many ticks were compared. */
    public long ticks() {
        return ticks;
    }
}
