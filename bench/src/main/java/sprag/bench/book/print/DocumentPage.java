package sprag.bench.book.print;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import sprag.bench.drawing.paper.SheetFont;
import sprag.bench.drawing.paper.SvgInk;
import sprag.bench.page.Page;

/** Writes a document as one page of HTML. */
public final class DocumentPage {
    private static final String FRONT = "front";

    /** One block; all but one of its fields are empty. */
    private record View(
            String words,
            Title heading,
            List<String> caution,
            List<String> points,
            List<String> steps,
            String good,
            String bad,
            Table table,
            Block.Picture picture,
            String id) {
        static View of(Block block, String id) {
            List<String> none = List.of();
            boolean numbered = block instanceof Block.Points p && p.numbered();
            return new View(
                    block instanceof Block.Words w ? w.text() : "",
                    block instanceof Block.Heading h ? new Title(id, h.text()) : null,
                    block instanceof Block.Caution c ? c.sentences() : none,
                    block instanceof Block.Points p && !numbered ? p.points() : none,
                    block instanceof Block.Points p && numbered ? p.points() : none,
                    block instanceof Block.Verdict v && v.good() ? v.sentence() : "",
                    block instanceof Block.Verdict v && !v.good() ? v.sentence() : "",
                    block instanceof Block.Grid g ? Table.of(g) : null,
                    block instanceof Block.Picture p ? p : null,
                    id);
        }
    }

    private record Row(boolean marked, List<Page.Cell> cells) {}

    /** A table; one with several columns is stacked on a narrow screen, where each cell then names its column. */
    private record Table(boolean stacked, List<String> heads, List<Row> rows) {
        static Table of(Block.Grid grid) {
            return new Table(
                    grid.heads().size() > 2,
                    grid.heads(),
                    IntStream.range(0, grid.rows().size())
                            .mapToObj(i -> new Row(
                                    grid.marked().contains(i),
                                    Page.cells(grid.heads(), grid.rows().get(i))))
                            .toList());
        }
    }

    private record Title(String id, String text) {}

    private record Part(boolean first, Title title, List<Title> headings, List<View> views) {
        static Part of(Chapter chapter, String id) {
            List<View> views = new ArrayList<>();
            List<Title> headings = new ArrayList<>();
            for (Block block : chapter.blocks) {
                String own = id + "-" + views.size();
                views.add(View.of(block, own));
                if (block instanceof Block.Heading heading) {
                    headings.add(new Title(own, heading.text()));
                } else if (block instanceof Block.Picture picture) {
                    headings.add(new Title(own, picture.title()));
                }
            }
            return new Part(id.equals(FRONT), new Title(id, chapter.title), headings, views);
        }
    }

    private DocumentPage() {}

    /** Writes a document. */
    public static String of(Document document) {
        List<Part> chapters = IntStream.range(0, document.chapters().size())
                .mapToObj(i -> Part.of(document.chapters().get(i), "c" + (i + 1)))
                .toList();
        List<Part> parts = new ArrayList<>(List.of(Part.of(document.front(), FRONT)));
        parts.addAll(chapters);
        Map<String, Object> model = Map.of(
                "style",
                SheetFont.styleRule() + SvgInk.style(),
                "foot",
                document.foot(),
                "chapters",
                chapters,
                "parts",
                parts);
        return Page.of(DocumentPage.class, "document.html", document.over(), document.title(), model);
    }
}
