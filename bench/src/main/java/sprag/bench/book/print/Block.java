package sprag.bench.book.print;

import java.util.List;
import java.util.Set;
import java.util.function.Consumer;
import sprag.bench.drawing.paper.Ink;

/** Something that stands in a chapter. */
public sealed interface Block {
    /** A paragraph. */
    record Words(String text) implements Block {}

    /** A heading within a chapter; it stands in the table of contents. */
    record Heading(String text) implements Block {}

    /** A caution, in a frame. It is never divided between two pages. */
    record Caution(List<String> sentences) implements Block {
        /** One sentence or more in one text. */
        public static Caution of(String text) {
            return new Caution(List.of(text));
        }
    }

    /**
     * Points one below another.
     *
     * @param numbered whether they are steps in an order
     */
    record Points(boolean numbered, List<String> points) implements Block {}

    /** A result in one sentence.
     *
     * @param good whether it is well; what was not looked at is not
     */
    record Verdict(boolean good, String sentence) implements Block {}

    /**
     * A table. Its head is repeated on each page, and no row is divided unless it is higher than a page.
     *
     * @param rows cells as text, as many as there are heads
     * @param marked numbers of rows that are bad news, counted from 0
     */
    record Grid(List<String> heads, List<List<String>> rows, Set<Integer> marked) implements Block {
        /** A table without marked rows. */
        public static Grid of(List<String> heads, List<List<String>> rows) {
            return new Grid(heads, rows, Set.of());
        }
    }

    /**
     * A drawing that has a page of its own, on its side.
     *
     * @param title stands in the table of contents
     * @param widthMm the size that it is drawn at; on its page it is made to fit
     * @param svg the same for a page of HTML
     */
    record Picture(String title, double widthMm, double heightMm, Consumer<Ink> drawing, String svg) implements Block {}
}
