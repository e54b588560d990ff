package sprag.bench.book;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.zip.CRC32;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.text.TextPosition;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import sprag.bench.Sprag;
import sprag.bench.book.print.Chapter;
import sprag.bench.book.print.Document;
import sprag.bench.book.print.DocumentPage;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.Version;
import sprag.bench.evidence.campaign.CampaignResult;
import sprag.bench.hand.commission.record.RecordSummary;
import sprag.bench.review.report.CheckReport;
import sprag.bench.review.report.Checker;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/** The book holds what it promises, its page numbers are right, and what is stale or was not run is told. */
class BookCommandTest {
    private static final Path VEHICLES = Path.of("..", "config", "vehicles");
    private static final Pattern ENTRY = Pattern.compile("(?m)^(.+?)(?: \\.)+ ?(\\d+)$");
    private static final double POINTS_A_MM = 72 / 25.4;
    /** Printers leave that much of a sheet white. */
    private static final double EDGE = 5 * POINTS_A_MM;

    /** Bound once: what a test looks at does not depend on when. */
    @TempDir
    private static Path bound;

    private static Path cart;
    private static String said;
    private static int status;

    @TempDir
    private Path folder;

    private static int run(StringWriter out, String... words) {
        CommandLine line = Sprag.commandLineFor(words);
        line.setOut(new PrintWriter(out, true));
        line.setErr(new PrintWriter(out, true));
        return line.execute(words);
    }

    @BeforeAll
    static void bind() throws Exception {
        cart = Files.createDirectory(bound.resolve("cart"));
        Path shipped = VEHICLES.resolve("yard-cart");
        for (String file : List.of("vehicle.toml", "parts.csv")) {
            Files.copy(shipped.resolve(file), cart.resolve(file));
        }
        // A few wires are enough: what is bound does not depend on how many there are, but the time does.
        List<String> wires = Files.readAllLines(shipped.resolve("wiring.csv")).stream()
                .filter(line -> line.startsWith("wire,") || line.startsWith("T00") || line.startsWith("E00"))
                .toList();
        Files.write(cart.resolve("wiring.csv"), wires);
        StringWriter out = new StringWriter();
        status = run(out, "book", cart.toString(), "--quick", "--paper", "letter", "--out", bound.toString());
        said = out.toString();
    }

    private static String page() throws IOException {
        return Files.readString(bound.resolve("book.html"));
    }

    private static PDDocument document() throws IOException {
        return Loader.loadPDF(bound.resolve("book.pdf").toFile());
    }

    @Test
    void book_ofACar_hasEveryChapterOnThePageThatItsContentsSay() throws Exception {
        try (PDDocument book = document()) {
            Matcher entry = ENTRY.matcher(text(book, 2));
            List<String> titles = new ArrayList<>();
            while (entry.find()) {
                String title = entry.group(1).strip();
                titles.add(title);
                int page = Integer.parseInt(entry.group(2));
                assertTrue(text(book, page).contains(title), title + " on page " + page);
                assertTrue(text(book, page).contains(page + " of " + book.getNumberOfPages()), "number of " + page);
            }
            assertTrue(
                    titles.containsAll(List.of(
                            "What the car is",
                            "One-line diagram",
                            "What lands on each terminal",
                            "Fuses",
                            "Grounds",
                            "Sizes, with their sources",
                            "Interlock matrix",
                            "Hazards, and what guards each",
                            "What cannot be detected",
                            "Design review",
                            "What is live when",
                            "Proof of the logic",
                            "Fault campaign",
                            "Commissioning record",
                            "How to switch off and make safe",
                            "For rescuers",
                            "Maintenance list")),
                    titles.toString());
            int rescuers = page(book, "For rescuers");
            assertTrue(text(book, rescuers).contains("DOES NOT CONFORM"), "marked as not conforming");
            assertTrue(text(book, rescuers + 1).contains("Maintenance list"), "one page for rescuers");
        }
    }

    @Test
    void book_onTheNarrowestSheetOfPaper_keepsItsWordsOnThePageLargeEnoughAndEmbedded() throws Exception {
        try (PDDocument book = document()) {
            assertEquals(215.9, book.getPage(0).getMediaBox().getWidth() / POINTS_A_MM, 0.1, "letter");
            List<String> wrong = new ArrayList<>();
            new PDFTextStripper() {
                @Override
                protected void processTextPosition(TextPosition letter) {
                    boolean in = letter.getXDirAdj() >= EDGE
                            && letter.getXDirAdj() + letter.getWidthDirAdj() <= letter.getPageWidth() - EDGE
                            && letter.getYDirAdj() <= letter.getPageHeight() - EDGE;
                    if (!in || letter.getFontSize() < 2 * POINTS_A_MM) {
                        wrong.add("page " + getCurrentPageNo() + " " + letter);
                    }
                }
            }.getText(book);
            assertEquals(List.of(), wrong.stream().limit(5).toList());
            for (PDPage page : book.getPages()) {
                for (COSName name : page.getResources().getFontNames()) {
                    assertTrue(page.getResources().getFont(name).isEmbedded(), name.getName());
                }
            }
        }
    }

    @Test
    void book_withoutLongRuns_saysWhatWasNotRun() throws Exception {
        assertEquals(ExitCode.FINDING, status, "a schedule of a few wires breaks promises");
        for (String what : List.of("each wire broken once", "proof", "campaign", "commissioning")) {
            assertTrue(said.contains(what), what + ": " + said);
        }
        assertTrue(said.contains("NOT RUN") && said.contains("NOT GIVEN"), said);
        assertTrue(page().contains("Not run for this book. Run it by: sprag prove"), "in its chapter");
        assertFalse(
                page().replace("http://www.w3.org/2000/svg", "").matches("(?s).*https?://.*"), "no address outside");
    }

    @Test
    void sums_afterAnyFileChanged_areOthersAndStandAtEveryFoot() throws Exception {
        for (String file : List.of("vehicle.toml", "wiring.csv", "parts.csv")) {
            Files.copy(cart.resolve(file), folder.resolve(file));
        }
        String before = InputSums.of(folder, List.of()).together();
        assertEquals(InputSums.of(cart, List.of()).together(), before, "the same files elsewhere");
        try (PDDocument book = document()) {
            for (int page = 1; page <= book.getNumberOfPages(); page++) {
                assertTrue(text(book, page).contains("files " + before), "foot of page " + page);
            }
        }
        Files.writeString(folder.resolve("parts.csv"), Files.readString(folder.resolve("parts.csv")) + "\n");
        assertFalse(before.equals(InputSums.of(folder, List.of()).together()), "one more line");
    }

    @Test
    void campaign_ofAnotherFileOrVersionOrUnfinished_isTold() throws Exception {
        Vehicle vehicle = VehicleReader.read(cart);
        Path file = played("vehicle file=").resolve("campaign.csv");
        String key = Files.readString(file);
        CampaignResult same = CampaignResult.read(folder, vehicle);
        assertEquals("", same.stale());
        assertEquals("0 of 5 runs are played.", same.partly());
        assertFalse(same.isGood(), "nothing was played");
        Files.writeString(file, key.replace("vehicle file=", "vehicle file=0"));
        assertTrue(CampaignResult.read(folder, vehicle).stale().contains("check sum"), "another file");
        Files.writeString(file, key.replace("program=sprag", "program=sprag 0.0"));
        assertTrue(CampaignResult.read(folder, vehicle).stale().contains("played by sprag 0.0"), "another version");
    }

    @Test
    void campaign_ofTheDrawnCircuit_isOfTheCarUntilAWireChanges() throws Exception {
        for (String name : List.of("vehicle.toml", "wiring.csv", "parts.csv")) {
            Files.copy(cart.resolve(name), folder.resolve(name));
        }
        CRC32 crc = new CRC32();
        for (String name : List.of("vehicle.toml", "wiring.csv", "parts.csv")) {
            crc.update(Files.readAllBytes(folder.resolve(name)));
        }
        Vehicle vehicle = VehicleReader.read(folder);
        Files.writeString(
                folder.resolve("campaign.csv"),
                "# campaign; program=" + new Version().getVersion()[0] + "; vehicle=" + vehicle.name()
                        + "; vehicle file=" + String.format("%08x", crc.getValue())
                        + "; seed=1; runs=5; share=1/1; only=\nheads\n");
        CampaignResult same = CampaignResult.read(folder, vehicle);
        assertEquals("", same.stale());
        assertTrue(same.wired());
        Files.writeString(folder.resolve("wiring.csv"), Files.readString(folder.resolve("wiring.csv")) + "\n");
        assertTrue(CampaignResult.read(folder, vehicle).stale().contains("check sum"), "one more line");
    }

    @Test
    void resultsOfOtherFiles_areMarkedStale_onTheFrontPageAndInTheirChapters() throws Exception {
        CheckReport report = Checker.check(cart);
        CampaignResult campaign = CampaignResult.read(played("vehicle file=0"), report.vehicle());
        RecordSummary record = RecordSummary.read(recorded("wiring.csv\":\"00"));
        Material material = material(report, campaign, record);
        List<String> open = Book.open(material);
        assertTrue(open.contains("fault campaign (campaign): STALE: " + campaign.stale()), open.toString());
        assertTrue(
                open.stream()
                        .anyMatch(line ->
                                line.startsWith("commissioning") && line.contains("STALE, changed since: wiring")),
                open.toString());
        String chapters = chapters(material);
        assertTrue(chapters.contains("STALE: these results are not about the car as it is now: "), chapters);
        assertTrue(chapters.contains("STALE: since this record these files were changed: wiring.csv"));
    }

    @Test
    void resultsOfTheSameFiles_areNotMarked() throws Exception {
        CheckReport report = Checker.check(cart);
        CampaignResult campaign = CampaignResult.read(played("vehicle file="), report.vehicle());
        Material material = material(report, campaign, null);
        String all = Book.open(material) + chapters(material);
        assertFalse(all.contains("STALE"), all);
    }

    private static Material material(CheckReport report, CampaignResult campaign, RecordSummary record)
            throws Exception {
        InputSums sums = InputSums.of(cart, List.of());
        return new Material(
                report, null, null, "is left out", null, campaign, record, sums, Map.of(), LocalDate.EPOCH, "sprag");
    }

    private static String chapters(Material material) {
        return DocumentPage.of(
                new Document("over", "title", "foot", Chapter.of("front"), new ResultChapters(material).all()));
    }

    /** The folder of a campaign of the cart's own file, or of another. */
    private Path played(String fileKey) throws Exception {
        CRC32 crc = new CRC32();
        crc.update(Files.readAllBytes(cart.resolve("vehicle.toml")));
        String key = "# campaign; program=" + new Version().getVersion()[0] + "; vehicle=yard-cart; vehicle file="
                + String.format("%08x", crc.getValue()) + "; seed=1; runs=5; share=1/1; only=";
        Files.writeString(folder.resolve("campaign.csv"), key.replace("vehicle file=", fileKey) + "\nheads\n");
        return folder;
    }

    private Path recorded(String sum) throws Exception {
        Files.writeString(
                folder.resolve("commission.json"),
                "{\"kind\":\"commissioning\",\"vehicle\":\"yard-cart\",\"rehearsal\":true,\"board\":\"\",\"begun\":\"2026-01-02\","
                        + "\"passed\":true,\"counts\":{\"passed\":1},\"fingerprints\":{\"" + sum
                        + "\"},\"steps\":[{\"part\":"
                        + "\"Supplies\",\"title\":\"fuse_control\",\"verdict\":\"passed\",\"seen\":\"12.4 V\",\"at\":\"10:00\"}],"
                        + "\"not_covered\":[]}");
        return folder;
    }

    @Test
    void record_ofOtherFiles_isReadAndItsSumsAreThere() throws Exception {
        RecordSummary record = RecordSummary.read(recorded("wiring.csv\":\"00"));
        assertTrue(record.rehearsal() && record.passed(), "as written");
        assertEquals(
                List.of("Supplies", "fuse_control", "passed", "12.4 V", "10:00"),
                record.steps().get(0));
        assertEquals(List.of("wiring.csv", "vehicle.toml", "parts.csv"), ResultChapters.changed(record, cart));
    }

    @Test
    void book_withFilesThatAreNone_isRefusedWithTheFile() throws Exception {
        Path none = Files.writeString(folder.resolve("x.json"), "{\"kind\":");
        Path alone = Files.createDirectory(folder.resolve("alone"));
        Files.copy(cart.resolve("vehicle.toml"), alone.resolve("vehicle.toml"));
        StringWriter out = new StringWriter();
        assertEquals(ExitCode.USAGE, run(out, "book", cart.toString(), "--quick", "--record", none.toString()));
        assertEquals(ExitCode.USAGE, run(out, "book", cart.toString(), "--quick", "--campaign", cart.toString()));
        assertEquals(ExitCode.USAGE, run(out, "book", alone.toString(), "--quick"));
        String refused = out.toString();
        assertTrue(
                refused.contains("x.json:1") && refused.contains("campaign.csv") && refused.contains("sprag draft"),
                refused);
    }

    @Test
    void hazards_areThoseOfTheirPage() throws Exception {
        String page = Files.readString(Path.of("../docs/hazards.md")).replace("**", "");
        String rows = Arrays.stream(Hazard.values())
                .filter(h -> !page.contains("| " + h.name() + " | " + h.happens + " | " + h.toWhom + " |"))
                .map(Hazard::name)
                .collect(Collectors.joining(", "));
        assertEquals("", rows, "rows that differ from docs/hazards.md");
        assertEquals(18, Hazard.values().length);
    }

    private static String text(PDDocument book, int page) throws IOException {
        PDFTextStripper stripper = new PDFTextStripper();
        stripper.setSortByPosition(true);
        stripper.setStartPage(page);
        stripper.setEndPage(page);
        return stripper.getText(book);
    }

    private static int page(PDDocument book, String title) throws IOException {
        Matcher entry = ENTRY.matcher(text(book, 2));
        while (entry.find()) {
            if (entry.group(1).strip().equals(title)) {
                return Integer.parseInt(entry.group(2));
            }
        }
        throw new AssertionError(title + " is not in the contents");
    }
}
