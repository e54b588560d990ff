package sprag.bench.lesson;

import java.io.IOException;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import sprag.bench.cli.Nearest;
import sprag.bench.loop.FrameColumns;
import sprag.bench.loop.Rig;
import sprag.bench.loop.measure.Track;
import sprag.bench.loop.relay.Rigs;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioReader;
import sprag.bench.scenario.ScenarioRun;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Row;

/** Plays the runs of lessons on simulated cars that are made and forgotten. Nothing is written. */
final class Sandbox {
    private static final String START = """
            [[do]]
            name = "the key is turned on"
            at_s = 0.5
            set = { key = 1 }
            [[do]]
            name = "brake, forward, start"
            at_s = 1.0
            set = { brake = 0.3, direction = 1, start = 1 }
            [[do]]
            name = "start is let go"
            at_s = 1.3
            set = { start = 0 }
            """;
    private static final String DRIVE = """
            [[do]]
            name = "the car drives off"
            after_state = "DRIVE_ENABLE"
            wait_s = 0.5
            set = { brake = 0, pedal = 0.5 }
            """;

    private final Catalogue catalogue = Catalogue.installed();

    /** What came of a run. */
    record Played(RunResult result, Track track) {}

    /** A shipped vehicle with some values changed. */
    Vehicle vehicle(String name, Map<String, Object> set) throws BadInput {
        Vehicle vehicle = VehicleReader.read(catalogue.vehicle(name));
        for (Map.Entry<String, Object> each : set.entrySet()) {
            Row row =
                    row(each.getKey()).orElseThrow(() -> new IllegalStateException("there is no key " + each.getKey()));
            double value = each.getValue() instanceof Number number
                    ? number.doubleValue()
                    : row.choices().indexOf(each.getValue().toString());
            vehicle = vehicle.with(row, value);
        }
        return vehicle;
    }

    /** The row of a key of a vehicle's file. */
    static Optional<Row> row(String key) {
        return Stream.<Row>concat(Stream.of(Parameter.values()), Stream.of(CarParameter.values()))
                .filter(row -> row.key().equals(key))
                .findFirst();
    }

    /** The interlocks of these names.
     *
     * @throws IllegalArgumentException with a sentence about a name that is none
     */
    static Set<Interlock> rows(List<String> ids) {
        Set<Interlock> rows = EnumSet.noneOf(Interlock.class);
        List<String> known = Stream.of(Interlock.values()).map(Interlock::id).toList();
        for (String id : ids) {
            rows.add(Interlock.of(id)
                    .orElseThrow(() -> new IllegalArgumentException(
                            "There is no interlock " + id + ". " + Nearest.hint(id, known))));
        }
        return rows;
    }

    /** A shipped scenario. */
    Scenario shipped(String name, Vehicle vehicle) throws BadInput {
        return ScenarioReader.read(catalogue.scenario(name), FrameColumns.VOCABULARY, vehicle);
    }

    /** A scenario of a lesson. The line {@code @start} stands for a start, {@code @drive} for a start and driving off. */
    static Scenario story(String name, String text) throws BadInput {
        return written(name, text.replace("@start", START).replace("@drive", START + DRIVE));
    }

    /** A scenario that a pupil has written.
     *
     * @param name what it is called in messages
     */
    static Scenario written(String name, String text) throws BadInput {
        return ScenarioReader.parse(Path.of(name), text, FrameColumns.VOCABULARY);
    }

    /** Plays to the end. */
    static Played play(Vehicle vehicle, Scenario scenario, Set<Interlock> without) {
        Rig rig = Rigs.of(scenario.on(vehicle), scenario.about().bus(), scenario.seed(), without);
        Track track = new Track(rig.channels());
        try {
            RunResult result = new ScenarioRun(scenario, rig)
                    .play(vehicle.name(), (step, ms) -> track.did(step.name(), ms), List.of(track::add), () -> false);
            return new Played(result, track);
        } catch (IOException e) {
            throw new IllegalStateException("nothing is written, and yet writing failed", e);
        }
    }
}
