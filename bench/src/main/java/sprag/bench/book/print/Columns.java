package sprag.bench.book.print;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import sprag.bench.drawing.paper.SheetFont;

/** How wide the columns of a table are. */
final class Columns {
    /** A word that just fits must not be divided because sums of widths are rounded. */
    private static final double HAIR_MM = 0.01;

    private Columns() {}

    /**
     * Widths that fill a page. A column that needs no more than its fair share is never broken where there is room; the others get
     * their longest word first, and what is left goes to those that have more to say.
     *
     * @param padMm room around the words of a cell, left and right together
     */
    static double[] of(Block.Grid grid, double sizeMm, double padMm, double roomMm) {
        int columns = grid.heads().size();
        double[] least = new double[columns];
        double[] wanted = new double[columns];
        List<List<String>> all = new ArrayList<>(grid.rows());
        all.add(grid.heads());
        for (List<String> row : all) {
            for (int c = 0; c < columns; c++) {
                String words = SheetFont.drawable(row.get(c));
                least[c] = Math.max(least[c], TextLines.widestWord(words, sizeMm) + padMm + HAIR_MM);
                wanted[c] = Math.max(wanted[c], TextLines.width(words, sizeMm) + padMm + HAIR_MM);
            }
        }
        double fairMm = roomMm / columns;
        IntStream.range(0, columns).forEach(c -> least[c] = Math.min(least[c], 2 * fairMm));
        double[] whole = IntStream.range(0, columns)
                .mapToDouble(c -> wanted[c] <= fairMm ? wanted[c] : least[c])
                .toArray();
        boolean fits = IntStream.range(0, columns).mapToDouble(c -> whole[c]).sum() <= roomMm;
        return shared(fits ? whole : least, wanted, roomMm);
    }

    private static double[] shared(double[] least, double[] wanted, double roomMm) {
        double leastMm =
                IntStream.range(0, least.length).mapToDouble(c -> least[c]).sum();
        if (leastMm >= roomMm) {
            return IntStream.range(0, least.length)
                    .mapToDouble(c -> least[c] * roomMm / leastMm)
                    .toArray();
        }
        double moreMm = IntStream.range(0, least.length)
                .mapToDouble(c -> more(least, wanted, c, roomMm))
                .sum();
        double spareMm = roomMm - leastMm;
        return IntStream.range(0, least.length)
                .mapToDouble(c -> least[c]
                        + (moreMm > 0 ? spareMm * more(least, wanted, c, roomMm) / moreMm : spareMm / least.length))
                .toArray();
    }

    /** A column with very long cells asks for no more than twice the page: they are broken anyway. */
    private static double more(double[] least, double[] wanted, int column, double roomMm) {
        return Math.max(0, Math.min(wanted[column], 2 * roomMm) - least[column]);
    }
}
