package sprag.bench.run;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import sprag.bench.car.FaultSpec;
import sprag.bench.car.Lever;
import sprag.bench.cli.Numbers;
import sprag.bench.loop.FrameColumns;
import sprag.bench.loop.TickClock;
import sprag.bench.loop.bus.BusFaults;
import sprag.bench.scenario.Action;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioReader;
import sprag.bench.scenario.ScenarioStep;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Problem;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/**
 * Finds and reads the scenarios for a vehicle.
 *
 * @param catalogue where they are
 * @param vehicle which one
 */
public record ScenarioFiles(Catalogue catalogue, Vehicle vehicle) {
    /** The scenarios of these names or paths, or every shipped one that suits the vehicle.
     *
     * @throws BadInput with every problem of every file
     */
    public List<Scenario> take(List<String> names) throws BadInput {
        List<Scenario> all = new ArrayList<>();
        List<Problem> problems = new ArrayList<>();
        for (String name : names.isEmpty() ? catalogue.scenarios() : names) {
            try {
                Scenario scenario = ScenarioReader.read(catalogue.scenario(name), FrameColumns.VOCABULARY, vehicle);
                String unsuitable = scenario.unsuitable(vehicle.name(), vehicle.settings());
                if (unsuitable.isEmpty()) {
                    List<Problem> lacking = faults(scenario);
                    if (lacking.isEmpty() || !names.isEmpty() || hasSlip(scenario)) {
                        problems.addAll(lacking);
                        all.add(scenario);
                    }
                } else if (!names.isEmpty()) {
                    problems.add(new Problem(
                            scenario.file(),
                            1,
                            1,
                            "",
                            "does not suit " + vehicle.name() + ": " + unsuitable,
                            "",
                            "",
                            "Run it on another vehicle, or change [about] in it."));
                }
            } catch (BadInput bad) {
                problems.addAll(bad.problems());
            }
        }
        if (problems.isEmpty() && all.isEmpty()) {
            Path folder = catalogue.home().resolve("config").resolve("scenarios");
            problems.add(new Problem(
                    folder,
                    1,
                    1,
                    "",
                    "holds no scenario that suits " + vehicle.name(),
                    "",
                    "",
                    "Name a scenario file."));
        }
        if (!problems.isEmpty()) {
            throw new BadInput(problems);
        }
        return all;
    }

    /** Faults that this vehicle cannot have, and levels that its lever does not have. */
    private List<Problem> faults(Scenario scenario) {
        List<Problem> problems = new ArrayList<>();
        scenario.start().forEach((lever, to) -> level(scenario, 1, lever, to, problems));
        for (ScenarioStep step : scenario.steps()) {
            for (Action action : step.actions()) {
                if (action instanceof Action.Move move) {
                    level(scenario, step.line(), move.lever(), move.to(), problems);
                }
                String what = faultOf(action);
                if (!what.equals(TickClock.LATE)) {
                    fault(scenario, step, what, problems);
                }
            }
        }
        return problems;
    }

    /** A level above the last one counts as coast, which nobody wants who asks for it. */
    private void level(Scenario scenario, int line, String lever, double to, List<Problem> problems) {
        double levels = vehicle.get(Parameter.REGEN_LEVELS);
        if (lever.equals(Lever.REGEN_LEVEL.key()) && to > levels) {
            String range = "0.." + Numbers.text(levels);
            problems.add(new Problem(
                    scenario.file(),
                    line,
                    1,
                    lever,
                    "= " + Numbers.text(to) + " is outside " + range + " of this vehicle (regen.levels)",
                    range,
                    "coast",
                    "Use a level of " + range + ", or give the vehicle more of them."));
        }
    }

    /** Whether a fault is named that no vehicle has: that is a mistake, and no lack of this one. */
    private static boolean hasSlip(Scenario scenario) {
        return scenario.steps().stream()
                .flatMap(step -> step.actions().stream())
                .map(ScenarioFiles::faultOf)
                .anyMatch(what -> !what.equals(TickClock.LATE) && !FaultSpec.exists(what));
    }

    /** The fault of the car that an action is about. Those of the loop and of a data bus need no look at the car. */
    private static String faultOf(Action action) {
        String what = action instanceof Action.Fault fault
                ? fault.what()
                : action instanceof Action.Clear clear ? clear.what() : TickClock.LATE;
        return BusFaults.isOne(what) ? TickClock.LATE : what;
    }

    private void fault(Scenario scenario, ScenarioStep step, String what, List<Problem> problems) {
        try {
            FaultSpec.parse(what, vehicle);
        } catch (IllegalArgumentException e) {
            problems.add(new Problem(
                    scenario.file(),
                    step.line(),
                    1,
                    "",
                    "in the step \"" + step.name() + "\": " + e.getMessage(),
                    "",
                    "",
                    "Name a fault of this vehicle, or say in [about] what a vehicle needs."));
        }
    }
}
