package sprag.supervisor.input;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;

/** Divider voltages to temperatures, against published tables. */
class TemperatureTableTest {
    private final Settings settings = TestVehicle.full();

    private double volts(double ohm) {
        double pullupOhm = settings.get(Parameter.THERMISTOR_PULLUP_OHM);
        return settings.get(Parameter.THERMISTOR_SUPPLY_V) * ohm / (ohm + pullupOhm);
    }

    /**
     * The resistance table of a 10 kohm part of B25/85 3435, as in the Linux kernel's ntc_thermistor.c (EPCOS
     * B57330V2103). The Beta model is not the maker's curve: within 1.1 K from 0 to 100 °C, too warm by several
     * kelvin far below.
     */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            CELSIUS | OHM    | WITHIN_K
            -40     | 190030 | 4.5
            -20     | 68104  | 2.5
            -10     | 42576  | 1.8
            0       | 27326  | 1.1
            10      | 17973  | 0.6
            20      | 12090  | 0.2
            25      | 10000  | 0.1
            30      | 8311   | 0.2
            40      | 5825   | 0.4
            50      | 4158   | 0.5
            60      | 3019   | 0.5
            70      | 2227   | 0.5
            80      | 1668   | 0.3
            85      | 1451   | 0.3
            90      | 1266   | 0.4
            100     | 973    | 0.6
            120     | 596    | 1.7
            """)
    void publishedThermistor_isReadWithinItsModel(double celsius, double ohm, double withinK) {
        assertEquals(celsius, TemperatureTable.ntc(settings).celsius(volts(ohm)), withinK);
    }

    /** The Beta model itself, computed from its definition for three parts; the table adds less than 0.1 K. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            BETA_K | CELSIUS | OHM
            3380   | 0       | 28223.7
            3380   | 50      | 4160.1
            3380   | 100     | 1024.3
            3435   | -20     | 77522.5
            3435   | 0       | 28704.3
            3435   | 25      | 10000
            3435   | 50      | 4101.2
            3435   | 80      | 1662.4
            3435   | 120     | 618.0
            3950   | -20     | 105384.7
            3950   | 0       | 33620.6
            3950   | 60      | 2486.2
            3950   | 100     | 697.5
            """)
    void betaModel_isSolvedForTheTemperature(double betaK, double celsius, double ohm) {
        assertEquals(celsius, TemperatureTable.ntcC(ohm, 10_000, betaK), 0.005);
        Settings part = settings.with(Parameter.THERMISTOR_BETA_K, betaK);
        assertEquals(celsius, TemperatureTable.ntc(part).celsius(volts(ohm)), 0.1);
    }

    /**
     * Steinhart and Hart, coefficients of a published 10 kohm part (A 0.001129148, B 0.000234125, C 8.76741e-8), resistances
     * computed from them.
     */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            CELSIUS | OHM
            -40     | 336096.9
            -20     | 97005.2
            0       | 32650.4
            10      | 19902.9
            40      | 5324.9
            50      | 3601.0
            60      | 2487.1
            80      | 1256.1
            100     | 678.4
            24.9997 | 10000
            """)
    void threeCoefficients_areReadOverTheWholeRange(double celsius, double ohm) {
        assertEquals(celsius, TemperatureTable.steinhartC(ohm, 0.001129148, 0.000234125, 8.76741e-8), 0.01);
        Settings part = settings.with(Parameter.THERMISTOR_STEINHART_A, 0.001129148)
                .with(Parameter.THERMISTOR_STEINHART_B, 0.000234125)
                .with(Parameter.THERMISTOR_STEINHART_C, 8.76741e-8)
                .with(Parameter.THERMISTOR_OPEN_V, 4.98);
        assertEquals(celsius, TemperatureTable.ntc(part).celsius(volts(ohm)), 0.15);
    }

    /** IEC 60751, PT1000; the values from 0 °C follow from its coefficients, 1573.25 ohm at 150 °C is a published example. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            CELSIUS | OHM      | WITHIN_K
            -40     | 842.707  | 0.1
            -20     | 921.599  | 0.02
            0       | 1000.000 | 0.001
            25      | 1097.347 | 0.001
            50      | 1193.971 | 0.001
            80      | 1308.968 | 0.001
            100     | 1385.055 | 0.001
            125     | 1479.514 | 0.001
            150     | 1573.25  | 0.001
            """)
    void platinum_isReadByTheStandard(double celsius, double ohm, double withinK) {
        assertEquals(celsius, TemperatureTable.pt1000C(ohm), withinK);
        Settings platinum = settings.with(Parameter.MOTOR_SENSOR, 1);
        assertEquals(celsius, TemperatureTable.motor(platinum).celsius(volts(ohm)), withinK + 0.1);
    }

    @Test
    void motorSensor_isAThermistorUnlessSaidOtherwise() {
        assertEquals(25, TemperatureTable.motor(settings).celsius(volts(10_000)), 0.1);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            VOLTS     | KNOWN | BECAUSE
            0.1       | false | shorted
            0.101     | true  | just not
            4.929     | true  | just not open
            4.93      | false | open
            5         | false | pulled up
            0         | false | to ground
            NaN       | false | unknown
            Infinity  | false | nonsense
            -1        | false | nonsense
            """)
    void brokenWire_isNoTemperature(double volts, boolean known, String because) {
        assertEquals(known, Double.isFinite(TemperatureTable.ntc(settings).celsius(volts)), because);
    }

    @Test
    void moreVolts_areColder() {
        TemperatureTable table = TemperatureTable.ntc(settings);
        double before = table.celsius(0.101);
        for (double volts = 0.102; volts < 4.93; volts += 0.001) {
            double now = table.celsius(volts);
            assertTrue(now < before, "at " + volts);
            before = now;
        }
    }
}
