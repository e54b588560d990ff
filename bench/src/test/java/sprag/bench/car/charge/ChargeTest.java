package sprag.bench.car.charge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import sprag.bench.car.Lever;
import sprag.bench.car.PartFault;
import sprag.bench.car.Quantity;
import sprag.bench.car.simulation.Driven;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;

/** Chargers on their inlet, without a supervisor. */
class ChargeTest {
    private static Driven van(double soc) {
        return Driven.of("parcel-van")
                .set(Lever.SOC, soc)
                .set(Lever.PLUG, 1)
                .on(Output.DCDC_ENABLE)
                .runS(2)
                .charge();
    }

    private static double both(Driven van) {
        return van.truth(Quantity.CHARGER_1_CURRENT_A) + van.truth(Quantity.CHARGER_2_CURRENT_A);
    }

    @Test
    void emptyPack_charged_constantCurrentThenConstantVoltage() {
        Driven van = van(0.3).runS(60);
        assertEquals(60, both(van), 1e-6, "constant current");
        van.set(Lever.SOC, 0.99).runS(1500);
        assertEquals(105, van.truth(Quantity.PACK_VOLTAGE_V), 0.05, "held at the limit");
        double tapering = both(van);
        assertTrue(tapering < 40, "tapering, " + tapering + " A");
        van.runS(600);
        assertTrue(both(van) < tapering);
        assertEquals(105, van.truth(Quantity.PACK_VOLTAGE_V), 0.05);
    }

    /** S2: a sheet's coulomb count, 50 % plus 20 A for an hour into 100 Ah; all of it is stored here. */
    @Test
    void anHour_charged_chargeIsCounted() {
        Driven cart = Driven.of("yard-cart")
                .set(Lever.SOC, 0.5)
                .set(Lever.PLUG, 1)
                .runS(2)
                .charge()
                .runS(5);
        double before = cart.truth(Quantity.SOC);
        cart.runS(3600);
        assertEquals(before + 18.0 / 100, cart.truth(Quantity.SOC), 1e-3);
    }

    @Test
    void mainsComing_current_rampsAfterTheStart() {
        Driven van = van(0.3);
        while (van.truth(Quantity.STATION_CLOSED) == 0) {
            van.tick();
        }
        van.runS(0.37);
        assertEquals(0, both(van), "400 ms from mains to the first current");
        van.runS(0.53);
        assertEquals(20, both(van), 0.9, "half a second later, two chargers at 20 A/s each");
    }

    @Test
    void twoEqualChargers_atTheVoltageLimit_shareTheTaper() {
        Driven van = van(0.3).runS(60);
        van.set(Lever.SOC, 0.99).runS(400);
        assertEquals(105, van.truth(Quantity.PACK_VOLTAGE_V), 0.05, "held at the limit");
        assertTrue(both(van) > 1, both(van) + " A");
        assertEquals(van.truth(Quantity.CHARGER_1_CURRENT_A), van.truth(Quantity.CHARGER_2_CURRENT_A), 0.1);
    }

    /** The charger holds the bus alone then; its own cut-off is a tenth above the greatest voltage of the pack. */
    @Test
    void fuseOpens_whileABusSideChargerDelivers_busStaysBelowTheChargersOwnCutOff() {
        Driven coupe = Driven.of("coupe").set(Lever.SOC, 0.5).connect();
        coupe.set(Lever.PLUG, 1).runS(2).charge().runS(20);
        double givenA = coupe.truth(Quantity.CHARGER_1_CURRENT_A);
        assertTrue(givenA > 5, givenA + " A");
        double cutOffV = 1.1 * coupe.vehicle.get(Parameter.PACK_MAX_V);
        coupe.inject(PartFault.FUSE_BLOWN).runS(2, t -> {
            double busV = coupe.truth(Quantity.BUS_VOLTAGE_V);
            assertTrue(busV < cutOffV + 1, () -> busV + " V on the bus " + t + " s after");
        });
        assertEquals(1, coupe.truth(Quantity.FUSE_BLOWN));
        assertTrue(coupe.truth(Quantity.CHARGER_1_CURRENT_A) < 1, "what the bleed resistor takes at the most");
    }

    @Test
    void power_shared_staysInsideEachCharger() {
        Driven van = van(0.9);
        van.set(Output.CHARGER_1_LIMIT_A, 100).set(Output.CHARGER_2_LIMIT_A, 10).runS(30);
        assertEquals(3300, van.truth(Quantity.CHARGER_1_CURRENT_A) * van.truth(Quantity.PACK_VOLTAGE_V), 20);
        assertEquals(10, van.truth(Quantity.CHARGER_2_CURRENT_A), 1e-6);
    }

    @Test
    void plugPulled_atFullCurrent_currentDiesAndTheArcIsRemembered() {
        Driven van = van(0.3).runS(60);
        double ac = van.truth(Quantity.AC_CURRENT_A);
        van.set(Lever.PLUG, 0).runS(0.03);
        assertEquals(0, both(van));
        assertEquals(ac, van.truth(Quantity.PLUG_ARC_A), 1e-9);
    }

    @Test
    void currentEnded_thenPulled_noArc() {
        Driven van = van(0.3).runS(60);
        van.set(Output.CHARGER_1_LIMIT_A, 0).set(Output.CHARGER_2_LIMIT_A, 0).runS(0.1);
        van.set(Lever.PLUG, 0).runS(0.03);
        assertEquals(0, van.truth(Quantity.PLUG_ARC_A));
    }

    @Test
    void firstDead_second_goesOnAlone() {
        Driven van = van(0.3).inject(PartFault.CHARGER_1_DEAD).runS(60);
        assertEquals(0, van.truth(Quantity.CHARGER_1_CURRENT_A));
        assertEquals(30, van.truth(Quantity.CHARGER_2_CURRENT_A), 1e-6);
        assertEquals(0, van.reads(sprag.supervisor.vocabulary.Signal.CHARGER_1_OK));
        assertEquals(1, van.reads(sprag.supervisor.vocabulary.Signal.CHARGER_2_OK));
    }

    @Test
    void ignoringItsLimit_notEnabled_deliversWhileThereAreMains() {
        Driven van = van(0.3).inject(PartFault.CHARGER_2_IGNORES_LIMIT).runS(60);
        assertTrue(van.truth(Quantity.CHARGER_2_CURRENT_A) > 32, "all it has");
        van.set(Output.CHARGER_2_LIMIT_A, 0).runS(10);
        assertTrue(van.truth(Quantity.CHARGER_2_CURRENT_A) > 32, "whatever its limit");
        van.off(Output.CHARGER_ENABLE).runS(1);
        assertEquals(0, van.truth(Quantity.CHARGER_2_CURRENT_A), "until the station opens");
    }

    @Test
    void overshooting_nearFull_passesTheVoltageLimit() {
        Driven van = van(0.99).inject(PartFault.CHARGER_1_OVERSHOOT, 3).runS(1800);
        assertTrue(van.truth(Quantity.PACK_VOLTAGE_V) > 106, van.truth(Quantity.PACK_VOLTAGE_V) + " V");
    }

    @Test
    void lagging_limitLowered_followsLater() {
        Driven van = van(0.3).inject(PartFault.CHARGER_1_LAG, 2000).runS(60);
        van.set(Output.CHARGER_1_LIMIT_A, 5).set(Output.CHARGER_2_LIMIT_A, 5).runS(1.9);
        assertEquals(30, van.truth(Quantity.CHARGER_1_CURRENT_A), 1e-6);
        assertEquals(5, van.truth(Quantity.CHARGER_2_CURRENT_A), 1e-6);
        van.runS(0.2);
        assertEquals(5, van.truth(Quantity.CHARGER_1_CURRENT_A), 1e-6);
    }

    @Test
    void derated_asksForAll_givesItsShare() {
        Driven van = van(0.3).inject(PartFault.CHARGER_1_DERATED, 0.5).runS(60);
        assertEquals(1650, van.truth(Quantity.CHARGER_1_CURRENT_A) * van.truth(Quantity.PACK_VOLTAGE_V), 10);
    }

    @Test
    void busSide_contactorsOpen_chargerHoldsTheBusAtItsLimit() {
        Driven coupe = Driven.of("coupe").set(Lever.PLUG, 1).runS(2).charge().runS(20);
        assertEquals(coupe.vehicle.get(Parameter.CHARGE_VOLTAGE_V), coupe.truth(Quantity.BUS_VOLTAGE_V), 1);
        assertEquals(0, coupe.truth(Quantity.PACK_CURRENT_A), "nothing reaches the pack");
    }

    @Test
    void stationThrottling_offer_fallsAgainAndAgain() {
        Driven van = van(0.3).inject(PartFault.STATION_THROTTLES, 0.5).runS(5);
        assertEquals(16, van.truth(Quantity.CABLE_LIMIT_A), 1e-9);
        van.runS(10);
        assertEquals(8, van.truth(Quantity.CABLE_LIMIT_A), 1e-9);
    }
}
