package sprag.bench.review.sizing;

/**
 * What a copper conductor carries, drops and stands.
 *
 * <p>The ampacity rests on 33 CFR 183.425, table 5, the column for insulation of 105 °C: single stranded copper conductors
 * in air of 30 °C. Sizes in mm² are read off that table between the AWG sizes on a double-logarithmic line, and other
 * temperatures follow from the heat that the conductor can shed, which is proportional to its rise above the air.
 */
public final class Conductor {
    /** Copper of the IACS at 20 °C (ohm mm² per m). */
    static final double RESISTIVITY_OHM_MM2_PER_M = 0.017241;
    /** Its rise with temperature, referred to 20 °C (1/K). */
    static final double RESISTIVITY_PER_K = 0.00393;

    private static final double TABLE_INSULATION_C = 105;
    private static final double TABLE_AMBIENT_C = 30;
    /** AWG 18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1, 1/0, 2/0, 3/0, 4/0. */
    private static final int[] AWG = {18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3};

    private static final double[] TABLE_A = {20, 25, 35, 45, 60, 80, 120, 160, 180, 210, 245, 285, 330, 385, 445};

    private Conductor() {}

    /**
     * Area of an American wire gauge: diameter 0.127 mm times 92 to the power of (36 - n) / 39. AWG 4 gives 21.15 mm².
     *
     * @param gauge the number; 0 for 1/0, -1 for 2/0 and so on
     * @return cross-section (mm²)
     */
    public static double awgMm2(int gauge) {
        double diameterMm = 0.127 * Math.pow(92, (36.0 - gauge) / 39);
        return Math.PI / 4 * diameterMm * diameterMm;
    }

    /**
     * Ampacity of one copper conductor in still air. 4 AWG, 105 °C, 30 °C, alone gives the table's 160 A.
     *
     * <p>Below AWG 18 and above 4/0 the line is prolonged, which is rougher there. Ignores cooling by wind and heat from
     * the terminals.
     *
     * @param sizeMm2 cross-section (mm²), greater than 0
     * @param insulationC what the insulation stands (°C)
     * @param ambientC air around it (°C)
     * @param bundled current-carrying conductors that lie together, itself included
     * @return the greatest lasting current (A); 0 when the air is as hot as the insulation may be
     */
    public static double ampacityA(double sizeMm2, double insulationC, double ambientC, double bundled) {
        double rise = Math.max(0, insulationC - ambientC) / (TABLE_INSULATION_C - TABLE_AMBIENT_C);
        return tableA(sizeMm2) * Math.sqrt(rise) * bundleFactor(bundled);
    }

    private static double tableA(double sizeMm2) {
        int above = 1;
        while (above < AWG.length - 1 && awgMm2(AWG[above]) < sizeMm2) {
            above++;
        }
        double lowMm2 = Math.log(awgMm2(AWG[above - 1]));
        double share = (Math.log(sizeMm2) - lowMm2) / (Math.log(awgMm2(AWG[above])) - lowMm2);
        double lowA = Math.log(TABLE_A[above - 1]);
        return Math.exp(lowA + share * (Math.log(TABLE_A[above]) - lowA));
    }

    /**
     * What is left of the ampacity when conductors lie together: 1 to 2 none lost, 3 0.7, 4 to 6 0.6, 7 to 24 0.5, more 0.4
     * (33 CFR 183.425, note 2 of table 5; the figures are from memory).
     *
     * @param bundled how many carry current
     * @return a factor of 1 or less
     */
    public static double bundleFactor(double bundled) {
        if (bundled < 3) {
            return 1;
        }
        if (bundled <= 3) {
            return 0.7;
        }
        if (bundled <= 6) {
            return 0.6;
        }
        return bundled <= 24 ? 0.5 : 0.4;
    }

    /**
     * Resistance of a copper conductor. 1 m of 1 mm² at 20 °C gives 0.017241 ohm; real stranded conductors have 1 to 3 % more
     * (IEC 60228), so the true drop is a little higher.
     *
     * @param sizeMm2 cross-section (mm²)
     * @param lengthM length of the conductor itself (m)
     * @param conductorC its temperature (°C)
     * @return resistance (ohm)
     */
    public static double resistanceOhm(double sizeMm2, double lengthM, double conductorC) {
        double warm = 1 + RESISTIVITY_PER_K * (conductorC - 20);
        return RESISTIVITY_OHM_MM2_PER_M * warm * lengthM / sizeMm2;
    }

    /**
     * Voltage lost on the way there and back. 100 A over 15 ft of 4 AWG at 20 °C gives 0.745 V.
     *
     * @param currentA current (A)
     * @param sizeMm2 cross-section of both conductors (mm²)
     * @param oneWayM length one way (m)
     * @param conductorC temperature of the conductors (°C)
     * @return voltage drop (V)
     */
    public static double dropV(double currentA, double sizeMm2, double oneWayM, double conductorC) {
        return currentA * resistanceOhm(sizeMm2, 2 * oneWayM, conductorC);
    }

    /**
     * How long a conductor stands a short circuit without shedding heat: t = (k S / I)², with k = 143 for copper in
     * cross-linked insulation (IEC 60364-4-43, from memory). 35 mm² at 5000 A gives 1.002 s.
     *
     * @param sizeMm2 cross-section (mm²)
     * @param currentA short-circuit current (A)
     * @return time until the insulation is harmed (s)
     */
    public static double shortCircuitS(double sizeMm2, double currentA) {
        double k = 143;
        return Math.pow(k * sizeMm2 / currentA, 2);
    }
}
