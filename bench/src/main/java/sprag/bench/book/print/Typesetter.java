package sprag.bench.book.print;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.drawing.paper.Fill;
import sprag.bench.drawing.paper.Ink;
import sprag.bench.drawing.paper.Pen;
import sprag.bench.drawing.paper.Point;
import sprag.bench.drawing.paper.ScaledInk;

/** Fills pages with blocks, from top to bottom. */
final class Typesetter {
    /** Left and right of what is printed (mm). */
    static final double SIDE_MM = 16;
    /** Above it, with the line that names the chapter. */
    static final double TOP_MM = 20;
    /** Below it, with the page number. */
    static final double BOTTOM_MM = 17;

    /** Size of the words of paragraphs (mm). */
    static final double BODY_MM = 3.4;
    /** From one of their lines to the next (mm). */
    static final double LINE_MM = 4.9;

    private static final double TITLE_MM = 6.6;
    private static final double HEADING_MM = 4.5;
    private static final double CELL_MM = 2.7;
    private static final double CELL_LINE_MM = 3.6;
    private static final double PAD_MM = 1.4;
    private static final double GAP_MM = 2.4;
    private static final double INDENT_MM = 6;
    private static final double BAR_MM = 1.6;
    /** A heading takes at least that much of what follows with it (mm). */
    private static final double COMPANY_MM = 22;
    /** A sheet with its words keeps clear of the edge of the paper by that much (mm): printers need it. */
    private static final double PICTURE_EDGE_MM = 10;

    /** An entry of the table of contents.
     *
     * @param level 0 for a chapter, 1 for what is in one
     * @param leaf its page, counted from 0
     */
    record Entry(int level, String title, int leaf) {}

    private final Paper paper;
    final List<Leaf> leaves = new ArrayList<>();
    final List<Entry> entries = new ArrayList<>();
    private Leaf leaf;
    private double y;

    Typesetter(Paper paper) {
        this.paper = paper;
    }

    /** Sets a chapter on new pages. */
    void set(Chapter chapter) {
        begin(chapter.wide, chapter.title);
        entries.add(new Entry(0, chapter.title, leaves.size() - 1));
        lines(chapter.title, TITLE_MM, TITLE_MM * 1.25, SIDE_MM, Fill.INK);
        y += GAP_MM;
        chapter.blocks.forEach(this::block);
        dropEmpty();
    }

    /** Begins a page. */
    void begin(boolean wide, String chapter) {
        leaf = new Leaf(wide, chapter);
        leaves.add(leaf);
        y = TOP_MM;
    }

    private double room() {
        return paper.widthMm(leaf.wide) - 2 * SIDE_MM;
    }

    private double bottom() {
        return paper.heightMm(leaf.wide) - BOTTOM_MM;
    }

    /** Makes sure that so much fits below. Returns true when that took a new page. */
    private boolean need(double heightMm) {
        if (y + heightMm <= bottom() || y <= TOP_MM) {
            return false;
        }
        begin(leaf.wide, leaf.chapter);
        return true;
    }

    private void block(Block block) {
        if (block instanceof Block.Words words) {
            lines(words.text(), BODY_MM, LINE_MM, SIDE_MM, Fill.INK);
        } else if (block instanceof Block.Heading heading) {
            heading(heading.text());
        } else if (block instanceof Block.Caution caution) {
            caution(caution);
        } else if (block instanceof Block.Points points) {
            points(points);
        } else if (block instanceof Block.Verdict verdict) {
            String sentence = (verdict.good() ? "" : "! ") + verdict.sentence();
            lines(sentence, BODY_MM, LINE_MM, SIDE_MM, verdict.good() ? Fill.INK : Fill.BAD);
        } else if (block instanceof Block.Grid grid) {
            grid(grid);
        } else if (block instanceof Block.Picture picture) {
            picture(picture);
        }
        y += GAP_MM;
    }

    private void heading(String text) {
        need(COMPANY_MM);
        y += GAP_MM;
        entries.add(new Entry(1, text, leaves.size() - 1));
        lines(text, HEADING_MM, HEADING_MM * 1.3, SIDE_MM, Fill.INK);
    }

    private void lines(String text, double sizeMm, double stepMm, double left, Fill fill) {
        for (String line : TextLines.of(text, sizeMm, room() - (left - SIDE_MM))) {
            need(stepMm);
            word(line, sizeMm, left, y + sizeMm, fill);
            y += stepMm;
        }
    }

    private void word(String line, double sizeMm, double x, double baseY, Fill fill) {
        leaf.add(ink -> ink.text(new Point(x, baseY), sizeMm, Ink.Anchor.START, fill, line));
    }

    private void points(Block.Points points) {
        int number = 0;
        for (String point : points.points()) {
            number++;
            List<String> lines = TextLines.of(point, BODY_MM, room() - INDENT_MM);
            need(Math.min(lines.size(), 6) * LINE_MM);
            String sign = points.numbered() ? number + "." : "–";
            word(sign, BODY_MM, SIDE_MM, y + BODY_MM, Fill.INK);
            lines(point, BODY_MM, LINE_MM, SIDE_MM + INDENT_MM, Fill.INK);
            y += 0.6;
        }
    }

    private void caution(Block.Caution caution) {
        double left = SIDE_MM + BAR_MM + 2 * PAD_MM;
        List<String> lines = new ArrayList<>();
        caution.sentences().forEach(s -> lines.addAll(TextLines.of(s, BODY_MM, room() - BAR_MM - 4 * PAD_MM)));
        double heightMm = (lines.size() + 1) * LINE_MM + 2 * PAD_MM;
        need(heightMm);
        double top = y;
        double widthMm = room();
        leaf.add(ink -> ink.box(Pen.THIN, Fill.PALE, SIDE_MM, top, widthMm, heightMm));
        leaf.add(ink -> ink.box(Pen.THIN, Fill.ODD, SIDE_MM, top, BAR_MM, heightMm));
        word("CAUTION", BODY_MM, left, y + PAD_MM + BODY_MM, Fill.BAD);
        y += PAD_MM + LINE_MM;
        for (String line : lines) {
            word(line, BODY_MM, left, y + BODY_MM, Fill.INK);
            y += LINE_MM;
        }
        y += PAD_MM;
    }

    private void grid(Block.Grid grid) {
        double[] widths = Columns.of(grid, CELL_MM, 2 * PAD_MM, room());
        List<List<String>> heads = cells(grid.heads(), widths);
        need(height(heads)
                + (grid.rows().isEmpty() ? 0 : height(cells(grid.rows().get(0), widths))));
        row(heads, widths, Fill.INK, true);
        for (int i = 0; i < grid.rows().size(); i++) {
            Fill fill = grid.marked().contains(i) ? Fill.BAD : Fill.INK;
            List<List<String>> cells = cells(grid.rows().get(i), widths);
            if (need(height(cells))) {
                row(heads, widths, Fill.INK, true);
            }
            while (y + height(cells) > bottom()) {
                int fit = (int) ((bottom() - y - PAD_MM) / CELL_LINE_MM);
                row(part(cells, 0, fit), widths, fill, false);
                cells = part(cells, fit, Integer.MAX_VALUE);
                begin(leaf.wide, leaf.chapter);
                row(heads, widths, Fill.INK, true);
            }
            row(cells, widths, fill, false);
        }
    }

    private static List<List<String>> cells(List<String> row, double[] widths) {
        List<List<String>> cells = new ArrayList<>();
        for (int c = 0; c < widths.length; c++) {
            cells.add(TextLines.of(row.get(c), CELL_MM, widths[c] - 2 * PAD_MM));
        }
        return cells;
    }

    private static List<List<String>> part(List<List<String>> cells, int from, int to) {
        return cells.stream()
                .map(c -> c.subList(Math.min(from, c.size()), Math.min(to, c.size())))
                .toList();
    }

    private static double height(List<List<String>> cells) {
        return cells.stream().mapToInt(List::size).max().orElse(0) * CELL_LINE_MM + PAD_MM;
    }

    private void row(List<List<String>> cells, double[] widths, Fill fill, boolean head) {
        double heightMm = height(cells);
        double top = y;
        double widthMm = room();
        if (head) {
            leaf.add(ink -> ink.box(Pen.HAIR, Fill.PALE, SIDE_MM, top, widthMm, heightMm));
        }
        double x = SIDE_MM;
        for (int c = 0; c < widths.length; c++) {
            double lineY = y + PAD_MM / 2;
            for (String line : cells.get(c)) {
                word(line, CELL_MM, x + PAD_MM, lineY + CELL_MM, fill);
                lineY += CELL_LINE_MM;
            }
            x += widths[c];
        }
        y += heightMm;
        double under = y;
        leaf.add(ink -> ink.line(Pen.HAIR, SIDE_MM, under, SIDE_MM + widthMm, under));
    }

    /** On a page of its own; what follows it stands on the next one. */
    private void picture(Block.Picture picture) {
        boolean before = leaf.wide;
        dropEmpty();
        begin(true, leaf.chapter);
        leaf.bare = true;
        entries.add(new Entry(1, picture.title(), leaves.size() - 1));
        double widthMm = paper.widthMm(true) - 2 * PICTURE_EDGE_MM;
        double heightMm = paper.heightMm(true) - 2 * PICTURE_EDGE_MM - BODY_MM;
        double scale = Math.min(widthMm / picture.widthMm(), heightMm / picture.heightMm());
        double x = (paper.widthMm(true) - picture.widthMm() * scale) / 2;
        leaf.add(ink -> picture.drawing().accept(new ScaledInk(ink.thinner(scale), scale, x, PICTURE_EDGE_MM)));
        begin(before, leaf.chapter);
    }

    /** Takes away a last page that nothing was set on. */
    private void dropEmpty() {
        if (leaf.isEmpty()) {
            leaves.remove(leaves.size() - 1);
        }
    }
}
