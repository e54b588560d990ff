package sprag.bench.run;

import java.io.PrintWriter;
import java.util.Locale;
import sprag.bench.loop.trace.Frame;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioRun;

/** One line that says how far things are, for a person who waits. It wipes itself away at the end. */
final class Progress implements ScenarioRun.Observer {
    private static final long EVERY_NS = 200_000_000;
    private static final int LOOK_TICKS = 1_000;

    private final PrintWriter out;
    private final boolean shown;
    private final int runs;
    private String what = "";
    private long durationMs;
    private int run;
    private int ticks;
    private long saidNs;

    Progress(PrintWriter out, boolean shown, int runs) {
        this.out = out;
        this.shown = shown;
        this.runs = runs;
    }

    /** The next scenario begins. */
    void begin(Scenario scenario) {
        run++;
        what = (runs > 1 ? run + " of " + runs + ": " : "") + scenario.name();
        durationMs = scenario.durationMs();
        ticks = 0;
    }

    @Override
    public void tick(Frame frame) {
        if (shown && ticks++ % LOOK_TICKS == 0 && System.nanoTime() - saidNs > EVERY_NS) {
            saidNs = System.nanoTime();
            out.print(String.format(Locale.ROOT, "\r%-70.70s %3d %%", what, 100 * frame.timeMs / durationMs));
            out.flush();
        }
    }

    /** Wipes the line. */
    void end() {
        if (shown) {
            out.print("\r" + " ".repeat(76) + "\r");
            out.flush();
        }
    }
}
