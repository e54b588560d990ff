package sprag.bench.car.electric;

/**
 * Voltage of a cell at rest against its state of charge, one curve a chemistry, looked up in an even table.
 *
 * <p>Beyond 0 and 1 the curve goes on as a steep line, so that overcharge and deep discharge show.
 */
public final class CellCurve {
    /**
     * Nickel manganese cobalt: the demonstration cell published with PyBaMM ({@code ecm_example_ocv.csv}, BSD-3-Clause), at
     * every tenth.
     */
    private static final double[][] NMC = {
        {0, 3.2000},
        {0.1, 3.4937},
        {0.2, 3.5755},
        {0.3, 3.6254},
        {0.4, 3.6546},
        {0.5, 3.6965},
        {0.6, 3.7681},
        {0.7, 3.8544},
        {0.8, 3.9369},
        {0.9, 4.0457},
        {1, 4.1870},
    };

    /**
     * Lithium iron phosphate: a 26650 cell measured at a thirty-second of its capacity an hour, both ways (pseudo open-circuit
     * voltage, README of {@code soorajsunil/Piecewise-Battery-OCV} on GitHub). Its last half percent is the end of a charge; a
     * cell that has rested for hours afterwards stands lower.
     */
    private static final double[][] LFP = {
        {0, 2.0102},
        {0.0033, 2.4177},
        {0.0117, 2.7405},
        {0.0267, 2.9299},
        {0.0534, 3.0872},
        {0.0885, 3.1942},
        {0.2972, 3.2772},
        {0.9833, 3.3511},
        {0.9950, 3.4180},
        {1, 3.5981},
    };

    private static final int CELLS = 1200;
    private static final double BEYOND_V = 8;

    private final double[] volts = new double[CELLS + 1];

    private CellCurve(double[][] points) {
        int segment = 0;
        for (int i = 0; i <= CELLS; i++) {
            double soc = (double) i / CELLS;
            while (segment < points.length - 2 && soc > points[segment + 1][0]) {
                segment++;
            }
            double[] from = points[segment];
            double[] to = points[segment + 1];
            volts[i] = from[1] + (to[1] - from[1]) * (soc - from[0]) / (to[0] - from[0]);
        }
    }

    /** The curve of a chemistry by its word in the vehicle's file. */
    public static CellCurve of(String chemistry) {
        switch (chemistry) {
            case "nmc":
                return new CellCurve(NMC);
            case "lfp":
                return new CellCurve(LFP);
            default:
                throw new IllegalArgumentException("no curve for the chemistry " + chemistry);
        }
    }

    /** The voltage at rest. */
    public double volts(double soc) {
        if (soc <= 0) {
            return Math.max(0, volts[0] + soc * BEYOND_V);
        }
        if (soc >= 1) {
            return volts[CELLS] + (soc - 1) * BEYOND_V;
        }
        double at = soc * CELLS;
        int cell = (int) at;
        return volts[cell] + (at - cell) * (volts[cell + 1] - volts[cell]);
    }
}
