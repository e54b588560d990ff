package sprag.bench.review.formula;

/**
 * Charging the bus through a resistor.
 *
 * <pre>
 *   pack ---[R]---+---------+----------+
 *                 |         |          |
 *                ===       [Rb]     load P   P = V I, once V is above the load's starting voltage
 *               C |         |          |
 *   pack ---------+---------+----------+
 * </pre>
 */
public final class Precharge {
    private static final int STEPS = 20_000;

    private Precharge() {}

    /**
     * Time until the bus has a share of the pack voltage: t = -R C ln(1 - share). 47 ohm, 1 mF and 0.95 give 0.1408 s.
     *
     * <p>Ignores bleed and loads, which make it longer; see {@link #secondsToShare}.
     *
     * @param share share of the pack voltage, in [0, 1)
     */
    public static double idealSecondsToShare(double resistanceOhm, double capacitanceF, double share) {
        return -resistanceOhm * capacitanceF * Math.log1p(-share);
    }

    /** Greatest current: the pack voltage across the resistor. 800 V and 47 ohm give 17.02 A. */
    public static double peakA(double packV, double resistanceOhm) {
        return packV / resistanceOhm;
    }

    /**
     * Heat in the resistor for one full charge, equal to what the capacitors hold then: C V² / 2. 800 V and 1 mF give 320 J.
     */
    public static double pulseJ(double packV, double capacitanceF) {
        return capacitanceF * packV * packV / 2;
    }

    /**
     * The share of the pack voltage that the bus comes to in the end, with a bleed resistor and a load of constant
     * power. It is 1 without either, and the divider of the two resistors without the load. A load of constant power
     * takes more current the lower the voltage, while the resistor gives less: if the load starts too early, or takes
     * too much, it draws the bus down until it drops out again, and the bus hangs at the voltage at which the load
     * starts. Returns share of the pack voltage, 0 to 1.
     */
    public static double finalShare(double packV, Bus bus) {
        double conductance = 1 / bus.resistanceOhm + 1 / bus.bleedOhm;
        double shortA = packV / bus.resistanceOhm;
        double unloaded = shortA / conductance / packV;
        double startShare = bus.loadFromV / packV;
        if (bus.loadW == 0 || unloaded <= startShare) {
            return unloaded;
        }
        double root = shortA * shortA - 4 * bus.loadW * conductance;
        double draggedDownBelowV = root < 0 ? Double.POSITIVE_INFINITY : (shortA - Math.sqrt(root)) / (2 * conductance);
        return bus.loadFromV < draggedDownBelowV ? startShare : (shortA + Math.sqrt(root)) / (2 * conductance) / packV;
    }

    /**
     * The most that may be left on if the bus is to come to rest at a share of the pack voltage. 400 V, 100 ohm, no bleed
     * and 0.95 give 76 W.
     *
     * @param bleedOhm bleed resistor (ohm); infinite without one
     * @param share share of the pack voltage
     * @return power (W); negative when the bleed alone is too much
     */
    public static double mostLeftOnW(double packV, double resistanceOhm, double bleedOhm, double share) {
        double busV = share * packV;
        return busV * ((packV - busV) / resistanceOhm - busV / bleedOhm);
    }

    /**
     * Time until the bus has a share of the pack voltage, with bleed and a load of constant power that starts at some
     * voltage. Found by 20,000 steps of Heun's rule over twenty time constants.
     *
     * @param fromV voltage of the bus at the beginning (V)
     * @param share share of the pack voltage
     * @return time (s); infinite when it is never reached
     */
    public static double secondsToShare(double packV, Bus bus, double fromV, double share) {
        double stepS = 20 * bus.resistanceOhm * bus.capacitanceF / STEPS;
        double busV = fromV;
        for (int i = 0; i < STEPS; i++) {
            if (busV >= share * packV) {
                return i * stepS;
            }
            busV = bus.after(packV, busV, stepS);
        }
        return Double.POSITIVE_INFINITY;
    }

    /**
     * The share of the pack voltage from which the bus rises no faster than a limit, loads left aside: they make it lower.
     * 100 ohm, 1 mF and 0.5 of the pack a second, without bleed, give 0.95.
     *
     * @param flatPerS the limit, a share of the pack voltage a second
     * @return share of the pack voltage; 0 or less when it never rises faster
     */
    public static double flatShare(Bus bus, double flatPerS) {
        double risePerS = 1 / (bus.resistanceOhm * bus.capacitanceF);
        return (risePerS - flatPerS) / (risePerS + 1 / (bus.bleedOhm * bus.capacitanceF));
    }

    /** Voltage of the bus some time after the precharge relay closes, starting empty. */
    public static double busV(double packV, Bus bus, double timeS) {
        double busV = 0;
        for (int i = 0; i < STEPS; i++) {
            busV = bus.after(packV, busV, timeS / STEPS);
        }
        return busV;
    }

    /**
     * The bus, the resistor it is charged through, and what hangs on it.
     *
     * @param bleedOhm bleed resistor (ohm); infinite without one
     * @param loadW constant power of a load left on (W)
     * @param loadFromV voltage from which that load draws (V)
     */
    public record Bus(double resistanceOhm, double capacitanceF, double bleedOhm, double loadW, double loadFromV) {
        /** How fast the bus rises while it is charged. Rise (V/s); negative when it falls. */
        public double slope(double packV, double busV) {
            double loadA = busV >= Math.max(loadFromV, 1e-3) ? loadW / busV : 0;
            return ((packV - busV) / resistanceOhm - busV / bleedOhm - loadA) / capacitanceF;
        }

        private double after(double packV, double busV, double stepS) {
            double first = slope(packV, busV);
            double second = slope(packV, busV + first * stepS);
            return Math.max(0, busV + (first + second) / 2 * stepS);
        }
    }

    /**
     * Time for the bus to bleed down: t = R C ln(V / down). 400 V, 1 mF, 1 kohm to 60 V give 1.897 s.
     *
     * @param downV voltage to come down to (V)
     * @return time (s); 0 when it is there already
     */
    public static double bleedS(double fromV, double bleedOhm, double capacitanceF, double downV) {
        return Math.max(0, bleedOhm * capacitanceF * Math.log(fromV / downV));
    }
}
