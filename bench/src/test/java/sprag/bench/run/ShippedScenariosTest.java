package sprag.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentSkipListSet;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.run.report.Timeline;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioRun;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/** Every shipped scenario on every vehicle it suits comes out as it says; together they visit everything. */
@Execution(ExecutionMode.CONCURRENT)
class ShippedScenariosTest {
    /** Two judgements of the same readings differ only when the program is wrong: no scenario can bring it about. */
    private static final Set<Interlock> CANNOT_BE_PROVOKED = EnumSet.of(Interlock.GATE_VETOED);

    /** Rows that ask for a signal which no shipped vehicle has. The vehicles of {@link KindsOfCarsTest} have it and set them off. */
    private static final Map<Interlock, Signal> OF_OTHER_VEHICLES = Map.of(
            Interlock.CURRENTS_APART, Signal.PACK_CURRENT_2_A,
            Interlock.REGEN_DEMAND_LOST, Signal.REGEN_DEMAND_V);

    private static final Set<String> WARNINGS = Arrays.stream(Interlock.values())
            .filter(row -> row.response == Response.WARN)
            .map(Interlock::id)
            .collect(Collectors.toUnmodifiableSet());

    /** A row that begins to act more often than this in one scenario lacks a hysteresis, or the scenario plays with it. */
    private static final int MOST_TIMES = 8;

    private static final Set<String> ACTED = new ConcurrentSkipListSet<>();
    private static final Set<String> ENTERED = new ConcurrentSkipListSet<>();
    private static volatile boolean shortOnesPlayed;

    /** Longer ones are whole charges and nights. */
    private static final long LONG_MS = 1_200_000;

    @TestFactory
    Stream<DynamicTest> everyScenario_onEveryVehicleItSuits_comesOutAsItSays() throws Exception {
        shortOnesPlayed = true;
        return tests(scenario -> scenario.durationMs() <= LONG_MS);
    }

    private static Stream<DynamicTest> tests(Predicate<Scenario> which) throws Exception {
        Catalogue catalogue = Catalogue.installed();
        List<DynamicTest> tests = new ArrayList<>();
        for (String name : List.of("parcel-van", "coupe", "yard-cart")) {
            Vehicle vehicle = VehicleReader.read(catalogue.vehicle(name));
            OF_OTHER_VEHICLES
                    .values()
                    .forEach(signal -> assertFalse(
                            vehicle.settings().has(signal), name + " has " + signal + " now: play a scenario of it"));
            for (Scenario scenario : new ScenarioFiles(catalogue, vehicle).take(List.of())) {
                if (which.test(scenario)) {
                    tests.add(dynamicTest(name + " " + scenario.name(), () -> play(vehicle, scenario)));
                }
            }
        }
        return tests.stream();
    }

    private static void play(Vehicle vehicle, Scenario scenario) throws Exception {
        ClosedLoop loop = ClosedLoop.on(vehicle, scenario.about().bus(), scenario.seed());
        Timeline timeline = new Timeline(loop.channels());
        RunResult result = new ScenarioRun(scenario, loop)
                .play(
                        vehicle.name(),
                        timeline::done,
                        List.of(
                                timeline,
                                f -> ENTERED.add(loop.channels().states().get(f.state))),
                        () -> false);
        timeline.acted().forEach(a -> ACTED.add(a.rule().name()));
        List<String> wrong = result.judged().stream()
                .filter(j -> !j.verdict().passed())
                .map(j -> j.expectation().text() + ": " + j.verdict().detail())
                .collect(Collectors.toCollection(ArrayList::new));
        if (scenario.name().equals("drive-and-stop")) {
            // Nothing is broken in it: whatever warns there cries wolf in every drive.
            timeline.acted().stream()
                    .filter(a -> WARNINGS.contains(a.rule().name()))
                    .forEach(a -> wrong.add(a.rule().name() + " warns of nothing"));
        }
        timeline.acted().stream()
                .collect(Collectors.groupingBy(a -> a.rule().name(), Collectors.counting()))
                .forEach((row, times) -> {
                    if (times > MOST_TIMES) {
                        wrong.add(row + " flickers: it acts " + times + " times");
                    }
                });
        result.missed().forEach(step -> wrong.add("never done: " + step.name()));
        assertEquals(List.of(), wrong);
    }

    @Nested
    @Tag("long")
    class WholeCharges {
        @TestFactory
        Stream<DynamicTest> everyScenario_onEveryVehicleItSuits_comesOutAsItSays() throws Exception {
            return tests(scenario -> scenario.durationMs() > LONG_MS);
        }
    }

    @AfterAll
    static void allInterlocksOfDrivingActed_allStatesWereEntered() {
        if (!shortOnesPlayed) {
            return; // the whole charges alone do not visit everything
        }
        Set<State> driving = EnumSet.complementOf(EnumSet.of(State.CHARGE_LOCKOUT));
        Set<String> missing = new TreeSet<>();
        for (Interlock row : Interlock.values()) {
            boolean ofDriving = row.where.stream().anyMatch(driving::contains)
                    && row.where.stream().anyMatch(s -> s != State.FAULT && s != State.CHARGE_LOCKOUT);
            boolean expected = !CANNOT_BE_PROVOKED.contains(row) && !OF_OTHER_VEHICLES.containsKey(row);
            if (ofDriving && expected && !ACTED.contains(row.id())) {
                missing.add(row.id());
            }
        }
        assertEquals(Set.of(), missing, "interlocks that no shipped scenario sets off");
        assertEquals(State.values().length, ENTERED.size(), "states entered: " + ENTERED);
    }
}
