package sprag.bench.car.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Temperature sensors against published values. */
class DividerTest {
    /** IEC 60751 coefficients; 84.27 and 92.16 ohm of a published Pt100 table, 1573.25 of a published worked example. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource({
        "-40, 842.707",
        "-20, 921.599",
        "-10, 960.859",
        "0, 1000",
        "25, 1097.347",
        "100, 1385.055",
        "125, 1479.514",
        "150, 1573.251"
    })
    void platinum_resistance_asTheStandard(double tempC, double ohm) {
        assertEquals(ohm, Divider.platinumOhm(tempC), 0.001);
    }

    /** The Beta model, R = R25 exp(B (1/T - 1/298.15)), computed independently. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource({
        "0, 3435, 28704.3",
        "25, 3435, 10000",
        "50, 3435, 4101.2",
        "100, 3435, 987.0",
        "-20, 3950, 105384.7",
        "80, 3950, 1270.3",
        "50, 3380, 4160.1"
    })
    void thermistor_resistance_asTheModel(double tempC, double beta, double ohm) {
        assertEquals(ohm, Divider.thermistorOhm(tempC, 10_000, beta), 0.1);
    }

    /** Steinhart and Hart, coefficients of a published 10 kohm part, resistances computed from them. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource({"-40, 336096.9", "0, 32650.4", "50, 3601.0", "100, 678.424"})
    void thermistor_resistanceByThreeCoefficients_asPublished(double tempC, double ohm) {
        double[] abc = {0.001129148, 0.000234125, 8.76741e-8};
        assertEquals(ohm, Divider.steinhartOhm(tempC, abc), 2e-5 * ohm);
    }

    @Test
    void table_betweenItsPoints_isTheDivider() {
        Divider divider = Divider.thermistor(Driven.shipped("parcel-van"));
        for (double tempC = -40; tempC <= 150; tempC += 0.37) {
            double ohm = Divider.thermistorOhm(tempC, 10_000, 3435);
            assertEquals(5 * ohm / (ohm + 4700), divider.volts(tempC), 1e-5, "at " + tempC);
        }
    }
}
