package sprag.bench.book.print;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.drawing.paper.Fill;
import sprag.bench.drawing.paper.Ink;
import sprag.bench.drawing.paper.PdfFile;
import sprag.bench.drawing.paper.Pen;
import sprag.bench.drawing.paper.Point;
import sprag.bench.drawing.paper.SheetFont;

/** Writes a document as a PDF: first page, table of contents, chapters, a number on each page. */
public final class DocumentPdf {
    private static final double SMALL_MM = 2.6;
    private static final double HEAD_Y_MM = 13;
    private static final double FOOT_MM = 6;
    private static final double INDENT_MM = 6;
    private static final double TITLE_MM = 6.6;
    private static final String CONTENTS = "Contents";

    private final Document document;
    private final Paper paper;
    private final Typesetter front;
    private final Typesetter body;
    private final int contentsPages;

    private DocumentPdf(Document document, Paper paper) {
        this.document = document;
        this.paper = paper;
        front = new Typesetter(paper);
        front.set(document.front());
        body = new Typesetter(paper);
        document.chapters().forEach(body::set);
        contentsPages = (body.entries.size() + entriesAPage() - 1) / entriesAPage();
    }

    /** Writes a document. */
    public static byte[] of(Document document, Paper paper) {
        return new DocumentPdf(document, paper).bytes();
    }

    private int entriesAPage() {
        double heightMm = paper.heightMm(false) - Typesetter.TOP_MM - 2 * TITLE_MM - Typesetter.BOTTOM_MM;
        return (int) (heightMm / Typesetter.LINE_MM);
    }

    private byte[] bytes() {
        List<Leaf> leaves = new ArrayList<>(front.leaves);
        for (int page = 0; page < contentsPages; page++) {
            leaves.add(contents(page));
        }
        leaves.addAll(body.leaves);
        try (PdfFile file = new PdfFile(document.title())) {
            for (int i = 0; i < leaves.size(); i++) {
                Leaf leaf = leaves.get(i);
                String number = i + 1 + " of " + leaves.size();
                file.page(paper.widthMm(leaf.wide), paper.heightMm(leaf.wide), 0, ink -> page(leaf, number, ink));
            }
            lead(file);
            return file.bytes();
        }
    }

    private void page(Leaf leaf, String number, Ink ink) {
        double right = paper.widthMm(leaf.wide) - Typesetter.SIDE_MM;
        double foot = paper.heightMm(leaf.wide) - FOOT_MM;
        leaf.draw(ink);
        if (!leaf.bare) {
            ink.text(new Point(Typesetter.SIDE_MM, HEAD_Y_MM), SMALL_MM, Ink.Anchor.START, Fill.INK, document.over());
            ink.text(new Point(right, HEAD_Y_MM), SMALL_MM, Ink.Anchor.END, Fill.INK, leaf.chapter);
            ink.line(Pen.HAIR, Typesetter.SIDE_MM, HEAD_Y_MM + 1.6, right, HEAD_Y_MM + 1.6);
        }
        ink.text(new Point(Typesetter.SIDE_MM, foot), SMALL_MM, Ink.Anchor.START, Fill.INK, document.foot());
        ink.text(new Point(right, foot), SMALL_MM, Ink.Anchor.END, Fill.INK, number);
    }

    private Leaf contents(int page) {
        Leaf leaf = new Leaf(false, CONTENTS);
        double y = Typesetter.TOP_MM + TITLE_MM;
        double titleY = y;
        leaf.add(
                ink -> ink.text(new Point(Typesetter.SIDE_MM, titleY), TITLE_MM, Ink.Anchor.START, Fill.INK, CONTENTS));
        for (Typesetter.Entry entry : on(page)) {
            y += Typesetter.LINE_MM;
            double baseY = y;
            leaf.add(ink -> line(entry, baseY, ink));
        }
        return leaf;
    }

    private List<Typesetter.Entry> on(int page) {
        int first = page * entriesAPage();
        return body.entries.subList(first, Math.min(body.entries.size(), first + entriesAPage()));
    }

    /** Title, dots, page number. */
    private void line(Typesetter.Entry entry, double baseY, Ink ink) {
        double left = Typesetter.SIDE_MM + entry.level() * INDENT_MM;
        double right = paper.widthMm(false) - Typesetter.SIDE_MM;
        double size = Typesetter.BODY_MM;
        String number = String.valueOf(pageOf(entry) + 1);
        String title =
                TextLines.of(entry.title(), size, right - left - 2 * INDENT_MM).get(0);
        double dotMm = SheetFont.widthMm(" .", size);
        double from = left + SheetFont.widthMm(title, size);
        double to = right - SheetFont.widthMm(number, size) - dotMm;
        String dots = " .".repeat((int) Math.max(0, (to - from) / dotMm));
        ink.text(new Point(left, baseY), size, Ink.Anchor.START, Fill.INK, title);
        ink.text(new Point(to, baseY), size, Ink.Anchor.END, Fill.INK, dots);
        ink.text(new Point(right, baseY), size, Ink.Anchor.END, Fill.INK, number);
    }

    /** Counted from 0. */
    private int pageOf(Typesetter.Entry entry) {
        return front.leaves.size() + contentsPages + entry.leaf();
    }

    /** Links from the table of contents, and the list that a reader shows beside the pages. */
    private void lead(PdfFile file) {
        file.bookmark(CONTENTS, front.leaves.size());
        for (int page = 0; page < contentsPages; page++) {
            double y = Typesetter.TOP_MM + TITLE_MM;
            for (Typesetter.Entry entry : on(page)) {
                file.link(front.leaves.size() + page, y, Typesetter.LINE_MM, pageOf(entry));
                y += Typesetter.LINE_MM;
            }
        }
        body.entries.stream().filter(e -> e.level() == 0).forEach(e -> file.bookmark(e.title(), pageOf(e)));
    }
}
