package sprag.bench.drawing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.geom.Point2D;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.contentstream.PDFGraphicsStreamEngine;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.graphics.image.PDImage;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import sprag.bench.drawing.sheet.NetFacts;
import sprag.bench.drawing.sheet.Sheet;
import sprag.bench.review.report.Checker;

/** The document and the page show every sheet, and each of them the lines and the words of the drawing. */
class PdfSheetsTest {
    private static final double POINTS_A_MM = 72 / 25.4;
    private static final double MARGIN_MM = (420 - Sheet.WIDTH_MM) / 2;
    private static Drawing drawing;

    @BeforeAll
    static void draw() throws Exception {
        drawing = Drawing.of(Checker.check(Path.of("..", "config", "vehicles", "yard-cart")), null);
    }

    /** Collects the lines that are drawn without filling anything: x and y of each corner (mm). */
    private static final class Lines extends PDFGraphicsStreamEngine {
        private final List<List<Double>> found = new ArrayList<>();
        private final double heightMm;
        private List<Double> way = new ArrayList<>();
        private boolean isLine = true;

        Lines(PDPage page) {
            super(page);
            heightMm = page.getMediaBox().getHeight() / POINTS_A_MM;
        }

        private void add(float x, float y) {
            way.add(x / POINTS_A_MM - MARGIN_MM);
            way.add(heightMm - y / POINTS_A_MM - MARGIN_MM);
        }

        @Override
        public void moveTo(float x, float y) {
            add(x, y);
        }

        @Override
        public void lineTo(float x, float y) {
            add(x, y);
        }

        @Override
        public void curveTo(float x1, float y1, float x2, float y2, float x3, float y3) {
            isLine = false;
        }

        @Override
        public Point2D getCurrentPoint() {
            return new Point2D.Float();
        }

        @Override
        public void closePath() {
            isLine = false;
        }

        @Override
        public void endPath() {
            way = new ArrayList<>();
            isLine = true;
        }

        @Override
        public void strokePath() {
            if (isLine) {
                found.add(way);
            }
            endPath();
        }

        @Override
        public void fillPath(int rule) {
            endPath();
        }

        @Override
        public void fillAndStrokePath(int rule) {
            endPath();
        }

        @Override
        public void appendRectangle(Point2D a, Point2D b, Point2D c, Point2D d) {
            isLine = false;
        }

        @Override
        public void drawImage(PDImage image) {
            throw new AssertionError("no pictures here");
        }

        @Override
        public void clip(int rule) {
            throw new AssertionError("nothing is cut off");
        }

        @Override
        public void shadingFill(COSName name) {
            throw new AssertionError("no shades here");
        }
    }

    /** Each line of one drawing is in the other one, once; both round. */
    private static void assertSameLines(List<List<Double>> some, List<List<Double>> others, String where) {
        List<List<Double>> left = new ArrayList<>(others);
        for (List<Double> line : some) {
            List<Double> twin = left.stream()
                    .filter(other -> isSame(line, other))
                    .findFirst()
                    .orElseThrow(() -> new AssertionError(where + ": no line " + line));
            left.remove(twin);
        }
        assertEquals(List.of(), left, where);
    }

    private static boolean isSame(List<Double> line, List<Double> other) {
        boolean same = line.size() == other.size();
        for (int i = 0; same && i < line.size(); i++) {
            same = Math.abs(line.get(i) - other.get(i)) < 0.02;
        }
        return same;
    }

    @Test
    void pages_areTheSheets_lineByLine_andWordByWord() throws IOException {
        try (PDDocument document = Loader.loadPDF(drawing.pdf())) {
            assertEquals(drawing.sheets().size(), document.getNumberOfPages());
            for (int i = 0; i < document.getNumberOfPages(); i++) {
                String svg = drawing.svg(drawing.sheets().get(i)).inPage();
                Lines lines = new Lines(document.getPage(i));
                lines.processPage(document.getPage(i));
                assertSameLines(linesOf(svg), lines.found, "sheet " + (i + 1));
                PDFTextStripper stripper = new PDFTextStripper();
                stripper.setStartPage(i + 1);
                stripper.setEndPage(i + 1);
                String words = stripper.getText(document);
                Matcher texts = Pattern.compile("<text[^>]*>([^<]*)</text>").matcher(svg);
                while (texts.find()) {
                    String text = texts.group(1);
                    assertTrue(text.contains("&") || words.replaceAll("\\s", "").contains(text.replace(" ", "")), text);
                }
            }
        }
    }

    private static List<List<Double>> linesOf(String svg) {
        List<List<Double>> lines = new ArrayList<>();
        Matcher paths =
                Pattern.compile("<path class=\"[a-z-]+\" d=\"([^\"Z]+)\"").matcher(svg);
        while (paths.find()) {
            Matcher points = Pattern.compile("[ML](-?[\\d.]+) (-?[\\d.]+)").matcher(paths.group(1));
            List<Double> way = new ArrayList<>();
            while (points.find()) {
                way.add(Double.parseDouble(points.group(1)));
                way.add(Double.parseDouble(points.group(2)));
            }
            lines.add(way);
        }
        return lines;
    }

    @Test
    void page_hasEverySheet_andEachLineTellsOfItsOwnNet() {
        String page = DrawPage.of(drawing);
        int wires = 0;
        for (Sheet sheet : drawing.sheets()) {
            String svg = drawing.svg(sheet).inPage();
            assertTrue(page.contains(svg), "sheet " + sheet.number() + " is on the page");
            Matcher groups = Pattern.compile("<g class=\"wire\" data-net=\"(\\d+)\"><title>([^,]+), net")
                    .matcher(svg);
            while (groups.find()) {
                NetFacts.Net net = drawing.nets().get(Integer.parseInt(groups.group(1)));
                assertTrue(net != null && net.wires().contains(groups.group(2)), groups.group(2) + " is of " + net);
                wires++;
            }
        }
        assertEquals(drawing.report().schedule().wires().size(), wires);
    }

    @Test
    void net_behindAFuse_saysItsRating_andWhatItCarriesWhen() {
        NetFacts.Net net = drawing.nets().values().stream()
                .filter(n -> n.wires().contains("L003"))
                .findFirst()
                .orElseThrow();
        String fuse = net.guard().split(",")[0];
        double ratedA = drawing.report().schedule().parts().get(fuse).ratedA();
        assertEquals(fuse + ", " + Math.round(ratedA) + " A", net.guard());
        NetFacts.Net bus = drawing.nets().values().stream()
                .filter(n -> n.names().contains("bus_plus"))
                .findFirst()
                .orElseThrow();
        assertEquals("P+", bus.live().get("driving"), bus.toString());
        assertTrue(!bus.live().get("parked").equals("P+"), bus.toString());
    }
}
