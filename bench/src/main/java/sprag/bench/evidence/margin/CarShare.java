package sprag.bench.evidence.margin;

import com.fasterxml.jackson.core.JacksonException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import sprag.bench.cli.CheckSum;
import sprag.bench.cli.InputFile;
import sprag.bench.cli.Json;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.Trouble;
import sprag.bench.cli.Version;
import sprag.bench.scenario.ExpectationVerdict;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.Catalogue;

/**
 * What came of the cars of one share, in a file. Every car depends on nothing but its number and the seed, so shares may be played on
 * several machines and joined on one. The files hold all digits: the whole is the same to the bit.
 *
 * @param seed of the whole fleet
 * @param cars how many cars the whole fleet has
 * @param part which share, from 1
 * @param of how many shares there are
 * @param what names program, vehicle and scenarios, with check sums of their files
 * @param played the verdicts of each scenario, by the car's number
 */
record CarShare(long seed, int cars, int part, int of, String what, List<Map<Integer, Verdicts>> played) {
    /** How the file is called in its folder. */
    static final String NAME = "margin-share.json";

    private static final int MOST_BYTES = 1 << 30;

    /** The numbers of the cars of a share. */
    static List<Integer> numbers(int cars, int part, int of) {
        List<Integer> mine = new ArrayList<>();
        for (int car = part - 1; car < cars; car += of) {
            mine.add(car);
        }
        return mine;
    }

    /** What shares must have in common to be joined. */
    static String what(Fleet fleet, List<Scenario> scenarios) {
        List<String> parts = new ArrayList<>();
        Path file = fleet.vehicle().folder().resolve(Catalogue.VEHICLE_FILE);
        try {
            parts.add(Version.line());
            parts.add(fleet.vehicle().name() + " " + CheckSum.of(List.of(file)));
            for (Scenario each : scenarios) {
                file = each.file();
                parts.add(each.name() + " " + CheckSum.of(List.of(file)));
            }
        } catch (IOException e) {
            throw new Trouble("cannot read", file, e);
        }
        return String.join(", ", parts);
    }

    /** How many runs this share has when it is played to its end. */
    long planned() {
        return (long) numbers(cars, part, of).size() * played.size();
    }

    /** How many runs are in it. */
    long count() {
        return played.stream().mapToLong(Map::size).sum();
    }

    /** Whether every car has played every scenario, and each of its expectations was judged. */
    private boolean isWhole(List<Scenario> scenarios) {
        List<Integer> numbers = numbers(cars, part, of);
        for (int i = 0; i < scenarios.size(); i++) {
            int judged = scenarios.get(i).expectations().size();
            if (played.size() != scenarios.size()
                    || !List.copyOf(played.get(i).keySet()).equals(numbers)
                    || !played.get(i).values().stream()
                            .allMatch(v -> v.verdicts().size() == judged)) {
                return false;
            }
        }
        return true;
    }

    /** Writes the file. */
    void write(Path folder) {
        ObjectNode root = Json.object();
        root.put("what", what)
                .put("seed", seed)
                .put("cars", cars)
                .put("share", part)
                .put("of", of);
        ArrayNode scenarios = root.putArray("scenarios");
        for (Map<Integer, Verdicts> scenario : played) {
            ArrayNode all = scenarios.addArray();
            scenario.forEach((car, verdicts) -> {
                ObjectNode node = all.addObject().put("car", car).put("passed", verdicts.passed());
                ArrayNode each = node.putArray("verdicts");
                verdicts.verdicts().forEach(verdict -> put(each.addObject(), verdict));
            });
        }
        OutFolder.write(folder.resolve(NAME), root + "\n");
    }

    private static void put(ObjectNode node, ExpectationVerdict verdict) {
        node.put("outcome", verdict.outcome().name())
                .put("detail", verdict.detail())
                .put("unit", verdict.unit());
        Json.number(node, "margin", verdict.margin());
        Json.number(node, "at_s", verdict.atS());
    }

    /**
     * Reads the file of a folder.
     *
     * @throws IllegalArgumentException when it holds no share; the message is meant for people
     */
    static CarShare read(Path folder) {
        Path file = folder.resolve(NAME);
        if (!InputFile.isThere(file)) {
            throw new IllegalArgumentException(
                    file + " is not there: name the folders that margin --shard has written");
        }
        try {
            JsonNode root =
                    new ObjectMapper().readTree(new String(InputFile.bytes(file, MOST_BYTES), StandardCharsets.UTF_8));
            List<Map<Integer, Verdicts>> played = new ArrayList<>();
            for (JsonNode scenario : root.required("scenarios")) {
                Map<Integer, Verdicts> cars = new TreeMap<>();
                for (JsonNode car : scenario) {
                    cars.put(car.required("car").asInt(), verdicts(car));
                }
                played.add(cars);
            }
            CarShare share = new CarShare(
                    root.required("seed").asLong(),
                    root.required("cars").asInt(),
                    root.required("share").asInt(),
                    root.required("of").asInt(),
                    root.required("what").asText(),
                    played);
            if (share.part < 1 || share.part > share.of || share.of > share.cars || share.cars > Fleet.MOST) {
                throw new IllegalArgumentException("share " + share.part + "/" + share.of + " of " + share.cars);
            }
            return share;
        } catch (InputFile.Refused e) {
            throw new IllegalArgumentException(file + " " + e.getMessage() + ". " + e.remedy(), e);
        } catch (JacksonException | IllegalArgumentException e) {
            throw new IllegalArgumentException(file + " is no share of margin, or is damaged. Play the share again", e);
        }
    }

    private static Verdicts verdicts(JsonNode car) {
        List<ExpectationVerdict> all = new ArrayList<>();
        for (JsonNode each : car.required("verdicts")) {
            all.add(new ExpectationVerdict(
                    ExpectationVerdict.Outcome.valueOf(each.required("outcome").asText()),
                    each.required("detail").asText(),
                    number(each.required("margin")),
                    each.required("unit").asText(),
                    number(each.required("at_s"))));
        }
        return new Verdicts(all, car.required("passed").asBoolean());
    }

    private static double number(JsonNode node) {
        if (node.isTextual()) {
            return node.asText().startsWith("minus") ? Double.NEGATIVE_INFINITY : Double.POSITIVE_INFINITY;
        }
        return node.isNull() ? Double.NaN : node.asDouble();
    }

    /**
     * The verdicts of all cars, scenario by scenario.
     *
     * @param what what this program would play
     * @param scenarios in the order of the shares
     * @throws IllegalArgumentException with everything that is wrong, one line each
     */
    static List<List<Verdicts>> join(String what, List<Scenario> scenarios, List<CarShare> shares) {
        CarShare first = shares.get(0);
        List<String> wrong = new ArrayList<>();
        Map<Integer, CarShare> parts = new TreeMap<>();
        for (CarShare share : shares) {
            String name = "share " + share.part + "/" + share.of;
            if (!share.what.equals(what)) {
                wrong.add(name + " is of " + share.what + ", not of " + what);
            } else if (share.seed != first.seed || share.cars != first.cars || share.of != first.of) {
                wrong.add(name + " is of seed " + share.seed + ", " + share.cars + " cars, not of seed " + first.seed
                        + ", " + first.cars + " cars, " + first.of + " shares");
            } else if (parts.put(share.part, share) != null) {
                wrong.add(name + " is there twice");
            } else if (!share.isWhole(scenarios)) {
                wrong.add(name + " is not whole, or is damaged: " + share.count() + " of its " + share.planned()
                        + " runs are in it. Play it again");
            }
        }
        for (int part = 1; part <= first.of; part++) {
            if (!parts.containsKey(part)) {
                wrong.add("share " + part + "/" + first.of + " is missing");
            }
        }
        if (!wrong.isEmpty()) {
            throw new IllegalArgumentException(String.join(System.lineSeparator(), wrong));
        }
        List<List<Verdicts>> joined = new ArrayList<>();
        for (int i = 0; i < first.played.size(); i++) {
            Map<Integer, Verdicts> all = new TreeMap<>();
            for (CarShare share : shares) {
                all.putAll(share.played.get(i));
            }
            joined.add(List.copyOf(all.values()));
        }
        return joined;
    }
}
