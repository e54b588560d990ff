package sprag.bench.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.review.report.Checker;
import sprag.supervisor.vocabulary.Parameter;

/** The thermistors of a vehicle given as a table of temperatures and resistances. */
class ThermistorTableTest {
    private static final Path VAN = Path.of("..", "config", "vehicles", "parcel-van", "vehicle.toml");
    /** Every second row of the 10 kohm part in drivers/hwmon/ntc_thermistor.c of the Linux kernel. */
    private static final String PUBLISHED =
            "[[-40, 190030], [-30, 112060], [-20, 68104], [-10, 42576], [0, 27326], [10, 17973], [20, 12090], [30, 8311],"
                    + " [40, 5825], [50, 4158], [60, 3019], [70, 2227], [80, 1668], [90, 1266], [100, 973], [110, 757],"
                    + " [120, 596.5]]";

    @TempDir
    Path folder;

    private String text;

    @BeforeEach
    void read() throws Exception {
        text = Files.readString(VAN);
        assertFalse(text.contains("[thermistor]"), "the shipped van has a section of its own now");
    }

    private Vehicle van(String section) throws Exception {
        Files.writeString(folder.resolve("vehicle.toml"), text + "\n[thermistor]\n" + section + "\n");
        return VehicleReader.read(folder);
    }

    private String refusal(String section) {
        return assertThrows(BadInput.class, () -> van(section)).getMessage();
    }

    /** The rows between those of the file, from the same published table. */
    @ParameterizedTest(name = "{0} °C is {1} ohm")
    @CsvSource({"-35, 145360", "-25, 87041", "-5, 34001", "5, 22096", "25, 10000", "45, 4911", "75, 1924", "95, 1108"})
    void table_givesTheRowsBetween_withinATenthOfAKelvin(double celsius, double ohm) throws Exception {
        Vehicle van = van("table = " + PUBLISHED);
        ThermistorTable table = van.thermistors().orElseThrow();
        assertEquals(celsius, table.celsius(ohm), 0.1);
        assertEquals(ohm, table.ohm(celsius), 0.006 * ohm);
    }

    @Test
    void table_givesSupervisorItsCoefficients_andTheRestOfTheFileStays() throws Exception {
        Vehicle van = van("table = " + PUBLISHED + "\npullup_ohm = 2200");
        assertEquals(10_000, van.get(Parameter.THERMISTOR_R25_OHM), 15);
        assertEquals(3_435, van.get(Parameter.THERMISTOR_BETA_K), 10, "B 25/85 of this part");
        assertTrue(van.get(Parameter.THERMISTOR_STEINHART_B) > 0);
        assertEquals(2200, van.get(Parameter.THERMISTOR_PULLUP_OHM));
        assertEquals(17, van.named("other").thermistors().orElseThrow().size());
    }

    @Test
    void noTable_isEmpty() throws Exception {
        assertTrue(van("pullup_ohm = 2200").thermistors().isEmpty());
    }

    /** The table stands in the second line of the section. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', quoteCharacter = '~', textBlock = """
        [[0, 27326], [25, 10000]]                                    | has 2 rows
        []                                                           | has 0 rows
        "x"                                                          | is no list of pairs
        [1, 2, 3]                                                    | row 1 is no pair of numbers
        [[0, 27326], [25], [85, 1451]]                               | row 2 is no pair of numbers
        [[0, 27326], [25, "10k"], [85, 1451]]                        | row 2 is no pair of numbers
        [[0, 27326], [25, nan], [85, 1451]]                          | row 2 (25 °C, NaN ohm) is outside
        [[0, 27326], [25, 0], [85, 1451]]                            | row 2 (25 °C, 0 ohm) is outside
        [[0, 27326], [25, 10000], [851, 1451]]                       | row 3 (851 °C, 1451 ohm) is outside
        [[0, 27326], [85, 1451], [25, 10000]]                        | row 3 (25 °C, 10000 ohm) is not warmer than row 2 (85 °C, 1451 ohm)
        [[0, 27326], [25, 10000], [25, 9000]]                        | row 3 (25 °C, 9000 ohm) is not warmer than row 2
        [[0, 27326], [25, 27326], [85, 1451]]                        | row 2 (25 °C, 27326 ohm) does not have less resistance than row 1
        [[0, 815], [25, 1000], [85, 1700]]                           | row 2 (25 °C, 1000 ohm) does not have less resistance than row 1
        [[0, 27326], [25, 10000], [50, 4158], [60, 3819], [85, 1451]] | beside the curve through all rows
        [[0, 27.326], [25, 10], [85, 1.451]]                         | gives thermistor.r25_ohm = 10
        """)
    void tableThatCannotBe_isRefusedWithItsLineAndRow(String table, String says) {
        String refused = refusal("pullup_ohm = 4700\ntable = " + table);
        assertTrue(refused.contains(says), refused);
        long line = text.lines().count() + 4;
        assertTrue(refused.contains("vehicle.toml:" + line) && refused.contains("thermistor.table"), refused);
    }

    @Test
    void wrongRowOfALongTable_itsOwnLineIsNamed() {
        String table = PUBLISHED.replace("], ", "],\n ").replace("4158", "4558");
        String refused = refusal("table = " + table);
        assertTrue(refused.contains("row 10 (50 °C, 4558 ohm) lies 2"), refused);
        assertTrue(refused.contains("vehicle.toml:" + (text.lines().count() + 3 + 9)), refused);
    }

    @ParameterizedTest
    @CsvSource({"r25_ohm = 10000", "beta_k = 3435", "steinhart_a = 0.001", "steinhart_b = 0.0002", "steinhart_c = 1e-7"
    })
    void tableBesideAnotherWay_isRefused(String other) {
        String refused = refusal(other + "\ntable = " + PUBLISHED);
        assertTrue(refused.contains("is given beside thermistor.table"), refused);
    }

    @Test
    void check_statesTheErrorAtTheLimits_andThatTheTableReachesThem() throws Exception {
        String kept = calculations(van("table = " + PUBLISHED));
        assertTrue(kept.contains("thermistor-table-pack-cold INFORMS"), kept);
        assertTrue(kept.contains("thermistor-table-end-pack-cold KEPT"), kept);
        assertTrue(kept.contains("thermistor-table-end-inverter-hot KEPT"), kept);
        String narrow = calculations(van("table = [[5, 22096], [25, 10000], [40, 5825]]"));
        assertTrue(narrow.contains("thermistor-table-end-pack-cold BROKEN"), narrow);
        assertTrue(narrow.contains("thermistor-table-end-pack-hot BROKEN"), narrow);
        assertFalse(narrow.contains("thermistor-table-pack-cold "), narrow);
        String beta = calculations(van("pullup_ohm = 4700"));
        assertTrue(beta.contains("thermistor-model-pack-cold INFORMS"), beta);
        assertFalse(beta.contains("thermistor-table"), beta);
    }

    private String calculations(Vehicle van) throws Exception {
        StringBuilder all = new StringBuilder();
        Checker.check(van.folder())
                .calculations()
                .forEach(c -> all.append(c.id()).append(' ').append(c.verdict()).append('\n'));
        return all.toString();
    }
}
