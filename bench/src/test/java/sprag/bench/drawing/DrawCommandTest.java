package sprag.bench.drawing;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.TypingTest;
import sprag.bench.cli.ExitCode;
import sprag.bench.drawing.sheet.Listing;
import sprag.bench.review.report.CheckReport;
import sprag.bench.review.report.Checker;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.ScheduleFiles;

/** The command writes page, document, sheets and tables, and puts on them what check has found and what was changed. */
class DrawCommandTest extends TypingTest {
    private static final Path VEHICLES = Path.of("..", "config", "vehicles");

    @TempDir
    Path folder;

    @Test
    void oneOfAThing_isCountedInTheSingular() {
        assertEquals(
                "0 cautions, 1 caution, 2 cautions",
                Drawing.count(0, "caution") + ", " + Drawing.count(1, "caution") + ", " + Drawing.count(2, "caution"));
    }

    @Test
    void draw_cart_writesPageDocumentSheetsAndTables() throws Exception {
        assertEquals(
                ExitCode.WELL,
                sprag("draw", VEHICLES.resolve("yard-cart").toString(), "--out", folder.toString()),
                err.toString());
        String page = Files.readString(folder.resolve("draw.html"));
        assertTrue(
                page.contains("Sheet 1: Traction") && page.contains("@font-face"),
                "sheets and letters are in the page");
        assertFalse(
                page.contains("http://")
                        && page.replace("http://www.w3.org/2000/svg", "").contains("http://"),
                "no address outside");
        assertTrue(Files.readString(folder.resolve("sheet-1.svg")).contains("@font-face"));
        assertTrue(
                Files.readString(folder.resolve("cut-list.csv")).contains("T001,50,red,0.55,pack.plus"),
                "0.4 m and slack");
        assertEquals(199, Files.readAllLines(folder.resolve("labels.csv")).size(), "two sleeves for each of 99 wires");
        try (PDDocument document = Loader.loadPDF(folder.resolve("sheets.pdf").toFile())) {
            String words = new PDFTextStripper().getText(document);
            assertTrue(words.contains("contactor_positive") && words.contains("T009"), words);
            assertEquals(297, document.getPage(0).getMediaBox().getHeight() * 25.4 / 72, 0.5, "A3");
        }
    }

    @Test
    void draw_sameScheduleTwice_givesTheSameBytes() throws Exception {
        CheckReport report = Checker.check(VEHICLES.resolve("yard-cart"));
        Drawing once = Drawing.of(report, null);
        Drawing again = Drawing.of(report, null);
        assertArrayEquals(once.pdf(), again.pdf());
        assertEquals(DrawPage.of(once), DrawPage.of(again));
    }

    @Test
    void against_addedRemovedAndChangedWire_areToldAndDrawn() throws Exception {
        Path old = Files.createDirectory(folder.resolve("old"));
        Path cart = VEHICLES.resolve("yard-cart");
        for (String file : List.of("vehicle.toml", "parts.csv")) {
            Files.copy(cart.resolve(file), old.resolve(file));
        }
        String wires = Files.readString(cart.resolve("wiring.csv"))
                .replace(
                        "T003,pack.minus,shunt.pack,pack_minus,traction,50,",
                        "T003,pack.minus,shunt.pack,pack_minus,traction,35,")
                .replaceAll("(?m)^S029,.*\n", "")
                .replace(
                        "# Switches\n",
                        "# Switches\nS099,reset_button.rest,fault_lamp.plus,x,signal,0.5,white,1,,32,32,,,,\n");
        Files.writeString(old.resolve("wiring.csv"), wires);
        Schedule before = ScheduleFiles.read(old).orElseThrow();
        Drawing drawing = Drawing.of(Checker.check(cart), before);
        assertEquals(
                List.of(
                        "Wire T003 was changed: size_mm2 35 is now 50.",
                        "Wire S029 was added: charger_1.ok to supervisor.charger_1_ok.",
                        "Wire S099 was removed: reset_button.rest to fault_lamp.plus."),
                drawing.changes());
        String page = DrawPage.of(drawing);
        assertTrue(
                page.contains(">~ T003<") && page.contains(">+ S029<") && page.contains(">- S099<"),
                "signs at the numbers");
        assertEquals(1, page.split("<path class=\"gone\"", -1).length - 1, "the removed wire alone is dotted");
    }

    @Test
    void checkSum_anyWireOrPartChanged_isAnotherOne() throws Exception {
        Path cart = VEHICLES.resolve("yard-cart");
        String sum = Drawing.of(Checker.check(cart), null).checkSum();
        for (String file : List.of("wiring.csv", "parts.csv")) {
            for (String copied : List.of("vehicle.toml", "parts.csv", "wiring.csv")) {
                Files.copy(cart.resolve(copied), folder.resolve(copied), StandardCopyOption.REPLACE_EXISTING);
            }
            assertEquals(sum, Drawing.of(Checker.check(folder), null).checkSum(), "the same files");
            String text = Files.readString(cart.resolve(file));
            String changed = file.equals("parts.csv")
                    ? text.replace("motor_thermistor,sensor,5,", "motor_thermistor,sensor,6,")
                    : text.replace("S029,charger_1.ok,", "S029,charger_1.oh,");
            assertNotEquals(text, changed);
            Files.writeString(folder.resolve(file), changed);
            assertNotEquals(sum, Drawing.of(Checker.check(folder), null).checkSum(), file);
        }
    }

    @Test
    void tables_aCellThatLooksLikeAFormula_isHarmlessInATableProgram() {
        Listing listing =
                new Listing("t", "t", "", List.of("a"), List.of(List.of("=1+1"), List.of("-5"), List.of("a,\"b\"")));
        assertEquals("a\n =1+1\n-5\n\"a,\"\"b\"\"\"\n", listing.csv());
    }

    @Test
    void draw_vehicleWithoutSchedule_isRefusedWithTheRemedy() throws Exception {
        Files.copy(VEHICLES.resolve("yard-cart/vehicle.toml"), folder.resolve("vehicle.toml"));
        assertEquals(
                ExitCode.USAGE,
                sprag("draw", folder.toString(), "--out", folder.resolve("o").toString()));
        assertTrue(err.toString().contains("wiring.csv") && err.toString().contains("sprag draft"), err.toString());
        assertFalse(Files.exists(folder.resolve("o")), "nothing was written");
    }
}
