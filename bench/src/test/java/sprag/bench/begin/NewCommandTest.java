package sprag.bench.begin;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import picocli.CommandLine;
import sprag.bench.Sprag;
import sprag.bench.TypingTest;
import sprag.bench.cli.ExitCode;
import sprag.bench.explain.KeyEntries;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Signal;

class NewCommandTest extends TypingTest {
    @TempDir
    Path folder;

    private int make(String name, String... more) {
        List<String> args = new ArrayList<>(List.of("new", folder.resolve(name).toString()));
        args.addAll(List.of(more));
        return sprag(args.toArray(String[]::new));
    }

    private String file(String name) throws Exception {
        return Files.readString(folder.resolve(name).resolve("vehicle.toml"));
    }

    private void replace(String name, String old, String now) throws Exception {
        String text = file(name);
        assertTrue(text.contains(old), old);
        Files.writeString(folder.resolve(name).resolve("vehicle.toml"), text.replace(old, now));
    }

    private Vehicle read(String name) throws Exception {
        return VehicleReader.read(folder.resolve(name));
    }

    @Test
    void severalWrongAnswers_given_areAllToldAtOnce() {
        assertEquals(ExitCode.USAGE, make("car", "--set", "cells=0", "--set", "zzz=3", "--set", "motor_kind=foo"));
        assertTrue(err.toString().contains("cells = 0"), err.toString());
        assertTrue(err.toString().contains("zzz"), err.toString());
        assertTrue(err.toString().contains("foo"), err.toString());
        assertFalse(Files.exists(folder.resolve("car")));
    }

    @ParameterizedTest
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        MAX_KPH | STATUS | BECAUSE
        107     | 0      | 8000 rpm less 5 % for downhill, ratio 8, wheel 0.3 m: 107.7 km/h
        108     | 2      | check would stop it
        """)
    void topSpeed_theMotorCannotTurn_isRefusedWithTheMost(int maxKph, int status, String because) {
        assertEquals(status, make("car", "--set", "max_kph=" + maxKph), because);
        if (status != 0) {
            assertTrue(err.toString().contains("Give max_kph at most 107"), err.toString());
        }
    }

    @ParameterizedTest
    @CsvSource({"plain, plug_present", "none, motor_temp_v"})
    void inletWithoutAPilot_answered_makesAVehicleThatCanBeRead(String inlet, String signal) throws Exception {
        assertEquals(ExitCode.WELL, make("car", "--set", "inlet=" + inlet), err::toString);
        assertTrue(read("car").fitted().stream().anyMatch(s -> s.key().equals(signal)));
        assertFalse(read("car").settings().has(Signal.PILOT_PEAK_V));
    }

    @ParameterizedTest
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        ANSWERS                             | KIND                     | BECAUSE
        inlet=plain plug_sign=switch        | plain-lead               | the switch alone tells
        inlet=plain plug_sign=both          | plain-lead               | the switch counts first
        inlet=plain plug_sign=charger       | plain-line               | only the charger tells
        inlet=none                          | pack-taken-out           | no lead at all
        charger_control=alone               | charger-alone            | nothing controls it
        gearbox=clutch                      | gearbox-kept             | the usual sensors have no second speed
        gearbox=clutch sensors=all          | gearbox-with-wheel-speed | all sensors have one
        gearbox=hub motor_max_rpm=900       | hub-motors               | nothing lies between
        motors=2                            | two-motors               | one shaft
        """)
    void kindOfCar_answered_isToldInTheFileAndOnTheTerminal_asTheDocumentsTellIt(
            String answers, String kind, String because) throws Exception {
        List<String> more = new ArrayList<>();
        Stream.of(answers.split(" ")).forEach(answer -> more.addAll(List.of("--set", answer)));
        assertEquals(ExitCode.WELL, make("car", more.toArray(String[]::new)), err::toString);
        Kind told = Stream.of(Kind.values())
                .filter(k -> k.id.equals(kind))
                .findFirst()
                .orElseThrow();
        assertTrue(flat(out.toString()).contains(told.text()), because + out);
        assertTrue(flat(file("car").replace(VehicleText.KIND_MARK, "")).contains(told.text()), because);
        String page =
                Files.readString(Path.of("..", "docs", "kinds-of-cars.md")).replace("`", "");
        String row = page.lines()
                .filter(line -> line.contains("(" + kind + ")"))
                .findFirst()
                .orElseThrow();
        assertTrue(row.endsWith("| " + told.differently + " | " + told.lost + " |"), row);
    }

    private static String flat(String text) {
        return text.replaceAll("\\s+", " ");
    }

    @Test
    void everyQuestion_givenToKey_isExplainedAsItIsAsked() {
        CommandLine line = Sprag.commandLine();
        line.setOut(new PrintWriter(out, true)).setErr(new PrintWriter(err, true));
        assertEquals(ExitCode.WELL, line.execute("key", "--list", "answer"));
        String told = flat(out.toString());
        for (Question question : Question.values()) {
            assertTrue(told.contains(question.key() + " " + question.question), question.key() + ": " + told);
        }
        assertEquals(
                Question.values().length,
                out.toString().lines().filter(text -> !text.startsWith(" ")).count());
    }

    @Test
    void usualCar_made_isOfNoKindOfItsOwn() throws Exception {
        assertEquals(ExitCode.WELL, make("car"));
        assertFalse(out.toString().contains("differently"), out.toString());
        assertFalse(file("car").contains(VehicleText.KIND_MARK));
    }

    @ParameterizedTest
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        ANSWERS                                        | TOLD                              | BECAUSE
        cells=32.5                                     | not a whole number                | half a cell
        chargers=1.5                                   | not a whole number                | half a charger
        gearbox=hub gear_ratio=8                       | Give gear_ratio = 1               | a hub motor has no gear
        charger_control=alone charger_side=bus-side    | Give charger_side = "pack-side"   | nobody opens the contactors for it
        capacity_ah=5 discharge_max_a=301              | Give discharge_max_a at most 300  | 60 times the capacity is the most
        capacity_ah=10 charge_max_a=201 discharge_max_a=300 | Give charge_max_a at most 200 | 20 times the capacity is the most
        motors=4 motor_torque_nm=501                   | at most 500                       | the sum is more than a request may be
        motor_kind=permanent-magnet motor_emf_v_per_krpm=30 | Give max_kph at most 62      | 133 V of bus.max_v over 191 V at 90 km/h
        """)
    void answersThatContradict_given_areRefusedWithTheRemedy(String answers, String told, String because) {
        List<String> more = new ArrayList<>();
        Stream.of(answers.split(" ")).forEach(answer -> more.addAll(List.of("--set", answer)));
        assertEquals(ExitCode.USAGE, make("car", more.toArray(String[]::new)), because);
        assertTrue(err.toString().contains(told), because + ": " + err);
        assertFalse(Files.exists(folder.resolve("car")));
    }

    @ParameterizedTest
    @CsvSource({
        "capacity_ah=5 discharge_max_a=300 motor_power_w=10000 charge_max_a=20",
        "capacity_ah=10 charge_max_a=200 discharge_max_a=300",
        "motors=4 motor_torque_nm=500",
        "max_kph=3",
        "capacitance_uf=10"
    })
    void answersAtTheLimit_given_makeAVehicle(String answers) {
        List<String> more = new ArrayList<>();
        Stream.of(answers.split(" ")).forEach(answer -> more.addAll(List.of("--set", answer)));
        assertEquals(ExitCode.WELL, make("car", more.toArray(String[]::new)), err::toString);
    }

    @Test
    void secondMotor_answered_doublesTorqueAndPower_andTheLossesOfEach() throws Exception {
        make("one");
        make("two", "--set", "motors=2");
        assertEquals(240, read("two").get(Parameter.DRIVE_TORQUE_NM));
        assertEquals(60_000, read("two").get(Parameter.DRIVE_POWER_W));
        double ironW = read("one").get(CarParameter.MACHINE_IRON_W_PER_KRPM);
        assertEquals(2 * ironW, read("two").get(CarParameter.MACHINE_IRON_W_PER_KRPM), 0.1 * ironW);
    }

    @Test
    void refresh_toAnotherKind_tellsThatKindOnly_andWhichSignalsItAsksFor() throws Exception {
        make("car", "--set", "gearbox=clutch");
        assertEquals(
                ExitCode.WELL,
                make("car", "--refresh", "--set", "gearbox=fixed", "--set", "sensors=all"),
                err::toString);
        assertFalse(file("car").contains(VehicleText.KIND_MARK), "it is the usual car now");
        assertTrue(out.toString().contains("kept     signals.fitted"), out.toString());
        assertEquals(0, read("car").get(Parameter.DRIVE_GEARBOX));
        make("car", "--refresh", "--set", "motors=2");
        assertTrue(
                file("car").contains("#: This car has two motors on one shaft."),
                file("car").substring(0, 1200));
    }

    @Test
    void folderWithASpace_made_isQuotedInTheNextCommands() {
        assertEquals(ExitCode.WELL, make("my car"));
        String quoted = '"' + folder.resolve("my car").toString() + '"';
        assertTrue(out.toString().contains("sprag check " + quoted), out.toString());
        assertTrue(out.toString().contains("sprag run " + quoted + " drive-and-stop"), out.toString());
    }

    @Test
    void noAnswers_offTheTerminal_writesAVehicleOfDefaults_withEveryKey() throws Exception {
        assertEquals(ExitCode.WELL, make("car"));
        Vehicle vehicle = read("car");
        assertEquals("car", vehicle.name());
        assertEquals(32, vehicle.get(Parameter.PACK_CELLS));
        assertTrue(vehicle.settings().has(Signal.CELL_MAX_V));
        String text = file("car");
        for (Row row : KeyEntries.rows()) {
            String name = row.key().substring(row.key().lastIndexOf('.') + 1);
            assertTrue(text.matches("(?s).*\n(# )?" + name + " =.*"), row.key());
        }
        assertFalse(text.contains("must be given"), "a required key was left open");
    }

    @Test
    void folderThatHoldsAVehicle_isLeftAlone() throws Exception {
        make("car");
        String before = file("car");
        assertEquals(ExitCode.USAGE, make("car", "--set", "cells=20"));
        assertTrue(err.toString().contains("is there already"), err.toString());
        assertEquals(before, file("car"));
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            cells=3          | cells = 3 is not a number within 4..220            | too few
            cells=many       | cells = "many" is not a number within 4..220       | no number
            cell=30          | Did you mean cells?                                | a slip of the name
            chemistry=lead   | chemistry = "lead" is not "lfp" or "nmc"           | no such cells
            'a.b[=1'         | is not a known key                                 | markup as a name
            """)
    void answerThatIsNotAllowed_isRefusedByName_andNothingIsWritten(String answer, String told, String because) {
        assertEquals(ExitCode.USAGE, make("car", "--set", answer), because);
        assertTrue(err.toString().contains(told), because + ": " + err);
        assertFalse(Files.exists(folder.resolve("car")));
    }

    @Test
    void questionsAsAFile_givenBackAsAnswers_makeTheSameVehicle() throws Exception {
        make("defaults");
        make("none", "--questions");
        assertFalse(Files.exists(folder.resolve("none")));
        String asked = out.toString().substring(out.toString().indexOf("# What vehicle.toml"));
        Path answers = Files.writeString(folder.resolve("a.toml"), asked.replace("cells = 32", "cells = 40"));
        assertEquals(ExitCode.WELL, make("car", "--answers", answers.toString()), err.toString());
        make("same", "--set", "cells=40");
        assertEquals(file("same").replace("\"same\"", "\"car\""), file("car"));
    }

    @Test
    void questions_withoutAFolder_arePrinted_withTheAnswersThatWereGiven() {
        assertEquals(ExitCode.WELL, sprag("new", "--questions", "--set", "cells=40"), err.toString());
        assertTrue(out.toString().contains("\ncells = 40\n"), out.toString());
        assertEquals(ExitCode.USAGE, sprag("new", "--questions", "--set", "cells=3"));
        assertEquals(ExitCode.USAGE, sprag("new", "--questions", "--refresh"));
    }

    @Test
    void noFolder_isRefusedWithAnExample() {
        assertEquals(ExitCode.USAGE, sprag("new", "--set", "cells=40"));
        assertTrue(err.toString().contains("a folder is missing, for example: sprag new my-car;"), err.toString());
    }

    @Test
    void refresh_afterANewAnswer_changesWhatWasComputed_andKeepsWhatAPersonWrote() throws Exception {
        make("car");
        replace("car", "capacitance_uf = 2000 ", "capacitance_uf = 2500 ");
        replace("car", "# tick_ms = 10 ", "tick_ms = 20   # mine, ");
        assertEquals(ExitCode.WELL, make("car", "--refresh", "--set", "cells=40", "--set", "chargers=2"));
        Vehicle vehicle = read("car");
        assertEquals(40, vehicle.get(Parameter.PACK_CELLS));
        assertEquals(128, vehicle.get(Parameter.PACK_NOMINAL_V), "computed from cells");
        assertEquals(2500, vehicle.get(Parameter.BUS_CAPACITANCE_UF), "written by a person");
        assertEquals(20, vehicle.get(Parameter.LOOP_TICK_MS), "written by a person");
        assertEquals(3300, vehicle.get(Parameter.CHARGER_2_MAX_W), "was at its default and is needed now");
        assertTrue(out.toString().contains("changed  pack.nominal_v = 128 (was 102.4)"), out.toString());
    }

    @Test
    void refresh_ofAValueOfOnesOwn_tellsWhatWouldBeComputed_alsoInTheFile() throws Exception {
        make("car");
        replace("car", "timeout_ms = ", "timeout_ms = 9");
        assertEquals(ExitCode.WELL, make("car", "--refresh", "--set", "capacitance_uf=2500"), err.toString());
        assertTrue(out.toString().contains("kept     precharge.timeout_ms = 9"), out.toString());
        assertTrue(
                file("car").matches("(?s).*\ntimeout_ms = 9\\d+ +# yours; computed \\d+: .*"), "the file tells it too");
    }

    @Test
    void refresh_ofALineWithoutAnyWord_keepsAndTellsIt() throws Exception {
        make("car");
        String text = file("car").replaceAll("(?m)^(energy_j = )\\d+ .*$", "$1 800");
        Files.writeString(folder.resolve("car").resolve("vehicle.toml"), text);
        make("car", "--refresh", "--set", "capacitance_uf=2500");
        assertTrue(out.toString().contains("kept     precharge.energy_j = 800 (yours; computed: "), out.toString());
        assertEquals(800, read("car").get(Parameter.PRECHARGE_ENERGY_J));
    }

    @Test
    void refresh_thatContradictsWhatAPersonWrote_saysSoAndIsNoSuccess() throws Exception {
        make("car");
        replace("car", "max_v = 115.2 ", "max_v = 114 ");
        assertEquals(ExitCode.USAGE, make("car", "--refresh", "--set", "cells=40"));
        assertTrue(out.toString().contains("kept     pack.max_v = 114 (yours; computed: 144)"), out.toString());
        assertTrue(err.toString().contains("pack.max_v = 114"), err.toString());
    }

    @Test
    void motorWithMagnets_withoutItsVoltage_isRefused() {
        assertEquals(ExitCode.USAGE, make("car", "--set", "motor_kind=permanent-magnet"));
        assertTrue(err.toString().contains("motor_emf_v_per_krpm is 0"), err.toString());
        assertEquals(
                ExitCode.WELL,
                make("car", "--set", "motor_kind=permanent-magnet", "--set", "motor_emf_v_per_krpm=9"),
                err.toString());
    }

    @Test
    void refresh_ofALineWithANoteBehindTheFormula_keepsTheNote() throws Exception {
        make("car");
        replace(
                "car",
                "# computed 2000: the answer capacitance_uf",
                "# computed 2000: the answer capacitance_uf; label read");
        String text = file("car")
                .replaceAll("(?m)^energy_j = \\d+( +# computed \\d+: .*)$", "energy_j = 800$1; by its maker");
        Files.writeString(folder.resolve("car").resolve("vehicle.toml"), text);
        assertEquals(ExitCode.WELL, make("car", "--refresh", "--set", "capacitance_uf=2500"), err.toString());
        assertTrue(file("car").contains("# computed 2500: the answer capacitance_uf; label read\n"));
        assertTrue(
                file("car").matches("(?s).*\nenergy_j = 800 +# yours; computed \\d+: [^\n]*; by its maker\n.*"),
                "the note of a value of one's own");
    }

    @Test
    void contradiction_inAFile_namesTheLineOfItsAnswer() throws Exception {
        Path answers = folder.resolve("answers.toml");
        Files.writeString(answers, "cells = 30\n\nmotor_emf_v_per_krpm = 12\nmax_kph = 200\n");
        assertEquals(ExitCode.USAGE, make("car", "--answers", answers.toString()));
        assertTrue(
                err.toString().contains("answers.toml:3: motor_emf_v_per_krpm = 12, and an induction motor makes no"),
                err.toString());
        assertTrue(err.toString().contains("answers.toml:4: max_kph = 200 turns the motor faster"), err.toString());
    }

    @Test
    void voltageOfAMotor_thatNoSpeedSuits_isAskedForAgain() {
        assertEquals(
                ExitCode.USAGE,
                make("car", "--set", "motor_kind=permanent-magnet", "--set", "motor_emf_v_per_krpm=2000"));
        assertTrue(err.toString().contains("Give the motor_emf_v_per_krpm that was measured."), err.toString());
        assertFalse(err.toString().contains("max_kph at most"), err.toString());
    }

    @Test
    void refresh_withoutAnswers_namesTheMissingFile() {
        assertEquals(ExitCode.USAGE, make("car", "--refresh"));
        assertTrue(err.toString().contains("answers.toml"), err.toString());
    }
}
