package sprag.bench.panel;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.car.FaultSpec;
import sprag.bench.config.BadInput;
import sprag.bench.config.Catalogue;
import sprag.bench.config.Problem;
import sprag.bench.config.Vehicle;
import sprag.bench.run.ClosedLoop;
import sprag.bench.run.Columns;
import sprag.bench.scenario.Action;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioReader;

/** The shipped scenarios that can be watched on a vehicle. */
final class Shelf {
    private Shelf() {}

    /** Reads every shipped scenario and keeps what suits.
     *
     * @throws BadInput with every problem of every file
     */
    static List<Scenario> suiting(Catalogue catalogue, Vehicle vehicle) throws BadInput {
        List<Scenario> all = new ArrayList<>();
        List<Problem> problems = new ArrayList<>();
        for (String name : catalogue.scenarios()) {
            try {
                Scenario scenario = ScenarioReader.read(catalogue.scenario(name), Columns.VOCABULARY);
                if (scenario.unsuitable(vehicle.name(), vehicle.settings()).isEmpty() && canHave(vehicle, scenario)) {
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
                .map(Shelf::fault)
                .allMatch(fault -> fault.isEmpty() || fault.equals(ClosedLoop.LATE) || names.contains(fault));
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
