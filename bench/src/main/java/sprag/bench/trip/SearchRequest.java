package sprag.bench.trip;

import java.util.List;
import java.util.function.Function;
import sprag.bench.cli.Nearest;
import sprag.bench.cli.Numbers;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Row;

/**
 * What {@code --find} asks for: one key or two, with a range each, and an aim.
 *
 * @param second what is tried beside the first, null for nothing
 */
record SearchRequest(Search.Question first, Search.Question second) {
    /** Reads the words behind the option.
     *
     * @param wrong makes the refusal of a message
     */
    static SearchRequest of(List<String> words, Vehicle read, Function<String, ? extends RuntimeException> wrong) {
        boolean two = words.size() == 5;
        if (!two && words.size() != 3) {
            throw wrong.apply("--find takes KEY A..B FIGURE=VALUE, or KEY A..B KEY A..B FIGURE=VALUE");
        }
        String aimed = words.get(words.size() - 1);
        String[] aim = aimed.split("=", -1);
        double target = aim.length == 2 ? number(aim[1]) : Double.NaN;
        Search.Question first =
                question(words.subList(0, 2), aim[0], target, two ? Grid.FIRST_MOST : Search.MOST, read, wrong);
        Search.Question second =
                two ? question(words.subList(2, 4), aim[0], target, Grid.SECOND_MOST, read, wrong) : null;
        if (aim.length != 2 || !TripJson.NAMES.contains(aim[0]) || Double.isNaN(target)) {
            throw wrong.apply("--find " + aimed + " is no aim; write FIGURE=VALUE with one of "
                    + String.join(", ", TripJson.NAMES));
        }
        if (two && first.row() == second.row()) {
            throw wrong.apply("--find " + first.row().key() + " stands there twice; name two keys");
        }
        return new SearchRequest(first, second);
    }

    private static Search.Question question(
            List<String> words,
            String figure,
            double target,
            int most,
            Vehicle read,
            Function<String, ? extends RuntimeException> wrong) {
        String key = words.get(0);
        Row row = Vehicle.row(key)
                .orElseThrow(() -> wrong.apply("--find " + key + " is no key of a vehicle. "
                        + Nearest.hint(key, Vehicle.rows().map(Row::key).toList())));
        String settled = settled(row);
        if (!settled.isEmpty()) {
            throw wrong.apply("--find " + key + " would change nothing: " + settled);
        }
        String[] ends = words.get(1).split("\\.\\.", -1);
        double from = ends.length == 2 ? number(ends[0]) : Double.NaN;
        double to = ends.length == 2 ? number(ends[1]) : Double.NaN;
        if (!row.choices().isEmpty() || !(read.get(row) != 0)) {
            throw wrong.apply("--find " + key + ": only a key with a number other than 0 can be tried");
        }
        if (!(from >= row.min() && to <= row.max() && from < to)) {
            throw wrong.apply("--find " + words.get(1) + " is no range within " + Numbers.text(row.min()) + ".."
                    + Numbers.text(row.max()) + "; write A..B, the lower number first");
        }
        return new Search.Question(row, from, to, figure, target, most);
    }

    /** Why a trip does not ask the file for this value; empty when it does. */
    private static String settled(Row row) {
        return row == CarParameter.LV_START_SHARE
                ? "the 12 V battery of a trip always sets out full"
                : row == CarParameter.CELLS_START_SHARE
                        ? "a trip sets out as charged as --soc says"
                        : row == CarParameter.DAY_AMBIENT_C ? "a trip is as warm as --cold says" : "";
    }

    private static double number(String text) {
        try {
            double value = Double.parseDouble(text);
            return Double.isFinite(value) ? value : Double.NaN;
        } catch (NumberFormatException e) {
            return Double.NaN; // the caller refuses it with what was written
        }
    }
}
