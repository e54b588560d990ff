package sprag.bench.book.print;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;

/** Tables, cautions and contents of any length come onto pages whole. */
class DocumentPdfTest {
    private static Document document(Chapter... chapters) {
        return new Document("over", "title", "foot", Chapter.of("front"), List.of(chapters));
    }

    private static List<String> pages(Document document) throws IOException {
        List<String> pages = new ArrayList<>();
        try (PDDocument pdf = Loader.loadPDF(DocumentPdf.of(document, Paper.A4))) {
            for (int i = 1; i <= pdf.getNumberOfPages(); i++) {
                PDFTextStripper stripper = new PDFTextStripper();
                stripper.setStartPage(i);
                stripper.setEndPage(i);
                pages.add(stripper.getText(pdf));
            }
        }
        return pages;
    }

    private static String words(int count) {
        return IntStream.range(0, count).mapToObj(i -> "w" + i).collect(Collectors.joining(" "));
    }

    @Test
    void table_longerThanAPage_repeatsItsHeadAndLosesNoRow() throws Exception {
        List<List<String>> rows =
                IntStream.range(0, 200).mapToObj(i -> List.of("row" + i, "x")).toList();
        List<String> pages = pages(document(Chapter.of("c").table(List.of("HEAD", "b"), rows)));
        String all = String.join("", pages);
        IntStream.range(0, 200).forEach(i -> assertTrue(all.contains("row" + i + " "), "row " + i));
        List<String> body = pages.subList(2, pages.size());
        assertTrue(body.size() > 2, pages.size() + " pages");
        body.forEach(page -> assertTrue(page.contains("HEAD"), page));
    }

    @Test
    void row_higherThanAPage_isDividedWithoutLosingAWord() throws Exception {
        List<String> pages = pages(document(Chapter.of("c")
                .table(List.of("a", "b"), List.of(List.of(words(4000), "y"), List.of("last", "z")))));
        String all = String.join(" ", pages).replaceAll("\\s+", " ");
        assertTrue(all.contains("w0 w1 ") && all.contains("w3999") && all.contains("last"), "first and last word");
        IntStream.range(0, 4000).forEach(i -> assertTrue(all.contains("w" + i + " "), "w" + i));
    }

    @Test
    void caution_thatDoesNotFitBelow_standsWholeOnTheNextPage() throws Exception {
        for (int lines = 40; lines < 50; lines++) {
            Chapter chapter = Chapter.of("c");
            chapter.points(IntStream.range(0, lines).mapToObj(i -> "p" + i).toList());
            chapter.caution(words(100));
            List<String> pages = pages(document(chapter));
            long with = pages.stream()
                    .filter(p -> p.contains("CAUTION") && p.contains("w0 ") && p.contains("w99"))
                    .count();
            assertEquals(1, with, lines + " points before it");
        }
    }

    @Test
    void contents_longerThanAPage_stillGiveTheRightNumbers() throws Exception {
        Chapter[] chapters = IntStream.range(0, 120)
                .mapToObj(i -> Chapter.of("title" + i + "x"))
                .toArray(Chapter[]::new);
        List<String> pages = pages(document(chapters));
        assertEquals(1 + 3 + 120, pages.size(), "front, contents, chapters");
        assertTrue(pages.get(1 + 3 + 119).contains("title119x"));
        assertTrue(pages.get(3).contains("124"), "the number of the last one");
    }

    @Test
    void word_widerThanItsColumn_isDividedBehindASign() {
        List<String> lines = TextLines.of("contactor_positive.coil_plus", 3, 30);
        assertEquals("contactor_positive.coil_plus", String.join("", lines));
        assertTrue(lines.size() > 1 && lines.get(0).matches(".*[_.]"), lines.toString());
    }

    @Test
    void words_thatTheTypefaceLacks_areShownAsAQuestionMarkAndNotLost() throws Exception {
        List<String> pages = pages(document(Chapter.of("c").words("a \u4e2d b \ud83d\ude97 c")));
        assertTrue(pages.get(2).contains("a ? b ? c"), pages.get(2));
    }
}
