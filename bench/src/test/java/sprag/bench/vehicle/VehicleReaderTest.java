package sprag.bench.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.cli.Nearest;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/** A vehicle's file is either wholly good or refused with every mistake named. */
@Execution(ExecutionMode.CONCURRENT)
class VehicleReaderTest {
    private static final Path SHIPPED = Catalogue.installed().home().resolve("config/vehicles");

    @TempDir
    Path folder;

    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void shippedVehicle_read_isGood(String name) throws Exception {
        Vehicle vehicle = VehicleReader.read(Catalogue.installed().vehicle(name));
        assertEquals(name, vehicle.name());
        assertTrue(vehicle.settings().has(Signal.KEY_ON));
        assertEquals(vehicle.get(Parameter.DRIVE_MASS_KG), vehicle.get(CarParameter.BODY_MASS_KG), "taken over");
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        OLD                       | NEW                          | LINE                         | EXPECTED                                                                                 | BECAUSE
        done_fraction = 0.95      | done_fraction = 1.2          | done_fraction = 1.2          | precharge.done_fraction = 1.2 is not a number within 0.8..0.99: it would close the contactor into an inrush, or never. Use a number within 0.8..0.99. | outside the range
        done_fraction = 0.95      | done_fration = 0.95          | done_fration                 | precharge.done_fration is not a known key: it would have no effect. Did you mean precharge.done_fraction? | a letter is missing
        [precharge]               | [prechrage]                  | [prechrage]                  | prechrage is not a known section: it would have no effect. Did you mean precharge?       | letters swapped, one problem for the whole section
        chemistry = "lfp"         | chemistry = "lpf"            | chemistry                    | pack.chemistry = "lpf" is not "lfp" or "nmc": it would make the gauge read the wrong voltage curve. Use "lfp" or "nmc". | a word that is no choice
        nominal_v = 96            | nominal_v = "96"             | nominal_v                    | pack.nominal_v = "96" is not a number within 12..900: it would make every pack limit wrong. Use a number within 12..900. | a text where a number belongs
        resistance_ohm = 47       | #                            | [precharge]                  | precharge.resistance_ohm is missing. Add it: a number within 1..5000.                    | required, shown at its section
        "cell_max_v"              | "cell_maks_v"                | fitted = [                   | signals.fitted holds "cell_maks_v", which is not an optional signal: it would have no effect. Did you mean cell_max_v? | no such signal
        max_v = 130               | max_v = 100                  | max_v = 100                  | bus.max_v = 100 must be more than pack.max_v = 108 (line 32). Make pack.max_v less than bus.max_v: a full pack would trip the bus limit. | contradiction, both named
        a_full_v = 4.2            | a_full_v = 0.9               | a_full_v                     | pedal.a_full_v = 0.9 equals pedal.a_released_v: it would make the pedal do nothing. Measure both ends of the travel. | a track that does not move
        a_full_v = 4.2            | a_full_v = 4.8               | a_full_v                     | pedal.a_full_v = 4.8 is not between pedal.min_v = 0.25 and pedal.max_v = 4.75: it would make a good pedal count as a broken wire. Measure it, or move the window. | outside the window
        b_full_v = 2.2            | b_full_v = 4.6               | b_released_v                 | pedal.b_released_v comes within 0 V of the first track (pedal.short_v = 0.15): it would hide a short between the two wipers. Use tracks with another slope or offset, or lower pedal.short_v. | tracks cross
        b_released_v = 0.5        | b_released_v = 0.75          | b_released_v                 | pedal.b_released_v comes within 0.15 V of the first track (pedal.short_v = 0.15): it would hide a short between the two wipers. Use tracks with another slope or offset, or lower pedal.short_v. | exactly at the limit
        """)
    void oneMistake_read_namesLineKeyValueAllowedAndRemedy(
            String old, String changed, String line, String expected, String because) throws Exception {
        String good = Files.readString(SHIPPED.resolve("parcel-van/vehicle.toml"));
        assertTrue(good.contains(old), old);
        String bad = good.replace(old, changed);
        List<Problem> problems = refused(bad);
        long at = bad.substring(0, bad.indexOf(line))
                        .chars()
                        .filter(c -> c == '\n')
                        .count()
                + 1;
        String whole = folder.resolve("vehicle.toml") + ":" + at + ": " + expected;
        assertTrue(
                problems.stream().anyMatch(p -> p.message().equals(whole)),
                because + "\nexpected " + whole + "\nfound " + problems);
    }

    @Test
    void manyMistakes_read_allComeAtOnceInOrderOfLines() throws Exception {
        String good = Files.readString(SHIPPED.resolve("parcel-van/vehicle.toml"));
        List<Problem> problems = refused(good.replace("cells = 30", "cells = 0")
                .replace("fast_ms = 150", "fast_ms = 500")
                .replace("b_full_v = 2.2", "b_ful_v = 2.2")
                .replace("side = \"pack-side\"\ncount", "side = 3\ncount"));
        assertEquals(
                List.of("pack.cells", "precharge.min_ms", "pedal.b_ful_v", "charger.side"),
                problems.stream().map(Problem::key).toList());
    }

    @Test
    void brokenToml_read_everySlipIsAProblem() throws Exception {
        List<Problem> problems = refused("[pack\ncells = 30\n[cell]\nmax_v = = 3\n");
        assertEquals(List.of(1, 4), problems.stream().map(Problem::line).toList(), problems.toString());
    }

    @ParameterizedTest
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', quoteCharacter = '`', textBlock = """
        INLET                                | SIGNALS                         | PROBLEM
        kind = "plain"                       | "motor_temp_v"                  | names neither "plug_present" nor "charger_1_ok"
        kind = "type-2"                      | "regen_demand_v"                | holds "regen_demand_v", and regen.by is "pedal"
        kind = "none"                        | "plug_present"                  | holds "plug_present", and inlet.kind is "none"
        kind = "none"`nl`lock = "fitted"     | "motor_temp_v"                  | = "fitted", and inlet.kind is "none"
        """)
    void inletThatContradictsItsSignals_read_isRefused(String inlet, String signals, String problem) throws Exception {
        String text = Files.readString(SHIPPED.resolve("parcel-van/vehicle.toml"))
                .replace("kind = \"type-1\"", inlet.replace("`nl`", "\n"))
                .replaceFirst("(?s)fitted = \\[.*?\\]", "fitted = [" + signals + "]");
        List<Problem> problems = refused(text);
        assertEquals(1, problems.size(), problems::toString);
        assertTrue(problems.get(0).found().contains(problem), problems::toString);
    }

    @Test
    void opposedTracks_read_areLegal() throws Exception {
        Vehicle coupe = VehicleReader.read(SHIPPED.resolve("coupe"));
        assertTrue(coupe.get(Parameter.PEDAL_B_FULL_V) < coupe.get(Parameter.PEDAL_B_RELEASED_V), "a falling track");
    }

    @Test
    void missingFile_read_isRefused() {
        BadInput refusal = assertThrows(BadInput.class, () -> VehicleReader.read(folder.resolve("nowhere")));
        assertTrue(refusal.getMessage().contains("nowhere"), refusal.getMessage());
    }

    @Test
    void misspeltVehicle_lookedUp_nearestIsOffered() {
        BadInput refusal =
                assertThrows(BadInput.class, () -> Catalogue.installed().vehicle("parcelvan"));
        assertTrue(refusal.getMessage().contains("Did you mean parcel-van?"), refusal.getMessage());
    }

    /** The search for near names would take minutes for either file if it had no limits. */
    @Test
    void hugeKeyAndThousandsOfUnknownKeys_read_areRefusedWithAShortList() throws BadInput {
        Problems problems = new Problems();
        StringBuilder text = new StringBuilder("a".repeat(1_000_000)).append(" = 1\n");
        for (int i = 1; i < 10_000; i++) {
            text.append("unknown_").append(i).append(" = 1\n");
        }
        Section section = TomlFile.parse(Path.of("huge.toml"), text.toString(), problems);
        section.has("known_1");
        section.end();
        List<Problem> found = problems.list();
        assertEquals(21, found.size(), "20 keys and the count of the rest");
        assertTrue(
                found.stream().anyMatch(p -> p.message().contains("has 9980 more unknown keys")), "and their number");
    }

    @Test
    void nameOfTwoHundredLetters_oneSlip_isOffered_longer_isNot() {
        String known = "n".repeat(200);
        assertEquals(Optional.of(known), Nearest.to("m" + known.substring(1), List.of(known)));
        assertEquals(Optional.empty(), Nearest.to("m" + known, List.of(known)));
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        A        | B        | SLIPS | BECAUSE
        abc      | abc      | 0     | equal
        abc      | acb      | 1     | neighbours swapped
        abc      | ab       | 1     | left out
        abc      | xabc     | 1     | inserted
        kitten   | sitting  | 3     | the textbook example of edit distance
        """)
    void slips_counted(String a, String b, int slips, String because) {
        assertEquals(slips, Nearest.slips(a, b), because);
    }

    /** Damage of every kind: lines doubled, lost, cut, swapped; letters changed. */
    @ParameterizedTest(name = "{0}, seeds 1 to 150")
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void damagedFile_read_isRefusedWithPlacesOrStillGood(String name) throws Exception {
        String good = Files.readString(SHIPPED.resolve(name).resolve("vehicle.toml"));
        int refusals = 0;
        for (long seed = 1; seed <= 150; seed++) {
            String bad = damaged(good, new Random(seed));
            Files.writeString(folder.resolve("vehicle.toml"), bad);
            try {
                VehicleReader.read(folder);
            } catch (BadInput refusal) {
                refusals++;
                long lines = bad.lines().count() + 1;
                for (Problem problem : refusal.problems()) {
                    assertTrue(
                            problem.line() >= 1 && problem.line() <= lines && problem.column() >= 1,
                            "seed " + seed + ": " + problem);
                }
            }
        }
        assertTrue(refusals > 75, "only " + refusals + " of 150 damaged files were refused");
    }

    private static String damaged(String good, Random random) {
        List<String> lines = new ArrayList<>(good.lines().toList());
        for (int i = 0; i < 3; i++) {
            int at = random.nextInt(lines.size());
            String line = lines.get(at);
            int cut = line.isEmpty() ? 0 : random.nextInt(line.length());
            switch (random.nextInt(5)) {
                case 0 -> lines.add(at, line);
                case 1 -> lines.remove(at);
                case 2 -> lines.set(at, line.substring(0, cut));
                case 3 ->
                    lines.set(at, line.substring(0, cut) + (char) (32 + random.nextInt(95)) + line.substring(cut));
                default -> Collections.swap(lines, at, random.nextInt(lines.size()));
            }
        }
        return String.join("\n", lines);
    }

    private List<Problem> refused(String text) throws Exception {
        Files.writeString(folder.resolve("vehicle.toml"), text);
        return assertThrows(BadInput.class, () -> VehicleReader.read(folder)).problems();
    }
}
