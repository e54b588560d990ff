package sprag.bench.book.print;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Set;

/** One chapter. It begins on a page of its own. */
public final class Chapter {
    final String title;
    /** Whether its pages lie on their sides, for wide tables. */
    final boolean wide;

    final List<Block> blocks = new ArrayList<>();

    private Chapter(String title, boolean wide) {
        this.title = title;
        this.wide = wide;
    }

    /** A chapter on upright pages. */
    public static Chapter of(String title) {
        return new Chapter(title, false);
    }

    /** A chapter on pages that lie on their sides. */
    public static Chapter wide(String title) {
        return new Chapter(title, true);
    }

    /** Adds something. */
    public Chapter add(Block block) {
        blocks.add(block);
        return this;
    }

    /** Adds a paragraph. */
    public Chapter words(String text) {
        return add(new Block.Words(text));
    }

    /** Adds a heading. */
    public Chapter heading(String text) {
        return add(new Block.Heading(text));
    }

    /** Adds a caution. */
    public Chapter caution(String text) {
        return add(Block.Caution.of(text));
    }

    /** Adds points without an order. */
    public Chapter points(Collection<String> points) {
        return add(new Block.Points(false, List.copyOf(points)));
    }

    /** Adds steps in their order. */
    public Chapter steps(List<String> steps) {
        return add(new Block.Points(true, steps));
    }

    /** Adds a result. */
    public Chapter verdict(boolean good, String sentence) {
        return add(new Block.Verdict(good, sentence));
    }

    /** Adds a table. */
    public Chapter table(List<String> heads, List<List<String>> rows) {
        return add(Block.Grid.of(heads, rows));
    }

    /** Adds a table with marked rows. */
    public Chapter table(List<String> heads, List<List<String>> rows, Set<Integer> marked) {
        return add(new Block.Grid(heads, rows, marked));
    }
}
