package sprag.bench.docs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.FrameColumns;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioReader;
import sprag.bench.scenario.ScenarioRun;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/** What docs/lesson-panel.md and docs/reset.md say happens, happens: each outcome and figure is played. */
class DocStatementsTest {
    private static final String START = """
        [about]
        title = "t"
        why = "w"
        duration_s = 40
        [start]
        soc = 0.7
        """;
    /** Key, brake, start. */
    private static final String WAKE = START
            + step("key", "at_s = 0.5", "set = { key = 1 }")
            + step("start", "at_s = 1", "set = { brake = 0.3, direction = 1, start = 1 }")
            + step("let go", "at_s = 1.3", "set = { start = 0 }");
    /** And off, to some 8 km/h. */
    private static final String DRIVE = WAKE
            + step("off", "after_state = \"DRIVE_ENABLE\"\nwait_s = 0.5", "set = { brake = 0, pedal = 0.5 }")
            + step("act", "after = \"off\"\nwait_s = 3", "set = { regen_level = 1 }");

    private static String step(String name, String when, String what) {
        return "[[do]]\nname = \"" + name + "\"\n" + when + "\n" + what + "\n";
    }

    private static String then(String name, String before, double waitS, String what) {
        return step(name, "after = \"" + before + "\"\nwait_s = " + waitS, what);
    }

    private static String expect(String keys) {
        return "[[expect]]\ntext = \"" + keys.replace('"', '\'').replace('\n', ' ') + "\"\n" + keys + "\n";
    }

    private static String within(String what, String after, int ms) {
        return expect(what + "\nafter = \"" + after + "\"\nwithin_ms = " + ms);
    }

    /** From a moment after a step, to another. */
    private static String always(String what, String after, double fromS, double toS) {
        return expect(what + "\nalways = true\nafter = \"" + after + "\"\nfrom_s = " + fromS + "\nto_s = " + toS);
    }

    /** On the van, while it drives. */
    private static void drive(String... parts) throws Exception {
        play("parcel-van", DRIVE, parts);
    }

    private static void play(String name, String begin, String... parts) throws Exception {
        Vehicle vehicle = VehicleReader.read(Catalogue.installed().vehicle(name));
        Scenario scenario = ScenarioReader.parse(
                Path.of("statement.toml"), begin + String.join("", parts), FrameColumns.VOCABULARY);
        RunResult result = new ScenarioRun(
                        scenario, ClosedLoop.on(vehicle, scenario.about().bus(), scenario.seed()))
                .play(vehicle.name(), (step, at) -> {}, List.of(), () -> false);
        List<String> wrong = new ArrayList<>();
        result.judged().stream()
                .filter(j -> !j.verdict().passed())
                .forEach(j ->
                        wrong.add(j.expectation().text() + ": " + j.verdict().detail()));
        result.missed().forEach(missed -> wrong.add("never done: " + missed.name()));
        assertEquals(List.of(), wrong);
    }

    /** The sentence whose figures a test plays stands on the page. */
    private static void says(String page, String sentence) throws Exception {
        String text = Files.readString(MadePages.docs().resolve(page)).replaceAll("\\s+", " ");
        assertTrue(text.contains(sentence), "docs/" + page + " does not say: " + sentence);
    }

    private static final String NO_TORQUE = "output = \"torque_request_nm\"\nis = 0";
    private static final String DRIVES = "output = \"torque_request_nm\"\nat_least = 1";
    private static final String CLOSED = "output = \"positive_contactor\"\nis = 1";
    private static final String WELD =
            then("weld", "act", 0, "set = { pedal = 0, brake = 0.6 }\nfault = \"negative_contactor.welded\"");

    @Test
    void precharge_ofTheVan_takesTheTimesOfTheLesson() throws Exception {
        says("lesson-panel.md", "here 0.55 s after the precharge relay closed for the second time");
        says("lesson-panel.md", "it has risen by 63 %");
        says("lesson-panel.md", "make 155 ms");
        says("lesson-panel.md", "at least 95 % of the pack");
        String second = "after_output = \"precharge_relay\"\nrises_to = 1\nnot_before_s = 1.1";
        String bus = "quantity = \"bus_voltage_v\"\n";
        play(
                "parcel-van",
                WAKE,
                expect(bus + "at_most = 0.1\nalways = true\nto_s = 1.3"),
                expect(bus + "at_least = 55\n" + second + "\nwithin_ms = 180"),
                expect(bus + "at_most = 62\nalways = true\n" + second + "\nto_s = 0.16"),
                expect(CLOSED + "\n" + second + "\nwithin_ms = 560"),
                expect("output = \"positive_contactor\"\nis = 0\nalways = true\n" + second + "\nto_s = 0.54"),
                expect("quantity = \"bus_voltage_v\"\nat_least = 93\nafter_output = \"positive_contactor\""
                        + "\nrises_to = 1\nalways = true\nto_s = 1"));
    }

    @Test
    void bus_afterKeyOff_isAboveSixtyVoltForFourSeconds() throws Exception {
        says("lesson-panel.md", "how long is the bus above 60 V?");
        says("lesson-panel.md", "(About 4 s.)");
        drive(
                then("stop", "act", 0, "set = { pedal = 0, brake = 0.6 }"),
                then("key off", "stop", 4, "set = { key = 0 }"),
                always("quantity = \"bus_voltage_v\"\nat_least = 60", "key off", 0, 3.2),
                within("quantity = \"bus_voltage_v\"\nat_most = 60", "key off", 4500));
    }

    @Test
    void pedalAndBrake_below25Percent_keepTorque() throws Exception {
        says("lesson-panel.md", "Below 25 % of pedal travel the torque stays");
        says(
                "lesson-panel.md",
                "does not move at all for two seconds under the brake counts as stuck, and the torque goes too");
        drive(
                then("15", "act", 0, "set = { pedal = 0.15, brake = 0.2 }"),
                then("20", "15", 1, "set = { pedal = 0.20 }"),
                always(DRIVES, "20", 0.5, 1.5),
                within("interlock = \"PEDAL_STILL\"", "20", 2500),
                expect("interlock = \"PEDAL_WITH_BRAKE\"\nnever = true"));
    }

    @Test
    void pedalAndBrake_at30Percent_takeTorqueUntilThePedalIsReleased() throws Exception {
        says(
                "lesson-panel.md",
                "| press pedal (30 % or more) and brake together | no torque; the contactors stay closed |");
        says("lesson-panel.md", "| still no torque, until the pedal is released |");
        drive(
                then("30", "act", 0, "set = { pedal = 0.3, brake = 0.2 }"),
                then("brake off", "30", 2, "set = { brake = 0 }"),
                then("pedal off", "brake off", 2, "set = { pedal = 0, regen_level = 0 }"),
                then("again", "pedal off", 1, "set = { pedal = 0.4 }"),
                always(NO_TORQUE, "30", 0.05, 4.9),
                always(CLOSED, "30", 0, 6),
                within(DRIVES, "again", 1000));
    }

    @Test
    void plug_whileDriving_endsTorqueAtOnceAndOpensAfterwards() throws Exception {
        says(
                "lesson-panel.md",
                "| plug in while driving | torque ends in the same tick; 0.4 s later the contactors open |");
        drive(
                then("plug", "act", 0, "set = { plug = 1 }"),
                always(NO_TORQUE, "plug", 0.01, 5),
                always(CLOSED, "plug", 0, 0.35),
                within("output = \"positive_contactor\"\nis = 0", "plug", 450));
    }

    @Test
    void cutOffLoop_whileDriving_opensEverythingInTheSameTick() throws Exception {
        says("lesson-panel.md", "| open the cut-off loop while driving | all contactors open at once |");
        drive(
                then("cut", "act", 0, "set = { cut_loop = 0 }"),
                always("output = \"positive_contactor\"\nis = 0", "cut", 0.01, 5),
                always("output = \"negative_contactor\"\nis = 0", "cut", 0.01, 5));
    }

    @Test
    void reverse_whileRolling_endsTorqueAndEngagesAtStandstill() throws Exception {
        says(
                "lesson-panel.md",
                "| torque and regeneration end, a warning sounds; reverse engages at standstill with the pedal released |");
        drive(
                then("reverse", "act", 0, "set = { pedal = 0, direction = -1, regen_level = 3 }"),
                then("brake", "reverse", 3, "set = { brake = 0.6 }"),
                then("press", "brake", 6, "set = { brake = 0, pedal = 0.4 }"),
                always(NO_TORQUE, "reverse", 0.05, 8.9),
                within("output = \"buzzer\"\nis = 1", "reverse", 500),
                within("output = \"torque_request_nm\"\nat_most = -1", "press", 1000),
                within("quantity = \"speed_kph\"\nat_most = -1", "press", 8000));
    }

    @Test
    void motor_at160Degrees_takesTorqueWithinASecondAndKeepsTheContactors() throws Exception {
        says(
                "lesson-panel.md",
                "| heat the motor (Set once: 160 degrees) | within 1 s there is no torque; the contactors stay closed |");
        drive(
                then("hot", "act", 0, "set = { motor_temp_c = 160 }"),
                always(NO_TORQUE, "hot", 1, 3),
                always(CLOSED, "hot", 0, 3));
    }

    @Test
    void pedalWire_brokenOrShorted_readsWhatNoSoundPedalShows() throws Exception {
        says(
                "lesson-panel.md",
                "`pedal_a_v.short_low` (the track reads 0 V); after another new car `pedal_a_v.open` (it reads 5 V)");
        says("lesson-panel.md", "A pedal at rest reads 0.9 V");
        drive(
                then("open", "act", 0, "fault = \"pedal_a_v.open\""),
                always("signal = \"pedal_a_v\"\nat_least = 4.95", "open", 0.02, 3),
                always(NO_TORQUE, "open", 0.1, 3));
        drive(
                then("short", "act", 0, "fault = \"pedal_a_v.short_low\""),
                always("signal = \"pedal_a_v\"\nat_most = 0.05", "short", 0.02, 3),
                always(NO_TORQUE, "short", 0.1, 3));
        play("parcel-van", WAKE, expect("signal = \"pedal_a_v\"\nat_least = 0.85\nat_most = 0.95\nalways = true"));
    }

    @Test
    void bus_thatReadsLiveBeforeAStart_refusesItAndIsAFaultAfterSixSeconds() throws Exception {
        says(
                "lesson-panel.md",
                "the start is refused. After `bus.bleed_ms`, 6 s on this van, it is a fault that needs service");
        play(
                "parcel-van",
                WAKE,
                step("forced", "at_s = 0.1", "fault = \"bus_voltage_v.bias=97\""),
                within("interlock = \"BUS_NOT_DISCHARGED\"", "start", 20),
                always("state = \"IGNITION\"", "forced", 0.5, 5.9),
                within("state = \"FAULT\"", "forced", 6100));
    }

    @Test
    void busReading_stuckAtKeyOff_isAFaultAfterSixSeconds() throws Exception {
        says(
                "lesson-panel.md",
                "(6 s after the contactors opened, `bus-still-live` leads to FAULT, although the true bus is below 60 V.)");
        drive(
                then("stuck", "act", 0, "set = { pedal = 0, brake = 0.6 }\nfault = \"bus_voltage_v.stuck\""),
                then("key off", "stuck", 4, "set = { key = 0 }"),
                always("state = \"RUNDOWN\"", "key off", 0.1, 5.9),
                within("state = \"FAULT\"", "key off", 6200),
                always("quantity = \"bus_voltage_v\"\nat_most = 60", "key off", 6, 8));
    }

    @Test
    void negativeWeld_withAuxiliaryContacts_isFoundWhenItShouldOpen() throws Exception {
        says("lesson-panel.md", "(When the negative contactor should open: its auxiliary contact still says closed.)");
        drive(
                WELD,
                then("key off", "weld", 4, "set = { key = 0 }"),
                always(CLOSED, "weld", 0, 4),
                within("interlock = \"NEGATIVE_WELDED\"", "key off", 250));
    }

    @Test
    void negativeWeld_withoutAuxiliaryContacts_isFoundAtTheNextStart() throws Exception {
        says("lesson-panel.md", "so key Off ends without a fault. When is the weld found there? (At the next start:");
        play(
                "yard-cart",
                DRIVE,
                WELD,
                then("key off", "weld", 4, "set = { key = 0 }"),
                then("key on", "key off", 12, "set = { key = 1 }"),
                then("start again", "key on", 1, "set = { start = 1 }"),
                always("state = \"OFF\"", "key off", 11, 11.9),
                within("interlock = \"NEGATIVE_WELD_FOUND\"", "start again", 200));
    }

    @Test
    void reset_byTheKey_thatWasOnAtTheFault_endsItWhenTheKeyIsOffAndTheCauseGone() throws Exception {
        says("reset.md", "If the key is on, turn it **off**.");
        says("reset.md", "FAULT ends as soon as the key is off and the cause has gone: the state is OFF");
        drive(
                then("cut", "act", 0, "set = { pedal = 0, brake = 0.6, cut_loop = 0 }"),
                then("key off", "cut", 1, "set = { key = 0 }"),
                then("mended", "key off", 12, "set = { cut_loop = 1 }"),
                always("state = \"FAULT\"", "cut", 0.1, 12.9),
                within("state = \"OFF\"", "mended", 20));
    }

    @Test
    void reset_byTheKey_thatWasOffAtTheFault_needsItOnAndThenOff() throws Exception {
        says("reset.md", "If it was already off when the fault came, turn it **on**, then **off**.");
        drive(
                then("key off", "act", 0, "set = { pedal = 0, brake = 0.6, key = 0 }"),
                then("cut", "key off", 1, "set = { cut_loop = 0 }"),
                then("mended", "cut", 12, "set = { cut_loop = 1 }"),
                then("on", "mended", 2, "set = { key = 1 }"),
                then("off again", "on", 1, "set = { key = 0 }"),
                always("state = \"FAULT\"", "cut", 0.1, 14.9),
                within("state = \"OFF\"", "off again", 20));
    }

    @Test
    void reset_byService_needsTheButtonWithTheKeyOff() throws Exception {
        says(
                "reset.md",
                "Turn the key **off**. A person looks at the car and repairs it. Then press the **service reset** at the supervisor.");
        play(
                "parcel-van",
                START,
                step("key", "at_s = 0.5", "set = { key = 1 }"),
                step("crash", "at_s = 1", "set = { crash_loop = 0 }"),
                then("mended", "crash", 1, "set = { crash_loop = 1 }"),
                then("with the key on", "mended", 1, "set = { service_reset = 1 }"),
                then("released", "with the key on", 1, "set = { service_reset = 0 }"),
                then("key off", "released", 1, "set = { key = 0 }"),
                then("pressed", "key off", 1, "set = { service_reset = 1 }"),
                always("state = \"FAULT\"", "crash", 0.1, 4.9),
                within("state = \"OFF\"", "pressed", 50));
    }
}
