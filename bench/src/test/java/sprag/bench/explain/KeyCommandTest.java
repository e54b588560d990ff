package sprag.bench.explain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import picocli.CommandLine;
import sprag.bench.Sprag;
import sprag.bench.cli.ExitCode;
import sprag.bench.evidence.prove.promise.HistoryPromise;
import sprag.bench.evidence.prove.promise.Promise;
import sprag.bench.explain.Entry.Kind;
import sprag.bench.vehicle.Catalogue;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;

class KeyCommandTest {
    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();

    private int key(String... names) {
        CommandLine line = Sprag.commandLine();
        line.setOut(new PrintWriter(out, true)).setErr(new PrintWriter(err, true));
        String[] args = new String[names.length + 1];
        args[0] = "key";
        System.arraycopy(names, 0, args, 1, names.length);
        return line.execute(args);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        precharge.timeout_ms        | precharge.timeout_ms - key of a vehicle file | a key with its section
        timeout_ms                  | precharge.timeout_ms - key of a vehicle file | a key without its section
        Precharge.Timeout-ms        | precharge.timeout_ms - key of a vehicle file | the other spelling
        design.cable.main_mm2       | design.cable.main_mm2 - key of a vehicle file | a key of the review
        bus_voltage_v               | bus_voltage_v - signal                       | a signal
        bus_voltage_v               | bus_voltage_v - quantity                     | the same name in the simulated car
        heartbeat                   | heartbeat - output                           | an output
        DRIVE_ENABLE                | DRIVE_ENABLE - state                         | a state
        key-turned-on               | key-turned-on - transition                   | a transition
        precharge_slow              | precharge-slow - interlock                   | an interlock in the spelling of scenarios
        start-is-braked             | start-is-braked - promise                    | a promise
        CHARGE_ENDS_IN_TIME         | charge-ends-in-time - promise                | a promise about series of ticks, as prove prints it
        TEST_NEGATIVE               | TEST_NEGATIVE - step                         | a step, as prove prints it
        PLUG_SEEN                   | PLUG_SEEN - fact                             | a fact, as prove prints it
        traction-bonded             | traction-bonded - rule                       | a rule
        grade_percent               | grade_percent - lever                        | a lever
        bus_voltage_v.bias          | bus_voltage_v.bias - fault point             | a fault of a sensor
        positive_contactor.welded   | positive_contactor.welded - fault point      | a fault of a part
        heartbeat.stuck_on          | heartbeat.stuck_on - fault point             | a fault of an output
        campaign                    | campaign - command                           | a command
        """)
    void name_asked_isExplained(String name, String heading, String because) {
        assertEquals(ExitCode.WELL, key(name), because);
        assertTrue(out.toString().contains(heading), because + ":\n" + out);
        assertEquals("", err.toString());
    }

    @Test
    void section_asked_listsItsKeys() {
        assertEquals(ExitCode.WELL, key("precharge"));
        assertEquals(
                10,
                out.toString()
                        .lines()
                        .filter(line -> line.startsWith("precharge."))
                        .count());
    }

    @Test
    void unknownName_amongKnown_isRefusedWithANearOne_andTheOthersAreTold() {
        assertEquals(ExitCode.USAGE, key("precharge.timeut_ms", "heartbeat", "no", "qqqqqqqq"));
        assertTrue(err.toString()
                .contains("precharge.timeut_ms is not a name that is known here. Did you mean precharge.timeout_ms?"));
        assertTrue(
                err.toString().contains("qqqqqqqq is not a name that is known here. \"sprag key\" lists"),
                err.toString());
        assertTrue(out.toString().contains("heartbeat - output"));
    }

    /** What prove and the pages print in capitals. */
    @Test
    void rowOfTheLogic_asked_isFound() {
        Lexicon lexicon = new Lexicon(Sprag.commandLine().getCommandSpec());
        List<Enum<?>> rows = new ArrayList<>(List.of(Step.values()));
        rows.addAll(List.of(Fact.values()));
        rows.addAll(List.of(HistoryPromise.values()));
        rows.addAll(List.of(Promise.values()));
        rows.addAll(List.of(State.values()));
        assertEquals(
                List.of(),
                rows.stream().filter(row -> lexicon.find(row.name()).isEmpty()).toList());
    }

    @ParameterizedTest
    @CsvSource({"timout_ms, timeout_ms", "max_ma, max_a", "capasitance_uf, capacitance_uf"})
    void keyWithoutSection_mistyped_isOfferedWithoutSection(String written, String offered) {
        assertEquals(ExitCode.USAGE, key(written));
        assertTrue(err.toString().contains("Did you mean " + offered), err.toString());
        assertEquals(ExitCode.WELL, key(offered));
    }

    @Test
    void partOfAName_asked_namesThatContainItAreOffered() {
        assertEquals(ExitCode.USAGE, key("welded"));
        assertTrue(err.toString().contains("Names that contain it: negative-welded, "), err.toString());
    }

    @ParameterizedTest
    @EnumSource(Kind.class)
    void kind_listed_hasEveryNameOnALine_withinTheTerminal(Kind kind) {
        assertEquals(ExitCode.WELL, key("--list", kind.name().toLowerCase(java.util.Locale.ROOT)));
        List<String> lines = out.toString().lines().toList();
        assertTrue(lines.size()
                >= new Lexicon(Sprag.commandLine().getCommandSpec()).of(kind).size());
        assertEquals(
                List.of(), lines.stream().filter(line -> line.length() > 79).toList());
    }

    @Test
    void everyName_askedAsItIsShown_isFound() {
        Lexicon lexicon = new Lexicon(Sprag.commandLine().getCommandSpec());
        for (Kind kind : Kind.values()) {
            for (Entry entry : lexicon.of(kind)) {
                assertTrue(lexicon.find(entry.name()).contains(entry), entry.name());
            }
        }
        assertTrue(
                Arrays.stream(Kind.values()).noneMatch(kind -> lexicon.of(kind).isEmpty()));
    }

    @Test
    void everyCommand_explained_namesAPageThatIsThere() {
        Path home = Catalogue.installed().home();
        assertEquals(
                List.of(),
                new Lexicon(Sprag.commandLine().getCommandSpec())
                        .of(Kind.COMMAND).stream()
                                .filter(entry -> !Files.exists(home.resolve(entry.page())))
                                .map(entry -> entry.name() + " names " + entry.page())
                                .toList(),
                "write the page, or name another one in COMMAND_PAGES of Entry");
    }
}
