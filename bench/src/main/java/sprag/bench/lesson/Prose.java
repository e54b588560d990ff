package sprag.bench.lesson;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.cli.Wrap;

/**
 * Text of a lesson in blocks: paragraphs, points that begin with {@code - }, and lines indented by four blanks, which stay as
 * they are.
 */
final class Prose {
    private static final int COLUMNS = 79;
    private static final String INDENT = "    ";

    private Prose() {}

    /** What a block is. */
    enum Kind {
        /** Running text. */
        PARAGRAPH,
        /** One point of a list. */
        POINT,
        /** Lines that stay as they are: a command, a table. */
        LINES
    }

    /** One block. */
    record Block(Kind kind, String text) {}

    /** The blocks of a text. */
    static List<Block> blocks(String text) {
        List<Block> all = new ArrayList<>();
        StringBuilder open = new StringBuilder();
        Kind kind = Kind.PARAGRAPH;
        for (String line : (text.stripTrailing() + "\n\n").split("\n", -1)) {
            Kind own = line.startsWith(INDENT) ? Kind.LINES : line.startsWith("- ") ? Kind.POINT : Kind.PARAGRAPH;
            boolean goesOn = !line.isBlank()
                    && (own == kind && own != Kind.POINT || own == Kind.PARAGRAPH && kind == Kind.POINT);
            if (!open.isEmpty() && !goesOn) {
                all.add(new Block(kind, open.toString().stripTrailing()));
                open.setLength(0);
            }
            if (!line.isBlank()) {
                kind = open.isEmpty() ? own : kind;
                open.append(
                                own == Kind.POINT
                                        ? line.substring(2)
                                        : own == Kind.LINES ? line.substring(4) : line.strip())
                        .append(own == Kind.LINES ? "\n" : " ");
            }
        }
        return all;
    }

    /** The lines of a text for a terminal. */
    static List<String> lines(String text) {
        List<String> lines = new ArrayList<>();
        Kind before = null;
        for (Block block : blocks(text)) {
            if (before != null && !(before == Kind.POINT && block.kind() == Kind.POINT)) {
                lines.add("");
            }
            before = block.kind();
            switch (block.kind()) {
                case PARAGRAPH -> lines.addAll(Wrap.lines(block.text(), COLUMNS));
                case POINT -> lines.addAll(Wrap.hanging("- ", "  ", block.text(), COLUMNS));
                case LINES -> block.text().lines().forEach(line -> lines.add(INDENT + line));
            }
        }
        return lines;
    }
}
