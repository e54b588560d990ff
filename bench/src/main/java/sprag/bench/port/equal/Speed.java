package sprag.bench.port.equal;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.Arrays;
import java.util.List;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** How long one step takes in Java and in C on this machine, by turns, on the same readings. Processor time: other work does not count.
 *
 * @param javaNs of one step in Java, with its memory for people
 * @param cNs of one step in C, without it
 */
public record Speed(double javaNs, double cNs) {
    private static final int TURNS = 9;
    private static final int WARM_UP = 3;
    /** Of each turn. */
    private static final int STEPS = 400_000;

    /** How many times as long the Java takes. */
    public double ratio() {
        return javaNs / cNs;
    }

    /** Measures.
     *
     * @param way ticks in a row from the first; the last of them are decided again and again
     */
    static Speed measure(Settings settings, HostProgram program, List<Batch> way) throws IOException {
        Supervisor supervisor = new Supervisor(settings);
        for (Batch batch : way) {
            program.play(batch);
            roundsNs(supervisor, batch, 1);
        }
        Batch batch = way.get(way.size() - 1);
        int times = STEPS / batch.ticks();
        double steps = (double) times * batch.ticks();
        double[] java = new double[TURNS];
        double[] c = new double[TURNS];
        for (int turn = -WARM_UP; turn < TURNS; turn++) {
            double javaNs = roundsNs(supervisor, batch, times) / steps;
            double cNs = program.roundsNs(batch.ticks(), times) / steps;
            if (turn >= 0) {
                java[turn] = javaNs;
                c[turn] = cNs;
            }
        }
        return new Speed(median(java), median(c));
    }

    private static double median(double[] all) {
        Arrays.sort(all);
        return all[all.length / 2];
    }

    private static long roundsNs(Supervisor supervisor, Batch batch, int times) {
        ThreadMXBean threads = ManagementFactory.getThreadMXBean();
        Readings in = new Readings();
        Commands out = new Commands();
        Signal[] signals = Signal.values();
        long begun = threads.getCurrentThreadCpuTime();
        for (int i = 0; i < times; i++) {
            for (int tick = 0; tick < batch.ticks(); tick++) {
                for (Signal signal : signals) {
                    in.set(signal, batch.readings()[tick * Signal.COUNT + signal.ordinal()]);
                }
                supervisor.step(tick, in, out);
            }
        }
        return threads.getCurrentThreadCpuTime() - begun;
    }
}
