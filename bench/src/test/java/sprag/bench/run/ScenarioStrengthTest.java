package sprag.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.trace.Frame;
import sprag.bench.run.report.Timeline;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioRun;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Response;

/** A scenario in which an interlock acts fails when that interlock is taken out, each on the first vehicle it suits. */
@Tag("long")
@Execution(ExecutionMode.CONCURRENT)
class ScenarioStrengthTest {
    private static final long LONGEST_MS = 130_000;
    /** They act in every start, while the driver is not ready yet. Scenarios of their own show what they are for. */
    private static final Set<Interlock> OF_EVERY_START =
            EnumSet.of(Interlock.BRAKE_NOT_PRESSED, Interlock.PEDAL_AT_ENABLE);

    /** What is not missed, and which other interlock then does the work. */
    private static final Map<String, Set<String>> COVERED = Map.ofEntries(
            Map.entry("bus-live-before-start", Set.of("bus-still-live")), // bus-not-discharged refuses the start
            Map.entry("charge-monitor-silent", Set.of("charge-not-permitted")), // cells-unknown
            // A voltage that is suddenly lost or at its least counts as low first, and then stops the car.
            Map.entry("cell-too-low", Set.of("pack-low")), // cell-undervoltage
            Map.entry("message-pack-lost", Set.of("pack-low")), // readings-lost
            Map.entry("pack-undervoltage", Set.of("pack-low")), // pack-undervoltage
            Map.entry("plug-hides-empty-cell", Set.of("pack-low")), // cell-undervoltage
            Map.entry("cold-pack-full-pedal", Set.of("pack-cool")), // nobody brakes in it
            Map.entry("contactor-drops-out", Set.of("bus-lost")), // positive-dropped
            Map.entry("negative-drops-out", Set.of("bus-lost")), // negative-dropped
            Map.entry("charge-latch-played-with", Set.of("plug-pulled")), // the offer ends, and with it the charge
            Map.entry("link-lost", Set.of("cut-loop-open")), // link-lost
            Map.entry("pack-overcurrent", Set.of("torque-unasked")), // pack-overcurrent
            Map.entry("pedal-pressed-at-enable", Set.of("pedal-with-brake", "direction-rolling")), // pedal-at-enable
            Map.entry("plugged-in-while-driving", Set.of("rolling-plugged")), // plug-present
            Map.entry("resistor-spent", Set.of("precharge-stalled", "resistor-overloaded")), // resistor-spent
            Map.entry("speed-wire-breaks", Set.of("direction-rolling")), // speed-doubted
            Map.entry("overspeed-downhill", Set.of("speed-lost")), // overspeed
            Map.entry("charge-lock-contact-lost", Set.of("plug-unlocked")), // charge rules: the plug is not held
            Map.entry("wheels-spin-on-ice", Set.of("speed-doubted")), // wheel-speed-lost
            // A lost bus takes many readings at once, and each of them stops the car.
            Map.entry("charge-cell-limit-by-message", Set.of("cell-overvoltage")), // the limit sent to the charger
            Map.entry("charge-charger-runs-on", Set.of("bus-still-live")), // charger-runs-on
            Map.entry("charge-cut-by-contactor", Set.of("cell-overvoltage")), // charge rules: the monitor's permit
            Map.entry("charge-cut-by-disable-frame", Set.of("cell-overvoltage")), // the same
            Map.entry("charge-cut-by-limits", Set.of("cell-overvoltage")), // the limits sent to the chargers
            Map.entry("charge-data-bus-cut", Set.of("readings-lost")),
            Map.entry("data-bus-cut", Set.of("inverter-faulted", "readings-lost")),
            Map.entry("data-bus-flooded", Set.of("inverter-faulted", "readings-lost")),
            Map.entry("data-bus-off", Set.of("inverter-faulted", "link-lost", "readings-lost")),
            Map.entry("message-counter-stuck", Set.of("inverter-faulted")), // inverter-not-ready
            Map.entry("message-sum-wrong", Set.of("inverter-faulted")), // inverter-not-ready
            Map.entry("message-two-senders", Set.of("discharge-withdrawn", "pack-low", "readings-lost")));

    @TestFactory
    Stream<DynamicTest> scenario_withoutAnInterlockThatActsInIt_fails() throws Exception {
        Catalogue catalogue = Catalogue.installed();
        List<DynamicTest> tests = new ArrayList<>();
        Set<String> taken = new HashSet<>();
        for (String name : List.of("parcel-van", "coupe", "yard-cart")) {
            Vehicle vehicle = VehicleReader.read(catalogue.vehicle(name));
            for (Scenario scenario : new ScenarioFiles(catalogue, vehicle).take(List.of())) {
                if (scenario.durationMs() <= LONGEST_MS && taken.add(scenario.name())) {
                    tests.add(dynamicTest(name + " " + scenario.name(), () -> notMissed(vehicle, scenario)));
                }
            }
        }
        return tests.stream();
    }

    private static void notMissed(Vehicle vehicle, Scenario scenario) throws Exception {
        ClosedLoop loop = ClosedLoop.on(vehicle, scenario.about().bus(), scenario.seed());
        Timeline timeline = new Timeline(loop.channels());
        Set<Interlock> decided = EnumSet.noneOf(Interlock.class);
        play(vehicle, scenario, loop, timeline, frame -> first(frame).ifPresent(decided::add));
        Set<Interlock> own = EnumSet.noneOf(Interlock.class);
        timeline.acted().forEach(act -> Interlock.of(act.rule().name()).ifPresent(own::add));
        own.removeAll(OF_EVERY_START);
        own.removeIf(row -> row.response == Response.WARN || row.response == Response.LIMIT && !decided.contains(row));
        Set<String> notMissed = new TreeSet<>();
        for (Interlock row : own) {
            ClosedLoop without = ClosedLoop.on(vehicle, scenario.about().bus(), scenario.seed(), EnumSet.of(row));
            if (play(vehicle, scenario, without, new Timeline(without.channels()), frame -> {})
                    .passed()) {
                notMissed.add(row.id());
            }
        }
        assertEquals(
                COVERED.getOrDefault(scenario.name(), Set.of()),
                notMissed,
                () -> scenario.name() + " passes without these interlocks, though they act in it. Add an expectation"
                        + " that fails without them, or name them in COVERED with the row that does their work");
    }

    /** The strongest row that acts. A limit beside a stronger row is told, but does not decide: nothing need miss it. */
    private static Optional<Interlock> first(Frame frame) {
        return Stream.of(Interlock.values())
                .filter(row -> frame.acting[row.ordinal()] && row.response != Response.WARN)
                .findFirst();
    }

    private static RunResult play(
            Vehicle vehicle, Scenario scenario, ClosedLoop loop, Timeline timeline, ScenarioRun.Observer more)
            throws Exception {
        return new ScenarioRun(scenario, loop)
                .play(vehicle.name(), timeline::done, List.of(timeline, more), () -> false);
    }
}
