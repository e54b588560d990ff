package sprag.bench.car.electric;

/**
 * Voltage of a cell at rest against its state of charge, one curve a chemistry, looked up in an even table.
 *
 * <p>Beyond 0 and 1 the curve goes on as a steep line, so that overcharge and deep discharge show.
 */
final class CellCurve {
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

    /** Lithium iron phosphate: chosen after the usual shape, a long plateau with a steep foot and head. */
    private static final double[][] LFP = {
        {0, 2.75}, {0.02, 2.95}, {0.05, 3.09}, {0.1, 3.19}, {0.2, 3.235}, {0.3, 3.265}, {0.4, 3.285}, {0.5, 3.295},
        {0.6, 3.302}, {0.7, 3.322}, {0.8, 3.331}, {0.9, 3.336}, {0.95, 3.345}, {0.98, 3.37}, {0.99, 3.41}, {1, 3.5},
    };

    private static final int CELLS = 400;
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
    static CellCurve of(String chemistry) {
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
    double volts(double soc) {
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
