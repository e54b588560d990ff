package sprag.bench.drawing.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.drawing.live.element.Consumer;
import sprag.bench.drawing.live.element.Control;
import sprag.bench.drawing.live.element.Potential;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;

/** What is live when, on the shipped schedules, on mistakes planted in them, and against another method. */
class LiveTest {
    /** Mistakes as people make them. The first three are those that the shipped schedules once had. */
    enum Planted {
        // @formatter:off
        LAMP_OUTPUT_ON_PLUS   (LivePromise.NO_SHORT, "an output that switches ground sits on the lamp's plus", "yard-cart",
                    "S007,relay_brake_lamp.coil_minus,supervisor.brake_lamp", "S007,brake_lamp.plus,supervisor.brake_lamp"),
        NO_WATCHDOG           (LivePromise.BEAT_STOPS, "the coils are fed past the watchdog relay", "parcel-van",
                    "L012,node_coils.2,", "L012,cut_off.out,"),
        CHARGER_PAST_RELAY    (LivePromise.CUT_OFF_ISOLATES, "charger 2 is joined to its fuse and not to the relay", "parcel-van",
                    "T023,relay_charge.out_2,", "T023,fuse_charger_2.out,"),
        DCDC_PAST_RELAY       (LivePromise.CUT_OFF_ISOLATES, "the DC-DC converter keeps both poles", "yard-cart",
                    "T016,relay_dcdc.out,", "T016,fuse_dcdc.out,"),
        NO_SERVICE_SWITCH     (LivePromise.SERVICE_SWITCH, "the pack has no switch that a hand can pull", "parcel-van",
                    "T002,fuse_main.out,service_switch.in,", "T002,fuse_main.out,bar_pack_plus.9,",
                    "T031,service_switch.out,", "T031,fuse_main.out,"),
        HEATER_BEFORE_SERVICE (LivePromise.SERVICE_SWITCH, "the DC-DC converter hangs before the service switch", "parcel-van",
                    "T016,bar_pack_plus.4,", "T016,fuse_main.out,"),
        COIL_BEFORE_CUT_OFF   (LivePromise.CUT_OFF_RELEASES, "one coil is fed before the cut-off", "coupe",
                    "L018,node_coils.3,", "L018,fuse_coils.out,"),
        FEED_AFTER_CUT_OFF    (LivePromise.CUT_OFF_RELEASES, "a second feed joins behind the cut-off", "parcel-van",
                    "L004,fuse_dcdc_out.out,post_12v.2,", "L004,fuse_dcdc_out.out,node_coils.12,"),
        SECOND_CUT_OFF        (LivePromise.CUT_OFF_RELEASES, "a second cut-off sits where it cuts nothing", "parcel-van",
                    "direction_lever,switch,", "direction_lever,cut-off,"),
        PACK_SHORTED          (LivePromise.NO_SHORT, "a measuring wire of the shunt ends on the pack's plus bar", "parcel-van",
                    "T029,shunt.sense_plus,battery_monitor.sense_plus,", "T029,shunt.sense_plus,bar_pack_plus.9,"),
        MAINS_SHORTED         (LivePromise.NO_SHORT, "the neutral ends on the line", "parcel-van",
                    "M003,inlet.neutral,charger_1.neutral,", "M003,inlet.neutral,charger_1.line,"),
        MAINS_ON_BODY         (LivePromise.APART, "the neutral ends on the body", "parcel-van",
                    "M003,inlet.neutral,charger_1.neutral,", "M003,inlet.neutral,chassis.charger,"),
        SENSORS_ON_12V        (LivePromise.NO_SHORT, "the sensors' 5 V meet the 12 V side", "coupe",
                    "S013,supervisor.sensor_supply,pedal.supply,", "S013,supervisor.sensor_supply,node_control.12,"),
        SENSORS_ON_GROUND     (LivePromise.NO_SHORT, "the sensors' 5 V end on the body", "coupe",
                    "S013,supervisor.sensor_supply,pedal.supply,", "S013,supervisor.sensor_supply,chassis.cabin,"),
        COIL_ON_GROUND        (LivePromise.COMMANDED, "a coil's minus goes to the chassis", "coupe",
                    "L019,contactor_positive.coil_minus,supervisor.positive_contactor,", "L019,contactor_positive.coil_minus,chassis.cabin,"),
        COIL_WITHOUT_PLUS     (LivePromise.OBEYED, "a coil's plus sits on the switched side of the key", "parcel-van",
                    "L014,node_coils.3,", "L014,cover_switch.out_9,"),
        CROSSED_COILS         (LivePromise.PRECHARGED, "the coils of precharge relay and positive contactor are swapped", "parcel-van",
                    "L017,relay_precharge.coil_minus,", "L017,contactor_positive.coil_other,",
                    "L015,contactor_positive.coil_minus,", "L015,relay_precharge.coil_minus,",
                    "contactor_positive.coil_other", "contactor_positive.coil_minus"),
        TAP_ON_12V            (LivePromise.APART, "a measuring wire of the shunt ends on the 12 V post", "parcel-van",
                    "T029,shunt.sense_plus,battery_monitor.sense_plus,", "T029,shunt.sense_plus,post_12v.9,"),
        SHUNT_ON_32V_PIN      (LivePromise.RATING, "a measuring wire of the shunt ends on a pin for 12 V", "parcel-van",
                    "T029,shunt.sense_plus,battery_monitor.sense_plus,shunt_high,traction,0.75,orange,1.5,,150,150,", "T029,shunt.sense_plus,battery_monitor.sense_plus,shunt_high,traction,0.75,orange,1.5,,150,32,"),
        PEDAL_ON_12V          (LivePromise.RATING, "the pedal is fed with 12 V", "coupe",
                    "S013,supervisor.sensor_supply,", "S013,node_control.12,"),
        SUPERVISOR_ON_KEY     (LivePromise.SUPPLIED, "the supervisor is fed through the key", "parcel-van",
                    "L007,node_control.2,", "L007,key_switch.drive,"),
        LAMPS_BY_OUTPUT_ONLY  (LivePromise.BRAKE_LAMPS, "the brake switch does not reach the lamps", "parcel-van",
                    "L031,brake_switch.out_2,relay_brake_lamp.out,", "L031,brake_switch.out_2,connector_rear.1,"),
        LAMPS_WITHOUT_GROUND  (LivePromise.BRAKE_LAMPS, "no wire ends at the lamps' minus", "parcel-van",
                    "E007,brake_lamps.minus,", "E007,chassis.rear_2,"),
        COIL_WITHOUT_WIRE     (LivePromise.OBEYED, "no wire ends at a coil's plus", "parcel-van",
                    "L016,node_coils.4,relay_precharge.coil_plus,", "L016,node_coils.4,node_coils.44,"),
        RELAY_FED_BY_ITSELF   (LivePromise.SETTLES, "the watchdog's coil is fed through a rest contact of its own", "parcel-van",
                    "L040,cut_off.out,relay_watchdog.coil_plus,", "L040,relay_watchdog.rest,relay_watchdog.coil_plus,"),
        KEY_PAST_PLUG         (LivePromise.UNPLUGGED, "the key is fed past the plug switch", "relay-van",
                    "L014,plug_switch.rest,", "L014,node_safe.9,"),
        INVERTER_PAST_RELAY   (LivePromise.UNPLUGGED, "the inverter's supply joins before its relay", "parcel-van",
                    "L023,relay_inverter.out,", "L023,relay_inverter.in,"),
        ENABLE_ALWAYS_ON      (LivePromise.UNPLUGGED, "the inverter's enable terminal does not lead to its output", "yard-cart",
                    "S020,supervisor.inverter_enable,", "S020,chassis.front,"),
        INVERTER_BEFORE_CUT_OFF(LivePromise.CUT_OFF_SILENCES, "coil and contact of the inverter's relay hang before the cut-off", "parcel-van",
                    "L018,node_coils.5,", "L018,fuse_coils.out,", "L022,node_coils.7,", "L022,fuse_coils.out,"),
        INVERTER_BEFORE_BEAT  (LivePromise.CUT_OFF_SILENCES, "coil and contact of the inverter's relay hang before the watchdog's contact", "coupe",
                    "L022,node_coils.5,", "L022,cut_off.out,", "L026,node_coils.7,", "L026,cut_off.out,"),
        ENABLED_BEFORE_CUT_OFF(LivePromise.CUT_OFF_SILENCES, "the supply of an inverter with an enable terminal hangs before the cut-off", "yard-cart",
                    "L017,node_coils.5,", "L017,fuse_coils.out,"),
        INVERTER_ON_KEY       (LivePromise.CUT_OFF_SILENCES, "the coil of the inverter's relay is fed with the radio's", "relay-van",
                    "L034,node_main.3,", "L034,node_control.9,"),
        SWITCH_POLES_SWAPPED  (LivePromise.FUSED, "the poles of the brake switch, which two fuses feed, are exchanged", "parcel-van",
                    "S006,brake_switch.out,", "S006,brake_switch.other,", "L031,brake_switch.out_2,", "L031,brake_switch.out,",
                    "S006,brake_switch.other,", "S006,brake_switch.out_2,"),
        CART_POLES_SWAPPED    (LivePromise.FUSED, "the feeds of the brake switch are exchanged at the switch, but not those of the relay", "yard-cart",
                    "L020,node_control.5,brake_switch.in,", "L020,node_control.5,brake_switch.other,",
                    "L021,fuse_brake_lamp.out,brake_switch.in_2,", "L021,fuse_brake_lamp.out,relay_brake_lamp.in,",
                    "L032,brake_switch.in_2,", "L032,brake_switch.in,", "brake_switch.other", "brake_switch.in_2"),
        RELAY_PAST_FUSE       (LivePromise.FUSED, "the brake lamps' relay is fed past the fuse of their switch", "coupe",
                    "L034,brake_switch.in_2,", "L034,post_12v.17,"),
        WIRE_PAST_FUSE        (LivePromise.FUSED, "a wire leads past a fuse", "parcel-van",
                    "L025,fuse_blower.out,", "L025,fuse_blower.in,", "E006,heater_blower.minus,chassis.heater,", "E006,fuse_blower.in,fuse_blower.out,"),
        CHAIN_PAST_KEY        (LivePromise.KEY_OFF, "the permit is fed past the key", "relay-van",
                    "L015,key_switch.drive,", "L015,key_switch.in,"),
        START_BRIDGED         (LivePromise.STARTED, "both wires of the start button sit on one terminal", "relay-van",
                    "L018,start_button.out,", "L018,start_button.in,"),
        HEATER_PAST_RELAY     (LivePromise.HEATED, "the heater is joined to its fuse and not to the relay", "parcel-van",
                    "T027,relay_heater.out,", "T027,fuse_heater.out,"),
        MAIN_COIL_ON_HEATER   (LivePromise.THROUGH_CONTACTOR, "the main contactor's coil hangs on the heater's switch", "relay-van",
                    "L033,node_main.2,", "L033,heater_switch.out,"),
        FUSES_BRIDGED         (LivePromise.NO_SHORT, "plus and ground meet at the key", "parcel-van",
                    "E003,supervisor.ground,chassis.cabin,", "E003,key_switch.drive,chassis.cabin,");
        // @formatter:on

        final LivePromise breaks;
        final String because;
        final String vehicle;
        final String[] replacements;

        Planted(LivePromise breaks, String because, String vehicle, String... replacements) {
            this.breaks = breaks;
            this.because = because;
            this.vehicle = vehicle;
            this.replacements = replacements;
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void shippedSchedule_inEveryCombination_keepsEveryPromise(String vehicle) throws Exception {
        LiveReport report = Schedules.report(Schedules.of(vehicle));
        assertEquals(List.of(), report.broken());
        assertEquals(
                Stream.of(LivePromise.values())
                        .filter(p -> !p.isOfRelaysAlone() && (p != LivePromise.HEATED || !vehicle.equals("yard-cart")))
                        .toList(),
                report.kept());
        assertTrue(report.combinations() >= 100_000, report.combinations() + " combinations");
    }

    @Test
    void inverterAndHeaterOfTheDataBus_areNotJudged_andNotCalledKept() throws Exception {
        Schedule schedule = Schedules.of(
                "coupe",
                "L022,node_coils.5,relay_inverter.coil_plus",
                "# L022",
                "L023,relay_inverter.coil_minus,supervisor.inverter_enable",
                "# L023",
                "L026,node_coils.7,relay_inverter.in",
                "# L026",
                "L027,relay_inverter.out,inverter.supply",
                "L027,node_control.99,inverter.supply",
                "supervisor.heater_element",
                "dash_panel.heater_element");
        LiveReport report = Schedules.report(schedule);
        Set<LivePromise> said = new HashSet<>(report.kept());
        report.broken().forEach(broken -> said.add(broken.promise()));
        assertFalse(said.contains(LivePromise.CUT_OFF_SILENCES), said.toString());
        assertFalse(said.contains(LivePromise.HEATED), said.toString());
    }

    @Test
    void relayVan_breaksOnlyPromisesThatSpeakOfASupervisor() throws Exception {
        Set<LivePromise> broken = Schedules.report(Schedules.of("relay-van")).broken().stream()
                .map(BrokenPromise::promise)
                .collect(Collectors.toSet());
        assertEquals(
                Set.of(LivePromise.COMMANDED, LivePromise.PRECHARGED, LivePromise.BEAT_STOPS, LivePromise.SUPPLIED),
                broken);
    }

    @Test
    void inverterOfAnotherName_isFollowedAllTheSame() throws Exception {
        Schedule renamed =
                Schedules.of("relay-van", ",inverter.", ",drive_unit.", "inverter,inverter,", "drive_unit,inverter,");
        BrokenPromise broken = Schedules.report(renamed).broken().stream()
                .filter(b -> b.promise() == LivePromise.PRECHARGED)
                .findFirst()
                .orElseThrow();
        assertTrue(
                broken.happens().startsWith("drive_unit is joined to pack plus without the resistor"), broken::happens);
    }

    @Test
    void fanOfTheInverter_isNoInverter() throws Exception {
        SwitchCircuit plain = Schedules.circuit(Schedules.of("relay-van"));
        SwitchCircuit renamed = Schedules.circuit(Schedules.of("relay-van", "heater_blower", "fan_inverter"));
        assertEquals(
                plain.consumers(Consumer.Kind.SUPPLY, PartKind.INVERTER).length,
                renamed.consumers(Consumer.Kind.SUPPLY, PartKind.INVERTER).length);
    }

    @Test
    void relayVan_whileDrivingAndWhileCharging_isLiveWhereItMustBe() throws Exception {
        LiveTable.Table table = Schedules.report(Schedules.of("relay-van")).table();
        int driving = table.first(Situation.Sort.DRIVING);
        int charging = table.first(Situation.Sort.CHARGING);
        assertEquals("P+ -", cells(table, "bus_plus", driving, charging));
        assertEquals("12 (0)", cells(table, "lv_main_on", driving, charging));
        assertEquals("(P-) P+", cells(table, "charger_1_plus", driving, charging));
    }

    private static String cells(LiveTable.Table table, String net, int... situations) {
        LiveTable.Row row = table.rows().stream()
                .filter(r -> r.net().equals(net))
                .findFirst()
                .orElseThrow();
        return Arrays.stream(situations)
                .mapToObj(s -> row.cells().get(s).text())
                .collect(Collectors.joining(" "));
    }

    @Test
    void plantedMistake_isFoundByItsEffect() throws Exception {
        List<String> missed = new ArrayList<>();
        for (Planted mistake : Planted.values()) {
            Set<LivePromise> broken =
                    Schedules.report(Schedules.of(mistake.vehicle, mistake.replacements)).broken().stream()
                            .map(BrokenPromise::promise)
                            .collect(Collectors.toSet());
            if (!broken.contains(mistake.breaks)) {
                missed.add(mistake + " (" + mistake.because + "): " + broken);
            }
        }
        assertEquals(List.of(), missed);
    }

    @ParameterizedTest
    @CsvSource({
        "coil,    L018 node_coils.5 fuse_coils.out",
        "contact, L022 node_coils.7 fuse_coils.out",
    })
    void inverterRelay_withOneOfBothBeforeTheCutOff_staysDead(String which, String moved) throws Exception {
        String[] words = moved.split(" ");
        LiveReport report = Schedules.report(
                Schedules.of("parcel-van", words[0] + "," + words[1] + ",", words[0] + "," + words[2] + ","));
        assertTrue(report.kept().contains(LivePromise.CUT_OFF_SILENCES), which + ": " + report.broken());
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        two poles of one fuse are exchanged   | S004,direction_lever.out,  | S004,direction_lever.out_9, | S005,direction_lever.out_2, | S005,direction_lever.out,
        a third source joins the post         | L025,fuse_blower.out,      | L025,dcdc.out_plus,         | post_12v.5                  | post_12v.5
        two fuses stand one after the other   | L024,post_12v.5,           | L024,fuse_control.out,      | post_12v.5                  | post_12v.5
        """)
    void fuse_withNoWayRoundIt_isKept(String because, String a, String b, String c, String d) throws Exception {
        Schedule schedule = because.startsWith("two poles")
                ? Schedules.of("parcel-van", a, b, c, d)
                : Schedules.of("parcel-van", a, b);
        LiveReport report = Schedules.report(schedule);
        assertTrue(report.kept().contains(LivePromise.FUSED), because + ": " + report.broken());
    }

    @Test
    void wayRoundAFuse_isAnsweredByBothFusesAndTheWay() throws Exception {
        Planted swapped = Planted.SWITCH_POLES_SWAPPED;
        BrokenPromise broken = Schedules.report(Schedules.of(swapped.vehicle, swapped.replacements)).broken().stream()
                .filter(b -> b.promise() == LivePromise.FUSED)
                .findFirst()
                .orElseThrow();
        assertEquals(Set.of("brake_switch closed", "brake_lamp on"), Set.copyOf(broken.set()));
        assertEquals("fuse_control, fuse_brake_lamps have a way round them", broken.happens());
        assertTrue(broken.ways().get(0).contains("L031"), broken.ways().toString());
    }

    @Test
    void everyPromise_standsOnItsPageWithItsHazard() throws Exception {
        List<String> rows = Files.readAllLines(Path.of("..", "docs", "live.md")).stream()
                .filter(line -> line.matches("\\| [A-Z].*\\| H\\d\\d \\|"))
                .toList();
        assertEquals(LivePromise.values().length, rows.size(), rows.toString());
        for (LivePromise promise : LivePromise.values()) {
            String row = rows.get(promise.ordinal());
            String words = promise.words.substring(0, 1).toUpperCase(Locale.ROOT) + promise.words.substring(1);
            assertTrue(row.startsWith("| " + words) && row.endsWith("| " + promise.hazard + " |"), row);
        }
    }

    @Test
    void everyPromise_isBrokenBySomeMistake() {
        Set<LivePromise> broken = new HashSet<>();
        for (Planted mistake : Planted.values()) {
            broken.add(mistake.breaks);
        }
        assertEquals(Set.of(LivePromise.values()), broken, "a promise that nothing breaks is not known to be judged");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        cut_off,cut-off,        | cut_off,fuse,            | CUT_OFF_RELEASES | no cut-off switch is drawn
        cut_off,cut-off,        | cut_off,fuse,            | CUT_OFF_ISOLATES | no cut-off switch is drawn
        service_switch,cut-off, | service_switch,fuse,     | SERVICE_SWITCH   | no service switch is drawn in the traction circuit
        supervisor.heartbeat    | supervisor.buzzer        | BEAT_STOPS       | no relay is drawn that the heartbeat holds
        inlet,inlet,            | inlet,connector,         | UNPLUGGED        | a charger is drawn, but no inlet and no plug switch
        """)
    void promiseWithoutThePartThatKeepsIt_isBroken_andNamesThePart(
            String replaced, String by, LivePromise promise, String happens) throws Exception {
        List<BrokenPromise> broken =
                Schedules.report(Schedules.of("parcel-van", replaced, by)).broken();
        assertTrue(
                broken.stream()
                        .anyMatch(b -> b.promise() == promise && b.happens().equals(happens)),
                broken.toString());
    }

    @Test
    void brokenPromise_isAnsweredByTheShortestListAndTheWay() throws Exception {
        Planted lamp = Planted.LAMP_OUTPUT_ON_PLUS;
        BrokenPromise broken = Schedules.report(Schedules.of(lamp.vehicle, lamp.replacements)).broken().stream()
                .filter(b -> b.promise() == LivePromise.NO_SHORT)
                .findFirst()
                .orElseThrow();
        assertEquals(Set.of("brake_switch closed", "brake_lamp on"), Set.copyOf(broken.set()));
        assertTrue(broken.ways().get(0).contains("S006"), broken.ways().toString());
        assertTrue(broken.ways().get(0).contains("S007"), broken.ways().toString());
    }

    @ParameterizedTest
    @CsvSource({
        "CHARGER_PAST_RELAY, CUT_OFF_ISOLATES, 'charger_2 has both poles of the pack'",
        "HEATER_PAST_RELAY,  HEATED,           'heater has both poles of the pack'",
        "COIL_BEFORE_CUT_OFF, CUT_OFF_RELEASES, 'contactor_positive is held'",
        "RELAY_FED_BY_ITSELF, SETTLES,         'relay_watchdog never settles'",
        "COIL_WITHOUT_PLUS,  OBEYED,           'contactor_positive does not pull'",
        "WIRE_PAST_FUSE,     FUSED,            'fuse_blower has a way round it'",
        "SWITCH_POLES_SWAPPED, FUSED,          'fuse_control, fuse_brake_lamps have a way round them'"
    })
    void whatHappens_isSaidOfOnePart_orOfSeveral(Planted mistake, LivePromise promise, String happens)
            throws Exception {
        BrokenPromise broken = Schedules.report(Schedules.of(mistake.vehicle, mistake.replacements)).broken().stream()
                .filter(b -> b.promise() == promise)
                .findFirst()
                .orElseThrow();
        assertEquals(happens, broken.happens());
    }

    /** The inverter has pack voltage then too, as it should: its way would lead to the wrong wires. */
    @Test
    void heaterOnUnasked_isAnsweredByTheHeatersWayAlone() throws Exception {
        Planted heater = Planted.HEATER_PAST_RELAY;
        BrokenPromise broken = Schedules.report(Schedules.of(heater.vehicle, heater.replacements)).broken().stream()
                .filter(b -> b.promise() == LivePromise.HEATED)
                .findFirst()
                .orElseThrow();
        assertEquals(1, broken.ways().size(), broken.ways().toString());
        assertTrue(broken.ways().get(0).contains("[heater]"), broken.ways().toString());
    }

    @Test
    void leavingOutWhatCannotMatter_changesNoVerdict() throws Exception {
        // The shipped schedules break nothing, so that the comparison needs one that does.
        Schedule schedule = Schedules.of("yard-cart", Planted.LAMP_OUTPUT_ON_PLUS.replacements);
        Proof proof = new Proof(Schedules.circuit(schedule));
        Proof.Result less = proof.of(Fault.NOTHING);
        Proof.Result all = proof.ofEverything();
        assertTrue(less.tried() < all.tried(), less.tried() + " of " + all.tried());
        assertEquals(all.breaks().keySet(), less.breaks().keySet());
        all.breaks()
                .forEach((promise, how) -> assertEquals(
                        how.combination().cardinality(),
                        less.breaks().get(promise).combination().cardinality(),
                        promise + " has a shorter list"));
    }

    @Nested
    class TooMuch {
        @Test
        void moreSwitchesThanCanBeTried_areRefusedWithTheLimit() {
            String refusal = LiveReport.refusal(Schedules.circuit(lamps(30, 0)), lamps(30, 0), false);
            assertTrue(refusal.contains("at most 24"), refusal);
        }

        @Test
        void tenThousandWires_areJudged_butNotWithEveryFault() {
            Schedule schedule = lamps(4, 10_000);
            SwitchCircuit circuit = Schedules.circuit(schedule);
            assertEquals("", LiveReport.refusal(circuit, schedule, false));
            assertEquals(Set.of(), new Proof(circuit).of(Fault.NOTHING).breaks().keySet());
            String refusal = LiveReport.refusal(circuit, schedule, true);
            assertTrue(refusal.contains("steps") && refusal.contains("at most"), refusal);
        }

        /** Lamps behind switches of their own, and lamps that are always on. */
        private Schedule lamps(int switched, int always) {
            StringBuilder wires =
                    new StringBuilder("wire,from,to,net,class,size_mm2,colour,length_m,fuse_a,from_pin_v,to_pin_v\n"
                            + "1,battery_12v.plus,post.1,lv,12v,1,red,1,,32,32\n"
                            + "2,battery_12v.minus,chassis.1,ground,earth,1,black,1,,32,32\n"
                            + "3,post.s,supervisor.supply,lv,12v,1,red,1,,32,32\n"
                            + "4,supervisor.ground,chassis.s,ground,earth,1,black,1,,32,32\n");
            StringBuilder parts =
                    new StringBuilder("part,kind\nbattery_12v,lv-battery\npost,splice\nchassis,chassis\n");
            for (int n = 0; n < switched; n++) {
                parts.append("switch_" + n + ",switch\n");
                wires.append("a" + n + ",post.a" + n + ",switch_" + n + ".in,lv,12v,1,red,1,,32,32\n");
                wires.append("b" + n + ",switch_" + n + ".out,light_" + n + ".plus,on_" + n + ",12v,1,red,1,,32,32\n");
                wires.append("c" + n + ",light_" + n + ".minus,chassis.c" + n + ",ground,earth,1,red,1,,32,32\n");
            }
            for (int n = 0; n < always / 2; n++) {
                wires.append("d" + n + ",post.d" + n + ",lamp_" + n + ".plus,lv,12v,1,red,1,,32,32\n");
                wires.append("e" + n + ",lamp_" + n + ".minus,chassis.e" + n + ",ground,earth,1,red,1,,32,32\n");
            }
            return Schedules.read(wires.toString(), parts.toString());
        }
    }

    @Nested
    class SingleFaults {
        @ParameterizedTest
        @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
        void chafedSwitchWire_leavesSupervisorOrBrakeLamps(String vehicle) throws Exception {
            Schedule schedule = Schedules.of(vehicle);
            SwitchCircuit circuit = Schedules.circuit(schedule);
            Proof proof = new Proof(circuit);
            List<String> both = Fault.all(circuit, schedule).stream()
                    .filter(f -> f.kind() == Fault.Kind.CHAFED && f.where().startsWith("S"))
                    .filter(f -> proof.of(f)
                            .breaks()
                            .keySet()
                            .containsAll(Set.of(LivePromise.SUPPLIED, LivePromise.BRAKE_LAMPS)))
                    .map(Fault::words)
                    .toList();
            assertEquals(List.of(), both);
        }

        @Test
        void brakeLampsOnTheFuseOfTheSwitches_areLostWithTheSupervisor() throws Exception {
            Schedule schedule = Schedules.of(
                    "coupe", "L033,fuse_brake_lamps.out,brake_switch.in_2", "L033,node_control.5,brake_switch.in_2");
            Set<LivePromise> lost = broken(schedule, "S004 chafed through to the chassis");
            assertTrue(lost.containsAll(Set.of(LivePromise.SUPPLIED, LivePromise.BRAKE_LAMPS)), lost.toString());
        }

        @Test
        void cutOffStuckClosed_noLongerReleases() throws Exception {
            Set<LivePromise> lost = broken(Schedules.of("parcel-van"), "cut_off in-out stuck closed");
            assertTrue(lost.contains(LivePromise.CUT_OFF_RELEASES), lost.toString());
        }

        @Test
        void chafedCoilWire_pullsItsContactorWithoutCommand() throws Exception {
            Set<LivePromise> lost = broken(Schedules.of("parcel-van"), "L015 chafed through to the chassis");
            assertEquals(Set.of(LivePromise.COMMANDED, LivePromise.PRECHARGED, LivePromise.UNPLUGGED), lost);
        }

        @ParameterizedTest
        @CsvSource({
            "plug_switch in-rest stuck closed,              UNPLUGGED",
            "key_switch in-drive stuck closed,              KEY_OFF",
            "relay_dcdc_key.coil_plus and in bridged,       KEY_OFF",
            "relay_inverter.out and coil_plus bridged,      KEY_OFF",
            "relay_run in-out stuck closed,                 STARTED",
            "start_button.in and out bridged,               STARTED",
            "E012 broken,                                   THROUGH_CONTACTOR",
            "L033 broken,                                   THROUGH_CONTACTOR"
        })
        void relayVan_faultThatTheCampaignFindsHarmful_breaksAPromise(String fault, LivePromise promise)
                throws Exception {
            Set<LivePromise> lost = broken(Schedules.of("relay-van"), fault);
            assertTrue(lost.contains(promise), fault + ": " + lost);
        }

        @Test
        void inverterRelayStuckClosed_wakesTheInverterWithThePlugIn() throws Exception {
            Set<LivePromise> lost = broken(Schedules.of("parcel-van"), "relay_inverter in-out stuck closed");
            assertTrue(lost.contains(LivePromise.UNPLUGGED), lost.toString());
        }

        @Test
        void brokenPumpWire_breaksNoPromise() throws Exception {
            assertEquals(Set.of(), broken(Schedules.of("coupe"), "L029 broken"));
        }

        @Test
        void whoeverWaits_isToldOfEachFault() throws Exception {
            Schedule schedule = Schedules.of("yard-cart");
            AtomicInteger told = new AtomicInteger();
            LiveReport report = LiveReport.of(Schedules.circuit(schedule), schedule, true, told::incrementAndGet);
            assertTrue(report.faultsTried() > 100);
            assertEquals(report.faultsTried(), told.get());
        }

        private Set<LivePromise> broken(Schedule schedule, String words) {
            SwitchCircuit circuit = Schedules.circuit(schedule);
            Fault fault = Fault.all(circuit, schedule).stream()
                    .filter(f -> f.words().equals(words))
                    .findFirst()
                    .orElseThrow();
            return new Proof(circuit).of(fault).breaks().keySet();
        }
    }

    /** Against the nodal equations, which know nothing of reachability. */
    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void netByNet_agreesWithTheNodalEquations(String vehicle) throws Exception {
        Schedule schedule = Schedules.of(vehicle);
        SwitchCircuit circuit = Schedules.circuit(schedule);
        Random random = new Random(4);
        for (int round = 0; round < 6; round++) {
            BitSet set = new BitSet();
            for (int c = 0; c < circuit.controls.size(); c++) {
                boolean rare = circuit.controls.get(c).kind() != Control.Kind.OUTPUT
                        && !circuit.controls.get(c).kind().isSwitched();
                boolean mains = circuit.controls.get(c).kind() == Control.Kind.STATION;
                set.set(c, !mains && random.nextInt(rare ? 8 : 2) == 0);
            }
            Set<String> words = set.stream()
                    .mapToObj(c -> circuit.controls.get(c).setWords())
                    .collect(Collectors.toSet());
            NodalCircuit nodal = new NodalCircuit(schedule, words);
            nodal.settle();
            Flow flow = new Tracer(circuit, Fault.NOTHING, new BitSet()).settle(new Proof.Break(set, false));
            assertCoilsAgree(circuit, flow, nodal, words);
            assertNetsAgree(circuit, flow, nodal, words);
        }
    }

    private static void assertCoilsAgree(SwitchCircuit circuit, Flow flow, NodalCircuit nodal, Set<String> set) {
        for (int c : circuit.consumers(Consumer.Kind.COIL)) {
            String part = circuit.consumers.get(c).part();
            assertEquals(nodal.pulled(part), (flow.fed[c] & 1) != 0, part + " with " + set);
        }
    }

    private static void assertNetsAgree(SwitchCircuit circuit, Flow flow, NodalCircuit nodal, Set<String> set) {
        double[] low = nodal.solve(0).clone();
        double[] high = nodal.solve(1).clone();
        double minusV = packMinusV(circuit, nodal, low);
        for (int n = 0; n < circuit.nodes.size(); n++) {
            String terminal = circuit.nodes.get(n).name();
            int x = nodal.node(terminal);
            String cell = LiveTable.cell(flow, flow.netlist.net[n], 1).text();
            String where = terminal + " carries " + cell + ", " + low[x] + " V, with " + set;
            boolean traction = cell.contains("P");
            boolean floats = Math.abs(high[x] - low[x]) > 0.5;
            // The whole pack floats against the 12 V side; what no source reaches floats as well.
            assertEquals(traction || cell.equals("-"), floats, where);
            double expectedV = switch (cell) {
                case "12" -> 12;
                case "5" -> 5;
                case "0" -> 0;
                case "P+" -> flow.chain() == 0 ? Double.NaN : minusV + 96;
                case "P-" -> minusV;
                default -> Double.NaN;
            };
            if (!Double.isNaN(expectedV) && (flow.chain() & 1) != 0) {
                assertEquals(expectedV, low[x], 0.5, where);
            }
        }
    }

    private static double packMinusV(SwitchCircuit circuit, NodalCircuit nodal, double[] volts) {
        return circuit.poles.stream()
                .filter(p -> p.potential() == Potential.PACK_MINUS)
                .mapToDouble(p -> volts[nodal.node(circuit.nodes.get(p.node()).name())])
                .findFirst()
                .orElseThrow();
    }
}
