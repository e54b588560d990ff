package sprag.bench.panel;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.bus.BusFile;
import sprag.bench.car.FaultSpec;
import sprag.bench.loop.FrameColumns;
import sprag.bench.loop.TickClock;
import sprag.bench.loop.bus.BusFaults;
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
    static List<Scenario> suiting(Catalogue catalogue, Vehicle vehicle, BusFile bus) throws BadInput {
        List<Scenario> all = new ArrayList<>();
        List<Problem> problems = new ArrayList<>();
        for (String name : catalogue.scenarios()) {
            try {
                Scenario scenario = ScenarioReader.read(catalogue.scenario(name), FrameColumns.VOCABULARY, vehicle);
                if (isOn(scenario, bus)
                        // the panel's car is that of the vehicle's file
                        && scenario.car().isEmpty()
                        && scenario.unsuitable(vehicle.name(), vehicle.settings())
                                .isEmpty()
                        && canHave(vehicle, bus, scenario)) {
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

    /** A scenario is played on the bus that it names, and on no other. */
    private static boolean isOn(Scenario scenario, BusFile bus) {
        BusFile named = scenario.about().bus();
        return named == null ? bus == null : bus != null && named.file().equals(bus.file());
    }

    /** Whether the vehicle can have every fault that is injected or mended. */
    private static boolean canHave(Vehicle vehicle, BusFile bus, Scenario scenario) {
        List<String> names = new ArrayList<>(
                FaultSpec.all(vehicle).stream().map(FaultSpec::name).toList());
        if (bus != null) {
            names.addAll(BusFaults.names(bus.map()));
        }
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
