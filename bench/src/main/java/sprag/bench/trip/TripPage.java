package sprag.bench.trip;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import sprag.bench.page.Page;
import sprag.bench.page.Plot;
import sprag.bench.page.Plot.Line;
import sprag.bench.page.TimeAxis;
import sprag.bench.page.TimeMarks;
import sprag.bench.page.Times;
import sprag.bench.trip.drive.TripSeries;
import sprag.bench.trip.drive.TripSeries.Column;

/** A trip as a page. */
final class TripPage {
    private static final double SHORT_S = 300;

    private final TripSeries series;

    /** One drawing in both widths. */
    record Figure(String title, List<Plot.Legend> legend, boolean isLanes, String wide, String narrow) {}

    private TripPage(TripSeries series) {
        this.series = series;
    }

    static String of(TripReport report) {
        TripFigures figures = new TripFigures(report);
        List<Figure> drawings =
                report.trip().series().size() > 1 ? new TripPage(report.trip().series()).drawings() : List.of();
        Map<String, Object> model = Map.of(
                "well", report.well(),
                "outcome", report.well() ? "The trace was kept." : "The trace was not kept.",
                "warnings", report.warnings(),
                "source", report.trip().drive().trace().source(),
                "figures", figures.main(),
                "energy", figures.energy(),
                "temperatures", figures.temperatures(),
                "limits", figures.limits(),
                "drawings", drawings,
                "leftOut", report.leftOut());
        return Page.of(TripPage.class, "trip.html", "a trip on the simulated car", TripText.title(report), model);
    }

    private List<Figure> drawings() {
        List<Figure> all = new ArrayList<>();
        all.add(figure("Speed", "km/h", "", line("trace", Column.WANTED_KPH), line("car", Column.SPEED_KPH)));
        all.add(figure(
                "Pack", "A", "V", line("current out of the pack", Column.PACK_A), right("voltage", Column.PACK_V)));
        all.add(figure(
                "State of charge",
                "%",
                "",
                new Line("charge", "state of charge", false, row -> 100 * series.value(Column.SOC, row))));
        all.add(figure(
                "Temperatures",
                "°C",
                "",
                line("motor", Column.MOTOR_C),
                line("inverter", Column.INVERTER_C),
                line("pack", Column.PACK_C)));
        if (series.most(Column.ALTITUDE_M) - series.least(Column.ALTITUDE_M) > 1) {
            all.add(figure("Height above the start", "m", "", line("height", Column.ALTITUDE_M)));
        }
        return all;
    }

    private Line line(String label, Column column) {
        return new Line(label, label, false, row -> series.value(column, row));
    }

    private Line right(String label, Column column) {
        return new Line(label, label, true, row -> series.value(column, row));
    }

    private Figure figure(String title, String unit, String rightUnit, Line... lines) {
        Plot plot = new Plot(title, unit, rightUnit, List.of(lines), List.of());
        Times times = new Times(series.size(), row -> series.timeS(row) * 1000);
        TimeMarks marks = new TimeMarks(List.of(), List.of());
        return new Figure(
                title, plot.legend(), false, plot.svg(axis(true), times, marks), plot.svg(axis(false), times, marks));
    }

    private TimeAxis axis(boolean isWide) {
        double endS = Math.max(1, series.timeS(series.size() - 1));
        boolean isShort = endS < SHORT_S;
        return new TimeAxis(0, endS * 1000, isShort ? "s" : "min", isShort ? 1000 : 60_000, isWide);
    }
}
