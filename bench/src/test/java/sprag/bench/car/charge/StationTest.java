package sprag.bench.car.charge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.car.Lever;
import sprag.bench.car.PartFault;
import sprag.bench.car.Quantity;
import sprag.bench.car.simulation.Driven;
import sprag.bench.car.simulation.Sensors;
import sprag.bench.vehicle.CarParameter;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** Pilot and proximity against published values, the station as a machine of its own. */
class StationTest {
    /** Levels from 12 V, 1 kohm and a diode; nominal 9, 6 and 3 V within 1 V (Siemens A5E42681298B, table 3-2). */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        READY | VENTILATION | OHM    | VOLT  | NOMINAL | BECAUSE
        false | false       | 2740   | 8.979 | 9       | state B (TI TIDUF04, table 2-3)
        true  | false       | 881.68 | 5.995 | 6       | state C, 1.3 kohm beside 2.74 kohm
        true  | true        | 245.78 | 2.929 | 3       | state D, 270 ohm beside 2.74 kohm
        """)
    void carsResistance_givesTheLevel(
            boolean ready, boolean ventilation, double ohm, double volt, double nominal, String because) {
        assertEquals(ohm, Station.carOhm(ready, ventilation), 0.01, because);
        assertEquals(volt, Station.levelV(Station.carOhm(ready, ventilation)), 0.001, because);
        assertEquals(nominal, Station.levelV(Station.carOhm(ready, ventilation)), 1, because);
    }

    /** Fluke FEV300 manual, table 4, which quotes IEC 61851-1: 0.6 A a percent to 85 %, then 2.5 A a percent above 64 %. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource({
        "6, 0.10",
        "12, 0.20",
        "16, 0.266667",
        "30, 0.50",
        "48, 0.80",
        "51, 0.85",
        "51.5, 0.85",
        "65, 0.90",
        "80, 0.96"
    })
    void offeredCurrent_becomesItsDuty(double ampere, double duty) {
        assertEquals(duty, Station.dutyFor(ampere), 1e-6);
    }

    @Test
    void lessThanSixAmpere_offered_pilotIsSteady() {
        assertEquals(1, Station.dutyFor(5.9));
    }

    /** Type 2 coding: Siemens A5E42681298B, table 3-3. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource({"13, 1500", "20, 680", "32, 220", "63, 100"})
    void typeTwoCable_codesItsRating(double ampere, double ohm) {
        assertEquals(ohm, Sensors.cableOhm(ampere));
        Driven coupe = new Driven(quiet("coupe"));
        coupe.set(Lever.PLUG, 1).set(Lever.CABLE_A, ampere).runS(0.1);
        double parallel = 2700 * ohm / (2700 + ohm);
        assertEquals(5 * parallel / (330 + parallel), coupe.reads(Signal.PROXIMITY_V), 1e-9);
    }

    /** Type 1: 4.46 V unplugged and 1.53 V latched as printed by the solar car team of Waterloo; pressed from memory. */
    @Test
    void typeOnePlug_unpluggedLatchedPressed_asPublished() {
        Driven van = new Driven(quiet("parcel-van"));
        van.runS(0.1);
        assertEquals(4.46, van.reads(Signal.PROXIMITY_V), 0.03);
        van.set(Lever.PLUG, 1).runS(0.1);
        assertEquals(1.53, van.reads(Signal.PROXIMITY_V), 0.03);
        van.set(Lever.LATCH, 1).runS(0.1);
        assertEquals(5 * 407.547 / (330 + 407.547), van.reads(Signal.PROXIMITY_V), 1e-3, "480 ohm beside 2.7 kohm");
    }

    private static sprag.bench.vehicle.Vehicle quiet(String name) {
        return Driven.shipped(name).with(CarParameter.SENSORS_NOISE, 0);
    }

    private static Driven plugged() {
        return new Driven(quiet("coupe")).set(Lever.PLUG, 1).set(Lever.STATION_LIMIT_A, 24);
    }

    @Test
    void plugged_beforeAndAfterTheStationsStart_steadyThenDuty() {
        Driven coupe = plugged().runS(0.5);
        assertEquals(8.979, coupe.reads(Signal.PILOT_PEAK_V), 0.001);
        assertEquals(1, coupe.reads(Signal.PILOT_DUTY));
        coupe.runS(0.5);
        assertEquals(0.4, coupe.reads(Signal.PILOT_DUTY), 1e-9, "24 A");
        assertEquals(1, coupe.truth(Quantity.PILOT_STATE), "B");
    }

    @Test
    void unplugged_pilot_isDead() {
        Driven coupe = new Driven(quiet("coupe")).runS(1);
        assertEquals(0, coupe.reads(Signal.PILOT_PEAK_V));
        assertEquals(0, coupe.reads(Signal.PILOT_DUTY));
    }

    /** At most 3 s from request to mains, at most 100 ms from its end to dead: from memory of IEC 61851-1. */
    @Test
    void asked_mainsComeAndGoInTime() {
        Driven coupe = plugged().runS(2);
        assertEquals(0, coupe.truth(Quantity.STATION_CLOSED), "nobody asked");
        coupe.on(Output.CHARGER_ENABLE).runS(3);
        assertEquals(1, coupe.truth(Quantity.STATION_CLOSED));
        assertEquals(5.995, coupe.reads(Signal.PILOT_PEAK_V), 0.001);
        coupe.off(Output.CHARGER_ENABLE).runS(0.1);
        assertEquals(0, coupe.truth(Quantity.STATION_CLOSED));
    }

    @Test
    void pulled_whileMainsAreOn_deadInTheSameTick() {
        Driven coupe =
                plugged().on(Output.CHARGER_ENABLE).runS(4).set(Lever.PLUG, 0).runS(0.02);
        assertEquals(0, coupe.truth(Quantity.STATION_CLOSED));
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        FAULT                   | LETTER | MAINS | BECAUSE
        STATION_REFUSES         | 5      | 0     | -12 V: not available
        STATION_SILENT          | 0      | 0     | nothing on the pilot
        PILOT_SHORTED           | 4      | 0     | shorted to earth
        PILOT_BROKEN            | 0      | 0     | the station sees no car
        PILOT_DIODE_SHORTED     | 2      | 0     | the station takes it for no car and offers nothing
        PILOT_ASKS_VENTILATION  | 3      | 0     | a station without ventilation does not serve state D
        STATION_STUCK_CLOSED    | 2      | 1     | mains
        """)
    void asked_withAFault_mains(PartFault fault, double letter, double mains, String because) {
        Driven coupe = plugged().inject(fault).on(Output.CHARGER_ENABLE).runS(5);
        if (fault != PartFault.STATION_SILENT) {
            assertEquals(letter, coupe.truth(Quantity.PILOT_STATE), because);
        }
        assertEquals(mains, coupe.truth(Quantity.STATION_CLOSED), because);
    }

    @Test
    void offerWithdrawn_carStillAsks_mainsEndAfterTheGrace() {
        Driven coupe = plugged().on(Output.CHARGER_ENABLE).runS(4);
        coupe.set(Lever.STATION_LIMIT_A, 5).runS(2.9);
        assertEquals(1, coupe.truth(Quantity.STATION_CLOSED), "the car has 3 s");
        coupe.runS(0.2);
        assertEquals(0, coupe.truth(Quantity.STATION_CLOSED));
    }

    @Test
    void tooMuchDrawn_forTheStationsPatience_tripsUntilUnplugged() {
        Driven van = new Driven(quiet("parcel-van"))
                .set(Lever.SOC, 0.3)
                .set(Lever.PLUG, 1)
                .set(Lever.STATION_LIMIT_A, 10)
                .runS(2)
                .charge()
                .runS(6);
        assertEquals(1, van.truth(Quantity.STATION_CLOSED), "28 A of 10 A, for less than 5 s");
        van.runS(4);
        assertEquals(0, van.truth(Quantity.STATION_CLOSED));
        assertEquals(5, van.truth(Quantity.PILOT_STATE), "F");
        van.set(Lever.PLUG, 0).runS(1).set(Lever.PLUG, 1).runS(2);
        assertFalse(van.truth(Quantity.PILOT_STATE) == 5);
        assertTrue(van.reads(Signal.PILOT_DUTY) > 0);
    }
}
