package sprag.supervisor.input;

import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;

/** State of charge against the voltage of a rested cell, one curve a chemistry; straight between its points. */
final class OpenCircuitCurve {
    private static final double[] NMC_FRACTION = {0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1};
    /** PyBaMM's demonstration cell ({@code ecm_example_ocv.csv}, BSD-3-Clause), at every tenth. */
    private static final double[] NMC_V = {
        3.2000, 3.4937, 3.5755, 3.6254, 3.6546, 3.6965, 3.7681, 3.8544, 3.9369, 4.0457, 4.1870
    };

    private static final double[] LFP_FRACTION = {0, 0.0033, 0.0117, 0.0267, 0.0534, 0.0885, 0.2972, 0.9833, 0.9950, 1};
    /**
     * A cell measured at a thirty-second of its capacity an hour, both ways (README of {@code soorajsunil/Piecewise-Battery-OCV} on
     * GitHub): a steep foot and head, and a plateau on which a voltage says little.
     */
    private static final double[] LFP_V = {
        2.0102, 2.4177, 2.7405, 2.9299, 3.0872, 3.1942, 3.2772, 3.3511, 3.4180, 3.5981
    };

    private final double[] fraction;
    private final double[] cellV;

    /** The curve of the vehicle's chemistry.
     *
     * @param settings the vehicle's values
     */
    OpenCircuitCurve(Settings settings) {
        boolean lfp = settings.is(Parameter.PACK_CHEMISTRY, "lfp");
        fraction = lfp ? LFP_FRACTION : NMC_FRACTION;
        cellV = lfp ? LFP_V : NMC_V;
    }

    /** The state of charge for a voltage at rest; 0 below the curve, 1 above it.
     *
     * @param restedV voltage of a cell that has rested
     * @return 0 to 1, NaN for NaN
     */
    double fraction(double restedV) {
        if (restedV <= cellV[0]) {
            return 0;
        }
        for (int i = 1; i < cellV.length; i++) {
            if (restedV <= cellV[i]) {
                double part = (restedV - cellV[i - 1]) / (cellV[i] - cellV[i - 1]);
                return fraction[i - 1] + part * (fraction[i] - fraction[i - 1]);
            }
        }
        return restedV == restedV ? 1 : Double.NaN;
    }
}
