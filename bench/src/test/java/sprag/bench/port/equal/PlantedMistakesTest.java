package sprag.bench.port.equal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.port.tool.Tool;
import sprag.bench.run.ScenarioFiles;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Settings;

/**
 * Small mistakes in the C, one at a time. {@code -Plong} plants a few; {@code -Dport.mutants=100} a hundred, in a quarter of an hour;
 * {@code -Dport.seed=N,M} others, {@code -Dport.mutants.like=REGEX} only some. What nothing finds must stand in {@code unnoticed.txt} with the reason.
 */
class PlantedMistakesTest {
    private static final Catalogue CATALOGUE = Catalogue.installed();
    private static final List<String> DRIVES = List.of("drive-and-stop", "reverse");
    private static final List<String> SOME = List.of(
            "drive-and-stop",
            "charge-plug-pulled",
            "plugged-in-while-driving",
            "reverse",
            "data-bus-cut",
            "gauge-unsure-near-empty",
            "full-pack-regeneration",
            "low-voltage-sags");
    /** Of vehicles that have what the van lacks. */
    private static final Map<String, List<String>> OF_OTHERS = Map.of(
            "coupe",
            List.of(
                    "drive-and-stop",
                    "reverse",
                    "charge-plug-locked",
                    "charge-cold-pack",
                    "charge-drained-pack",
                    "charge-heater",
                    "heater-without-air"),
            "yard-cart",
            DRIVES);

    private static final int FEW = 6;
    private static final int MANY = Integer.getInteger("port.mutants", 100);
    private static final int CASES = Integer.getInteger("port.cases", 20_000);
    private static final double MOST_UNEXPLAINED = 0.05;

    private static final List<Long> SEEDS = Stream.of(
                    System.getProperty("port.seed", "17").split(","))
            .map(Long::valueOf)
            .toList();
    private static final String LIKE = System.getProperty("port.mutants.like", "");

    private static Vehicle van;
    private static Twin twin;

    @BeforeAll
    static void compile(@TempDir Path folder) throws Exception {
        assumeTrue(Tool.GCC.find().isPresent(), Tool.GCC.missing());
        van = VehicleReader.read(CATALOGUE.vehicle("parcel-van"));
        twin = SharedTwin.of(van, folder);
    }

    private static List<Scenario> scenarios(Vehicle vehicle, List<String> names) throws Exception {
        return new ScenarioFiles(CATALOGUE, vehicle).take(names);
    }

    /** The pedal is held where no shipped scenario holds it. */
    private static String slowly() throws Exception {
        return Path.of(PlantedMistakesTest.class
                        .getResource("/sprag/bench/port/pedal-let-go-slowly.toml")
                        .toURI())
                .toString();
    }

    /** With one vehicle and few ticks, half of them show. */
    @Test
    @Tag("long")
    void fewMistakes_planted_areMostlyFound() throws Exception {
        MutantHunt hunt = new MutantHunt();
        hunt.add(new Equality(van, twin), scenarios(van, DRIVES), 2_000);
        assertEquals(Optional.empty(), hunt.sound());
        List<String> undetected =
                hunt.plant(FEW, SEEDS.get(0), words -> true, told -> {}).undetected();
        assertTrue(undetected.size() <= FEW / 2, String.join("\n", undetected));
    }

    /** Many mistakes show only where a vehicle has what the others lack, so there are vehicles of all kinds. */
    @Test
    @EnabledIfSystemProperty(named = "port.mutants", matches = "[1-9]\\d*")
    void manyMistakes_planted_areFound_butForThoseThatChangeNothing(@TempDir Path folder) throws Exception {
        MutantHunt hunt = new MutantHunt();
        List<String> played = new ArrayList<>(SOME);
        played.add(slowly());
        hunt.add(new Equality(van, twin), scenarios(van, played), CASES);
        for (String name : List.of("coupe", "yard-cart")) {
            Vehicle other = VehicleReader.read(CATALOGUE.vehicle(name));
            Equality its = new Equality(other, SharedTwin.of(other, folder.resolve(name)));
            hunt.add(its, scenarios(other, OF_OTHERS.get(name)), CASES);
        }
        OddVehicles odd = new OddVehicles(van.settings());
        for (Settings any : odd.any()) {
            hunt.add(SharedTwin.of(any, folder.resolve("any" + hunt.vehicles())), CASES / 2);
        }
        for (Settings sound : odd.sound()) {
            hunt.add(SharedTwin.of(sound, folder.resolve("odd" + hunt.vehicles())), CASES / 4);
        }
        System.out.println(hunt.meetEdges(folder.resolve("edges")).words());
        assertEquals(Optional.empty(), hunt.sound());
        Map<Long, MutantHunt.Hunted> all = new LinkedHashMap<>();
        for (long seed : SEEDS) {
            MutantHunt.Hunted hunted =
                    hunt.plant(MANY, seed, Pattern.compile(LIKE).asPredicate(), System.out::println);
            System.out.println(hunted.found().size() + " of " + planted(hunted)
                    + " planted mistakes were found with seed " + seed + "; not:\n"
                    + String.join("\n", hunted.undetected()));
            all.put(seed, hunted);
        }
        for (MutantHunt.Hunted hunted : all.values()) {
            Judged judged = judge(hunted, unnoticed());
            assertEquals(Set.of(), judged.wrong(), "found, though a reason why not stands in unnoticed.txt");
            assertTrue(
                    areFewEnough(judged.unexplained().size(), planted(hunted)),
                    () -> judged.unexplained().size() + " were not found and have no reason in unnoticed.txt:\n"
                            + String.join("\n", judged.unexplained()));
        }
    }

    private static int planted(MutantHunt.Hunted hunted) {
        return hunted.found().size() + hunted.undetected().size();
    }

    /**
     * What is to be said of planted mistakes.
     *
     * @param unexplained those that were not found and have no reason
     * @param wrong those that were found and have one
     */
    record Judged(List<String> unexplained, Set<String> wrong) {}

    static Judged judge(MutantHunt.Hunted hunted, Map<String, String> explained) {
        List<String> unexplained = hunted.undetected().stream()
                .filter(words -> !explained.containsKey(words))
                .toList();
        Set<String> wrong = hunted.found().stream()
                .filter(words ->
                        explained.containsKey(words) && !hunted.undetected().contains(words))
                .collect(Collectors.toSet());
        return new Judged(unexplained, wrong);
    }

    static boolean areFewEnough(int unexplained, int planted) {
        return unexplained <= planted * MOST_UNEXPLAINED;
    }

    /** A reason that stays behind when its line has changed would hide another mistake. */
    @Test
    void reasons_eachNamesALineOfTheCode() throws Exception {
        Map<String, String> code = new LinkedHashMap<>(twin.files());
        code.keySet().removeAll(List.of("vehicle.c", "fields.c"));
        Set<String> all = Mutants.some(code, Integer.MAX_VALUE, 0).stream()
                .map(Mutants.Mutant::words)
                .collect(Collectors.toSet());
        assertTrue(all.size() > 500, "only " + all.size() + " mistakes can be planted");
        assertEquals(
                List.of(),
                unnoticed().keySet().stream()
                        .filter(words -> !all.contains(words))
                        .toList());
    }

    /** Mistakes that nothing notices, with the reason. In the file the reason stands below each, after four blanks. */
    private static Map<String, String> unnoticed() throws IOException {
        Map<String, String> reasons = new TreeMap<>();
        try (InputStream in = PlantedMistakesTest.class.getResourceAsStream("/sprag/bench/port/unnoticed.txt")) {
            String mistake = "";
            for (String line : new String(in.readAllBytes(), StandardCharsets.UTF_8).split("\n")) {
                if (line.startsWith("    ")) {
                    reasons.merge(mistake, line.strip(), (a, b) -> a + " " + b);
                } else if (!line.isBlank() && !line.startsWith("#")) {
                    mistake = line;
                    reasons.put(mistake, "");
                }
            }
        }
        assertEquals(
                List.of(),
                reasons.keySet().stream().filter(m -> reasons.get(m).isEmpty()).toList(),
                "no reason stands below them");
        return reasons;
    }
}
