package sprag.bench.review.page;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.ScheduleFiles;
import sprag.bench.review.wiring.schedule.Wire;
import sprag.bench.vehicle.Catalogue;

/** A finding sits on the diagram where its key, wire, terminal or part is drawn. */
class SpotTest {
    private static Schedule schedule;
    private static final Map<String, Wire> WIRES = new HashMap<>();

    @BeforeAll
    static void readTheVan() throws Exception {
        schedule =
                ScheduleFiles.read(Catalogue.installed().vehicle("parcel-van")).orElseThrow();
        schedule.wires().forEach(wire -> WIRES.put(wire.id(), wire));
    }

    private static Spot of(String file, String where, Schedule drawn) {
        Finding finding = new Finding("id", Weight.NOTE, where, new Finding.Place(file, 1), "S.", "", Map.of(), "s");
        return Spot.of(finding, drawn, WIRES);
    }

    @ParameterizedTest
    @CsvSource({
        "pack.max_v, PACK, the section",
        "cell.high_v, PACK, of the pack as well",
        "car.box.fuse_a, FUSE, the longest beginning wins over car.box",
        "car.box.pull_in_v, POSITIVE, the box of the contactors",
        "design.contacts.relay_breaks_a, PRECHARGE, longer than design.contacts",
        "design.contacts.breaks_a, POSITIVE, the contactors",
        "car.lv.dcdc_max_a, DCDC, longer than car.lv",
        "car.lv.awake_a, LOW_VOLTAGE, the 12 V side",
        "chargeable.x, , no key of charge",
        "name, , the car as a whole",
        "inlet.max_a, INLET, the section",
        "car.station.max_a, STATION, the station",
        "pedal, SENSORS, the section itself"
    })
    void keyOfTheVehicle_sitsWhereItsLongestBeginningIs(String key, Spot spot, String because) {
        assertEquals(spot, of("vehicle.toml", key, schedule), because);
        assertEquals(spot, of("vehicle.toml", key, null), because);
    }

    @ParameterizedTest
    @CsvSource({
        "T001, FUSE, from the pack to the main fuse",
        "S002, SENSORS, a switch before the supervisor",
        "L013, NEGATIVE, a coil before the supervisor",
        "E007, CHASSIS, the lamps of the brake are drawn nowhere",
        "fuse_main.in, FUSE, a terminal",
        "contactor_negative, NEGATIVE, a part by its name",
        "inverter.plus, INVERTER, a part by its kind",
        "charger_1, CHARGER, a part by its kind",
        "chassis.rear, CHASSIS, the body",
        "supervisor, SUPERVISOR, the supervisor",
        "node_control, , a joint is drawn nowhere",
        "no_such_part, , nor what is not there"
    })
    void placeInTheSchedule_sitsAtItsPart(String where, Spot spot, String because) {
        assertEquals(spot, of("wiring.csv", where, schedule), because);
        assertEquals(null, of("wiring.csv", where, null), "without a schedule nothing is drawn");
    }

    @ParameterizedTest
    @CsvSource({
        "pack.max_v, pack",
        "design.resistor.pulse_j, resistor_precharge",
        "car.station.max_a, inlet",
        "design.cable.main_mm2, inverter",
        "bus.bleed_ms, inverter",
        "name, ''"
    })
    void partOfAKey_isTheOneThatIsDrawn(String key, String part) {
        assertEquals(part, Spot.partOf(key, schedule).orElse(""));
    }
}
