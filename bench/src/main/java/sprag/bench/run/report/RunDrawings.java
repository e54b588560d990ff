package sprag.bench.run.report;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.loop.trace.Channel.Source;
import sprag.bench.loop.trace.History;
import sprag.bench.page.Plot;
import sprag.bench.page.TimeAxis;
import sprag.bench.page.TimeMarks;
import sprag.bench.page.TimeMarks.Band;
import sprag.bench.page.TimeMarks.Event;
import sprag.bench.page.TimeMarks.Kind;
import sprag.bench.page.Times;

/** The drawings of a run: states and contactors, values over time, and each precharge enlarged. */
final class RunDrawings {
    private static final String PRECHARGE = "PRECHARGE";
    /** A precharge that takes less of the whole run than this is drawn again, enlarged. */
    private static final double SMALL_SHARE = 0.3;

    private static final double BEFORE_SHARE = 0.15;
    private static final double AFTER_SHARE = 0.35;
    /** A run with many attempts shows the first and the last of them. */
    private static final int MOST_ENLARGED = 2;

    private final RunReport run;
    private final History history;
    private final TimeMarks marks;
    private final Times times;
    private final double startMs;
    private final double endMs;

    /**
     * One drawing in both widths.
     *
     * @param legend its lines, for the narrow one; the wide one has the names beside the lines
     * @param isLanes whether it shows what is on or off
     * @param wide for a wide screen and for paper
     */
    record Figure(String title, List<Plot.Legend> legend, boolean isLanes, String wide, String narrow) {}

    RunDrawings(RunReport run) {
        this.run = run;
        this.history = run.history();
        this.times = new Times(history.size(), history::timeMs);
        this.startMs = history.timeMs(0);
        this.endMs = Math.max(startMs + 1, history.timeMs(history.size() - 1));
        this.marks = new TimeMarks(bands(), events());
    }

    /** Everything over the whole run. */
    List<Figure> whole() {
        List<Figure> all = new ArrayList<>();
        all.add(lanes("State and contactors", startMs, endMs));
        RunPlots.of(history, run.vehicle()).forEach(plot -> all.add(plot(plot, plot.title(), startMs, endMs)));
        return all;
    }

    /** The precharges that are too short to be seen on a drawing of the whole run. */
    List<Figure> precharges() {
        List<Band> shown = new ArrayList<>(marks.bands().stream()
                .filter(band -> band.name().equals(PRECHARGE))
                .filter(band -> band.toMs() - band.fromMs() < SMALL_SHARE * (endMs - startMs))
                .toList());
        while (shown.size() > MOST_ENLARGED) {
            shown.remove(1);
        }
        List<Figure> all = new ArrayList<>();
        for (Band band : shown) {
            double spanMs = Math.max(1, band.toMs() - band.fromMs());
            double fromMs = Math.max(startMs, band.fromMs() - BEFORE_SHARE * spanMs);
            double toMs = Math.min(endMs, band.toMs() + AFTER_SHARE * spanMs);
            String when = " at " + RunTime.of((long) endMs).told((long) band.fromMs());
            all.add(lanes("State and contactors, precharge" + when, fromMs, toMs));
            RunPlots.ofPrecharge(history, run.vehicle(), packV(band.fromMs()))
                    .forEach(plot -> all.add(plot(plot, plot.title() + when, fromMs, toMs)));
        }
        return all;
    }

    private double packV(double atMs) {
        int row = 0;
        while (row < history.size() - 1 && history.timeMs(row) < atMs) {
            row++;
        }
        return history.value(row, history.channels().indexOf(Source.QUANTITY, "pack_voltage_v"));
    }

    private Figure lanes(String title, double fromMs, double toMs) {
        Lanes lanes = new Lanes(history, marks);
        return new Figure(
                title, List.of(), true, lanes.svg(axis(fromMs, toMs, true)), lanes.svg(axis(fromMs, toMs, false)));
    }

    private Figure plot(Plot plot, String title, double fromMs, double toMs) {
        String wide = plot.svg(axis(fromMs, toMs, true), times, marks);
        String narrow = plot.svg(axis(fromMs, toMs, false), times, marks);
        return new Figure(title, plot.legend(), false, wide, narrow);
    }

    private static TimeAxis axis(double fromMs, double toMs, boolean isWide) {
        RunTime time = RunTime.of((long) (toMs - fromMs));
        return new TimeAxis(fromMs, toMs, time.unit, time.unitMs, isWide);
    }

    private List<Band> bands() {
        List<Band> bands = new ArrayList<>();
        int from = 0;
        for (int row = 1; row <= history.size(); row++) {
            if (row == history.size() || history.state(row) != history.state(from)) {
                int state = history.state(from);
                double toMs = history.timeMs(Math.min(row, history.size() - 1));
                String name = history.channels().states().get(state);
                bands.add(new Band(history.timeMs(from), toMs, state, name));
                from = row;
            }
        }
        return bands;
    }

    private List<Event> events() {
        List<Event> events = new ArrayList<>();
        for (Entry entry : run.timeline().entries()) {
            switch (entry.kind()) {
                case FAULT -> events.add(new Event(entry.timeMs(), Kind.FAULT, entry.full()));
                case STATE -> events.add(new Event(entry.timeMs(), Kind.STATE, entry.text()));
                default -> {}
            }
        }
        run.timeline().acted().stream()
                .filter(acted -> !acted.rule().quiet())
                .map(acted -> new Event(
                        acted.fromMs(),
                        Kind.INTERLOCK,
                        acted.rule().name() + ": " + acted.rule().cause()))
                .forEach(events::add);
        return events;
    }
}
