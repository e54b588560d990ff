package sprag.bench.review.sizing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.bench.review.formula.VoltageBand;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

class InsulationTest {
    @TempDir
    Path folder;

    /** The cart with other lines in its file. */
    private Vehicle cart(Map<String, String> changes) throws Exception {
        String text =
                Files.readString(Catalogue.installed().vehicle("yard-cart").resolve("vehicle.toml"));
        for (Map.Entry<String, String> change : changes.entrySet()) {
            assertTrue(text.contains("\n" + change.getKey()), change.getKey());
            text = text.replaceFirst(
                    "(?m)^" + java.util.regex.Pattern.quote(change.getKey()) + ".*$", change.getValue());
        }
        Files.writeString(folder.resolve("vehicle.toml"), text);
        return VehicleReader.read(folder);
    }

    private static Calculation.Verdict verdict(Vehicle vehicle, String id) {
        return SizingCheck.calculations(vehicle).stream()
                .filter(sum -> sum.id().equals(id))
                .findFirst()
                .orElseThrow()
                .verdict();
    }

    @ParameterizedTest
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        FULL_V | BAND    | BECAUSE
        60     | CLASS_A | 60 V exactly belongs to class A
        60.01  | CLASS_B | above it does not
        399    | CLASS_B | below 400 V
        400    | HIGH    | 400 V exactly
        """)
    void fullPack_atEachSideOfALimit_isOfTheBand(double fullV, VoltageBand band, String because) throws Exception {
        String busV = String.valueOf(Math.ceil(1.3 * fullV));
        Map<String, String> changes = new LinkedHashMap<>();
        changes.put("max_v = 57.6", "max_v = " + fullV);
        changes.put("max_v = 70", "max_v = " + busV);
        changes.put("trip_v", "trip_v = " + Math.ceil(1.4 * fullV));
        assertEquals(band, VoltageBand.of(cart(changes)), because);
    }

    @ParameterizedTest
    @EnumSource(VoltageBand.class)
    void band_asTheDocumentsTellIt(VoltageBand band) throws Exception {
        String page =
                Files.readString(Path.of("..", "docs", "kinds-of-cars.md")).replace("`", "");
        assertTrue(page.contains("| " + band.title + " | " + band.changes + " | " + band.source + " |"), band.changes);
    }

    @ParameterizedTest
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        KEY         | VALUE              | ID            | VERDICT | BECAUSE
        rated_v     | rated_v = 70       | cable-voltage | KEPT    | bus.max_v of 70 V itself is allowed
        rated_v     | rated_v = 69       | cable-voltage | BROKEN  | a volt less is not
        rated_v     | # not given        | cable-voltage | UNKNOWN | unknown is never the good case
        creepage_mm | creepage_mm = 2.05 | creepage      | KEPT    | 70 V lies at 7/17 between 2.0 mm (63 V) and 2.1 mm (80 V)
        creepage_mm | creepage_mm = 2.04 | creepage      | BROKEN  | a little less is not
        creepage_mm | # not given        | creepage      | UNKNOWN | nobody has measured
        max_v = 70  | max_v = 60         | class-a-left  | KEPT    | 60 V is still class A
        max_v = 70  | max_v = 60.5       | class-a-left  | BROKEN  | regeneration lifts the bus above it
        """)
    void rating_againstTheVoltage_isJudged(
            String key, String value, String id, Calculation.Verdict verdict, String because) throws Exception {
        assertEquals(verdict, verdict(cart(Map.of(key, value)), id), because);
    }

    @Test
    void rating_leftOutAndUsedTwiceInOneCalculation_isNamedOnce() throws Exception {
        List<String> lacks = SizingCheck.calculations(cart(Map.of("main_mm2", "# not given"))).stream()
                .map(Calculation::lacks)
                .filter(each -> each.contains("main_mm2"))
                .toList();
        assertTrue(lacks.size() > 3, lacks::toString);
        lacks.forEach(each -> assertEquals(each.indexOf("main_mm2"), each.lastIndexOf("main_mm2"), each));
    }

    @Test
    void classBPack_isNotAskedWhetherItStaysInClassA() throws Exception {
        Vehicle van = VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
        assertTrue(
                SizingCheck.calculations(van).stream().noneMatch(sum -> sum.id().equals("class-a-left")));
    }

    @ParameterizedTest
    @CsvSource({"1600, 25", "3200, 50", "10, 1.9", "450, 7.15"})
    void creepage_withinAndOutsideTheTable(double volt, double mm) {
        assertEquals(mm, InsulationCalculations.leastMm(volt), 1e-9);
    }
}
