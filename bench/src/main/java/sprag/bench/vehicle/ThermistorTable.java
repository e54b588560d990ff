package sprag.bench.vehicle;

import java.util.List;
import java.util.Map;
import sprag.bench.cli.Numbers;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Row;

/**
 * The resistances of a thermistor at some temperatures, as a data sheet lists them, and the curve
 * {@code 1/T = A + B ln R + C (ln R)^3} that comes nearest to them. The supervisor reads by the curve.
 *
 * <p>A curve that misses a row by more than {@value #MISSES_K} K is refused: the row is wrong, or the part is no such thermistor.
 */
public final class ThermistorTable {
    static final String KEY = "thermistor.table";

    /** The part of check values, a 10 kOhm bead, comes out within 0.1 K from -40 to 125 °C. */
    static final double MISSES_K = 1;

    private static final int LEAST_ROWS = 3;
    private static final int MOST_ROWS = 200;
    private static final double COLDEST_C = -60;
    private static final double HOTTEST_C = 250;
    private static final double LEAST_OHM = 1;
    private static final double MOST_OHM = 1e7;
    private static final double ZERO_C_IN_K = 273.15;
    private static final double ROOM_C = 25;
    private static final double BETA_TO_C = 85;
    private static final int NEWTON_STEPS = 30;
    private static final List<Parameter> OTHER_WAYS = List.of(
            Parameter.THERMISTOR_R25_OHM,
            Parameter.THERMISTOR_BETA_K,
            Parameter.THERMISTOR_STEINHART_A,
            Parameter.THERMISTOR_STEINHART_B,
            Parameter.THERMISTOR_STEINHART_C);

    /** How the table is written, for people. */
    private static final String ALLOWED = LEAST_ROWS + " to " + MOST_ROWS
            + " rows [temperature in °C, resistance in ohm], e.g. [[0, 27326], [25, 10000], [85, 1451]]";

    private final List<double[]> rows;
    private final double[] abc;

    private ThermistorTable(List<double[]> rows) {
        this.rows = rows;
        this.abc = fit(rows);
    }

    /** The table of a vehicle's file; null when there is none, or when it is wrong, which is noted. */
    static ThermistorTable read(Section root) {
        if (!root.has(KEY)) {
            return null;
        }
        boolean good = true;
        for (Row other : OTHER_WAYS) {
            if (root.has(other.key())) {
                good = false;
                root.note(
                        other.key(),
                        "is given beside " + KEY,
                        "the table, or r25_ohm and beta_k with or without three coefficients",
                        "be ignored, because the table says it already",
                        "Take one of the two out.");
            }
        }
        List<double[]> rows = root.pairs(KEY, ALLOWED, MOST_ROWS);
        if (rows.isEmpty() || !good || !inOrder(root, rows)) {
            return null;
        }
        ThermistorTable table = new ThermistorTable(rows);
        return table.isSmooth(root) && table.isUsable(root) ? table : null;
    }

    private static boolean inOrder(Section root, List<double[]> rows) {
        if (rows.size() < LEAST_ROWS) {
            String has = "has " + rows.size() + (rows.size() == 1 ? " row" : " rows");
            root.note(KEY, has, ALLOWED, "", "Add rows; for two points give r25_ohm and beta_k instead.");
            return false;
        }
        boolean good = true;
        for (int i = 0; i < rows.size(); i++) {
            double celsius = rows.get(i)[0];
            double ohm = rows.get(i)[1];
            if (!(celsius >= COLDEST_C && celsius <= HOTTEST_C) || !(ohm >= LEAST_OHM && ohm <= MOST_OHM)) {
                String allowed = Numbers.text(COLDEST_C) + " to " + Numbers.text(HOTTEST_C, "°C") + " and "
                        + Numbers.text(LEAST_OHM) + " to " + Section.plain(MOST_OHM) + " ohm";
                note(root, i, rows, "is outside " + allowed, allowed, "Write [temperature in °C, resistance in ohm].");
                good = false;
            } else if (i > 0 && celsius <= rows.get(i - 1)[0]) {
                String not = "is not warmer than row " + i + " (" + words(rows.get(i - 1)) + ")";
                note(root, i, rows, not, "temperatures that rise", "Order the rows by temperature, each once.");
                good = false;
            } else if (i > 0 && ohm >= rows.get(i - 1)[1]) {
                String not = "does not have less resistance than row " + i + " (" + words(rows.get(i - 1)) + ")";
                String remedy =
                        "Copy both rows again. A part whose resistance rises with the temperature cannot be used here.";
                note(root, i, rows, not, "resistances that fall", remedy);
                good = false;
            }
        }
        return good;
    }

    private static void note(Section root, int row, List<double[]> rows, String found, String allowed, String remedy) {
        String which = "row " + (row + 1) + " (" + words(rows.get(row)) + ") " + found;
        root.noteAt(KEY, row, which, allowed, "misread every temperature", remedy);
    }

    private static String words(double[] row) {
        return Numbers.text(row[0], "°C") + ", " + Section.plain(row[1]) + " ohm";
    }

    /** One wrong row bends the whole curve; the row that the curve misses most is named. */
    private boolean isSmooth(Section root) {
        int worst = 0;
        for (int i = 1; i < rows.size(); i++) {
            worst = missesK(i) > missesK(worst) ? i : worst;
        }
        if (missesK(worst) <= MISSES_K) {
            return true;
        }
        note(
                root,
                worst,
                rows,
                "lies " + Numbers.text(missesK(worst), "K") + " beside the curve through all rows",
                "at most " + Numbers.text(MISSES_K, "K") + " beside it",
                "Compare this row and its neighbours with the data sheet.");
        return false;
    }

    private boolean isUsable(Section root) {
        double[] values = values();
        for (int i = 0; i < values.length; i++) {
            Parameter row = OTHER_WAYS.get(i);
            boolean zero = row == Parameter.THERMISTOR_STEINHART_B && values[i] == 0;
            if (!(values[i] >= row.min() && values[i] <= row.max()) || zero) {
                root.note(
                        KEY,
                        "gives " + row.key() + " = " + Numbers.text(values[i]),
                        "a thermistor with " + row.key() + " within " + Section.plain(row.min()) + ".."
                                + Section.plain(row.max()),
                        row.risk(),
                        "Compare the rows with the data sheet.");
                return false;
            }
        }
        return true;
    }

    /** What the supervisor is told, in the order of the parameters. */
    private double[] values() {
        double r25Ohm = ohm(ROOM_C);
        double betaK =
                StrictMath.log(r25Ohm / ohm(BETA_TO_C)) / (1 / (ROOM_C + ZERO_C_IN_K) - 1 / (BETA_TO_C + ZERO_C_IN_K));
        return new double[] {r25Ohm, betaK, abc[0], abc[1], abc[2]};
    }

    /** Gives every parameter of the thermistor its value. */
    void putInto(Map<Row, Double> all) {
        double[] values = values();
        for (int i = 0; i < values.length; i++) {
            all.put(OTHER_WAYS.get(i), values[i]);
        }
    }

    /**
     * The coefficients by least squares. A miss counts in kelvin: {@code dT = T^2 d(1/T)}. The columns have like sizes, so the
     * three equations are solved as they stand.
     */
    private static double[] fit(List<double[]> rows) {
        double[][] m = new double[3][4];
        for (double[] row : rows) {
            double kelvin = row[0] + ZERO_C_IN_K;
            double weight = kelvin * kelvin;
            double ln = StrictMath.log(row[1]) / 10;
            double[] x = {weight, weight * ln, weight * ln * ln * ln, weight / kelvin};
            for (int i = 0; i < 3; i++) {
                for (int j = 0; j < 4; j++) {
                    m[i][j] += x[i] * x[j];
                }
            }
        }
        double[] p = solve(m);
        return new double[] {p[0], p[1] / 10, p[2] / 1000};
    }

    /** Three linear equations, by elimination with pivots. */
    private static double[] solve(double[][] m) {
        for (int i = 0; i < 3; i++) {
            int pivot = i;
            for (int r = i + 1; r < 3; r++) {
                pivot = Math.abs(m[r][i]) > Math.abs(m[pivot][i]) ? r : pivot;
            }
            double[] swap = m[i];
            m[i] = m[pivot];
            m[pivot] = swap;
            for (int r = i + 1; r < 3; r++) {
                double share = m[r][i] / m[i][i];
                for (int c = i; c < 4; c++) {
                    m[r][c] -= share * m[i][c];
                }
            }
        }
        double[] p = new double[3];
        for (int i = 2; i >= 0; i--) {
            double sum = m[i][3];
            for (int c = i + 1; c < 3; c++) {
                sum -= m[i][c] * p[c];
            }
            p[i] = sum / m[i][i];
        }
        return p;
    }

    /** The temperature that the curve gives for a resistance. */
    public double celsius(double ohm) {
        double ln = StrictMath.log(ohm);
        return 1 / (abc[0] + abc[1] * ln + abc[2] * ln * ln * ln) - ZERO_C_IN_K;
    }

    /** The resistance that the curve gives for a temperature. Newton: it is nearly a straight line in ln R. */
    public double ohm(double celsius) {
        double ln = StrictMath.log(rows.get(rows.size() / 2)[1]);
        double target = 1 / (celsius + ZERO_C_IN_K);
        for (int i = 0; i < NEWTON_STEPS; i++) {
            ln -= (abc[0] + abc[1] * ln + abc[2] * ln * ln * ln - target) / (abc[1] + 3 * abc[2] * ln * ln);
        }
        return StrictMath.exp(ln);
    }

    private double missesK(int row) {
        double off = Math.abs(celsius(rows.get(row)[1]) - rows.get(row)[0]);
        return off == off ? off : Double.POSITIVE_INFINITY;
    }

    /** How far the curve misses the rows around a temperature, the greater of the two (K); NaN outside the table. */
    public double missesNearK(double celsius) {
        for (int i = 1; i < rows.size(); i++) {
            if (celsius >= rows.get(i - 1)[0] && celsius <= rows.get(i)[0]) {
                return Math.max(missesK(i - 1), missesK(i));
            }
        }
        return Double.NaN;
    }

    /** The coldest and the warmest temperature of the table (°C). */
    public double[] rangeC() {
        return new double[] {rows.get(0)[0], rows.get(rows.size() - 1)[0]};
    }

    /** How many rows it has. */
    public int size() {
        return rows.size();
    }
}
