package sprag.bench.evidence.campaign.play;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;

/** How far a reading must be from that of the sound run to count as different: both sides of each threshold. */
class DifferenceThresholdsTest {
    private Vehicle van;
    private final Readings now = new Readings();
    private final Readings then = new Readings();

    @BeforeEach
    void read() throws Exception {
        van = VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
    }

    private boolean differs(Signal signal, double reading, double sound) {
        now.clear();
        then.clear();
        now.set(signal, reading);
        then.set(signal, sound);
        return new DifferenceThresholds(van).differs(now, then);
    }

    @ParameterizedTest
    @CsvSource({
        "PACK_VOLTAGE_V, PACK_MAX_V, 0.02",
        "BUS_VOLTAGE_V, PACK_MAX_V, 0.02",
        "PACK_CURRENT_A, PACK_DISCHARGE_MAX_A, 0.02",
        "CHARGER_2_CURRENT_A, CHARGE_CURRENT_A, 0.02",
        "MOTOR_SPEED_RPM, MOTOR_MAX_RPM, 0.02",
        "LV_SUPPLY_V, LV_LOW_V, 0.02"
    })
    void quantity_differsByMoreThanItsShareOfTheWhole(Signal signal, Parameter whole, double share) {
        double most = van.get(whole) * share;
        assertFalse(differs(signal, 10 + most * 0.999, 10));
        assertTrue(differs(signal, 10 + most * 1.001, 10));
        assertTrue(differs(signal, 10 - most * 1.001, 10), "downwards too");
    }

    @ParameterizedTest
    @CsvSource({
        "CELL_MAX_V, 0.02, of a cell",
        "PILOT_DUTY, 0.02, of the duty",
        "PILOT_PEAK_V, 1, the pilot has steps of 3 V",
        "PEDAL_A_V, 0.05, of a thin wire",
        "MOTOR_TEMP_V, 0.05, of a thin wire"
    })
    void quantity_differsByMoreThanItsStep(Signal signal, double step, String because) {
        assertFalse(differs(signal, 1 + step * 0.999, 1), because);
        assertTrue(differs(signal, 1 + step * 1.001, 1), because);
    }

    @Test
    void insulation_differsByWhatIsAskedOfTheWholePack() {
        double kohm = van.get(Parameter.PACK_MAX_V) * van.get(Parameter.ISOLATION_MIN_OHM_PER_V) / 1000;
        assertFalse(differs(Signal.ISOLATION_KOHM, 500 + kohm * 0.999, 500));
        assertTrue(differs(Signal.ISOLATION_KOHM, 500 + kohm * 1.001, 500));
    }

    @ParameterizedTest
    @EnumSource(Signal.class)
    void anySignal_lostOrFound_differs_andUnknownInBothDoesNot(Signal signal) {
        assertTrue(differs(signal, Double.NaN, 1));
        assertTrue(differs(signal, 1, Double.NaN));
        assertFalse(differs(signal, Double.NaN, Double.NaN));
        assertFalse(differs(signal, 1, 1));
        assertEquals(signal.isSwitch(), differs(signal, 0, 0.01), "a switch has no step");
    }

    /** The signal that differed last is asked first; another one is found all the same. */
    @Test
    void otherSignal_afterOneThatDiffered_isFoundToo() {
        DifferenceThresholds thresholds = new DifferenceThresholds(van);
        now.set(Signal.KEY_ON, 1);
        then.set(Signal.KEY_ON, 0);
        assertTrue(thresholds.differs(now, then));
        assertTrue(thresholds.differs(now, then));
        now.set(Signal.KEY_ON, 0);
        assertFalse(thresholds.differs(now, then));
        now.set(Signal.PEDAL_A_V, 1);
        assertTrue(thresholds.differs(now, then));
    }
}
