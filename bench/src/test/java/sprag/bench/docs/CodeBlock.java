package sprag.bench.docs;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.commonmark.node.AbstractVisitor;
import org.commonmark.node.FencedCodeBlock;
import org.commonmark.node.HtmlBlock;
import org.commonmark.node.IndentedCodeBlock;
import org.commonmark.node.Node;
import org.commonmark.parser.IncludeSourceSpans;
import org.commonmark.parser.Parser;

/**
 * A block of code on a page.
 *
 * @param page the name of the file
 * @param line its first line there, from 1
 * @param language what a fenced block says of itself; empty for others
 * @param mark the comment right above it, without its signs; empty when there is none
 * @param lines what it shows
 */
record CodeBlock(String page, int line, String language, String mark, List<String> lines) {
    private static final Parser PARSER =
            Parser.builder().includeSourceSpans(IncludeSourceSpans.BLOCKS).build();

    /** The blocks of a page, in order. */
    static List<CodeBlock> of(Path page) throws IOException {
        List<CodeBlock> blocks = new ArrayList<>();
        String name = page.getFileName().toString();
        PARSER.parse(Files.readString(page)).accept(new AbstractVisitor() {
            @Override
            public void visit(FencedCodeBlock node) {
                blocks.add(block(name, node, node.getInfo(), node.getLiteral()));
            }

            @Override
            public void visit(IndentedCodeBlock node) {
                blocks.add(block(name, node, "", node.getLiteral()));
            }
        });
        return blocks;
    }

    private static CodeBlock block(String page, Node node, String language, String text) {
        String mark = node.getPrevious() instanceof HtmlBlock html
                ? html.getLiteral().replaceAll("(?s)<!--|-->", "").strip()
                : "";
        int line = node.getSourceSpans().get(0).getLineIndex() + 1;
        return new CodeBlock(
                page,
                line,
                language.strip(),
                mark,
                text.lines().map(String::stripTrailing).toList());
    }

    /** Where it stands, for a message. */
    String where() {
        return page + ":" + line;
    }
}
