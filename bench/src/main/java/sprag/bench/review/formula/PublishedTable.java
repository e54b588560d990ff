package sprag.bench.review.formula;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;

/** A table of numbers from a published source, which stands in a file beside this class with its source in the first lines. */
public final class PublishedTable {
    private final double[][] rows;

    private PublishedTable(double[][] rows) {
        this.rows = rows;
    }

    /** Reads a table. Its first line without a {@code #} is the heading; a heading that is no number counts as NaN. */
    static PublishedTable read(String file) {
        try (InputStream in = PublishedTable.class.getResourceAsStream(file)) {
            List<String> lines = new String(in.readAllBytes(), StandardCharsets.US_ASCII)
                    .lines()
                    .toList();
            return new PublishedTable(lines.stream()
                    .filter(line -> !line.startsWith("#"))
                    .map(line -> Arrays.stream(line.split(","))
                            .mapToDouble(PublishedTable::number)
                            .toArray())
                    .toArray(double[][]::new));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static double number(String cell) {
        return Character.isLetter(cell.charAt(0)) ? Double.NaN : Double.parseDouble(cell);
    }

    /** One column from top to bottom, without its heading. */
    double[] column(int number) {
        return Arrays.stream(rows, 1, rows.length).mapToDouble(r -> r[number]).toArray();
    }

    /** The headings of the columns from the second on. */
    double[] headings() {
        return Arrays.copyOfRange(rows[0], 1, rows[0].length);
    }

    /**
     * The value on straight lines between points. Outside the points it is that of the nearest one: nothing is prolonged.
     *
     * @param x where the points are, rising
     * @param at where the value is wanted
     * @return the value; NaN when {@code at} is NaN
     */
    public static double between(double[] x, double[] y, double at) {
        double inside = Math.max(x[0], Math.min(x[x.length - 1], at));
        int above = 1;
        while (above < x.length - 1 && x[above] < inside) {
            above++;
        }
        return y[above - 1] + (inside - x[above - 1]) / (x[above] - x[above - 1]) * (y[above] - y[above - 1]);
    }
}
