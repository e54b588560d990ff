package sprag.bench.run;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.TypingTest;
import sprag.bench.cli.ExitCode;

/** The commands as a person types them: what they leave, what they say, how they end. */
class RunCommandTest extends TypingTest {
    @TempDir
    private Path folder;

    private Path scenario(String expectation) throws Exception {
        String text = "[about]\ntitle = \"t\"\nwhy = \"w\"\nduration_s = 2\n\n[[do]]\nat_s = 0.5\nset = { key = 1 }\n\n"
                + "[[expect]]\ntext = \"as said\"\n" + expectation;
        return Files.writeString(folder.resolve("short.toml"), text);
    }

    @Test
    void run_allAsExpected_leavesTracesAndEndsWell() throws Exception {
        Path file = scenario("state = \"IGNITION\"\nby_s = 1\n");
        int status = run(file, "out");
        Path run = folder.resolve("out").resolve("short");
        List<String> lines = out.toString().lines().toList();
        assertAll(
                () -> assertEquals(ExitCode.WELL, status, err.toString()),
                () -> assertEquals(
                        202, Files.readAllLines(run.resolve("trace.csv")).size(), "a heading and 201 ticks"),
                () -> assertTrue(Files.readString(run.resolve("trace.vcd")).contains("$enddefinitions")),
                () -> assertTrue(Files.readString(run.resolve("report.html")).endsWith("</html>\n")),
                () -> assertTrue(Files.exists(folder.resolve("out").resolve("junit.xml"))),
                () -> assertEquals("Written to " + run, lines.get(lines.size() - 1)));
    }

    @Test
    void list_asked_namesWhatSuitsTheVehicleAndPlaysNothing() {
        assertEquals(ExitCode.WELL, sprag("run", "yard-cart", "--list"));
        List<String> lines = out.toString().lines().toList();
        assertTrue(lines.stream().anyMatch(l -> l.startsWith("drive-and-stop: ")), out.toString());
        assertTrue(lines.stream().noneMatch(l -> l.startsWith("charge-lock-stuck: ")), "the cart has no plug lock");
        assertTrue(lines.stream().noneMatch(l -> l.contains("Written")), out.toString());
    }

    @Test
    void run_anExpectationFails_isAFinding() throws Exception {
        Path file = scenario("state = \"DRIVE_ENABLE\"\nby_s = 1\n");
        assertEquals(ExitCode.FINDING, run(file, "o"));
    }

    @Test
    void run_anExpectationCannotBeJudged_isAFinding() throws Exception {
        Path file = scenario("state = \"FAULT\"\nwithin_ms = 100\nafter_state = \"DRIVE_ENABLE\"\n");
        assertEquals(ExitCode.FINDING, run(file, "o"));
        assertTrue(out.toString().contains("cannot be judged"), out.toString());
    }

    @Test
    void run_aBadScenario_namesEveryMistakeAndRunsNothing() throws Exception {
        Path file = scenario("state = \"IGNITON\"\nby = 1\n");
        int status = run(file, "o");
        assertAll(
                () -> assertEquals(ExitCode.USAGE, status),
                () -> assertTrue(err.toString().contains(file + ":12: expect[0].state"), err.toString()),
                () -> assertTrue(err.toString().contains("Did you mean IGNITION?"), err.toString()),
                () -> assertTrue(err.toString().contains("expect[0].by is not a known key"), err.toString()),
                () -> assertTrue(Files.notExists(folder.resolve("o"))));
    }

    @Test
    void run_aFaultThatTheVehicleCannotHave_isBadInput() throws Exception {
        Path file = Files.writeString(
                folder.resolve("pump.toml"),
                "[about]\ntitle = \"t\"\nwhy = \"w\"\nduration_s = 2\n[[do]]\nat_s = 1\nfault = \"pump.stopped\"\n"
                        + "[[expect]]\ntext = \"x\"\nstate = \"OFF\"\nalways = true\n");
        assertEquals(ExitCode.USAGE, run(file, "o"));
        assertTrue(err.toString().contains(file + ":6: in the step"), err.toString());
    }

    @Test
    void run_unknownVehicleOrNothing_isWrongUsage() {
        assertAll(
                () -> assertEquals(ExitCode.USAGE, sprag("run", "parcel-vam")),
                () -> assertTrue(err.toString().contains("parcel-van"), err.toString()),
                () -> assertEquals(ExitCode.USAGE, sprag("run")),
                () -> assertEquals(ExitCode.USAGE, sprag()),
                () -> assertEquals(ExitCode.USAGE, sprag("no-such-command")),
                () -> assertEquals(ExitCode.WELL, sprag("run", "--help")));
    }

    /** Plays a scenario on the van; the results go into a folder of this name. */
    private int run(Path scenario, String out) {
        return sprag(
                "run",
                "parcel-van",
                scenario.toString(),
                "--out",
                folder.resolve(out).toString());
    }

    @Test
    void run_aFileWhereTheFolderShouldBe_isTroubleOutsideWithThePath() throws Exception {
        Path file = scenario("state = \"IGNITION\"\nby_s = 1\n");
        Path inTheWay = Files.writeString(folder.resolve("taken"), "x");
        int status = sprag("run", "parcel-van", file.toString(), "--out", inTheWay.toString());
        assertAll(
                () -> assertEquals(ExitCode.TROUBLE, status),
                () -> assertTrue(err.toString().contains(inTheWay.toString()), err.toString()));
    }

    @Test
    void run_asJson_printsNothingElse() throws Exception {
        Path file = scenario("state = \"IGNITION\"\nby_s = 1\n");
        sprag(
                "run",
                "parcel-van",
                file.toString(),
                "--json",
                "--out",
                folder.resolve("o").toString());
        assertTrue(new com.fasterxml.jackson.databind.ObjectMapper()
                .readTree(out.toString())
                .get("passed")
                .asBoolean());
    }

    @Test
    void run_theSameScenarioTwice_leavesTheSameBytes() throws Exception {
        Path file = scenario("state = \"IGNITION\"\nby_s = 1\n");
        for (String name : List.of("a", "b")) {
            run(file, name);
        }
        for (String name : List.of("trace.csv", "trace.vcd", "report.html")) {
            assertEquals(
                    -1,
                    Files.mismatch(
                            folder.resolve("a/short").resolve(name),
                            folder.resolve("b/short").resolve(name)),
                    name);
        }
    }

    @Test
    void demo_asShipped_endsWellFitsTheTerminalAndLeavesAPageForEachStop() {
        Path tour = folder.resolve("tour");
        int status = sprag("demo", "--out", tour.toString());
        List<String> lines = out.toString().lines().toList();
        assertAll(
                () -> assertEquals(ExitCode.WELL, status, out.toString() + err),
                () -> assertEquals(
                        List.of(),
                        lines.stream()
                                .filter(l -> l.length() > 80 && !l.startsWith("Written"))
                                .toList()),
                () -> assertTrue(out.toString().contains("lethal direct current")),
                () -> assertTrue(Files.exists(tour.resolve("index.html"))),
                () -> assertTrue(Files.exists(tour.resolve("check.txt"))),
                () -> assertTrue(Files.exists(tour.resolve("drive-and-stop/report.html"))),
                () -> assertTrue(Files.exists(tour.resolve("charge-latch-pressed/report.html"))),
                () -> assertTrue(Files.exists(tour.resolve("positive-contactor-welded/report.html"))));
    }
}
