package sprag.bench.hand.commission;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;
import sprag.bench.Sprag;
import sprag.bench.cli.ExitCode;
import sprag.bench.page.PageCheck;
import sprag.bench.vehicle.Catalogue;

/** The whole command on the simulated car. */
@Execution(ExecutionMode.CONCURRENT)
class RehearsalTest {
    @TempDir
    Path folder;

    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();

    private int commission(String... args) {
        List<String> all = new ArrayList<>(List.of("commission"));
        all.addAll(List.of(args));
        CommandLine line = Sprag.commandLineFor("commission");
        line.setOut(new PrintWriter(out, true));
        line.setErr(new PrintWriter(err, true));
        return line.execute(all.toArray(new String[0]));
    }

    private JsonNode record() throws Exception {
        return new ObjectMapper()
                .readTree(folder.resolve("record/commission.json").toFile());
    }

    private List<String> notPassed() throws Exception {
        List<String> ids = new ArrayList<>();
        for (JsonNode step : record().path("steps")) {
            if (!"passed".equals(step.path("verdict").asText())) {
                ids.add(step.path("id").asText());
            }
        }
        return ids;
    }

    private String seen(String id) throws Exception {
        for (JsonNode step : record().path("steps")) {
            if (id.equals(step.path("id").asText())) {
                return step.path("verdict").asText() + ": " + step.path("seen").asText();
            }
        }
        return "there is no step " + id;
    }

    private String rehearse(String vehicle, String... more) {
        List<String> args = new ArrayList<>(
                List.of(vehicle, "--rehearse", "--out", folder.resolve("record").toString()));
        args.addAll(List.of(more));
        return "exit " + commission(args.toArray(new String[0]));
    }

    @Test
    void busAndBoard_rehearsedTogether_passTheirStepsAndTheBusIsMeasured() throws Exception {
        int status = commission(
                "parcel-van",
                "--board",
                boardWithoutBusSignals().toString(),
                "--bus",
                "van-pair",
                "--rehearse",
                "--out",
                folder.resolve("record").toString());
        assertEquals(List.of(), notPassed(), err.toString());
        assertEquals(ExitCode.WELL, status, err.toString());
        assertTrue(
                out.toString().contains("bus.resistance") || record().toString().contains("bus.resistance"));
        assertTrue(record().toString().contains("bus.speakers"));
    }

    @Test
    void signal_onBoardAndBus_isRefused() throws Exception {
        String bench = Files.readString(Catalogue.installed().home().resolve("config/boards/usb-bench.toml"));
        Path both = Files.writeString(folder.resolve("both.toml"), bench.replace("lv_supply_v", "pack_voltage_v"));
        assertEquals(
                ExitCode.USAGE,
                commission("parcel-van", "--board", both.toString(), "--bus", "van-pair", "--rehearse"));
        assertTrue(err.toString().contains("pack_voltage_v comes from the board too"), err.toString());
    }

    /** No signal of the shipped board is on the shipped bus. */
    private static Path boardWithoutBusSignals() {
        return Catalogue.installed().home().resolve("config/boards/usb-bench.toml");
    }

    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void shippedVehicle_rehearsed_passesEveryStepAndSaysRehearsal(String vehicle) throws Exception {
        assertEquals("exit 0", rehearse(vehicle), out + "\n" + err);
        assertEquals(List.of(), notPassed());
        assertTrue(record().path("rehearsal").asBoolean());
        assertTrue(out.toString().contains("** REHEARSAL **"), out.toString());
        String page = Files.readString(folder.resolve("record/commission.html"));
        assertTrue(page.contains("<p class=\"warned\">REHEARSAL"), page);
        assertTrue(
                page.contains(record().path("fingerprints").path("wiring.csv").asText()), page);
        PageCheck.standsAlone(page);
        List<String> wide = out.toString().lines().filter(l -> l.length() > 80).toList();
        assertEquals(List.of(), wide);
    }

    @ParameterizedTest(name = "{0} with {1} fails in {2}")
    @CsvSource(delimiter = '|', textBlock = """
        # vehicle  | planted fault                             | first step that fails      | what it says                                  | BECAUSE
        parcel-van | key_on.dead                               | input.key_on               | no other switch changed                       | the wire is broken
        parcel-van | key_on.swapped=start_request              | input.key_on               | instead start_request went on                 | two inputs are swapped
        parcel-van | pedal_a_v.dead                            | input.pedal_a_v            | out of limits, full                           | the wiper does not follow
        parcel-van | pedal_a_v.swapped=pedal_b_v               | input.pedal_a_v            | out of limits, released                       | the tracks are swapped
        parcel-van | ready_lamp.swapped=fault_lamp             | output.ready_lamp          | acted: fault_lamp                             | two lamps are swapped
        parcel-van | heater_blower.dead                        | output.heater_blower       | nothing acted                                 | the wire is broken
        parcel-van | positive_contactor.swapped=precharge_relay| output.precharge_relay     | the wrong contact moved: instead positive_aux_closed closed | the contactor would close onto an empty bus
        parcel-van | positive_contactor.dead                   | output.positive_contactor  | did not close; no other contact moved either  | the coil is not reached
        parcel-van | positive_aux_closed.dead                  | output.positive_contactor  | did not close; no other contact moved either | the contact is missing
        parcel-van | cut_off.slow=400                          | cut_off.hardware           | out of limits, all open after the loop opened | the coils hold on
        parcel-van | cut_off.bypassed                          | cut_off.hardware           | still closed 3000 ms after the loop opened    | the button only tells the program
        coupe      | heartbeat.dead                            | output.negative_contactor  | did not close                                 | the watchdog relay never pulls in
        """)
    void plantedFault_rehearsed_failsInTheRightStepAndSaysWhatWasSeen(
            String vehicle, String fault, String step, String words, String because) throws Exception {
        assertEquals("exit 1", rehearse(vehicle, "--fault", fault), out + "\n" + err);
        assertEquals(step, notPassed().get(0), because);
        assertTrue(seen(step).startsWith("failed"), seen(step));
        assertTrue(seen(step).contains(words), seen(step));
        assertTrue(out.toString().contains("FAILED: "), out.toString());
    }

    @Test
    void auxiliaryContactMissing_itsContactorIsNotProved_andTheSupervisorNeverDrives() throws Exception {
        rehearse("parcel-van", "--fault", "positive_aux_closed.dead");
        assertTrue(seen("output.positive_contactor").startsWith("failed"), seen("output.positive_contactor"));
        assertTrue(
                seen("sequence.start_stop").startsWith("not done: refused: not yet passed: output.positive_contactor"),
                seen("sequence.start_stop"));
    }

    @Test
    void faultThatDoesNotExist_isWrongUsageWithTheNearestName() {
        assertEquals("exit 2", rehearse("parcel-van", "--fault", "kay_on.dead"));
        assertTrue(err.toString().contains("key_on"), err.toString());
    }

    @Test
    void faultWithABoard_isWrongUsage() {
        assertEquals(
                2,
                commission(
                        "parcel-van",
                        "--board",
                        "usb-bench",
                        "--fault",
                        "key_on.dead",
                        "--out",
                        folder.resolve("record").toString()));
    }

    @Test
    void boardsMap_rehearsed_asksOnlyForItsPinsAndNamesThem() throws Exception {
        assertEquals("exit 0", rehearse("parcel-van", "--board", "usb-bench"), out + "\n" + err);
        assertTrue(out.toString().contains("pin D8; wire L013"), out.toString());
        assertEquals("there is no step input.motor_temp_v", seen("input.motor_temp_v"));
        assertTrue(record().path("not_covered").toString().contains("input motor_temp_v"));
    }

    @Test
    void wiringChangedSince_resume_isRefusedAndNamesTheFile() throws Exception {
        Path vehicle = copyOfTheVan();
        rehearse(vehicle.toString());
        Path wiring = vehicle.resolve("wiring.csv");
        Files.writeString(wiring, Files.readString(wiring).replace("S002,key_switch.drive", "S902,key_switch.drive"));
        String record = folder.resolve("record").toString();
        assertEquals(2, commission(vehicle.toString(), "--rehearse", "--resume", record));
        assertTrue(err.toString().contains("since then these have changed: wiring.csv"), err.toString());
        assertEquals(1, commission(vehicle.toString(), "--rehearse", "--resume", record, "--despite-change"));
        String page = Files.readString(folder.resolve("record/commission.html"));
        assertTrue(page.contains("FILES CHANGED BETWEEN SESSIONS: wiring.csv"), page);
        assertTrue(page.contains("before the change"), page);
    }

    @Test
    void otherVehicle_resume_isRefused() {
        rehearse("yard-cart");
        assertEquals(
                2,
                commission(
                        "coupe",
                        "--rehearse",
                        "--resume",
                        folder.resolve("record").toString()));
        assertTrue(err.toString().contains("rehearsal of yard-cart"), err.toString());
    }

    @Test
    void sameFolderTwice_isRefusedAndPointsToResume() {
        rehearse("yard-cart");
        assertEquals("exit 2", rehearse("yard-cart"));
        assertTrue(err.toString().contains("--resume"), err.toString());
    }

    @Test
    void damagedLineWithinTheJournal_isTroubleWithItsNumber() throws Exception {
        rehearse("yard-cart");
        Path journal = folder.resolve("record/commission.jsonl");
        List<String> lines = new ArrayList<>(Files.readAllLines(journal));
        lines.set(4, lines.get(4).substring(0, 20));
        Files.write(journal, lines);
        assertEquals(
                3,
                commission(
                        "yard-cart",
                        "--rehearse",
                        "--resume",
                        folder.resolve("record").toString()));
        assertTrue(err.toString().contains("line 5 is damaged"), err.toString());
    }

    private Path copyOfTheVan() throws Exception {
        Path from = Catalogue.installed().vehicle("parcel-van");
        Path to = Files.createDirectory(folder.resolve("van"));
        for (String name : List.of("vehicle.toml", "wiring.csv", "parts.csv")) {
            Files.copy(from.resolve(name), to.resolve(name));
        }
        return to;
    }

    @Test
    void whateverTheSupervisorDecided_isRecordedAndDecidedAgain() throws Exception {
        assertEquals("exit 0", rehearse("parcel-van"), () -> err.toString());
        List<String> names;
        try (Stream<Path> files = Files.list(folder.resolve("record"))) {
            names = files.map(file -> file.getFileName().toString())
                    .filter(name -> name.endsWith(".sprag"))
                    .toList();
        }
        assertTrue(names.contains("sequence.start_stop.sprag") && names.size() > 8, names.toString());
        for (String name : names) {
            CommandLine line = Sprag.commandLineFor("replay");
            line.setOut(new PrintWriter(out, true));
            int status = line.execute(
                    "replay", folder.resolve("record").resolve(name).toString());
            assertEquals(ExitCode.WELL, status, name);
        }
    }
}
