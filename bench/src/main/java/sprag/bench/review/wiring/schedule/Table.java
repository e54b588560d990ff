package sprag.bench.review.wiring.schedule;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import java.util.regex.Pattern;
import sprag.bench.cli.Nearest;
import sprag.bench.cli.Numbers;

/** A table with named columns: every cell is asked for by column, every complaint names line and column. */
final class Table {
    /** What helps with cells that a spreadsheet has merged. */
    static final String UNMERGE = "Merged cells leave all but the first empty: unmerge them and fill down.";

    /** A column that a table may have. */
    interface Column {
        /** The heading. */
        String heading();

        /** Whether every table must have it. */
        boolean required();
    }

    private static final Pattern PLAIN_NUMBER = Pattern.compile("\\d{1,9}(\\.\\d{1,9})?|\\.\\d{1,9}");

    private final Csv csv;
    private final int[] position;
    private final int width;
    private final List<? extends Column> columns;
    private final List<Flaw> flaws;

    private Table(Csv csv, List<? extends Column> columns) {
        this.csv = csv;
        this.columns = columns;
        this.flaws = new ArrayList<>(csv.flaws());
        this.position = new int[columns.size()];
        this.width = csv.lines().isEmpty() ? 0 : csv.lines().get(0).cells().size();
        Arrays.fill(position, -1);
    }

    static Table read(byte[] bytes, List<? extends Column> columns) {
        Table table = new Table(Csv.parse(bytes), columns);
        table.readHeading();
        return table;
    }

    List<Flaw> flaws() {
        return flaws;
    }

    void flaw(Flaw flaw) {
        flaws.add(flaw);
    }

    /** Hands out the rows below the heading; none when the heading itself cannot be used. */
    void forEachRow(Consumer<Row> consumer) {
        if (!flaws.isEmpty()) {
            return;
        }
        for (Csv.Line line :
                csv.lines().subList(Math.min(1, csv.lines().size()), csv.lines().size())) {
            if (fits(line)) {
                consumer.accept(new Row(line));
            }
        }
    }

    private void readHeading() {
        if (csv.lines().isEmpty()) {
            flaws.add(new Flaw(1, "", "", "is empty", "Name the columns in the first row: " + required() + "."));
            return;
        }
        Csv.Line heading = csv.lines().get(0);
        for (int i = 0; i < heading.cells().size(); i++) {
            readHeadingCell(heading, i);
        }
        List<String> missing = new ArrayList<>();
        for (int i = 0; i < position.length; i++) {
            if (position[i] < 0 && columns.get(i).required()) {
                missing.add(columns.get(i).heading());
            }
        }
        if (!missing.isEmpty()) {
            String seen = heading.cells().size() == 1
                    ? " Only one column was seen, so the separator is probably neither comma, semicolon nor tab."
                    : "";
            flaws.add(new Flaw(
                    heading.number(),
                    String.join(", ", missing),
                    "",
                    "is missing",
                    "Name at least these columns in the first row: " + required() + "." + seen));
        }
    }

    private void readHeadingCell(Csv.Line heading, int index) {
        String name = heading.cells().get(index).toLowerCase(Locale.ROOT).replaceAll("[\\s-]+", "_");
        if (name.isEmpty()) {
            return;
        }
        int found = indexOf(name);
        if (found < 0) {
            flaws.add(new Flaw(
                    heading.number(),
                    "number " + (index + 1),
                    heading.cells().get(index),
                    "is no known column",
                    Nearest.hint(name, columns.stream().map(Column::heading).toList())));
        } else if (position[found] >= 0) {
            flaws.add(new Flaw(heading.number(), name, "", "stands twice in the heading", "Remove one."));
        } else {
            position[found] = index;
        }
    }

    private int indexOf(String heading) {
        for (int i = 0; i < columns.size(); i++) {
            if (columns.get(i).heading().equals(heading)) {
                return i;
            }
        }
        return -1;
    }

    private String required() {
        return String.join(
                ", ",
                columns.stream().filter(Column::required).map(Column::heading).toList());
    }

    /** A row may be shorter only by optional cells at its end, and longer only by empty ones. */
    private boolean fits(Csv.Line line) {
        List<String> cells = line.cells();
        for (int i = width; i < cells.size(); i++) {
            if (!cells.get(i).isEmpty()) {
                String decimal =
                        csv.separator() == ',' ? " A number with a decimal comma would split a cell in two." : "";
                flaws.add(new Flaw(
                        line.number(),
                        "number " + (i + 1),
                        cells.get(i),
                        "lies beyond the " + width + " columns of the heading",
                        "Check the separators of this row." + decimal));
                return false;
            }
        }
        if (cells.size() == 1 && width > 1) {
            flaws.add(new Flaw(
                    line.number(),
                    "",
                    cells.get(0),
                    "is the only cell where the heading has " + width
                            + " columns, so the row uses another separator or is a title",
                    "Use the separator of the heading, and begin titles with #."));
            return false;
        }
        return true;
    }

    /** One row below the heading. */
    final class Row {
        private final Csv.Line line;

        Row(Csv.Line line) {
            this.line = line;
        }

        int number() {
            return line.number();
        }

        /** The text of a cell, empty when the column or the cell is not there. */
        String text(Column column) {
            int index = position[columns.indexOf(column)];
            return index < 0 || index >= line.cells().size() ? "" : line.cells().get(index);
        }

        /** The text of a cell that must not be empty. */
        String needed(Column column) {
            String text = text(column);
            if (text.isEmpty()) {
                flaw(column, "is empty", "Fill it in every row. " + UNMERGE);
            }
            return text;
        }

        /** A number within limits; NaN when the cell is empty. The words say what it is. */
        double number(Column column, double min, double max, String words) {
            double number = number(column);
            if (number < min || number > max) {
                flaw(column, "is outside " + Numbers.text(min) + ".." + Numbers.text(max), "Give " + words + ".");
            }
            return number;
        }

        private double number(Column column) {
            String text = text(column);
            if (text.isEmpty()) {
                return Double.NaN;
            }
            String plain = csv.separator() == ',' ? text : text.replace(',', '.');
            if (!PLAIN_NUMBER.matcher(plain).matches()) {
                flaw(column, "is not a number of 0 or more", "Write digits only, without a unit, as in 2.5.");
                return Double.NaN;
            }
            return Double.parseDouble(plain);
        }

        void flaw(Column column, String wrong, String remedy) {
            Table.this.flaw(new Flaw(line.number(), column.heading(), text(column), wrong, remedy));
        }
    }
}
