package sprag.bench.wired;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.Rig;
import sprag.bench.run.ScenarioFiles;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioRun;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/**
 * On the sound shipped schedules scenarios end as without the circuit. The build plays one of {@link #EVERY};
 * {@code -Dwired.whole=true} plays all of them.
 */
class WiredScenariosTest {
    private static final int EVERY = 14;
    /** Longer ones are left to the whole test. */
    private static final long SHORT_MS = 50_000;

    private static final boolean WHOLE = Boolean.getBoolean("wired.whole");

    @TestFactory
    Stream<DynamicTest> soundSchedule_scenario_endsAsWithoutTheCircuit() throws Exception {
        Catalogue catalogue = Catalogue.installed();
        List<DynamicTest> tests = new ArrayList<>();
        for (String name : List.of("parcel-van", "coupe", "yard-cart")) {
            Vehicle vehicle = VehicleReader.read(catalogue.vehicle(name));
            WiredPlan plan = WiredPlan.of(vehicle);
            List<Scenario> all = new ScenarioFiles(catalogue, vehicle).take(List.of());
            for (int i = 0; i < all.size(); i++) {
                Scenario scenario = all.get(i);
                if (WHOLE || i % EVERY == 0 && scenario.durationMs() < SHORT_MS) {
                    tests.add(dynamicTest(name + " " + scenario.name(), () -> endsAlike(plan, vehicle, scenario)));
                }
            }
            tests.add(dynamicTest(name + " drives with the same trace", () -> drivesAlike(plan, catalogue, vehicle)));
        }
        return tests.stream();
    }

    private static void endsAlike(WiredPlan plan, Vehicle vehicle, Scenario scenario) throws Exception {
        List<String> wrong =
                play(scenario, vehicle, wired(plan, vehicle, scenario), new ArrayList<>()).judged().stream()
                        .filter(j -> !j.verdict().passed())
                        .map(j -> j.expectation().text() + ": " + j.verdict().detail())
                        .toList();
        assertEquals(List.of(), wrong);
    }

    private static void drivesAlike(WiredPlan plan, Catalogue catalogue, Vehicle vehicle) throws Exception {
        Scenario drive = new ScenarioFiles(catalogue, vehicle)
                .take(List.of("drive-and-stop"))
                .get(0);
        List<double[]> plain = new ArrayList<>();
        List<double[]> wired = new ArrayList<>();
        play(drive, vehicle, ClosedLoop.on(vehicle, null, drive.seed()), plain);
        play(drive, vehicle, wired(plan, vehicle, drive), wired);
        assertEquals(plain.size(), wired.size());
        for (int i = 0; i < plain.size(); i++) {
            assertTrue(Arrays.equals(plain.get(i), wired.get(i)), "tick " + i);
        }
    }

    private static Rig wired(WiredPlan plan, Vehicle vehicle, Scenario scenario) {
        return WiredRigs.of(plan, scenario.on(vehicle), scenario.about().bus(), scenario.seed(), Set.of())
                .loop();
    }

    private static RunResult play(Scenario scenario, Vehicle vehicle, Rig rig, List<double[]> into) throws Exception {
        return new ScenarioRun(scenario, rig)
                .play(vehicle.name(), (step, ms) -> {}, List.of(f -> into.add(f.value.clone())), () -> false);
    }
}
