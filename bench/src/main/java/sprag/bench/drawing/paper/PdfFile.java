package sprag.bench.drawing.paper;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.function.Consumer;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.font.PDType0Font;
import org.apache.pdfbox.pdmodel.interactive.annotation.PDAnnotationLink;
import org.apache.pdfbox.pdmodel.interactive.annotation.PDBorderStyleDictionary;
import org.apache.pdfbox.pdmodel.interactive.documentnavigation.destination.PDPageXYZDestination;
import org.apache.pdfbox.pdmodel.interactive.documentnavigation.outline.PDDocumentOutline;
import org.apache.pdfbox.pdmodel.interactive.documentnavigation.outline.PDOutlineItem;

/** A PDF document, page by page. The same pages give the same bytes. */
public final class PdfFile implements AutoCloseable {
    private static final double POINTS_A_MM = 72 / 25.4;

    private final PDDocument document = new PDDocument();
    private final PDFont font;

    /** Begins a document.
     *
     * @param title what it is, for its properties
     */
    public PdfFile(String title) {
        document.setDocumentId((long) title.hashCode());
        document.getDocumentInformation().setTitle(title);
        try (InputStream in = SheetFont.open()) {
            TrueTypeFont letters = new TTFParser().parse(new RandomAccessReadBuffer(in));
            // Nothing here needs other shapes for letters beside each other, and looking for them takes most of the
            // time.
            letters.setEnableGsub(false);
            font = PDType0Font.load(document, letters, true);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot embed the shipped typeface", e);
        }
    }

    /** Adds a page of a size (mm).
     *
     * @param marginMm distance of the drawing from the left and the upper edge
     * @param drawing draws on it
     */
    public void page(double widthMm, double heightMm, double marginMm, Consumer<Ink> drawing) {
        PDPage page = new PDPage(new PDRectangle((float) (widthMm * POINTS_A_MM), (float) (heightMm * POINTS_A_MM)));
        document.addPage(page);
        try (PDPageContentStream out = new PDPageContentStream(document, page)) {
            drawing.accept(new PdfInk(out, font, marginMm, heightMm - marginMm));
        } catch (IOException e) {
            throw new UncheckedIOException("cannot write the page", e);
        }
    }

    /** Makes a place of a page lead to another page.
     *
     * @param from the page, counted from 0
     * @param yMm the upper edge of the place; it goes from the left to the right edge of the page
     * @param heightMm of the place
     * @param to where it leads, a page counted from 0
     */
    public void link(int from, double yMm, double heightMm, int to) {
        PDPage page = document.getPage(from);
        PDRectangle size = page.getMediaBox();
        PDAnnotationLink link = new PDAnnotationLink();
        link.setRectangle(
                new PDRectangle(0, (float) (size.getHeight() - (yMm + heightMm) * POINTS_A_MM), size.getWidth(), (float)
                        (heightMm * POINTS_A_MM)));
        PDBorderStyleDictionary none = new PDBorderStyleDictionary();
        none.setWidth(0);
        link.setBorderStyle(none);
        link.setDestination(top(to));
        try {
            page.getAnnotations().add(link);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot put a link on a page", e);
        }
    }

    /** Adds an entry to the list of contents that a reader shows beside the pages.
     *
     * @param page counted from 0
     */
    public void bookmark(String title, int page) {
        PDDocumentOutline outline = document.getDocumentCatalog().getDocumentOutline();
        if (outline == null) {
            outline = new PDDocumentOutline();
            document.getDocumentCatalog().setDocumentOutline(outline);
        }
        PDOutlineItem item = new PDOutlineItem();
        item.setTitle(title);
        item.setDestination(top(page));
        outline.addLast(item);
    }

    private PDPageXYZDestination top(int page) {
        PDPageXYZDestination top = new PDPageXYZDestination();
        top.setPage(document.getPage(page));
        top.setTop((int) document.getPage(page).getMediaBox().getHeight());
        return top;
    }

    /** The document so far. */
    public byte[] bytes() {
        try {
            ByteArrayOutputStream bytes = new ByteArrayOutputStream();
            document.save(bytes);
            return bytes.toByteArray();
        } catch (IOException e) {
            throw new UncheckedIOException("cannot write the document", e);
        }
    }

    @Override
    public void close() {
        try {
            document.close();
        } catch (IOException e) {
            throw new UncheckedIOException("cannot close the document", e);
        }
    }
}
