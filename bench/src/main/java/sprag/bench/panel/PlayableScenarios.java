package sprag.bench.panel;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.car.FaultSpec;
import sprag.bench.loop.FrameColumns;
import sprag.bench.loop.TickClock;
import sprag.bench.scenario.Action;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioReader;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Problem;
import sprag.bench.vehicle.Vehicle;

/** The shipped scenarios that can be watched on a vehicle. */
final class PlayableScenarios {
    private PlayableScenarios() {}

    /** Reads every shipped scenario and keeps what suits.
     *
     * @throws BadInput with every problem of every file
     */
    static List<Scenario> suiting(Catalogue catalogue, Vehicle vehicle) throws BadInput {
        List<Scenario> all = new ArrayList<>();
        List<Problem> problems = new ArrayList<>();
        for (String name : catalogue.scenarios()) {
            try {
                Scenario scenario = ScenarioReader.read(catalogue.scenario(name), FrameColumns.VOCABULARY, vehicle);
                // The panel's car has no data bus between it and the supervisor.
                if (scenario.about().bus() == null
                        && scenario.unsuitable(vehicle.name(), vehicle.settings())
                                .isEmpty()
                        && canHave(vehicle, scenario)) {
                    all.add(scenario);
                }
            } catch (BadInput bad) {
                problems.addAll(bad.problems());
            }
        }
        if (!problems.isEmpty()) {
            throw new BadInput(problems);
        }
        return all;
    }

    /** Whether the vehicle can have every fault that is injected or mended. */
    private static boolean canHave(Vehicle vehicle, Scenario scenario) {
        List<String> names =
                FaultSpec.all(vehicle).stream().map(FaultSpec::name).toList();
        return scenario.steps().stream()
                .flatMap(step -> step.actions().stream())
                .map(PlayableScenarios::fault)
                .allMatch(fault -> fault.isEmpty() || fault.equals(TickClock.LATE) || names.contains(fault));
    }

    private static String fault(Action action) {
        if (action instanceof Action.Fault broken) {
            return broken.what().replaceFirst("=.*", "").strip();
        }
        return action instanceof Action.Clear mended
                ? mended.what().replaceFirst("=.*", "").strip()
                : "";
    }
}
