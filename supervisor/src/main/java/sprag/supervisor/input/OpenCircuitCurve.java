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

    private static final double[] LFP_FRACTION = {0, 0.05, 0.1, 0.2, 0.3, 0.4, 0.6, 0.7, 0.9, 0.97, 1};
    /** The usual shape, from memory: a steep foot and head, and a plateau on which a voltage says little. */
    private static final double[] LFP_V = {
        2.7000, 3.0800, 3.1900, 3.2350, 3.2650, 3.2870, 3.3000, 3.3220, 3.3350, 3.3550, 3.4500
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
