package sprag.hal.board;

import java.util.HashMap;
import java.util.Map;
import sprag.supervisor.vocabulary.Row;

/** The values set for one board: those of every board and those of its protocol. */
public final class BoardSettings {
    private final Map<String, Double> values = new HashMap<>();

    /** Keeps the values that are given; the rest have their defaults.
     *
     * @param given values by row
     */
    public BoardSettings(Map<Row, Double> given) {
        for (Map.Entry<Row, Double> entry : given.entrySet()) {
            Row row = entry.getKey();
            double value = entry.getValue();
            if (!(value >= row.min() && value <= row.max())) {
                throw new IllegalArgumentException(
                        row.key() + " = " + value + " is outside " + row.min() + ".." + row.max());
            }
            values.put(row.key(), value);
        }
    }

    /** The value of a row.
     *
     * @param row which one
     * @return its value or its default, NaN when it has neither
     */
    public double get(Row row) {
        return values.getOrDefault(row.key(), row.byDefault());
    }

    /** The value of a row as a whole number.
     *
     * @param row which one
     * @return its value, rounded
     */
    public int whole(Row row) {
        return (int) Math.round(get(row));
    }

    /** The value of a row in milliseconds as nanoseconds.
     *
     * @param row which one
     * @return nanoseconds
     */
    public long ns(Row row) {
        return Math.round(get(row) * 1e6);
    }

    /** How the line runs.
     *
     * @return speed, parity and stop bits
     */
    public LineSettings line() {
        LineSettings.Parity parity = LineSettings.Parity.values()[whole(BoardSetting.PARITY)];
        return new LineSettings(whole(BoardSetting.BAUD), parity, whole(BoardSetting.STOP_BITS));
    }
}
