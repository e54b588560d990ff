package sprag.bench.car.simulation;

import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/**
 * A temperature sensor in its divider: what a temperature puts on the wire. A table, since it is asked often.
 *
 * <p>Thermistors follow the Beta model or the three coefficients that the vehicle gives, platinum IEC 60751 (its part below 0 C included).
 */
final class Divider {
    private static final double FROM_C = -80;
    private static final double TO_C = 400;
    private static final int PER_KELVIN = 4;
    private static final int CELLS = (int) (TO_C - FROM_C) * PER_KELVIN;
    private static final double ZERO_K = 273.15;
    private static final double REFERENCE_K = ZERO_K + 25;
    private static final double LARGEST_LN_OHM = 25;
    private static final int HALVINGS = 50;
    private static final double PT_A = 3.9083e-3;
    private static final double PT_B = -5.775e-7;
    private static final double PT_C = -4.183e-12;

    private final double[] volts = new double[CELLS + 1];

    private Divider(Vehicle vehicle, boolean platinum) {
        double supplyV = vehicle.get(Parameter.THERMISTOR_SUPPLY_V);
        double pullupOhm = vehicle.get(Parameter.THERMISTOR_PULLUP_OHM);
        double r25Ohm = vehicle.get(Parameter.THERMISTOR_R25_OHM);
        double betaK = vehicle.get(Parameter.THERMISTOR_BETA_K);
        double[] steinhart = vehicle.get(Parameter.THERMISTOR_STEINHART_B) > 0
                ? new double[] {
                    vehicle.get(Parameter.THERMISTOR_STEINHART_A),
                    vehicle.get(Parameter.THERMISTOR_STEINHART_B),
                    vehicle.get(Parameter.THERMISTOR_STEINHART_C)
                }
                : new double[0];
        for (int i = 0; i <= CELLS; i++) {
            double tempC = FROM_C + (double) i / PER_KELVIN;
            double ohm = platinum
                    ? platinumOhm(tempC)
                    : steinhart.length > 0 ? steinhartOhm(tempC, steinhart) : thermistorOhm(tempC, r25Ohm, betaK);
            volts[i] = supplyV * ohm / (ohm + pullupOhm);
        }
    }

    /** The thermistor that the vehicle has in most places. */
    static Divider thermistor(Vehicle vehicle) {
        return new Divider(vehicle, false);
    }

    /** The sensor in the motor. */
    static Divider motor(Vehicle vehicle) {
        return new Divider(vehicle, vehicle.is(Parameter.MOTOR_SENSOR, "pt1000"));
    }

    /** Beta model: 10 kOhm, 3435 K and 50 C give 4101.2 Ohm. */
    static double thermistorOhm(double tempC, double r25Ohm, double betaK) {
        return r25Ohm * StrictMath.exp(betaK * (1 / (tempC + ZERO_K) - 1 / REFERENCE_K));
    }

    /** Steinhart and Hart's equation solved for the resistance, by halving the interval of its logarithm. */
    static double steinhartOhm(double tempC, double[] abc) {
        double low = 0;
        double high = LARGEST_LN_OHM;
        for (int i = 0; i < HALVINGS; i++) {
            double ln = (low + high) / 2;
            boolean colder = abc[0] + abc[1] * ln + abc[2] * ln * ln * ln > 1 / (tempC + ZERO_K);
            low = colder ? low : ln;
            high = colder ? ln : high;
        }
        return StrictMath.exp((low + high) / 2);
    }

    /** IEC 60751 for a PT1000: 100 C gives 1385.055 Ohm. */
    static double platinumOhm(double tempC) {
        double below = tempC < 0 ? PT_C * (tempC - 100) * tempC * tempC * tempC : 0;
        return 1000 * (1 + PT_A * tempC + PT_B * tempC * tempC + below);
    }

    /** What stands on the wire. */
    double volts(double tempC) {
        double at = (Math.max(FROM_C, Math.min(TO_C, tempC)) - FROM_C) * PER_KELVIN;
        int cell = Math.min((int) at, CELLS - 1);
        return volts[cell] + (at - cell) * (volts[cell + 1] - volts[cell]);
    }
}
