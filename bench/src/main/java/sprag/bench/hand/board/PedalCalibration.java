package sprag.bench.hand.board;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import sprag.bench.cli.Wrap;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Problem;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.hal.Clock;
import sprag.hal.board.Board;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/** Measures the travel of a pedal track by hand and writes it into the vehicle's file. */
final class PedalCalibration {
    private static final String SECTION = "pedal";
    private static final String BAND = "deadband_share";
    private static final long STEP_NS = 5_000_000;
    private static final long SETTLE_NS = 100_000_000;
    private static final int LEAST_VALUES = 10;

    private final Board board;
    private final Clock clock;
    private final Prompt asker;
    private final PrintWriter out;
    private final long watchNs;

    PedalCalibration(Board board, Clock clock, Prompt asker, long watchMs) {
        this.board = board;
        this.clock = clock;
        this.asker = asker;
        this.out = asker.out();
        this.watchNs = watchMs * 1_000_000;
    }

    /** 0 when written, 1 when not, 3 when the board was lost. */
    int run(Signal track, Path folder) throws BadInput, IOException {
        int input = new ArrayList<>(board.spec().map().inputs().stream()
                        .map(p -> p.signal())
                        .toList())
                .indexOf(track);
        Vehicle vehicle = VehicleReader.read(folder);
        out.println("Measures " + track.key() + " on "
                + board.spec().map().inputs().get(input).pin() + ". Nothing is driven.");
        PedalTravel travel;
        try {
            travel = new PedalTravel(
                    watch(input, "Take the foot off the pedal, then press Enter: "),
                    watch(input, "Press the pedal fully down and hold it, then press Enter: "),
                    watch(input, "Let the pedal come back by itself, then press Enter: "));
        } catch (Lost e) {
            out.println(e.getMessage());
            return 3;
        }
        List<String> objections = travel.objections();
        if (!objections.isEmpty()) {
            objections.forEach(o -> Wrap.at("Not written: " + o + ".", 78, "  ").forEach(out::println));
            return 1;
        }
        Map<String, Double> values = new LinkedHashMap<>(travel.values(track == Signal.PEDAL_A_V ? 'a' : 'b'));
        values.put(BAND, Math.max(travel.deadbandShare(), vehicle.get(Parameter.PEDAL_DEADBAND_SHARE)));
        return offer(folder, vehicle, values);
    }

    private int offer(Path folder, Vehicle vehicle, Map<String, Double> values) throws BadInput, IOException {
        Path file = folder.resolve(Catalogue.VEHICLE_FILE);
        String text = Files.readString(file);
        out.println(file);
        for (Map.Entry<String, Double> entry : values.entrySet()) {
            String old = TomlEdit.number(vehicle.get(rowOf(entry.getKey())));
            out.println("  " + SECTION + "." + entry.getKey() + " = " + TomlEdit.number(entry.getValue()) + "  (was "
                    + old + ")");
            text = TomlEdit.with(text, SECTION, entry.getKey(), entry.getValue());
        }
        List<Problem> problems = problemsOf(text);
        if (!problems.isEmpty()) {
            out.println("Not written: with these values the vehicle's file would not be good any more.");
            problems.forEach(p -> Wrap.at(p.key() + " " + p.found() + ". " + p.remedy(), 78, "  ")
                    .forEach(out::println));
            return 1;
        }
        if (!"write".equals(asker.ask("Type \"write\" to put them into the file, anything else to leave it: "))) {
            out.println("Left as it was.");
            return 1;
        }
        replace(file, text);
        out.println("Written. Comments and everything else in the file are as before.");
        return 0;
    }

    private PedalTravel.Plateau watch(int input, String question) throws Lost {
        asker.ask(question);
        List<Double> volts = new ArrayList<>();
        long settledNs = clock.nowNs() + SETTLE_NS; // what was read before Enter belongs to the position before
        long untilNs = settledNs + watchNs;
        while (clock.nowNs() < untilNs) {
            clock.waitUntil(clock.nowNs() + STEP_NS);
            if (!board.health().isWell()) {
                throw new Lost(board.health().reason());
            }
            long nowNs = clock.nowNs();
            if (board.ageNs(input) < 2 * STEP_NS && nowNs - board.ageNs(input) > settledNs) {
                volts.add(board.value(input));
            }
        }
        if (volts.size() < LEAST_VALUES) {
            throw new Lost(board.name() + " gave only " + volts.size() + " readings within " + watchNs / 1_000_000
                    + " ms; shorten its sampling interval");
        }
        return PedalTravel.Plateau.of(volts);
    }

    private static Parameter rowOf(String key) {
        for (Parameter row : Parameter.values()) {
            if (row.key().equals(SECTION + "." + key)) {
                return row;
            }
        }
        throw new IllegalArgumentException(SECTION + "." + key + " is no parameter of the supervisor");
    }

    /** Reads the text as a vehicle in a place of its own, so that a bad one never replaces a good one. */
    private static List<Problem> problemsOf(String text) throws IOException {
        Path scratch = Files.createTempDirectory("sprag-vehicle");
        Path file = scratch.resolve(Catalogue.VEHICLE_FILE);
        try {
            Files.writeString(file, text);
            VehicleReader.read(scratch);
            return List.of();
        } catch (BadInput e) {
            return e.problems();
        } finally {
            Files.deleteIfExists(file);
            Files.deleteIfExists(scratch);
        }
    }

    private static void replace(Path file, String text) throws IOException {
        Path fresh = file.resolveSibling(file.getFileName() + ".new");
        Files.writeString(fresh, text);
        Files.move(fresh, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    }

    private static final class Lost extends Exception {
        private static final long serialVersionUID = 1;

        Lost(String words) {
            super(words);
        }
    }
}
