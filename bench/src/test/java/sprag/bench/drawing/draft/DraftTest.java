package sprag.bench.drawing.draft;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.drawing.live.CircuitReader;
import sprag.bench.drawing.live.LiveReport;
import sprag.bench.drawing.live.Situation;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.report.Checker;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.ScheduleFiles;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Parameter;

/** Drafted schedules pass the review and keep every promise; numbers are for life. */
class DraftTest {
    private static final Path VEHICLES = Path.of("..", "config", "vehicles");
    private static final Path KINDS = Path.of("src", "test", "resources", "kinds");
    private static final byte[] NOTHING = new byte[0];

    @TempDir
    Path folder;

    @ParameterizedTest
    @CsvSource({
        "parcel-van, , ",
        "coupe, , ",
        "yard-cart, , ",
        "parcel-van, 'side = \"pack-side\"', 'side = \"bus-side\"'",
        "coupe, 'side = \"bus-side\"', 'side = \"pack-side\"'",
        "parcel-van, '\"heater_request\", \"heater_airflow\", \"heater_temp_v\",', ''",
        "parcel-van, '\"negative_aux_closed\", ', ''",
        "parcel-van, '\"motor_temp_v\", ', ''",
        "parcel-van, '\"cover_loop_closed\", \"crash_loop_closed\",', ''",
        "parcel-van, '\"pedal_b_v\", \"pedal_supply_v\",', '\"pedal_b_v\",'",
        "coupe, 'dcdc_max_a = 90', 'dcdc_max_a = 120'",
        "coupe, 'dcdc_max_a = 90', 'dcdc_max_a = 250'",
        "coupe, '\"heater_request\",', '\"heater_request\", \"pack_current_2_a\",'"
    })
    void draftedSchedule_ofAnyVehicle_passesCheckAndLive(String name, String from, String to) throws Exception {
        Vehicle vehicle = vehicle(name, from, to);
        write(Drafter.draft(vehicle, Answers.read(folder), NOTHING, NOTHING));
        assertSound(vehicle);
    }

    @ParameterizedTest
    @CsvSource({
        "parcel-van, , ",
        "coupe, , ",
        "yard-cart, , ",
        "parcel-van, '\"cover_loop_closed\", \"crash_loop_closed\",', ''"
    })
    void packInTwoBoxes_passesCheckAndLive_andItsSwitchesAndLoopsActOnBoth(String name, String from, String to)
            throws Exception {
        Vehicle vehicle = vehicle(name, from, to);
        Files.writeString(folder.resolve(Answers.FILE), "[choices]\npack_boxes = 2\n");
        write(Drafter.draft(vehicle, Answers.read(folder), NOTHING, NOTHING));
        LiveReport live = assertSound(vehicle);
        int driving = live.table().first(Situation.Sort.DRIVING);
        live.table().rows().stream()
                .filter(row -> row.net().startsWith("c") && row.net().contains("_loop"))
                .forEach(row -> assertEquals(
                        "12", row.cells().get(driving).text(), row.net() + " is closed while all is well"));
        int situation = live.table().titles().indexOf("driving, service_switch_rear pressed or out");
        String loop = live.table().rows().stream()
                .filter(row -> row.terminal().startsWith("supervisor.cut_loop_closed")
                        || row.net().equals("cut_loop")
                        || row.net().equals("cut_loop_out"))
                .map(row -> row.cells().get(situation).text())
                .findFirst()
                .orElseThrow();
        assertEquals("-", loop, "the rear switch opens the cut loop too");
    }

    @ParameterizedTest
    @CsvSource({"parcel-van, 1", "coupe, 1", "yard-cart, 2"})
    void twoMotors_haveTwoInverters_thatPassCheckAndLive(String name, int boxes) throws Exception {
        Vehicle vehicle = vehicle(name, null, null);
        Files.writeString(folder.resolve(Answers.FILE), "[choices]\nmotors = 2\npack_boxes = " + boxes + "\n");
        Drafter.Result draft = Drafter.draft(vehicle, Answers.read(folder), NOTHING, NOTHING);
        write(draft);
        for (String end : List.of("inverter_2.plus", "inverter_2.supply", "inverter_2.ground", "motor_2.w")) {
            assertTrue(draft.wires().contains("," + end + ","), end);
        }
        assertSound(vehicle);
    }

    private LiveReport assertSound(Vehicle vehicle) throws Exception {
        assertEquals(List.of(), heavyFindings());
        Schedule schedule = ScheduleFiles.read(folder).orElseThrow();
        LiveReport live = LiveReport.of(
                CircuitReader.read(schedule, vehicle.get(Parameter.PACK_MAX_V), 230), schedule, false, () -> {});
        assertEquals(List.of(), live.broken());
        return live;
    }

    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void bleedResistorBesideTheInverter_isALoadOfTheBus_thatPassesCheckAndLive(String name) throws Exception {
        Vehicle vehicle = vehicle(name, null, null);
        Files.writeString(folder.resolve(Answers.FILE), "[choices]\nbleed_resistors = 1\n");
        Drafter.Result draft = Drafter.draft(vehicle, Answers.read(folder), NOTHING, NOTHING);
        write(draft);
        assertTrue(draft.wires().contains(",resistor_bleed.plus,bleed_plus,"), draft.wires());
        assertTrue(draft.wires().contains(",resistor_bleed.minus,bar_bus_minus."), draft.wires());
        assertSound(vehicle);

        Files.writeString(
                folder.resolve(Schedule.PARTS_FILE),
                draft.parts().replace("resistor_bleed,load", "resistor_bleed,resistor"));
        Files.writeString(
                folder.resolve(Schedule.WIRES_FILE),
                draft.wires()
                        .replace("resistor_bleed.plus", "resistor_bleed.in")
                        .replace("resistor_bleed.minus", "resistor_bleed.out"));
        assertTrue(
                Checker.check(folder).findings().stream()
                        .anyMatch(judged -> judged.finding().toString().contains("is a part of the kind load")),
                "who calls it a resistor is told the other name");
    }

    @Test
    void packInTwoBoxes_mainFuseTooLarge_isAStop_thoughTheRearFuseIsSmall() throws Exception {
        Vehicle vehicle = vehicle("coupe", null, null);
        Files.writeString(folder.resolve(Answers.FILE), "[choices]\npack_boxes = 2\n");
        Drafter.Result draft = Drafter.draft(vehicle, Answers.read(folder), NOTHING, NOTHING);
        write(draft);
        String large = draft.parts().replaceFirst("(?m)^(fuse_main,fuse,[0-9.]+),[0-9.]+,", "$1,2000,");
        assertFalse(large.equals(draft.parts()), draft.parts());
        Files.writeString(folder.resolve(Schedule.PARTS_FILE), large);
        List<String> stops = Checker.check(folder).findings().stream()
                .map(judged -> judged.finding())
                .filter(f -> f.weight() == Weight.STOP)
                .map(f -> f.id())
                .toList();
        assertTrue(stops.contains("fuse-above-conductor"), stops + "");
    }

    @Test
    void packInTwoBoxes_oneWithoutItsFuse_isAStop() throws Exception {
        Vehicle vehicle = vehicle("coupe", null, null);
        Files.writeString(folder.resolve(Answers.FILE), "[choices]\npack_boxes = 2\n");
        Drafter.Result draft = Drafter.draft(vehicle, Answers.read(folder), NOTHING, NOTHING);
        write(draft);
        String past = draft.wires()
                .replace(",pack_rear.plus,fuse_rear.in,", ",pack_rear.plus,service_switch_rear.in,")
                .replaceFirst("(?m)^[^,]*,fuse_rear.out,[^\n]*\n", "");
        assertFalse(past.equals(draft.wires()), draft.wires());
        Files.writeString(folder.resolve(Schedule.WIRES_FILE), past);
        List<String> stops = Checker.check(folder).findings().stream()
                .map(judged -> judged.finding())
                .filter(f -> f.weight() == Weight.STOP && f.sentence().contains("either lead of pack_rear"))
                .map(f -> f.id())
                .toList();
        assertEquals(List.of("branch-without-fuse"), stops);
    }

    @ParameterizedTest
    @CsvSource({
        "connector_loop_rear.loop_back,  connector_loop_front.loop_back, 'the bridge at the far connector goes past one contact'",
        "connector_loop_front.loop_out,  connector_loop_rear.loop_out,   'the way out goes past the near connector'",
        "connector_loop_rear.loop_out,   connector_loop_rear.loop_back,  'the way out goes past a contact of the far connector'",
        "connector_loop_front.loop_out,  supervisor.cover_loop_closed,   'the way out leads to the supervisor itself'"
    })
    void packInTwoBoxes_loopPastConnector_isAStop(String one, String other, String because) throws Exception {
        Vehicle vehicle = vehicle("parcel-van", null, null);
        Files.writeString(folder.resolve(Answers.FILE), "[choices]\npack_boxes = 2\n");
        Drafter.Result draft = Drafter.draft(vehicle, Answers.read(folder), NOTHING, NOTHING);
        write(draft);
        // The first wire that ends on one terminal is moved to the other.
        String moved = draft.wires().replaceFirst(one.replace(".", "\\.") + ",", other + ",");
        assertFalse(moved.equals(draft.wires()), draft.wires());
        Files.writeString(folder.resolve(Schedule.WIRES_FILE), moved);
        List<String> stops = Checker.check(folder).findings().stream()
                .map(judged -> judged.finding())
                .filter(f -> f.weight() == Weight.STOP)
                .map(f -> f.id())
                .toList();
        assertTrue(stops.contains("loop-past-connector"), because + ": " + stops);
    }

    static List<String> kindsOfCars() throws IOException {
        try (Stream<Path> kinds = Files.list(KINDS)) {
            return kinds.map(kind -> kind.getFileName().toString()).sorted().toList();
        }
    }

    @ParameterizedTest
    @MethodSource("kindsOfCars")
    void draftedSchedule_ofAnyKindOfCar_hasEverySignal_andNoWireThatNobodyReads(String kind) throws Exception {
        Path home = KINDS.resolve(kind);
        Files.copy(home.resolve("vehicle.toml"), folder.resolve("vehicle.toml"));
        write(Drafter.draft(VehicleReader.read(home), Answers.read(folder), NOTHING, NOTHING));
        assertEquals(List.of(), heavyFindings());
    }

    @Test
    void draftingAgain_changesNothing() throws Exception {
        Vehicle vehicle = vehicle("coupe", null, null);
        Drafter.Result first = Drafter.draft(vehicle, Answers.read(folder), NOTHING, NOTHING);
        Drafter.Result again = again(vehicle, first.wires(), first.parts());
        assertEquals(first.wires(), again.wires());
        assertEquals(first.parts(), again.parts());
        assertEquals(List.of(), again.added());
    }

    @Test
    void draftingAgain_keepsEditsAndHandMadeRows_addsWithNewNumbers_marksWhatNothingNeeds() throws Exception {
        Vehicle with = vehicle("parcel-van", null, null);
        Drafter.Result first = Drafter.draft(with, Answers.read(folder), NOTHING, NOTHING);
        String edited = first.wires().replaceFirst("(T001,[^\n]*)drafted[^\n]*", "$1drafted; sleeve printed")
                + "X900,supervisor.ground,chassis.90,ground,earth,1.5,black,0.3,,32,32,,,,my own\n";
        Vehicle without = vehicle("parcel-van", "\"heater_request\", \"heater_airflow\", \"heater_temp_v\",", "");
        Drafter.Result less = again(without, edited, first.parts());
        assertTrue(less.wires().contains("sleeve printed"), "an edit is kept");
        assertTrue(less.wires().contains("32,32,,,,my own\n"), "a row by hand is not marked");
        assertFalse(less.unneeded().isEmpty(), "the heater's wires are marked");
        less.unneeded()
                .forEach(n -> assertTrue(less.wires().matches("(?s).*\n" + n + ",[^\n]*not needed any more.*"), n));
        Drafter.Result back = again(with, less.wires(), less.parts());
        assertEquals(List.of(), back.added(), "the numbers of the heater's wires are still theirs");
        assertFalse(back.wires().contains("not needed any more"), "they are needed again");
    }

    @ParameterizedTest
    @CsvSource({"brake-pressure", "regen-lever"})
    void draftingAgain_withASensorMore_addsItsWires_andCrowdsNoTerminal(String kind) throws Exception {
        String with = Files.readString(KINDS.resolve(kind).resolve("vehicle.toml"));
        String without = with.replace(", \"regen_demand_v\"", "").replaceAll("by = \"(brake-pressure|lever)\"", "");
        assertFalse(without.contains("\"regen_demand_v\""), without);
        Path file = folder.resolve("vehicle.toml");
        Files.writeString(file, without);
        Drafter.Result first = Drafter.draft(VehicleReader.read(folder), Answers.read(folder), NOTHING, NOTHING);
        Files.writeString(file, with);
        Drafter.Result more = again(VehicleReader.read(folder), first.wires(), first.parts());
        assertEquals(3, more.added().size(), more.added().toString());
        assertEquals(List.of(), more.unneeded());
        write(more);
        assertEquals(List.of(), heavyFindings());
    }

    @Test
    void newWire_neverTakesANumberThatIsPrinted() throws Exception {
        Vehicle without = vehicle("parcel-van", "\"heater_request\", \"heater_airflow\", \"heater_temp_v\",", "");
        Drafter.Result first = Drafter.draft(without, Answers.read(folder), NOTHING, NOTHING);
        Drafter.Result more = again(vehicle("parcel-van", null, null), first.wires(), first.parts());
        assertFalse(more.added().isEmpty());
        more.added().forEach(n -> assertFalse(first.wires().contains("\n" + n + ","), n + " was printed"));
    }

    @Test
    void distancesOfTheBuilder_makeTheLengths_andTheRestStaysOpen() throws Exception {
        Vehicle vehicle = vehicle("parcel-van", null, null);
        Files.writeString(folder.resolve(Answers.FILE), "[places]\npack_to_motor_m = 3.7\n");
        Answers answers = Answers.read(folder);
        assertFalse(answers.open().containsKey("places.pack_to_motor_m"));
        assertTrue(answers.open().containsKey("places.pack_to_cabin_m"));
        String wires = Drafter.draft(vehicle, answers, NOTHING, NOTHING).wires();
        assertTrue(wires.lines().anyMatch(l -> l.contains(",inverter.plus,bus_plus,") && l.contains(",3.7,")), wires);
    }

    @Test
    void impossibleAnswer_isRefused() throws Exception {
        Files.writeString(folder.resolve(Answers.FILE), "[places]\npack_to_motor_m = 300\n");
        BadInput refused = assertThrows(BadInput.class, () -> Answers.read(folder));
        assertTrue(
                refused.problems().get(0).message().contains("pack_to_motor_m"),
                refused.problems().toString());
    }

    @Test
    void converter_itsLabelSaysMoreThanTheLoadsNeed_isFusedForItsLabel() throws Exception {
        String text = Files.readString(VEHICLES.resolve("coupe").resolve("vehicle.toml"));
        assertTrue(text.contains("dcdc_max_a = 90"), text);
        Files.writeString(folder.resolve("vehicle.toml"), text.replace("dcdc_max_a = 90", "dcdc_max_a = 60"));
        String parts = Drafter.draft(VehicleReader.read(folder), Answers.read(folder), NOTHING, NOTHING)
                .parts();
        assertTrue(parts.contains("fuse_dcdc_out,fuse,32,80,"), parts);
    }

    @Test
    void scheduleByHand_isToldFromADraft() throws Exception {
        assertTrue(Drafter.isHandMade(
                Files.readAllBytes(VEHICLES.resolve("parcel-van").resolve(Schedule.WIRES_FILE))));
        Vehicle vehicle = vehicle("yard-cart", null, null);
        assertFalse(Drafter.isHandMade(bytes(
                Drafter.draft(vehicle, Answers.read(folder), NOTHING, NOTHING).wires())));
    }

    private List<String> heavyFindings() throws BadInput {
        return Checker.check(folder).findings().stream()
                .map(judged -> judged.finding())
                .filter(f -> f.place().file().endsWith(".csv") && f.weight() != Weight.NOTE)
                .map(f -> f.id() + " " + f.sentence())
                .toList();
    }

    private Vehicle vehicle(String name, String from, String to) throws IOException, BadInput {
        String text = Files.readString(VEHICLES.resolve(name).resolve("vehicle.toml"));
        assertTrue(from == null || text.contains(from), name + " has no " + from);
        Files.writeString(
                folder.resolve("vehicle.toml"), from == null ? text : text.replace(from, to == null ? "" : to));
        return VehicleReader.read(folder);
    }

    private Drafter.Result again(Vehicle vehicle, String wires, String parts) throws BadInput {
        return Drafter.draft(vehicle, Answers.read(folder), bytes(wires), bytes(parts));
    }

    private void write(Drafter.Result result) throws IOException {
        Files.writeString(folder.resolve(Schedule.WIRES_FILE), result.wires());
        Files.writeString(folder.resolve(Schedule.PARTS_FILE), result.parts());
    }

    private static byte[] bytes(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }
}
