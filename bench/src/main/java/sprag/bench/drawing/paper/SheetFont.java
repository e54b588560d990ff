package sprag.bench.drawing.paper;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Base64;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TTFSubsetter;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.apache.pdfbox.pdmodel.PDDocument;

/**
 * The one typeface of all drawings: Liberation Sans, which the PDF library brings along (SIL Open Font License). Its widths decide
 * how large a box is, so every reader has to see the same letters: they are put into each page.
 */
public final class SheetFont {
    /** Its name in style sheets. */
    public static final String FAMILY = "Sheet";
    /** Height of a capital letter, as a share of the size. */
    public static final double CAPITAL = 0.72;

    private static final String RESOURCE = "/org/apache/pdfbox/resources/ttf/LiberationSans-Regular.ttf";
    private static final TrueTypeFont FONT = read();
    private static final double UNITS = unitsPerEm();
    /** Looking a letter up takes long, and every word is measured. */
    private static final Map<Integer, Integer> ADVANCES = new ConcurrentHashMap<>();
    /** Letters beyond ASCII that the drawings use. */
    private static final String MORE = "°±²³µ·×ÄÖÜäöüßéèàçñΩ–—‘’“”…→≤≥≈";

    private SheetFont() {}

    /** The width of some words (mm). */
    public static double widthMm(String words, double sizeMm) {
        double units = 0;
        for (int i = 0; i < words.length(); ) {
            int letter = words.codePointAt(i);
            units += Math.abs(advance(letter));
            i += Character.charCount(letter);
        }
        return units / UNITS * sizeMm;
    }

    /** Words with a question mark for each letter that the typeface does not have. */
    public static String drawable(String words) {
        StringBuilder drawable = new StringBuilder(words.length());
        for (int i = 0; i < words.length(); ) {
            int letter = words.codePointAt(i);
            drawable.appendCodePoint(letter >= ' ' && advance(letter) >= 0 ? letter : '?');
            i += Character.charCount(letter);
        }
        return drawable.toString();
    }

    /** The width of a letter in the units of the typeface; negative, as wide as the sign that stands for it, when there is none. */
    private static int advance(int letter) {
        return ADVANCES.computeIfAbsent(letter, SheetFont::measured);
    }

    private static int measured(int letter) {
        try {
            int glyph = FONT.getUnicodeCmapLookup().getGlyphId(letter);
            int width = FONT.getAdvanceWidth(glyph);
            return glyph == 0 ? -width : width;
        } catch (IOException e) {
            throw new UncheckedIOException("cannot measure a letter of the shipped typeface", e);
        }
    }

    /** A rule for a style sheet that holds the letters themselves. */
    public static String styleRule() {
        return "@font-face{font-family:" + FAMILY + ";src:url(data:font/ttf;base64," + base64() + ")}";
    }

    /** The letters themselves, a TrueType file in base 64. */
    public static String base64() {
        try {
            TTFSubsetter subset = new TTFSubsetter(FONT);
            for (char letter = ' '; letter <= '~'; letter++) {
                subset.add(letter);
            }
            MORE.codePoints().forEach(subset::add);
            ByteArrayOutputStream bytes = new ByteArrayOutputStream();
            subset.writeToStream(bytes);
            return Base64.getEncoder().encodeToString(bytes.toByteArray());
        } catch (IOException e) {
            throw new UncheckedIOException("cannot write the letters of the shipped typeface", e);
        }
    }

    /** The whole typeface, for a document that embeds what it uses. */
    static InputStream open() {
        return PDDocument.class.getResourceAsStream(RESOURCE);
    }

    private static double unitsPerEm() {
        try {
            return FONT.getUnitsPerEm();
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read the shipped typeface", e);
        }
    }

    private static TrueTypeFont read() {
        try (InputStream in = open()) {
            return new TTFParser().parse(new RandomAccessReadBuffer(in));
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read the shipped typeface", e);
        }
    }
}
