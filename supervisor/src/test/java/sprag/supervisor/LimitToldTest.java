package sprag.supervisor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/** Each limit whose cause is there is told, although Logic stops at the first row that acts. */
@DisplayName("H09, H14: a sensor that is lost while something else limits already")
class LimitToldTest {
    private static final double COOL_C = 5;

    private static Rig cool(State state) {
        Rig rig = new Rig().at(state).celsius(Signal.PACK_COLD_V, COOL_C).celsius(Signal.PACK_HOT_V, COOL_C);
        return rig.runMs(2_500);
    }

    @ParameterizedTest(name = "{0} at {1} V: {2}")
    @CsvSource({
        "PACK_HOT_V,  5,    PACK_SENSOR_LOST, no pull-down left",
        "PACK_HOT_V,  0,    PACK_SENSOR_LOST, shorted to ground",
        "PACK_HOT_V,  NaN,  PACK_SENSOR_LOST, unknown",
        "CELL_MAX_V,  NaN,  MONITOR_SILENT,   unknown",
        "CELL_MIN_V,  NaN,  MONITOR_SILENT,   unknown",
        "CELL_MAX_V,  4.18, PACK_FULL,        nearly full",
        "CHARGE_PERMIT, 0,  CHARGE_WITHDRAWN, the monitor takes no more",
        "MOTOR_TEMP_V, NaN, DRIVE_SENSOR_LOST, unknown",
        "COOLANT_TEMP_V, 5, DRIVE_SENSOR_LOST, open"
    })
    void drivingInTheCold_anotherLimitComes_bothAreTold(Signal signal, double reading, Interlock row, String because) {
        Rig rig = cool(State.DRIVE_ENABLE);
        assertTrue(rig.acts(Interlock.PACK_COOL));
        assertFalse(rig.acts(row));
        rig.given(signal, reading).runMs(3_000);
        assertEquals(State.DRIVE_ENABLE, rig.state(), because);
        assertTrue(rig.acts(Interlock.PACK_COOL), because);
        assertTrue(rig.acts(row), because);
        assertEquals(1, rig.times(row), because);
    }

    /** The cold thermistor is the one that says cool: without it nothing else hides that it is lost. */
    @Test
    void drivingInTheCold_coldThermistorIsLost_isTold() {
        Rig rig = cool(State.DRIVE_ENABLE).given(Signal.PACK_COLD_V, 5).runMs(3_000);
        assertTrue(rig.acts(Interlock.PACK_SENSOR_LOST));
    }

    @Test
    void limitTakenOut_causeIsThere_isNotTold() {
        Rig rig = new Rig(TestVehicle.full(), EnumSet.of(Interlock.PACK_SENSOR_LOST)).at(State.DRIVE_ENABLE);
        rig.celsius(Signal.PACK_COLD_V, COOL_C).given(Signal.PACK_HOT_V, 5).runMs(3_000);
        assertTrue(rig.acts(Interlock.PACK_COOL));
        assertEquals(0, rig.times(Interlock.PACK_SENSOR_LOST));
    }

    /** The pedal is not believed: no torque at all. What else would take torque is told all the same. */
    @Test
    void torqueTaken_limitIsThereToo_bothAreTold() {
        Rig rig = cool(State.DRIVE_ENABLE).given(Signal.PEDAL_A_V, 0).runMs(500);
        assertTrue(rig.acts(Interlock.PEDAL_OUT_OF_RANGE));
        assertTrue(rig.acts(Interlock.PACK_COOL));
        assertEquals(0, rig.torqueNm());
    }

    @Test
    void limitOfAnotherState_causeIsThere_isNotTold() {
        Rig rig = cool(State.IGNITION).given(Signal.PACK_HOT_V, 5).runMs(3_000);
        assertTrue(rig.supervisor.diagnostics().isActive(Interlock.PACK_SENSOR_LOST));
        assertEquals(0, rig.times(Interlock.PACK_SENSOR_LOST));
    }

    @Test
    void chargingInTheCold_cellNearlyFull_bothAreTold() {
        Rig rig = cool(State.CHARGE_LOCKOUT).given(Signal.CELL_MAX_V, 4.18).runMs(3_000);
        assertEquals(State.CHARGE_LOCKOUT, rig.state());
        assertTrue(rig.acts(Interlock.PACK_COOL));
        assertTrue(rig.acts(Interlock.PACK_FULL));
    }

    /** Every row that limits while driving: provoked beside a warm motor, or beside a cool pack. */
    @Test
    void everyLimitWhileDriving_besideAnother_isTold() {
        List<String> silent = new ArrayList<>();
        for (Provocation p : Provocation.values()) {
            if (p.row.response == Response.LIMIT && p.row.where.contains(State.DRIVE_ENABLE)) {
                Rig rig = new Rig(p.settings()).at(State.DRIVE_ENABLE).speedKph(40);
                boolean ofCold = p.row == Interlock.PACK_COOL || p == Provocation.PACK_SENSOR_OPEN;
                rig.celsius(ofCold ? Signal.MOTOR_TEMP_V : Signal.PACK_COLD_V, ofCold ? 115 : COOL_C);
                rig.runMs(2_500);
                p.setter.set(rig, p.bad);
                rig.runMs(p.row == Interlock.OVERSPEED ? 100 : 3_000);
                if (!rig.acts(p.row) || !rig.acts(ofCold ? Interlock.MOTOR_WARM : Interlock.PACK_COOL)) {
                    silent.add(p + " " + rig.state());
                }
            }
        }
        assertEquals(List.of(), silent);
    }
}
