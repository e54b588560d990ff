package sprag.bench.trip;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import sprag.bench.cli.Wrap;
import sprag.bench.trip.drive.Weather;

/** A trip for a terminal of 80 columns. */
final class TripText {
    private static final int COLUMNS = 80;
    private static final String HANGING = " ".repeat(6);

    private TripText() {}

    static List<String> of(TripReport report) {
        List<String> lines = new ArrayList<>();
        TripFigures figures = new TripFigures(report);
        lines.addAll(Wrap.lines(title(report), COLUMNS));
        report.warnings().forEach(each -> lines.addAll(Wrap.hanging("! ", "  ", each, COLUMNS)));
        lines.add("");
        figures.main().forEach(each -> add(lines, each));
        lines.add("");
        lines.add("Where the energy of the cells went        Wh    Wh/km        %");
        for (TripFigures.Part part : figures.energy()) {
            lines.add(String.format(
                    Locale.ROOT, "  %-30s %11s %8s %8s", part.name(), part.wattHours(), part.perKm(), part.share()));
        }
        lines.add("");
        lines.add("Highest temperatures");
        figures.temperatures().forEach(each -> add(lines, each));
        lines.add("");
        lines.add("Limits and warnings on the way");
        if (figures.limits().isEmpty()) {
            lines.add("  none");
        }
        figures.limits().forEach(each -> add(lines, each));
        lines.add("");
        report.leftOut().forEach(each -> lines.addAll(Wrap.lines(each, COLUMNS)));
        return lines;
    }

    /** What was driven. */
    static String title(TripReport report) {
        Weather weather = report.weather();
        return report.vehicle().name() + " on " + report.trip().drive().trace().name() + ", "
                + Say.number(weather.ambientC(), 0) + " °C"
                + (weather.headwindKph() == 0 ? "" : ", wind " + Say.number(weather.headwindKph(), 0) + " km/h against")
                + (weather.heater() ? ", heater on" : "");
    }

    private static void add(List<String> lines, TripFigures.Figure figure) {
        String first = String.format(Locale.ROOT, "  %-31s %12s", figure.name(), figure.value());
        if (first.length() + 2 + figure.more().length() <= COLUMNS) {
            lines.add(first + "  " + figure.more());
        } else {
            lines.add(first);
            lines.addAll(Wrap.hanging(HANGING, HANGING, figure.more(), COLUMNS));
        }
    }
}
