package sprag.bench.review.formula;

/** What a copper conductor drops and stands. {@link Ampacity} says what it carries. */
public final class Conductor {
    /** Copper of the IACS at 20 °C (ohm mm² per m). */
    static final double RESISTIVITY_OHM_MM2_PER_M = 0.017241;
    /** Its rise with temperature, referred to 20 °C (1/K). */
    static final double RESISTIVITY_PER_K = 0.00393;

    private static final PublishedTable IEC_60228 = PublishedTable.read("iec60228.csv");
    private static final double[] IEC_MM2 = IEC_60228.column(0);

    private Conductor() {}

    /**
     * Area of an American wire gauge: diameter 0.127 mm times 92 to the power of (36 - n) / 39. AWG 4 gives 21.15 mm².
     *
     * @param gauge the number; 0 for 1/0, -1 for 2/0 and so on
     */
    public static double awgMm2(int gauge) {
        double diameterMm = 0.127 * Math.pow(92, (36.0 - gauge) / 39);
        return Math.PI / 4 * diameterMm * diameterMm;
    }

    /**
     * Least resistance of a copper conductor: solid, of the full size. 1 m of 1 mm² at 20 °C gives 0.017241 ohm. Real stranded
     * conductors have more, see {@link #greatestOhm}; the least is what a short circuit may meet.
     *
     * @param lengthM length of the conductor itself (m)
     */
    public static double leastOhm(double sizeMm2, double lengthM, double conductorC) {
        return RESISTIVITY_OHM_MM2_PER_M * warm(conductorC) * lengthM / sizeMm2;
    }

    /**
     * Greatest resistance that IEC 60228 lets a conductor have: 4 to 12 % above solid copper in class 2, 11 to 16 % in class
     * 5, more when tinned. Between two sizes of the standard the surplus lies on a straight line; outside them it is that of
     * the nearest size.
     *
     * @param lengthM length of the conductor itself (m)
     */
    public static double greatestOhm(Strands strands, double sizeMm2, double lengthM, double conductorC) {
        double[] surplus = IEC_60228.column(1 + strands.ordinal());
        for (int i = 0; i < surplus.length; i++) {
            surplus[i] *= IEC_MM2[i] / 1000 / RESISTIVITY_OHM_MM2_PER_M;
        }
        return PublishedTable.between(IEC_MM2, surplus, sizeMm2) * leastOhm(sizeMm2, lengthM, conductorC);
    }

    /** How a conductor is made, in the order of {@code design.cable.strands}. */
    public enum Strands {
        /** A few thick strands, for fixed wiring. */
        CLASS_2,
        /** Many fine strands, flexible. */
        CLASS_5,
        /** Many fine strands, each tinned. */
        CLASS_5_TINNED
    }

    private static double warm(double conductorC) {
        return 1 + RESISTIVITY_PER_K * (conductorC - 20);
    }

    /**
     * How warm a conductor gets. It reaches its insulation's limit at its ampacity, in the same air. The heat grows with the
     * square of the current and with the copper's resistance, which rises with the temperature.
     *
     * @param share of its ampacity that flows; more than 1 counts as 1, because that is a finding of its own
     */
    public static double conductorC(double share, double insulationC, double airC) {
        double loss = Math.pow(Math.min(1, share), 2) * (insulationC - airC) / warm(insulationC);
        return (airC + loss * (1 - 20 * RESISTIVITY_PER_K)) / (1 - loss * RESISTIVITY_PER_K);
    }

    /**
     * How long a conductor stands a short circuit without shedding heat: t = (k S / I)², with k = 143 for copper in
     * cross-linked insulation (IEC 60364-4-43, from memory). 35 mm² at 5000 A gives 1.002 s. Returns time until the
     * insulation is harmed (s).
     */
    public static double shortCircuitS(double sizeMm2, double currentA) {
        double k = 143;
        return Math.pow(k * sizeMm2 / currentA, 2);
    }
}
