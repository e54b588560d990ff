package sprag.bench.drawing.paper;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.font.PDFont;

/** Draws on a page of a PDF document. */
final class PdfInk implements Ink {
    private static final double POINTS_A_MM = 72 / 25.4;
    /** Four curves make a circle; their handles are this share of the radius long. */
    private static final double ROUND = 0.5523;

    private final PDPageContentStream out;
    private final PDFont font;
    private final double leftMm;
    private final double heightMm;
    private final double penShare;

    PdfInk(PDPageContentStream out, PDFont font, double leftMm, double heightMm) {
        this(out, font, leftMm, heightMm, 1);
    }

    private PdfInk(PDPageContentStream out, PDFont font, double leftMm, double heightMm, double penShare) {
        this.out = out;
        this.font = font;
        this.leftMm = leftMm;
        this.heightMm = heightMm;
        this.penShare = penShare;
    }

    @Override
    public Ink thinner(double share) {
        return new PdfInk(out, font, leftMm, heightMm, penShare * share);
    }

    /** Something that writes to the page. */
    private interface Writing {
        void run() throws IOException;
    }

    private void write(Writing writing) {
        try {
            writing.run();
        } catch (IOException e) {
            throw new UncheckedIOException("cannot write the page", e);
        }
    }

    private float x(double mm) {
        return length(mm + leftMm);
    }

    private float length(double mm) {
        return (float) (mm * POINTS_A_MM);
    }

    private float y(double mm) {
        return (float) ((heightMm - mm) * POINTS_A_MM);
    }

    private void pen(double widthMm, int colour, double[] dashesMm) throws IOException {
        float[] dashes = new float[dashesMm.length];
        for (int i = 0; i < dashes.length; i++) {
            dashes[i] = (float) (dashesMm[i] * penShare * POINTS_A_MM);
        }
        out.setLineWidth((float) (widthMm * penShare * POINTS_A_MM));
        out.setStrokingColor((colour >> 16 & 255) / 255f, (colour >> 8 & 255) / 255f, (colour & 255) / 255f);
        out.setLineDashPattern(dashes, 0);
        out.setLineJoinStyle(1);
    }

    private void fill(Fill fill) throws IOException {
        out.setNonStrokingColor(
                (fill.colour >> 16 & 255) / 255f, (fill.colour >> 8 & 255) / 255f, (fill.colour & 255) / 255f);
    }

    private void way(List<Point> points) throws IOException {
        out.moveTo(x(points.get(0).x()), y(points.get(0).y()));
        for (Point point : points.subList(1, points.size())) {
            out.lineTo(x(point.x()), y(point.y()));
        }
    }

    @Override
    public void line(Pen pen, List<Point> points) {
        write(() -> {
            pen(pen.widthMm, pen.colour, pen.dashesMm());
            way(points);
            out.stroke();
            if (pen.hasCore()) {
                pen(pen.coreWidthMm, pen.coreColour, new double[0]);
                way(points);
                out.stroke();
            }
        });
    }

    @Override
    public void shape(Pen pen, Fill fill, List<Point> points) {
        write(() -> {
            pen(pen.widthMm, pen.colour, pen.dashesMm());
            if (fill != Fill.NONE) {
                fill(fill);
            }
            way(points);
            out.closePath();
            finish(fill);
        });
    }

    private void finish(Fill fill) throws IOException {
        if (fill == Fill.NONE) {
            out.stroke();
        } else {
            out.fillAndStroke();
        }
    }

    @Override
    public void circle(Pen pen, Fill fill, Point centre, double radiusMm) {
        write(() -> {
            pen(pen.widthMm, pen.colour, pen.dashesMm());
            if (fill != Fill.NONE) {
                fill(fill);
            }
            float x = x(centre.x());
            float y = y(centre.y());
            float r = length(radiusMm);
            float h = (float) (r * ROUND);
            out.moveTo(x + r, y);
            out.curveTo(x + r, y + h, x + h, y + r, x, y + r);
            out.curveTo(x - h, y + r, x - r, y + h, x - r, y);
            out.curveTo(x - r, y - h, x - h, y - r, x, y - r);
            out.curveTo(x + h, y - r, x + r, y - h, x + r, y);
            out.closePath();
            finish(fill);
        });
    }

    @Override
    public void text(Point at, double sizeMm, Anchor anchor, Fill colour, String words) {
        String drawable = SheetFont.drawable(words);
        double widthMm = SheetFont.widthMm(drawable, sizeMm);
        double left = at.x() - (anchor == Anchor.START ? 0 : anchor == Anchor.MIDDLE ? widthMm / 2 : widthMm);
        write(() -> {
            fill(colour);
            out.beginText();
            out.setFont(font, length(sizeMm));
            out.newLineAtOffset(x(left), y(at.y()));
            out.showText(drawable);
            out.endText();
        });
    }

    @Override
    public void begin(String kind, String name, int net) {
        // A page on paper has nothing to click on.
    }

    @Override
    public void end() {
        // As above.
    }
}
