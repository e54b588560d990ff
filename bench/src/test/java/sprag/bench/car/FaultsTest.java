package sprag.bench.car;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.car.simulation.Driven;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.Samples;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** Names of faults, and what each kind does to a wire. */
class FaultsTest {
    private static final Vehicle VAN = Driven.shipped("parcel-van").with(CarParameter.SENSORS_NOISE, 0);

    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void everyFault_ofAVehicle_hasItsOwnNameAndIsReadBack(String name) {
        Vehicle vehicle = Driven.shipped(name);
        List<FaultSpec> all = FaultSpec.all(vehicle);
        Set<String> names = all.stream().map(FaultSpec::name).collect(Collectors.toSet());
        assertEquals(all.size(), names.size());
        for (FaultSpec fault : all) {
            assertEquals(fault, FaultSpec.parse(fault.toString(), vehicle));
        }
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource({
        "pump.stopped, true",
        "cell.high=0.2, true",
        "pedal_b_v.open, true",
        "heartbeat.stuck_on, true",
        "pump.stoped, false",
        "key_on.short_low, false"
    })
    void name_ofAnyVehicle_isToldFromASlip(String written, boolean exists) {
        assertEquals(exists, FaultSpec.exists(written));
    }

    @Test
    void aCart_withoutSecondTrack_hasNoFaultOfIt() {
        List<String> names = FaultSpec.all(Driven.shipped("yard-cart")).stream()
                .map(FaultSpec::name)
                .toList();
        assertTrue(names.contains("pedal_a_v.open"));
        assertTrue(names.stream().noneMatch(n -> n.startsWith("pedal_b_v") || n.startsWith("charger_2")));
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        WRITTEN                       | MESSAGE
        bus_voltage_v.bais            | Did you mean bus_voltage_v.bias?
        positive_contactor.weldet     | Did you mean positive_contactor.welded?
        bus_voltage_v.bias=much       | bus_voltage_v.bias = "much" is not a number
        bus_voltage_v.open=3          | takes no magnitude
        key_on.delay=0                | outside 1..60000
        coolant_temp_v.open           | is no fault of parcel-van
        """)
    void wrongName_read_saysWhatWasMeant(String written, String message) {
        var refusal = assertThrows(IllegalArgumentException.class, () -> FaultSpec.parse(written, VAN));
        assertTrue(refusal.getMessage().contains(message), refusal.getMessage());
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        FAULT                    | SIGNAL           | SHOWS | BECAUSE
        pedal_a_v.open           | PEDAL_A_V        | 5     | pulled up on the board
        pedal_a_v.short_low      | PEDAL_A_V        | 0     | ground
        pedal_a_v.short_high     | PEDAL_A_V        | 5     | supply
        pedal_a_v.bias=0.3       | PEDAL_A_V        | 1.2   | 0.9 V released and 0.3 V more
        pack_hot_v.open          | PACK_HOT_V       | 5     | pulled up: colder than cold
        pack_voltage_v.open      | PACK_VOLTAGE_V   | 0     | the divider gives nothing
        cut_loop_closed.open     | CUT_LOOP_CLOSED  | 0     | a broken loop is an open loop
        key_on.short_high        | KEY_ON           | 1     | on for ever
        pack_voltage_v.stale     | PACK_VOLTAGE_V   | NaN   | no sample at all
        battery_monitor.silent   | CELL_MAX_V       | NaN   | the monitor samples its cells no more
        battery_monitor.silent   | CHARGE_PERMIT    | 0     | and its permits drop
        link.lost                | KEY_ON           | NaN   | nothing arrives
        """)
    void faulty_wire_shows(String fault, Signal signal, double shows, String because) {
        Driven van = new Driven(VAN).runS(0.1);
        van.car.faults().inject(FaultSpec.parse(fault, VAN));
        van.runS(0.1);
        assertEquals(shows, van.reads(signal), 1e-9, because);
        van.car.faults().clear();
        van.runS(0.1);
        assertNotEquals(shows, van.reads(signal), "repaired");
    }

    @Test
    void stuck_truthMoves_showsWhatItShowed() {
        Driven van = new Driven(VAN).set(Lever.PEDAL, 0.5).runS(0.1);
        van.car.faults().inject(FaultSpec.parse("pedal_a_v.stuck", VAN));
        double held = van.reads(Signal.PEDAL_A_V);
        van.set(Lever.PEDAL, 1).runS(0.1);
        assertEquals(held, van.reads(Signal.PEDAL_A_V));
    }

    @Test
    void delayed_stepOfThePedal_comesLaterByTheMagnitude() {
        Driven van = new Driven(VAN);
        van.car.faults().inject(FaultSpec.parse("pedal_a_v.delay=200", VAN));
        van.runS(0.5, t -> van.sample());
        van.set(Lever.PEDAL, 1);
        Samples samples = new Samples();
        int ticks = 0;
        while (!(samples.get(Signal.PEDAL_A_V) > 4)) {
            van.tick();
            van.car.sample(samples, 0);
            ticks++;
        }
        assertEquals(20, ticks, 1, "200 ms");
    }

    @Test
    void intermittent_overManyPeriods_brokenHalfOfTheTime() {
        Driven van = new Driven(VAN).set(Lever.KEY, 1);
        van.car.faults().inject(FaultSpec.parse("key_on.intermittent=200", VAN));
        double[] on = {0};
        van.runS(10, t -> on[0] += van.reads(Signal.KEY_ON));
        assertEquals(500, on[0], 1);
    }

    @Test
    void noise_onASignal_staysInsideItsMagnitudeAndMoves() {
        Driven van = new Driven(VAN);
        van.car.faults().inject(FaultSpec.parse("pedal_a_v.noise=0.4", VAN));
        double[] range = {9, 0};
        van.runS(10, t -> {
            double shows = van.reads(Signal.PEDAL_A_V);
            range[0] = Math.min(range[0], shows);
            range[1] = Math.max(range[1], shows);
        });
        assertTrue(range[0] > 0.5 && range[0] < 0.51, "least " + range[0]);
        assertTrue(range[1] < 1.3 && range[1] > 1.29, "greatest " + range[1]);
    }

    @Test
    void outputs_stuckAndLate_driveWhatTheyDrive() {
        Driven van = new Driven(VAN);
        van.car.faults().inject(FaultSpec.parse("negative_contactor.stuck_on", VAN));
        van.runS(0.1);
        assertEquals(1, van.truth(Quantity.NEGATIVE_CLOSED));
        van.car.faults().clear();
        van.car.faults().inject(FaultSpec.parse("negative_contactor.stuck_off", VAN));
        van.on(Output.NEGATIVE_CONTACTOR).runS(0.1);
        assertEquals(0, van.truth(Quantity.NEGATIVE_CLOSED));
        van.car.faults().clear();
        van.runS(0.1);
        van.car.faults().inject(FaultSpec.parse("negative_contactor.delay=300", VAN));
        van.runS(0.1).off(Output.NEGATIVE_CONTACTOR).runS(0.29);
        assertEquals(1, van.truth(Quantity.NEGATIVE_CLOSED));
        van.runS(0.05);
        assertEquals(0, van.truth(Quantity.NEGATIVE_CLOSED));
    }

    @Test
    void linkLost_boardLetsGoByItself() {
        Driven van = new Driven(VAN).on(Output.NEGATIVE_CONTACTOR).runS(0.2).inject(PartFault.LINK_LOST);
        van.runS(0.4);
        assertEquals(1, van.truth(Quantity.NEGATIVE_CLOSED), "the outputs stand for 500 ms");
        van.runS(0.2);
        assertEquals(0, van.truth(Quantity.NEGATIVE_CLOSED));
        assertTrue(!van.car.health().isWell());
    }

    @Test
    void beatStopped_watchdogRelay_opensTheContactors() {
        Driven coupe = Driven.of("coupe").connect();
        assertEquals(1, coupe.truth(Quantity.POSITIVE_CLOSED));
        coupe.car.advance(0.09);
        assertEquals(1, coupe.truth(Quantity.POSITIVE_CLOSED), "90 ms without a beat");
        coupe.car.advance(0.06);
        assertEquals(0, coupe.truth(Quantity.POSITIVE_CLOSED), "the relay lets go after 100 ms");
    }

    @Test
    void supplyDip_contactorsDropAndComeBack() {
        Driven van = new Driven(VAN).connect().inject(PartFault.LV_DIP, 8).runS(0.1);
        assertEquals(0, van.truth(Quantity.POSITIVE_CLOSED));
        van.car.faults().clear();
        van.runS(0.2);
        assertEquals(1, van.truth(Quantity.POSITIVE_CLOSED));
    }

    @Test
    void lowCell_monitor_withdrawsDischargeAfterItsDelay() {
        Driven van = new Driven(VAN).runS(1).inject(PartFault.CELL_LOW, 1).runS(0.3);
        assertEquals(1, van.reads(Signal.DISCHARGE_PERMIT), "500 ms are not over");
        van.runS(0.3);
        assertEquals(0, van.reads(Signal.DISCHARGE_PERMIT));
        assertEquals(1, van.reads(Signal.CHARGE_PERMIT), "charging would help");
    }
}
