package sprag.bench.drawing.draft;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.review.wiring.schedule.ScheduleFiles;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/** Wires get their ways by passages, and what does not fit is told. */
class PassageReportTest {
    private static final Path CART = Path.of("..", "config", "vehicles", "yard-cart");
    private static final String HEADS =
            "wire,from,to,net,class,size_mm2,colour,length_m,fuse_a,from_pin_v,to_pin_v,current_a,twisted_with,carries,remark\n";

    @TempDir
    Path folder;

    /** A report on wires from part a (pack) to part b (motor). */
    private PassageReport report(String passages, String... wires) throws Exception {
        Files.writeString(
                folder.resolve("draft.toml"), "[where]\na = \"pack\"\nb = \"motor\"\nc = \"cabin\"\n" + passages);
        StringBuilder csv = new StringBuilder(HEADS);
        for (int i = 0; i < wires.length; i++) {
            csv.append("W")
                    .append(i + 1)
                    .append(",a.")
                    .append(i)
                    .append(",b.")
                    .append(i)
                    .append(",n")
                    .append(i);
            csv.append(",").append(wires[i]).append(",red,1,,32,32,,,,\n");
        }
        Files.writeString(folder.resolve("wiring.csv"), csv);
        Vehicle cart = VehicleReader.read(CART);
        return PassageReport.of(
                cart, Answers.read(folder), ScheduleFiles.read(folder).orElseThrow());
    }

    private static String passage(String more) {
        return "[[passages]]\nname = \"p\"\nfrom = \"pack\"\nto = \"motor\"\n" + more + "\n";
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            WIRES | OUTER_MM | INNER_MM | FILLED | FITS  | BECAUSE
                1 |       18 |     24.8 |   52.7 | true  | one wire may fill 53 %
                1 |       18 |     24.7 |   53.1 | false | and no more
                2 |       10 |     25.5 |   30.8 | true  | two wires may fill 31 %
                2 |       10 |     25.3 |   31.2 | false | and no more
                3 |       10 |     27.5 |   39.7 | true  | three and more may fill 40 %
                3 |       10 |     27.3 |   40.3 | false | and no more
            """)
    void tube_withSomeWires_isFilledAsTheTableAllows(
            int wires, double outerMm, double innerMm, String filled, boolean fits, String because) throws Exception {
        String[] all = new String[wires];
        java.util.Arrays.fill(all, "traction,95");
        PassageReport report =
                report(passage("kind = \"tube\"\ninner_mm = " + innerMm) + "[outer_mm]\n\"95\" = " + outerMm, all);
        assertEquals(filled, report.rows().get(0).get(6), because);
        assertEquals(fits, report.problems().isEmpty(), because + ": " + report.problems());
    }

    @Test
    void tunnel_bySizesOfItsOwn_givesAreaBundleAndBendRadius() throws Exception {
        PassageReport report =
                report(passage("kind = \"tunnel\"\nwidth_mm = 60\nheight_mm = 20"), "traction,95", "traction,95");
        List<String> row = report.rows().get(0);
        assertEquals("60 × 20", row.get(3));
        assertEquals("42.4", row.get(6), "2 of 18 mm: 508.9 of 1200 mm²");
        assertEquals("29.4", row.get(5), "18 sqrt(2 / 0.75)");
        assertEquals("90.0", row.get(8), "5 times 18 mm");
    }

    @ParameterizedTest(name = "{0} mm: {1}")
    @CsvSource({"6.5,M12", "6.6,M16", "18,M25", "18.1,M32", "44,M63", "45,larger than M63"})
    void gland_forADiameter_isTheSmallestThatTakesIt(double outerMm, String gland) {
        assertEquals(gland, PassageReport.gland(outerMm));
    }

    @Test
    void gland_withTwoCables_andTooManyBends_areTold() throws Exception {
        PassageReport report =
                report(passage("kind = \"gland\"\ninner_mm = 60\nbends = 5"), "traction,16", "traction,16");
        assertTrue(
                report.problems().toString().contains("a gland seals one round cable"),
                report.problems().toString());
        assertTrue(
                report.problems().toString().contains("5 right angles"),
                report.problems().toString());
    }

    @Test
    void tractionAndSignal_inOneTube_areNamed_andPartedByWhatATubeTakes() throws Exception {
        PassageReport shared = report(passage("kind = \"tube\"\ninner_mm = 80"), "traction,16", "signal,0.5");
        assertTrue(shared.problems().get(0).contains("traction wires W1 share it with signal wires W2"), "named");
        PassageReport apart =
                report(passage("kind = \"tube\"\ninner_mm = 80\ntakes = [\"traction\"]"), "traction,16", "signal,0.5");
        assertEquals(List.of(), apart.problems());
        assertEquals("pack - motor", apart.ways().get("W2"), "along the loom");
        assertEquals("pack - motor, through p", apart.ways().get("W1"));
    }

    @Test
    void wire_ofAPartThatNobodyPlaced_isNamed_andAnUnknownSizeIsNoThinWire() throws Exception {
        PassageReport report = report(passage("kind = \"tube\"\ninner_mm = 80"), "traction,", "traction,300");
        assertTrue(
                report.problems().get(0).contains("thickness of W1 W2 is not known"),
                report.problems().toString());
        Files.writeString(folder.resolve("wiring.csv"), HEADS + "W1,a.1,elsewhere.1,n,traction,16,red,1,,32,32,,,,\n");
        PassageReport unplaced = PassageReport.of(
                VehicleReader.read(CART),
                Answers.read(folder),
                ScheduleFiles.read(folder).orElseThrow());
        assertEquals(List.of("W1"), unplaced.unplaced());
    }

    @Test
    void way_betweenPlaces_isTheShortestByWhatWasMeasured() throws Exception {
        Files.writeString(
                folder.resolve("draft.toml"),
                "[places]\nmotor_to_cabin_m = 1\npack_to_cabin_m = 9\n"
                        + passage("kind = \"tube\"\ninner_mm = 20\nlength_m = 1.5"));
        Answers answers = Answers.read(folder);
        Ways.Way way = new Ways(answers)
                .between(Place.PACK, Place.CABIN, sprag.bench.review.wiring.schedule.VoltageClass.SIGNAL);
        assertEquals(2.5, way.lengthM(), 1e-9, "1.5 m tube and 1 m, not 9 m");
        assertEquals(List.of(Place.PACK, Place.MOTOR, Place.CABIN), way.places());
        Drafter.Result draft = Drafter.draft(VehicleReader.read(CART), answers, new byte[0], new byte[0]);
        assertTrue(draft.wires().contains("inverter.plus,bus_plus,traction,50,red,1.5,"), "the tube is its length");
    }

    @Test
    void passages_thatAreNone_areRefusedWithLineAndRemedy() {
        BadInput refused = assertThrows(
                BadInput.class,
                () -> report(
                        "[[passages]]\nname = \"p\"\nkind = \"hole\"\nfrom = \"pack\"\nto = \"pack\"\ntakes = [\"hv\"]\n"));
        String said = refused.getMessage();
        for (String part : List.of("kind", "passages[0].to", "inner_mm", "takes", "draft.toml:")) {
            assertTrue(said.contains(part), part + ": " + said);
        }
    }
}
