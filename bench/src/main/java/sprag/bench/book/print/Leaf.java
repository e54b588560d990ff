package sprag.bench.book.print;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import sprag.bench.drawing.paper.Ink;

/** A page that has been filled but has no number yet. */
final class Leaf {
    final boolean wide;
    final String chapter;
    /** Whether it has no line with the name of its chapter: a drawing fills it. */
    boolean bare;

    private final List<Consumer<Ink>> marks = new ArrayList<>();

    Leaf(boolean wide, String chapter) {
        this.wide = wide;
        this.chapter = chapter;
    }

    void add(Consumer<Ink> mark) {
        marks.add(mark);
    }

    boolean isEmpty() {
        return marks.isEmpty();
    }

    void draw(Ink ink) {
        marks.forEach(mark -> mark.accept(ink));
    }
}
