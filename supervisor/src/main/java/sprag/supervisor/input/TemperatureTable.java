package sprag.supervisor.input;

import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;

/**
 * Turns the voltage of a thermistor divider into a temperature by a table, so that a tick costs one multiplication instead
 * of a logarithm.
 *
 * <pre>
 *   supply --- pull-up ---+--- thermistor --- ground        volts = supply * R / (R + pull-up)
 *                         |
 *                       signal
 * </pre>
 *
 * <p>The table has {@value #CELLS} cells between {@code thermistor.short_v} and {@code thermistor.open_v}; between its points the
 * temperature is interpolated, which errs by less than 0.1 K between -30 and 120 degree Celsius for the shipped dividers.
 */
final class TemperatureTable {
    private static final int CELLS = 1024;
    private static final double ZERO_C_IN_K = 273.15;
    private static final double REFERENCE_K = ZERO_C_IN_K + 25;
    private static final double PT_A = 3.9083e-3;
    private static final double PT_B = -5.775e-7;
    private static final double PT1000_OHM = 1000;

    private final double shortV;
    private final double openV;
    private final double cellsPerV;
    /** The straight line of each cell, drawn out to 0 V; one cell more for a voltage that rounds up to the end. */
    private final double[] atZeroVC = new double[CELLS + 1];

    private final double[] slopeCPerV = new double[CELLS + 1];

    private TemperatureTable(Settings settings, boolean platinum) {
        shortV = settings.get(Parameter.THERMISTOR_SHORT_V);
        openV = settings.get(Parameter.THERMISTOR_OPEN_V);
        cellsPerV = CELLS / (openV - shortV);
        double supplyV = settings.get(Parameter.THERMISTOR_SUPPLY_V);
        double pullupOhm = settings.get(Parameter.THERMISTOR_PULLUP_OHM);
        double r25Ohm = settings.get(Parameter.THERMISTOR_R25_OHM);
        double betaK = settings.get(Parameter.THERMISTOR_BETA_K);
        double steinhartA = settings.get(Parameter.THERMISTOR_STEINHART_A);
        double steinhartB = settings.get(Parameter.THERMISTOR_STEINHART_B);
        double steinhartC = settings.get(Parameter.THERMISTOR_STEINHART_C);
        double[] pointC = new double[CELLS + 2];
        for (int i = 0; i < pointC.length; i++) {
            double volts = Math.min(shortV + i / cellsPerV, supplyV * 0.9999);
            double resistanceOhm = pullupOhm * volts / (supplyV - volts);
            if (platinum) {
                pointC[i] = pt1000C(resistanceOhm);
            } else if (steinhartB > 0) {
                pointC[i] = steinhartC(resistanceOhm, steinhartA, steinhartB, steinhartC);
            } else {
                pointC[i] = ntcC(resistanceOhm, r25Ohm, betaK);
            }
        }
        for (int i = 0; i <= CELLS; i++) {
            slopeCPerV[i] = (pointC[i + 1] - pointC[i]) * cellsPerV;
            atZeroVC[i] = pointC[i] - slopeCPerV[i] * (shortV + i / cellsPerV);
        }
    }

    /** For a negative-temperature-coefficient thermistor with the vehicle's divider.
     *
     * @param settings the vehicle's values
     * @return the table
     */
    static TemperatureTable ntc(Settings settings) {
        return new TemperatureTable(settings, false);
    }

    /** For the motor's sensor, which may be platinum.
     *
     * @param settings the vehicle's values
     * @return the table
     */
    static TemperatureTable motor(Settings settings) {
        return new TemperatureTable(settings, settings.is(Parameter.MOTOR_SENSOR, "pt1000"));
    }

    /** The Beta model: {@code 1/T = 1/T25 + ln(R/R25)/B}. 10 kOhm, B 3435 and 4101.2 Ohm give 50.0 degree Celsius.
     *
     * <p>Real parts are colder than the model says: by about 1 K at 0 degree Celsius, 2.5 K at -20 and 4 K at -40. A limit
     * against cold needs that much margin.
     *
     * @param resistanceOhm the thermistor's resistance, greater than 0
     * @param r25Ohm its resistance at 25 degree Celsius
     * @param betaK its Beta value
     * @return degree Celsius
     */
    static double ntcC(double resistanceOhm, double r25Ohm, double betaK) {
        return 1 / (1 / REFERENCE_K + StrictMath.log(resistanceOhm / r25Ohm) / betaK) - ZERO_C_IN_K;
    }

    /**
     * Steinhart and Hart's equation, {@code 1/T = A + B ln R + C (ln R)^3}: within a tenth of a kelvin of most parts over their
     * whole range. A 0.001129148, B 0.000234125, C 8.76741e-8 and 32650.8 ohm give 0.000 degree Celsius.
     */
    static double steinhartC(double resistanceOhm, double a, double b, double c) {
        double ln = StrictMath.log(resistanceOhm);
        return 1 / (a + b * ln + c * ln * ln * ln) - ZERO_C_IN_K;
    }

    /** IEC 60751 solved for the temperature, its quadratic part: exact above 0, 0.1 K off at -40 degree Celsius.
     *
     * @param resistanceOhm resistance of a PT1000
     * @return degree Celsius
     */
    static double pt1000C(double resistanceOhm) {
        double root = PT_A * PT_A - 4 * PT_B * (1 - resistanceOhm / PT1000_OHM);
        return (Math.sqrt(Math.max(root, 0)) - PT_A) / (2 * PT_B);
    }

    /** The temperature for a divider voltage.
     *
     * @param volts the divider's voltage
     * @return degree Celsius; NaN when the wire is open, shorted or unknown
     */
    double celsius(double volts) {
        if (!(volts > shortV && volts < openV)) {
            return Double.NaN;
        }
        int cell = (int) ((volts - shortV) * cellsPerV);
        return atZeroVC[cell] + slopeCPerV[cell] * volts;
    }
}
