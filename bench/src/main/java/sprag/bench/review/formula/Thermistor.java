package sprag.bench.review.formula;

/** A thermistor to ground under a pull-up resistor: its voltage, and how finely a converter resolves its temperature. */
public final class Thermistor {
    private static final double KELVIN = 273.15;
    private static final int NEWTON_STEPS = 20;

    private final double r25Ohm;
    private final double betaK;
    private final double[] abc;
    private final double pullUpOhm;
    private final double supplyV;

    /**
     * A divider with a thermistor by the beta model.
     *
     * @param r25Ohm resistance at 25 °C (ohm)
     * @param supplyV supply, which is also the converter's full scale (V)
     */
    public Thermistor(double r25Ohm, double betaK, double pullUpOhm, double supplyV) {
        this(r25Ohm, betaK, new double[3], pullUpOhm, supplyV);
    }

    /**
     * A divider.
     *
     * @param abc the three coefficients for ohm and kelvin; all 0 when the beta model holds
     */
    public Thermistor(double r25Ohm, double betaK, double[] abc, double pullUpOhm, double supplyV) {
        this.r25Ohm = r25Ohm;
        this.betaK = betaK;
        this.abc = abc.clone();
        this.pullUpOhm = pullUpOhm;
        this.supplyV = supplyV;
    }

    /**
     * Resistance by the three coefficients, or by the beta model: R25 exp(B (1/T - 1/298.15 K)). 10 kohm, B 3435 at 50 °C give
     * 4101.2 ohm. The model is some per cent off a real part far from 25 °C.
     */
    public double ohm(double temperatureC) {
        return abc[1] > 0 ? ohm(temperatureC, r25Ohm, abc) : betaOhm(temperatureC);
    }

    private double betaOhm(double temperatureC) {
        return r25Ohm * Math.exp(betaK * (1 / (temperatureC + KELVIN) - 1 / (25 + KELVIN)));
    }

    /** Newton: the equation is nearly a straight line in ln R. */
    private static double ohm(double celsius, double fromOhm, double[] abc) {
        double target = 1 / (celsius + KELVIN);
        double ln = Math.log(fromOhm);
        for (int i = 0; i < NEWTON_STEPS; i++) {
            double off = abc[0] + abc[1] * ln + abc[2] * ln * ln * ln - target;
            ln -= off / (abc[1] + 3 * abc[2] * ln * ln);
        }
        return Math.exp(ln);
    }

    /** What the beta model reads where the three coefficients say that it is so warm, less that temperature. */
    public static double betaErrorK(double celsius, double r25Ohm, double betaK, double[] abc) {
        double ln = Math.log(ohm(celsius, r25Ohm, abc));
        double beta = 1 / (1 / (25 + KELVIN) + (ln - Math.log(r25Ohm)) / betaK) - KELVIN;
        return beta - celsius;
    }

    /** Voltage at the divider. 10 kohm under 10 kohm at 25 °C gives half the supply. */
    public double volts(double temperatureC) {
        double ohm = ohm(temperatureC);
        return supplyV * ohm / (ohm + pullUpOhm);
    }

    /**
     * How many kelvin one step of a converter is worth, by a difference of 0.01 K either side.
     *
     * @param adcBits bits of the converter over the whole supply
     */
    public double stepK(double temperatureC, double adcBits) {
        double slopeVPerK = Math.abs(volts(temperatureC + 0.01) - volts(temperatureC - 0.01)) / 0.02;
        return supplyV / Math.pow(2, adcBits) / slopeVPerK;
    }
}
