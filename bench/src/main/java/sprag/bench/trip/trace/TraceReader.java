package sprag.bench.trip.trace;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import sprag.bench.cli.InputFile;
import sprag.bench.cli.Nearest;
import sprag.bench.cli.Numbers;
import sprag.bench.review.wiring.schedule.Csv;
import sprag.bench.review.wiring.schedule.Flaw;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Problem;
import sprag.bench.vehicle.Problems;

/** Reads a speed trace: a table with a heading, or a recorded track (GPX). Either the whole file is good, or nothing is. */
public final class TraceReader {
    /** The largest file that is read. */
    private static final int MOST_BYTES = 32 << 20;

    private static final int MOST_PROBLEMS = 20;
    private static final int MOST_HOURS = 48;
    private static final int LEAST_ROWS = 2;

    /** The columns that a table may have. The first two must be there. */
    private enum Column {
        TIME_S("time_s", 0, MOST_HOURS * 3600.0),
        SPEED_KPH("speed_kph", 0, 250),
        GRADE_PERCENT("grade_percent", -30, 30),
        STOP("stop", 0, 1);

        private final String key;
        private final double min;
        private final double max;

        Column(String key, double min, double max) {
            this.key = key;
            this.min = min;
            this.max = max;
        }
    }

    private final Path file;
    private final Problems problems = new Problems();

    private TraceReader(Path file) {
        this.file = file;
    }

    /** Reads a trace. A file that ends in {@code .gpx} or begins like XML is read as a recorded track. */
    public static SpeedTrace read(Path file) throws BadInput {
        TraceReader reader = new TraceReader(file);
        byte[] bytes;
        try {
            bytes = InputFile.bytes(file, MOST_BYTES);
        } catch (InputFile.Refused refused) {
            throw new BadInput(
                    List.of(new Problem(file, 0, 0, "", refused.getMessage(), "a file", "", refused.remedy())));
        }
        String name = file.getFileName().toString().replaceFirst("\\.[A-Za-z]+$", "");
        boolean isTrack = file.toString().toLowerCase(Locale.ROOT).endsWith(".gpx") || startsLikeXml(bytes);
        return isTrack ? GpxReader.read(file, name, bytes) : reader.table(name, bytes);
    }

    private static boolean startsLikeXml(byte[] bytes) {
        String start = new String(bytes, 0, Math.min(bytes.length, 100), StandardCharsets.UTF_8);
        return start.replace("\uFEFF", "").stripLeading().startsWith("<");
    }

    private SpeedTrace table(String name, byte[] bytes) throws BadInput {
        Csv csv = Csv.parse(bytes);
        for (Flaw flaw : csv.flaws()) {
            problems.add(new Problem(file, flaw.line(), 1, "", flaw.what(), "", "", flaw.remedy()));
        }
        problems.throwIfAny();
        List<Csv.Line> lines = csv.lines();
        int[] place = heading(lines);
        problems.throwIfAny();
        int rows = lines.size() - 1;
        double[][] value = new double[Column.values().length][rows];
        for (int i = 0; i < rows && problems.count() < MOST_PROBLEMS; i++) {
            for (Column column : Column.values()) {
                value[column.ordinal()][i] = cell(lines.get(i + 1), column, place[column.ordinal()]);
            }
            order(value, i, lines.get(i + 1).number());
        }
        problems.throwIfAny();
        boolean[] parked = new boolean[rows];
        for (int i = 0; i < rows; i++) {
            parked[i] = value[Column.STOP.ordinal()][i] > 0;
        }
        return new SpeedTrace(name, source(bytes), value[0], value[1], value[2], parked);
    }

    /** The first comment line tells where the trace comes from. */
    private static String source(byte[] bytes) {
        return new String(bytes, StandardCharsets.UTF_8)
                .lines()
                .filter(line -> line.startsWith("#"))
                .findFirst()
                .map(line -> line.substring(1).strip())
                .orElse("");
    }

    private int[] heading(List<Csv.Line> lines) {
        int[] place = {-1, -1, -1, -1};
        List<String> known = List.of("time_s", "speed_kph", "grade_percent", "stop");
        if (lines.size() < 1 + LEAST_ROWS) {
            problems.add(file, "holds no trace", "Write a heading time_s,speed_kph and at least two rows below it.");
            return place;
        }
        List<String> heads = lines.get(0).cells();
        for (int i = 0; i < heads.size(); i++) {
            int column = known.indexOf(heads.get(i));
            if (column >= 0 && place[column] >= 0) {
                note(lines.get(0).number(), heads.get(i), "stands twice in the heading", "Take one column out.");
            } else if (column >= 0) {
                place[column] = i;
            } else if (!heads.get(i).equals("speed_mph")) {
                String hint = Nearest.hint(heads.get(i), known);
                note(lines.get(0).number(), heads.get(i), "is no column of a trace", hint);
            }
        }
        for (Column column : List.of(Column.TIME_S, Column.SPEED_KPH)) {
            if (place[column.ordinal()] < 0) {
                note(
                        lines.get(0).number(),
                        column.key,
                        "is missing in the heading",
                        "Write a heading time_s,speed_kph; grade_percent and stop may follow.");
            }
        }
        return place;
    }

    private double cell(Csv.Line line, Column column, int place) {
        if (place < 0) {
            return 0;
        }
        String text = place < line.cells().size() ? line.cells().get(place) : "";
        double value = number(text);
        if (!(value >= column.min && value <= column.max)) {
            note(
                    line.number(),
                    column.key,
                    "= \"" + text + "\" is not a number in " + Numbers.text(column.min) + ".."
                            + Numbers.text(column.max),
                    "Write a number with a decimal point.");
        }
        return value;
    }

    private static double number(String text) {
        try {
            return Double.parseDouble(text);
        } catch (NumberFormatException e) {
            return Double.NaN; // the caller says so, with line and column
        }
    }

    private void order(double[][] value, int row, int line) {
        double timeS = value[Column.TIME_S.ordinal()][row];
        if (row == 0 && timeS != 0) {
            note(line, "time_s", "= " + Numbers.text(timeS) + " is the first time", "Begin the trace at 0.");
        }
        if (row > 0 && timeS <= value[Column.TIME_S.ordinal()][row - 1]) {
            note(line, "time_s", "= " + Numbers.text(timeS) + " is not later than the row before", "Order the rows.");
        }
        if (value[Column.STOP.ordinal()][row] > 0 && value[Column.SPEED_KPH.ordinal()][row] > 0) {
            note(
                    line,
                    "stop",
                    "= 1 at a speed above 0",
                    "Only a car that stands can be parked: write speed 0 or stop 0.");
        }
    }

    private void note(int line, String key, String found, String remedy) {
        problems.add(new Problem(file, line, 1, key, found, "", "", remedy));
    }
}
