package sprag.bench.review.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.review.sizing.Calculation;
import sprag.bench.review.sizing.SizingCheck;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.SizingParameter;
import sprag.bench.vehicle.Tolerance;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Row;

/** One value at a time is made wrong; the calculation that is about it must break, and just inside it must hold. */
class SizingMistakesTest {
    private static Row row(String key) {
        List<Row> rows = new java.util.ArrayList<>(List.of(Parameter.values()));
        rows.addAll(List.of(CarParameter.values()));
        rows.addAll(List.of(SizingParameter.values()));
        rows.addAll(List.of(Tolerance.values()));
        return rows.stream().filter(r -> r.key().equals(key)).findFirst().orElseThrow();
    }

    private static Calculation.Verdict verdict(Vehicle vehicle, String id) {
        return SizingCheck.calculations(vehicle).stream()
                .filter(c -> c.id().equals(id))
                .findFirst()
                .orElseThrow()
                .verdict();
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        VEHICLE    | KEY                          | GOOD   | BAD    | CALCULATION                    | BECAUSE
        parcel-van | precharge.timeout_ms         | 815    | 805    | precharge-time                 | 0.77 s, 19 ms for the relay, two samples
        parcel-van | tolerance.resistance         | 0.05   | 0.3    | precharge-time                 | the bleed holds the bus near the threshold
        parcel-van | precharge.fast_ms            | 350    | 360    | precharge-called-too-fast      | 0.76 of 0.46 s, the readings apart
        parcel-van | precharge.fast_ms            | 180    | 185    | precharge-restart-too-fast     | 60 V of 78 V are there already
        parcel-van | car.parts.bleed_ohm          | 2200   | 1400   | precharge-called-stalled       | the bleed holds the bus just above the threshold
        parcel-van | design.contacts.relay_breaks_a | 2.42 | 2.41   | precharge-peak-current         | 108 V across 47 ohm
        parcel-van | design.resistor.pulse_j      | 23.1   | 23     | precharge-pulse-energy         | 3960 uF at 108 V hold 23.1 J
        parcel-van | precharge.energy_j           | 400    | 401    | precharge-energy-budget        | the resistor stands 400 J
        parcel-van | precharge.energy_j           | 47     | 46     | precharge-attempts             | two charges are 46.2 J
        parcel-van | precharge.cooling_s          | 6      | 5      | precharge-repeated-heat        | 300 J every 5 s are 60 W
        parcel-van | precharge.stall_ms           | 1510   | 1530   | precharge-shorted-bus          | 261 W for 1.53 s are 400 J
        parcel-van | design.resistor.rated_v      | 108    | 107    | precharge-resistor-voltage     | a full pack
        parcel-van | car.parts.left_on_w          | 2.1    | 2.2    | precharge-load-left-on         | at most 2.1 W
        parcel-van | design.contacts.makes_a      | 440    | 420    | inrush-at-threshold            | 6.4 V across 15 mohm
        parcel-van | bus.bleed_ms                 | 5400   | 5350   | bus-bleed-down                 | 1.26 times 4.27 s to 60 V
        parcel-van | design.contacts.rated_v      | 130    | 129    | contactor-voltage              | the bus may come to 130 V
        parcel-van | design.contacts.carries_a    | 190    | 189    | contactor-carries              | 190 A lasting
        parcel-van | design.contacts.breaks_a     | 600    | 599    | contactor-breaks               | 1.2 times 500 A
        parcel-van | car.box.bounce_ms            | 22     | 23     | contactor-closes-in-time       | 18 ms and bounce, half as much again
        parcel-van | contactor.overlap_ms         | 33     | 32     | contactor-overlap              | 18 ms and 4 ms bounce, half as much again
        parcel-van | car.box.release_ms           | 33     | 34     | contactor-releases-in-time     | 50 ms allowed, half as much again
        parcel-van | car.box.pull_in_v            | 9.5    | 9.6    | coil-pulls-in                  | 1.2 times 9.5 V are 11.4 V
        parcel-van | car.box.hold_v               | 9      | 9.1    | coil-holds                     | 9 V is called lost
        parcel-van | design.cable.lasting_a       | 510    | 511    | main-cable-ampacity            | 4/0 at 200 C has 510 A
        parcel-van | design.cable.main_mm2        | 107.2  | 107.3  | main-cable-beyond-table        | 4/0 is 107.22 mm2
        parcel-van | design.cable.ambient_c       | 50     | 51     | cable-air-beyond-table         | note 1 is for 50 C
        parcel-van | design.cable.ambient_c       | 30     | 29     | cable-air-beyond-table         | the table is for 30 C
        coupe      | design.cable.main_mm2        | 73     | 72.8   | main-fuse-guards-cable         | 350 A at 150 C
        parcel-van | design.cable.main_length_m   | 40     | 41     | main-cable-drop                | 3 % of 96 V at 190 A
        parcel-van | car.box.fuse_a               | 510    | 511    | main-fuse-guards-cable         | the table ends at 4/0
        parcel-van | car.box.fuse_a               | 238    | 237    | main-fuse-carries-load         | 190 A are 80 % of 237.5 A
        parcel-van | pack.over_ms                 | 5000   | 5000   | main-fuse-outlasts-trip        | 600 A melt it in 100 s
        parcel-van | design.fuse.rated_v          | 108    | 107    | main-fuse-voltage              | a full pack
        parcel-van | design.fuse.breaks_a         | 8000   | 7999   | main-fuse-breaking-capacity    | 108 V across 13.5 mohm
        parcel-van | design.fuse.point_3_s        | 10     | 13     | main-fuse-saves-cable          | the cable stands 5.7 s
        parcel-van | design.station.breaker_a     | 39.8   | 39.7   | supply-continuous-load         | 1.25 times 31.83 A
        parcel-van | design.station.cable_a       | 31.9   | 31.8   | charging-cable                 | 31.83 A
        parcel-van | car.station.max_a            | 31.9   | 31.8   | station-offers                 | 31.83 A
        parcel-van | inlet.max_a                  | 31.9   | 31.8   | chargers-share-inlet           | 31.83 A
        parcel-van | pack.charge_max_a            | 85     | 84     | chargers-pack-current          | 6600 W into 78 V are 84.6 A
        parcel-van | charge.current_a             | 84     | 85     | charge-current-reachable       | the same
        parcel-van | charge.over_v                | 3      | 3.1    | charge-voltage                 | 105 V and 3 V are a full pack
        parcel-van | cell.high_v                  | 3.5    | 3.49   | charge-cell-voltage            | 105 V on 30 cells
        parcel-van | charge.max_min               | 337    | 335    | charge-time-limit              | 280 Ah at 60 A, a fifth more
        parcel-van | design.supply.lights_a       | 19     | 20     | dcdc-budget                    | 60 A in all
        parcel-van | car.lv.dcdc_max_a            | 56     | 55     | dcdc-budget                    | 55.9 A in all
        parcel-van | car.lv.dcdc_max_a            | 4      | 3.9    | dcdc-budget-charging           | 4 A awake, no pump, no coils
        parcel-van | bus.bleed_ms                 | 9980   | 9990   | time-budget-bus-live           | 10 s, less two ticks
        parcel-van | dcdc.side                    | 0      | 1      | lv-on-the-cable                | a converter behind the contactors
        parcel-van | car.lv.sleep_a               | 0.039  | 0.04   | lv-parked                      | 20 Ah for 21 days
        parcel-van | motor.max_rpm                | 6950   | 6900   | gear-speed                     | 6605 rpm and 5 %
        parcel-van | pack.discharge_max_a         | 417    | 416    | drive-power-pack-current       | 40 kW at 96 V
        parcel-van | regen.torque_nm              | 19     | 20     | regeneration-current           | 140 A at 96 V and 6605 rpm
        parcel-van | regen.full_fraction          | 0.89   | 0.88   | regeneration-full              | 96 V of 108 V
        parcel-van | car.machine.trip_v           | 130    | 129    | bus-limit-below-trip           | the supervisor acts at 130 V
        coupe      | motor.emf_v_per_krpm         | 40     | 41     | motor-voltage-spinning         | 11220 rpm, 450 V
        coupe      | isolation.min_ohm_per_v      | 500    | 499    | isolation-limit                | UN R100 for joined buses
        parcel-van | design.sensor.adc_bits       | 10     | 8      | thermistor-resolution-motor-hot | 2.7 K a step with 8 bits
        parcel-van | thermistor.short_v           | 0.32   | 0.34   | thermistor-window-motor        | 0.33 V at 150 C
        parcel-van | thermistor.short_v           | 0.96   | 0.97   | thermistor-window-inverter     | 0.961 V at 95 C
        parcel-van | thermistor.open_v            | 4.84   | 4.82   | thermistor-window-cold         | 4.83 V at -30 C
        parcel-van | pedal.a_released_v           | 0.27   | 0.26   | pedal-window-a-released        | times 0.95 above 0.25 V
        parcel-van | pedal.a_full_v               | 4.52   | 4.53   | pedal-window-a-full            | times 1.05 below 4.75 V
        parcel-van | pedal.b_released_v           | 0.27   | 0.26   | pedal-window-b-released        | the same for the second track
        parcel-van | pedal.b_full_v               | 0.27   | 0.26   | pedal-window-b-full            | the same
        parcel-van | pedal.range_ms               | 185    | 186    | time-budget-pedal-wire         | 20 ms and 45 ms besides
        parcel-van | pedal.disagree_ms            | 185    | 186    | time-budget-pedal-lie          | the same
        parcel-van | loop.stale_ms                | 135    | 136    | time-budget-blind              | 50 ms blind besides
        parcel-van | budget.shock_ms              | 70     | 69     | time-budget-cut-off            | two ticks and 50 ms to open
        parcel-van | budget.arc_ms                | 370    | 369    | time-budget-stall              | 300 ms to notice
        parcel-van | lv.lost_ms                   | 500    | 500    | time-budget-lv-lost            | far within 1500 ms
        parcel-van | budget.pack_ms               | 970    | 969    | time-budget-over-current       | 500 ms to notice, 470 ms to open
        parcel-van | budget.pack_ms               | 970    | 969    | time-budget-cell               | the same
        parcel-van | budget.pack_ms               | 320    | 319    | time-budget-charge-voltage     | 200 ms to notice, 120 ms besides
        parcel-van | pack.trip_ms                 | 4030   | 4031   | time-budget-pack-hot           | 970 ms besides, 5000 in all
        parcel-van | heater.airflow_ms            | 4980   | 4981   | time-budget-heater             | 20 ms besides
        parcel-van | inlet.stale_ms               | 880    | 881    | time-budget-pilot              | 120 ms besides, 1000 in all
        """)
    void value_oneSideHolds_theOtherBreaks(String name, String key, double good, double bad, String id, String because)
            throws Exception {
        Vehicle vehicle = VehicleReader.read(ShippedVehiclesTest.VEHICLES.resolve(name));
        assertEquals(Calculation.Verdict.KEPT, verdict(vehicle.with(row(key), good), id), because);
        if (good != bad) {
            assertEquals(Calculation.Verdict.BROKEN, verdict(vehicle.with(row(key), bad), id), because);
        }
    }

    @Test
    void everyRating_leftOut_isSaid() throws Exception {
        Vehicle vehicle = VehicleReader.read(ShippedVehiclesTest.VEHICLES.resolve("parcel-van"));
        Set<String> unsaid = new TreeSet<>();
        for (SizingParameter row : SizingParameter.values()) {
            boolean needed = Double.isNaN(row.byDefault()) && row != SizingParameter.WIRING_INVERTER_SUPPLY;
            String key = row.key();
            boolean used = SizingCheck.calculations(vehicle).stream()
                    .anyMatch(c -> c.inputs().stream().anyMatch(i -> i.name().equals(key)));
            if (needed && !used) {
                unsaid.add(key);
            }
        }
        assertEquals(Set.of(), unsaid, "a value that no calculation uses need not be asked for");
    }

    @Test
    void calculations_haveFormulaInputsAndSource() throws Exception {
        Vehicle vehicle = VehicleReader.read(ShippedVehiclesTest.VEHICLES.resolve("coupe"));
        List<Calculation> all = SizingCheck.calculations(vehicle);
        assertEquals(all.size(), all.stream().map(Calculation::id).distinct().count(), "ids are unique");
        for (Calculation sum : all) {
            assertTrue(
                    !sum.formula().isEmpty()
                            && !sum.inputs().isEmpty()
                            && !sum.source().isEmpty(),
                    sum.id());
            assertTrue(!sum.source().startsWith("common practice"), sum.id() + " names neither a source nor why none");
        }
    }

    /** The coupe has both behind the contactors: its charge begins again for the 12 V battery. */
    @Test
    void converterBehindOpenContactors_chargersBehindThemToo_isHelpedOnTheCable() throws Exception {
        Vehicle coupe = VehicleReader.read(ShippedVehiclesTest.VEHICLES.resolve("coupe"));
        assertEquals(Calculation.Verdict.KEPT, verdict(coupe, "lv-on-the-cable"));
        assertEquals(Calculation.Verdict.BROKEN, verdict(coupe.with(row("charger.side"), 0), "lv-on-the-cable"));
    }

    /** The van's chargers are beside the pack: a converter behind the contactors is dead while they run. */
    @Test
    void converterBehindOpenContactors_longCharge_isAStop() throws Exception {
        Vehicle van = VehicleReader.read(ShippedVehiclesTest.VEHICLES.resolve("parcel-van"));
        Vehicle behind = van.with(row("dcdc.side"), 1);
        assertEquals(Calculation.Verdict.BROKEN, verdict(behind, "lv-while-charging"));
        assertEquals(
                Calculation.Verdict.KEPT, verdict(behind.with(row("car.lv.capacity_ah"), 45), "lv-while-charging"));
        assertEquals(
                Calculation.Verdict.BROKEN, verdict(behind.with(row("car.lv.capacity_ah"), 44), "lv-while-charging"));
    }

    @Test
    void margin_ofAnInfiniteResult_isNone() throws Exception {
        Vehicle van = VehicleReader.read(ShippedVehiclesTest.VEHICLES.resolve("parcel-van"));
        Calculation never = SizingCheck.calculations(van.with(row("car.parts.left_on_w"), 40)).stream()
                .filter(c -> c.id().equals("precharge-time"))
                .findFirst()
                .orElseThrow();
        assertEquals(Double.POSITIVE_INFINITY, never.result().value());
        assertTrue(Double.isNaN(never.margin()), "a time without an end has no margin");
    }

    @Test
    void keys_ofTheReviewsOwnRows_areInSectionsOfTheirOwn() {
        Set<String> sections = Arrays.stream(SizingParameter.values())
                .map(r -> r.key().substring(0, r.key().lastIndexOf('.')))
                .collect(Collectors.toCollection(TreeSet::new));
        assertTrue(sections.stream().allMatch(s -> s.startsWith("design.")), sections.toString());
        assertTrue(Arrays.stream(SizingParameter.values())
                .allMatch(r -> r.key().equals(r.key().toLowerCase(Locale.ROOT))));
    }
}
