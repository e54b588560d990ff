package sprag.bench.drawing.draft;

import java.util.Map;
import sprag.bench.review.wiring.schedule.VoltageClass;

/** The outer diameter of a wire: given, or typical for its size. */
final class CableDiameter {
    /** Where the typical diameters come from. */
    static final String SOURCE =
            "typical: greatest diameters of ISO 6722-1, from memory, thin wall up to 10 mm² on the 12 V"
                    + " side, thick wall above and at pack voltage; a screen adds 2 mm or more; the data sheet decides";

    private static final double[] SIZES_MM2 = {0.35, 0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150
    };
    private static final double[] THIN_MM = {
        1.4, 1.6, 1.9, 2.1, 2.4, 3.0, 3.7, 4.3, 6.0, 8.3, 10.4, 11.6, 13.5, 15.5, 18.0, 19.7, 22.5
    };
    private static final double[] THICK_MM = {
        2.2, 2.3, 2.5, 2.7, 3.0, 3.6, 4.4, 5.0, 6.5, 8.3, 10.4, 11.6, 13.5, 15.5, 18.0, 19.7, 22.5
    };

    private CableDiameter() {}

    /** The diameter (mm), rounded up to the next size of the table; NaN when the size is unknown or beyond the table.
     *
     * @param given outer diameters by size (mm²) that the builder has measured
     */
    static double outerMm(double sizeMm2, VoltageClass voltageClass, Map<Double, Double> given) {
        Double measured = given.get(sizeMm2);
        if (measured != null) {
            return measured;
        }
        boolean thick = voltageClass == VoltageClass.TRACTION || voltageClass == VoltageClass.MAINS;
        for (int i = 0; i < SIZES_MM2.length; i++) {
            if (sizeMm2 <= SIZES_MM2[i]) {
                return thick ? THICK_MM[i] : THIN_MM[i];
            }
        }
        return Double.NaN;
    }
}
