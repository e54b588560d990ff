package sprag.bench.drawing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Base64;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.text.TextPosition;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.ResourceLock;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.print.PageMargin;
import org.openqa.selenium.print.PageSize;
import org.openqa.selenium.print.PrintOptions;
import sprag.bench.drawing.draft.Answers;
import sprag.bench.drawing.draft.Drafter;
import sprag.bench.drawing.sheet.Sheet;
import sprag.bench.page.Chromium;
import sprag.bench.review.report.Checker;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.Wire;
import sprag.bench.vehicle.VehicleReader;

/** The page of the sheets in a real browser: on paper no sheet is cut and every word can be read; in a window it is whole. */
@Tag("realtime")
@ResourceLock("chromium")
class DrawPrintTest {
    private static final double POINTS_A_MM = 72 / 25.4;
    private static final double LEAST_WORDS_MM = 2;
    private static final double MARGIN_CM = 0.9;

    @TempDir
    static Path folder;

    private static ChromeDriver browser;
    private static Drawing drawing;

    @BeforeAll
    static void open() throws Exception {
        drawing = Drawing.of(Checker.check(Path.of("..", "config", "vehicles", "parcel-van")), null);
        Path page = folder.resolve("draw.html");
        Files.writeString(page, DrawPage.of(drawing));
        browser = Chromium.start(new ChromeOptions(), folder.resolve("profile"), "how sheets print");
        browser.get(page.toUri().toString());
    }

    @AfterAll
    static void close() {
        if (browser != null) {
            browser.quit();
        }
    }

    /** Remembers the least size of a letter. */
    private static final class Letters extends PDFTextStripper {
        private double leastMm = Double.MAX_VALUE;

        @Override
        protected void processTextPosition(TextPosition text) {
            leastMm = Math.min(leastMm, text.getTextMatrix().getScalingFactorY() / POINTS_A_MM);
            super.processTextPosition(text);
        }
    }

    @ParameterizedTest
    @CsvSource({"A4, 21.0, 29.7", "A3, 29.7, 42.0", "letter, 21.59, 27.94"})
    void sheets_onPaper_areNotCut_andTheirWordsAreLarge(String paper, double widthCm, double heightCm)
            throws IOException {
        PrintOptions options = new PrintOptions();
        options.setOrientation(PrintOptions.Orientation.LANDSCAPE);
        options.setPageSize(new PageSize(heightCm, widthCm));
        options.setPageMargin(new PageMargin(MARGIN_CM, MARGIN_CM, MARGIN_CM, MARGIN_CM));
        byte[] printed = Base64.getDecoder().decode(browser.print(options).getContent());
        try (PDDocument document = Loader.loadPDF(printed)) {
            List<List<String>> words = new ArrayList<>();
            for (int page = 1; page <= document.getNumberOfPages(); page++) {
                Letters letters = new Letters();
                letters.setStartPage(page);
                letters.setEndPage(page);
                words.add(Arrays.asList(letters.getText(document).split("\\s+")));
                assertTrue(
                        letters.leastMm >= LEAST_WORDS_MM, paper + ", page " + page + ": " + letters.leastMm + " mm");
            }
            for (Sheet sheet : drawing.sheets()) {
                long whole = words.stream()
                        .filter(page -> String.join(" ", page).contains(sheet.heading()))
                        .filter(page -> page.containsAll(
                                sheet.wires().stream().map(Wire::id).toList()))
                        .count();
                assertEquals(1, whole, sheet.heading() + " and its wires are on one page of " + paper);
            }
        }
    }

    @ParameterizedTest
    @CsvSource({"1280, 1", "400, 0"})
    void sheets_inAWindow_areWhole_orCanBeMovedInTheirFrames(int widthPx, int whole) {
        browser.manage().window().setSize(new Dimension(widthPx, 900));
        Object overPx = browser.executeScript("return Math.max(...[...document.querySelectorAll('.drawing')]"
                + ".map(d => d.scrollWidth - d.clientWidth));");
        assertEquals(whole == 1, ((Number) overPx).intValue() <= 0, overPx + " px wider than their frames");
        Object pagePx = browser.executeScript(
                "return document.documentElement.scrollWidth - document.documentElement.clientWidth;");
        assertEquals(0, ((Number) pagePx).intValue(), "the page itself never moves sideways");
    }

    @Test
    void tablesOfADraft_inAWideWindow_areWhole() throws Exception {
        Path van = Files.createDirectory(folder.resolve("van"));
        Files.copy(Path.of("..", "config", "vehicles", "parcel-van", "vehicle.toml"), van.resolve("vehicle.toml"));
        Drafter.Result draft = Drafter.draft(VehicleReader.read(van), Answers.read(van), new byte[0], new byte[0]);
        Files.writeString(van.resolve(Schedule.WIRES_FILE), draft.wires());
        Files.writeString(van.resolve(Schedule.PARTS_FILE), draft.parts());
        Path page = folder.resolve("draft.html");
        Files.writeString(page, DrawPage.of(Drawing.of(Checker.check(van), null)));
        String before = browser.getCurrentUrl();
        browser.manage().window().setSize(new Dimension(1280, 900));
        browser.get(page.toUri().toString());
        Object overPx = browser.executeScript("return Math.max(...[...document.querySelectorAll('.scroll')]"
                + ".map(d => d.scrollWidth - d.clientWidth));");
        browser.get(before);
        assertEquals(0, ((Number) overPx).intValue(), "a table is wider than its frame");
    }
}
