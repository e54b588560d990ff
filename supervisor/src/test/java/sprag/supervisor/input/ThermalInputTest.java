package sprag.supervisor.input;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.supervisor.Rig;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/** Each thermal limit with its hysteresis of 3 K, and each by its own sensor. */
class ThermalInputTest {
    private static final int LONG_MS = 5000;

    private final Rig rig = new Rig();

    @ParameterizedTest(name = "{1}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            SENSOR          | FACT                    | WELL  | BAD   | STAYS | GONE
            MOTOR_TEMP_V    | MOTOR_WARM              | 109.5 | 110.5 | 107.5 | 106.5
            MOTOR_TEMP_V    | MOTOR_OVERHEATED        | 139.5 | 140.5 | 137.5 | 136.5
            INVERTER_TEMP_V | INVERTER_WARM           | 69.5  | 70.5  | 67.5  | 66.5
            INVERTER_TEMP_V | INVERTER_OVERHEATED     | 84.5  | 85.5  | 82.5  | 81.5
            INVERTER_TEMP_V | COOLING_LOST            | 49.5  | 50.5  | 47.5  | 46.5
            COOLANT_TEMP_V  | COOLANT_WARM            | 59.5  | 60.5  | 57.5  | 56.5
            COOLANT_TEMP_V  | COOLANT_OVERHEATED      | 74.5  | 75.5  | 72.5  | 71.5
            PACK_HOT_V      | PACK_WARM               | 44.5  | 45.5  | 42.5  | 41.5
            PACK_HOT_V      | PACK_TOO_WARM_TO_CHARGE | 44.5  | 45.5  | 42.5  | 41.5
            PACK_HOT_V      | PACK_OVERHEATED         | 54.5  | 55.5  | 52.5  | 51.5
            PACK_COLD_V     | PACK_COOL               | 10.5  | 9.5   | 12.5  | 13.5
            PACK_COLD_V     | PACK_TOO_COLD           | 0.5   | -0.5  | 2.5   | 3.5
            CHARGER_TEMP_V  | CHARGER_OVERHEATED      | 74.5  | 75.5  | 72.5  | 71.5
            """)
    void limit_passedAndTakenBack_holdsForTheHysteresis(
            Signal sensor, Fact fact, double wellC, double badC, double staysC, double goneC) {
        assertEquals(false, at(sensor, wellC, fact), "just on the good side");
        assertEquals(true, at(sensor, badC, fact), "just beyond");
        assertEquals(true, at(sensor, staysC, fact), "not yet 3 K back");
        assertEquals(false, at(sensor, goneC, fact), "more than 3 K back");
        assertEquals(false, at(sensor, wellC, fact), "and on the good side again it is not bad by itself");
    }

    private boolean at(Signal sensor, double celsius, Fact fact) {
        return rig.celsius(sensor, celsius).runMs(LONG_MS).is(fact);
    }

    @Test
    void packPlacesApart_coldIsJudgedByTheColdSensorAndWarmByTheWarmOne() {
        rig.celsius(Signal.PACK_HOT_V, 30).celsius(Signal.PACK_COLD_V, -5).runMs(LONG_MS);
        assertEquals(true, rig.is(Fact.PACK_COOL));
        assertEquals(true, rig.is(Fact.PACK_TOO_COLD));
        assertEquals(false, rig.is(Fact.PACK_WARM) || rig.is(Fact.PACK_TOO_WARM_TO_CHARGE));

        rig.celsius(Signal.PACK_HOT_V, 56).celsius(Signal.PACK_COLD_V, 30).runMs(LONG_MS);
        assertEquals(false, rig.is(Fact.PACK_COOL) || rig.is(Fact.PACK_TOO_COLD));
        assertEquals(true, rig.is(Fact.PACK_WARM) && rig.is(Fact.PACK_TOO_WARM_TO_CHARGE));
        assertEquals(true, rig.is(Fact.PACK_OVERHEATED));

        rig.celsius(Signal.PACK_HOT_V, 5).celsius(Signal.PACK_COLD_V, 30).runMs(LONG_MS);
        assertEquals(false, rig.is(Fact.PACK_COOL), "swapped wires: the sensor of the cold place decides about cold");
    }

    /** In winter a stopped pump shows early: the inverter is cool, and the coolant is far colder. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            INVERTER_C | COOLANT_C | LOST  | BECAUSE
            14.5       | -10       | false | less than coolant.lag_k above the coolant
            15.5       | -10       | true  | more
            """)
    void coolantBelowZero_pumpStopped_isFound(double inverterC, double coolantC, boolean lost, String because) {
        rig.celsius(Signal.INVERTER_TEMP_V, inverterC)
                .celsius(Signal.COOLANT_TEMP_V, coolantC)
                .runMs(LONG_MS);
        assertEquals(lost, rig.is(Fact.COOLING_LOST), because);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            COLD_C | TOO_COLD | BECAUSE
            -4.5   | false    | above pack.cold_c
            -5.5   | true     | below it
            """)
    void packBelowZero_isTooColdBelowItsOwnLimit(double coldC, boolean tooCold, String because) {
        Rig winter = new Rig(TestVehicle.full().with(Parameter.PACK_COLD_C, -5));
        winter.celsius(Signal.PACK_COLD_V, coldC).runMs(LONG_MS);
        assertEquals(tooCold, winter.is(Fact.PACK_TOO_COLD), because);
    }
}
