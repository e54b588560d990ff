package sprag.bench.review.sizing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.Golden;
import sprag.bench.cli.Numbers;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.formula.Fuse;
import sprag.bench.review.formula.FuseRatings;
import sprag.bench.review.formula.Thermistor;
import sprag.bench.review.report.Checker;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Parameter;

/** Every number of the shipped vehicles' reviews as it was read, and what a vehicle adds that ships with none of them. */
class CalculationsReadTest {
    @TempDir
    Path folder;

    private static String line(Calculation sum) {
        String inputs = sum.inputs().stream().map(i -> i.name() + " " + i).collect(Collectors.joining(", "));
        String limit = sum.limit() == null
                ? ""
                : (sum.isAtMost() ? ", at most " : ", at least ") + sum.limit() + " ("
                        + sum.limit().name() + ")";
        return sum.verdict() + " " + sum.id() + " = " + sum.result() + limit + ", margin " + Numbers.text(sum.margin())
                + ", from " + inputs;
    }

    @Test
    void calculations_ofTheShippedVehicles_areThoseThatWereRead() throws Exception {
        List<String> lines = new ArrayList<>();
        for (String name : List.of("parcel-van", "coupe", "yard-cart", "flawed-van", "relay-van")) {
            lines.add("# " + name);
            Checker.check(Catalogue.installed().vehicle(name)).calculations().forEach(sum -> lines.add(line(sum)));
        }
        Golden.assertSame("review/calculations.txt", lines);
    }

    private Vehicle van(String toml) throws Exception {
        Path van = Catalogue.installed().vehicle("parcel-van").resolve("vehicle.toml");
        Files.writeString(folder.resolve("vehicle.toml"), Files.readString(van) + "\n" + toml + "\n");
        return VehicleReader.read(folder);
    }

    private static Calculation of(Vehicle vehicle, String id) {
        return SizingCheck.calculations(vehicle).stream()
                .filter(c -> c.id().equals(id))
                .findFirst()
                .orElseThrow(() -> new AssertionError("no " + id));
    }

    /** 47 ohm and 3300 uF: the last slope of a sound rise is 0.05 / 0.155 s, of 78 V 25 V/s; three tenths of it are 7.54 V/s. */
    @Test
    void stalledBus_ofASteepFlatLimit_isJudgedByTheLastSlopeOfASoundOne() throws Exception {
        Vehicle van = VehicleReader.read(Catalogue.installed().vehicle("parcel-van"))
                .with(Parameter.PRECHARGE_FLAT_FRACTION, 2);
        assertEquals(7.544, of(van, "precharge-called-stalled").limit().value(), 1e-3);
    }

    /** The window of the pedal's supply is as wide as its nearer end: 4.9 V are 2 % of 5 V, 5.25 V are 5 %. */
    @ParameterizedTest
    @CsvSource({"4.9, 5.25, 2", "4.75, 5.1, 2", "4.6, 5.25, 5"})
    void windowOfThePedalsSupply_isAsWideAsItsNearerEnd(double lowV, double highV, double percent) throws Exception {
        Files.writeString(
                folder.resolve("board.toml"),
                "[board]\nprotocol = \"firmata\"\nreference_v = 5\n[[input]]\nsignal = \"pedal_a_v\"\npin = 14\nkind = \"analogue\"\n");
        Vehicle van = van("").with(Parameter.PEDAL_SUPPLY_MIN_V, lowV).with(Parameter.PEDAL_SUPPLY_MAX_V, highV);
        assertEquals(percent, BoardCalculations.of(van).get(0).limit().value(), 1e-9);
    }

    /** What is only held back by a limit is a stop where the chargers take none. */
    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource({"limited, CAUTION, only the supervisor", "switched, STOP, the chargers take no limit"})
    void chargersBeyondThePackOrTheInlet_weighMoreWithoutALimit(String control, Weight weight, String why)
            throws Exception {
        Vehicle van = VehicleReader.read(Catalogue.installed().vehicle("parcel-van"))
                .with(
                        Parameter.CHARGER_CONTROL,
                        Parameter.CHARGER_CONTROL.choices().indexOf(control))
                .with(Parameter.PACK_CHARGE_MAX_A, 50)
                .with(Parameter.INLET_MAX_A, 16);
        for (String id : List.of("chargers-pack-current", "chargers-share-inlet")) {
            var finding = of(van, id).findings(key -> 7).get(0);
            assertEquals(weight, finding.weight(), id);
            assertTrue(finding.why().startsWith(why), finding.why());
            assertEquals(7, finding.place().line());
        }
    }

    /** A table of three rows and the beta model apart from it; the rows end at the limit, and a degree before it. */
    @Test
    void thermistorTable_thatEndsBeforeALimit_isACaution_andItsCurveIsHeldAgainstIt() throws Exception {
        // rows of a published table: ntc_thermistor.c of the Linux kernel
        String rows = "[[-20, 68104], [0, 27326], [25, 10000], [50, 4158], [%s]]";
        Vehicle reaches = van("[thermistor]\ntable = " + String.format(rows, "100, 973"));
        Calculation end = of(reaches, "thermistor-table-end-inverter-hot");
        assertEquals(100, end.result().value());
        assertEquals(Calculation.Verdict.KEPT, end.verdict());
        Calculation coldEnd = of(reaches, "thermistor-table-end-pack-cold");
        assertEquals(-20, coldEnd.result().value());
        assertTrue(coldEnd.isAtMost());
        assertEquals(Calculation.Verdict.KEPT, coldEnd.verdict());
        assertTrue(of(reaches, "thermistor-table-inverter-hot").result().value() < 1, "it runs near its rows");
        Calculation model = of(reaches, "thermistor-model-pack-cold");
        assertTrue(model.title().endsWith("corrected here"), model.title());
        double errorK = Math.abs(model.result().value());
        assertTrue(errorK > 0.05 && errorK < 5, model.result().toString());
        Vehicle ends = van("[thermistor]\ntable = " + String.format(rows, "84, 1500"));
        var finding =
                of(ends, "thermistor-table-end-inverter-hot").findings(key -> 1).get(0);
        assertEquals(Weight.CAUTION, finding.weight());
        assertTrue(finding.why().startsWith("beyond its rows"), finding.why());
    }

    /** 5 V, or 3.3 V: a USB port may give 4.40 V to 5.25 V (USB 2.0, table 7-7); a regulator is taken to keep to 5 %, a meter to 1 %. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            reference_v = 4.87         | measured     | 1       | KEPT
            # nothing measured         | not measured | 13.6364 | BROKEN
            reference_nominal_v = 3.3  | not measured | 5.2632  | BROKEN
            """)
    void boardInTheFolder_mayBeWrongByItsReference(
            String key, String words, double percent, Calculation.Verdict verdict) throws Exception {
        Vehicle van = van("");
        assertEquals(List.of(), BoardCalculations.of(van), "without a board there is nothing to say");
        Files.writeString(
                folder.resolve("board.toml"),
                "[board]\nprotocol = \"firmata\"\n" + key
                        + "\n[[input]]\nsignal = \"pedal_a_v\"\npin = 14\nkind = \"analogue\"\n");
        Calculation sum = BoardCalculations.of(van).get(0);
        assertEquals("board-reference", sum.id());
        assertTrue(sum.title().endsWith("reference voltage " + words), sum.title());
        assertEquals(percent, sum.result().value(), 1e-4);
        assertEquals(verdict, sum.verdict());
        double bearsPercent = 100
                * Math.min(
                        1 - van.get(Parameter.PEDAL_SUPPLY_MIN_V) / 5, van.get(Parameter.PEDAL_SUPPLY_MAX_V) / 5 - 1);
        assertEquals(bearsPercent, sum.limit().value(), 1e-9);
        assertEquals(words.equals("measured") ? 4 : 3, sum.inputs().size());
        assertEquals(
                Checker.check(folder).calculations().size(),
                SizingCheck.calculations(van).size() + 1);
    }

    /** The three coefficients of a common 10 kohm part: its own published rows within a tenth of a kelvin (kernel ntc table). */
    @ParameterizedTest
    @CsvSource({"-40, 190030", "0, 27326", "50, 4158", "100, 973"})
    void thermistor_withThreeCoefficients_givesThePartsOwnRows(double celsius, double ohm) {
        double[] abc = {8.776890e-4, 2.531365e-4, 1.855406e-7};
        Thermistor part = new Thermistor(10_000, 3435, abc, 10_000, 5);
        assertEquals(ohm, part.ohm(celsius), 0.006 * ohm);
        double readK = 1 / (1 / 298.15 + Math.log(part.ohm(celsius) / 10_000) / 3435) - 273.15 - celsius;
        assertEquals(readK, Thermistor.betaErrorK(celsius, 10_000, 3435, abc), 1e-9, "what the beta model reads there");
    }

    @ParameterizedTest
    @CsvSource({"0.4, 1", "1, 1", "1.1, 2", "7.5, 7.5", "7.6, 10", "599, 600", "600, 600", "601, 600"})
    void fuseThatIsSold_isTheSmallestThatIsEnough_elseTheLargest(double currentA, double ratedA) {
        assertEquals(ratedA, FuseRatings.atLeast(currentA));
    }

    @Test
    void fuse_ofOnePoint_hasConstantEnergy_andOfThree_passesThroughTheMiddleOne() {
        Fuse one = new Fuse(new double[] {200}, new double[] {10});
        assertEquals(40, one.secondsAt(100), 1e-9);
        assertEquals(2.5, one.secondsAt(400), 1e-9);
        Fuse three = new Fuse(new double[] {100, 200, 400}, new double[] {1000, 10, 0.1});
        assertEquals(10, three.secondsAt(200), 1e-9);
        assertEquals(1, three.secondsAt(Math.sqrt(200.0 * 400)), 1e-9);
        assertEquals(100, three.secondsAt(Math.sqrt(100.0 * 200)), 1e-9);
    }

    @Test
    void limitThatIsZero_hasNoMargin_andARoundingErrorBreaksNone() throws Exception {
        Vehicle van = VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
        Calculation zero = new Calculation(van, "id", "the title").gives(0, "V").atMost("zero", 0);
        assertTrue(Double.isNaN(zero.margin()));
        assertEquals(Calculation.Verdict.KEPT, zero.verdict());
        Calculation above = new Calculation(van, "id", "the title")
                .gives(3 * (1 + 1e-12), "V")
                .atMost("three", 3);
        assertEquals(Calculation.Verdict.KEPT, above.verdict());
        assertEquals(
                -1 / 3.0,
                new Calculation(van, "id", "t").gives(4, "V").atMost("three", 3).margin(),
                1e-12);
        assertEquals(
                1 / 3.0,
                new Calculation(van, "id", "t")
                        .gives(4, "V")
                        .atLeast("three", 3)
                        .margin(),
                1e-12);
        Calculation none = new Calculation(van, "id", "the title").gives(Double.NaN, "V");
        assertEquals("the inputs do not give a number", none.lacks());
        assertEquals(Calculation.Verdict.UNKNOWN, none.verdict());
        assertEquals("", zero.lacks());
        assertEquals("0 V", zero.result().toString());
    }
}
