package sprag.bench.run;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import sprag.bench.car.Lever;
import sprag.bench.car.OutputFault;
import sprag.bench.car.PartFault;
import sprag.bench.car.Quantity;
import sprag.bench.car.SignalFault;
import sprag.bench.cli.Numbers;
import sprag.bench.loop.FrameColumns;
import sprag.bench.loop.TickClock;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioReader;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/** The pages about scenarios say what the code knows. {@code -Ddocs.update=true} rewrites the reference. */
class ScenarioPagesTest {
    private static final Path DOCS = Catalogue.installed().home().resolve("docs");

    @Test
    void reference_isTheOneInTheCode() throws Exception {
        Path file = DOCS.resolve("scenario-reference.md");
        String expected = reference();
        if (Boolean.getBoolean("docs.update")) {
            Files.writeString(file, expected);
        }
        String actual = Files.exists(file) ? Files.readString(file) : "";
        assertEquals(expected, actual, file + " is stale; if the change is meant: mvn test -Ddocs.update=true");
    }

    /** The example is a file like any other: it is read with the code that reads them. */
    @Test
    void theExampleOnThePage_isReadWithoutAProblem() throws Exception {
        String page = Files.readString(DOCS.resolve("scenarios.md"));
        String example = page.substring(page.indexOf("```toml\n") + 8, page.indexOf("```\n\n## [about]"));
        assertEquals(
                5,
                ScenarioReader.parse(Path.of("example.toml"), example, FrameColumns.VOCABULARY)
                        .steps()
                        .size());
    }

    @Test
    void thePage_namesEveryKeyOfEveryShippedScenario() throws Exception {
        String page = Files.readString(DOCS.resolve("scenarios.md"));
        Path folder = Catalogue.installed().home().resolve("config").resolve("scenarios");
        try (Stream<Path> files = Files.list(folder)) {
            List<String> keys =
                    files.flatMap(ScenarioPagesTest::keys).distinct().sorted().toList();
            assertAll(keys.stream()
                    .map(key -> () -> assertTrue(page.contains("`" + key) || page.contains(key + " ="), key)));
        }
    }

    private static Stream<String> keys(Path file) {
        try {
            List<String> lines = Files.readAllLines(file);
            int start = lines.indexOf("[start]");
            return lines.stream()
                    .filter(line -> start < 0 || lines.indexOf(line) < start || lines.indexOf(line) > start + 12)
                    .filter(line -> line.matches("[a-z_]+ = .*"))
                    .map(line -> line.substring(0, line.indexOf(' ')))
                    .filter(key -> Lever.of(key).isEmpty());
        } catch (IOException e) {
            throw new java.io.UncheckedIOException("cannot read " + file, e);
        }
    }

    private static String reference() throws Exception {
        StringBuilder page =
                new StringBuilder("# Names for scenarios\n\nMade from the code; a test fails when this page is"
                        + " stale. How a scenario is written stands in [scenarios.md](scenarios.md).\n");
        table(
                page,
                "Levers",
                "lever | least | most | at first | what it is",
                Arrays.stream(Lever.values())
                        .map(l -> "`" + l.key() + "` | " + Numbers.text(l.min) + " | " + Numbers.text(l.max) + " | "
                                + Numbers.text(l.initial) + " | " + l.meaning));
        table(
                page,
                "Faults of a signal: `signal.kind`, for example `pedal_a_v.open`",
                "kind | what it is",
                Arrays.stream(SignalFault.values()).map(f -> "`" + f.key() + "` | " + f.meaning));
        table(
                page,
                "Faults of an output: `output.kind`, for example `positive_contactor.stuck_off`",
                "kind | what it is",
                Arrays.stream(OutputFault.values()).map(f -> "`" + f.key() + "` | " + f.meaning));
        table(
                page,
                "Faults of a part, and of the loop",
                "fault | usual size | what it is",
                Stream.concat(
                        Arrays.stream(PartFault.values())
                                .map(f -> "`" + f.key + "` | "
                                        + (f.unit == sprag.supervisor.vocabulary.Unit.SWITCH
                                                ? ""
                                                : Numbers.show(f.usual, f.unit))
                                        + " | " + f.meaning),
                        Stream.of("`" + TickClock.LATE + "` |  | every tick of the control loop takes too long")));
        table(
                page,
                "Quantities: what is true in the car",
                "quantity | what it is",
                Arrays.stream(Quantity.values()).map(q -> "`" + q.key() + "` | " + q.meaning));
        table(page, "Shipped scenarios", "scenario | what it is about | hazards | only for", shipped());
        return page.toString();
    }

    private static Stream<String> shipped() throws Exception {
        Catalogue catalogue = Catalogue.installed();
        Stream.Builder<String> rows = Stream.builder();
        Vehicle any = VehicleReader.read(catalogue.vehicle("parcel-van"));
        for (String name : catalogue.scenarios()) {
            Scenario scenario = ScenarioReader.read(catalogue.scenario(name), FrameColumns.VOCABULARY, any);
            List<String> only = Stream.concat(
                            scenario.about().vehicles().stream(),
                            scenario.about().needs().stream().map(n -> n.text()))
                    .toList();
            rows.add("`" + name + "` | " + scenario.about().title() + " | "
                    + String.join(", ", scenario.about().hazards()) + " | " + String.join(", ", only));
        }
        return rows.build();
    }

    private static void table(StringBuilder page, String title, String heading, Stream<String> rows) {
        page.append("\n## ").append(title).append("\n\n| ").append(heading).append(" |\n|");
        page.append("---|".repeat(heading.split("\\|").length)).append('\n');
        rows.forEach(row -> page.append(String.format(Locale.ROOT, "| %s |%n", row)));
    }
}
