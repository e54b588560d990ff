package sprag.bench.drawing.paper;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.function.Consumer;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.font.PDType0Font;

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
            font = PDType0Font.load(document, in, true);
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
