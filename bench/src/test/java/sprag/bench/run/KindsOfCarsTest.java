package sprag.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.FrameColumns;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioReader;
import sprag.bench.scenario.ScenarioRun;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/** Each kind of car of {@code docs/kinds-of-cars.md} can be said, and comes out as its own scenarios and some shipped ones say. */
class KindsOfCarsTest {
    private static final Path KINDS = Path.of("src", "test", "resources", "kinds");
    /** A drive, a charge and the lockout in both directions; each is played where it suits. */
    private static final List<String> SHIPPED = List.of(
            "drive-and-stop",
            "plugged-in-while-driving",
            "plugged-in-at-rest",
            "charge-permit-withdrawn",
            "charge-then-drive",
            "reverse");

    @TestFactory
    Stream<DynamicTest> everyKind_itsScenarios_comeOutAsTheySay() throws Exception {
        List<DynamicTest> tests = new ArrayList<>();
        for (Path folder : inside(KINDS)) {
            Vehicle vehicle = VehicleReader.read(folder);
            List<Path> files = new ArrayList<>(inside(folder));
            files.removeIf(f -> f.endsWith(Catalogue.VEHICLE_FILE));
            assertFalse(files.isEmpty(), folder + " has no scenario of its own");
            for (String name : SHIPPED) {
                files.add(Catalogue.installed().scenario(name));
            }
            for (Path file : files) {
                Scenario scenario = ScenarioReader.read(file, FrameColumns.VOCABULARY, vehicle);
                if (scenario.unsuitable(vehicle.name(), vehicle.settings()).isEmpty()) {
                    tests.add(dynamicTest(vehicle.name() + " " + scenario.name(), () -> play(vehicle, scenario)));
                }
            }
        }
        return tests.stream();
    }

    @TestFactory
    Stream<DynamicTest> everyKind_isToldInTheDocuments() throws Exception {
        String page = Files.readString(Path.of("..", "docs", "kinds-of-cars.md"));
        return inside(KINDS).stream()
                .map(folder -> folder.getFileName().toString())
                .map(kind -> dynamicTest(kind, () -> assertEquals(2, page.split("`" + kind + "`").length, kind)));
    }

    private static List<Path> inside(Path folder) throws Exception {
        try (Stream<Path> all = Files.list(folder)) {
            return all.sorted().toList();
        }
    }

    private static void play(Vehicle vehicle, Scenario scenario) throws Exception {
        ClosedLoop loop = ClosedLoop.on(vehicle, scenario.about().bus(), scenario.seed());
        RunResult result =
                new ScenarioRun(scenario, loop).play(vehicle.name(), (step, ms) -> {}, List.of(), () -> false);
        List<String> wrong = new ArrayList<>();
        result.judged().stream()
                .filter(j -> !j.verdict().passed())
                .forEach(j ->
                        wrong.add(j.expectation().text() + ": " + j.verdict().detail()));
        result.missed().forEach(step -> wrong.add("never done: " + step.name()));
        assertEquals(List.of(), wrong);
    }
}
