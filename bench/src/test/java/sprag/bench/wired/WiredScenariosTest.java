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
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.FieldSource;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.Rig;
import sprag.bench.run.ScenarioFiles;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioRun;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/** On the sound shipped schedules scenarios end as without the circuit. The build plays one of {@link #EVERY}, {@code -Plong} the others. */
class WiredScenariosTest {
    private static final List<String> VEHICLES = List.of("parcel-van", "coupe", "yard-cart");
    private static final int EVERY = 14;
    /** Longer ones are left to {@code -Plong}. */
    private static final long SHORT_MS = 50_000;

    @TestFactory
    Stream<DynamicTest> soundSchedule_someScenarios_endAsWithoutTheCircuit() throws Exception {
        return scenarios(true);
    }

    @Tag("long")
    @TestFactory
    Stream<DynamicTest> soundSchedule_allOtherScenarios_endAsWithoutTheCircuit() throws Exception {
        return scenarios(false);
    }

    private static Stream<DynamicTest> scenarios(boolean isSample) throws Exception {
        Catalogue catalogue = Catalogue.installed();
        List<DynamicTest> tests = new ArrayList<>();
        for (String name : VEHICLES) {
            Vehicle vehicle = VehicleReader.read(catalogue.vehicle(name));
            WiredPlan plan = WiredPlan.of(vehicle);
            List<Scenario> all = new ScenarioFiles(catalogue, vehicle).take(List.of());
            for (int i = 0; i < all.size(); i++) {
                Scenario scenario = all.get(i);
                if (isSample == (i % EVERY == 0 && scenario.durationMs() < SHORT_MS)) {
                    tests.add(dynamicTest(name + " " + scenario.name(), () -> endsAlike(plan, vehicle, scenario)));
                }
            }
        }
        return tests.stream();
    }

    @ParameterizedTest
    @FieldSource("VEHICLES")
    void soundSchedule_drive_leavesTheSameTrace(String name) throws Exception {
        Catalogue catalogue = Catalogue.installed();
        Vehicle vehicle = VehicleReader.read(catalogue.vehicle(name));
        drivesAlike(WiredPlan.of(vehicle), catalogue, vehicle);
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
