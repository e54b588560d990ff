package sprag.bench.book.print;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.drawing.paper.SheetFont;

/** Breaks text into lines of a width on paper. */
final class TextLines {
    private TextLines() {}

    /** The lines of a text; at least one. A word that is wider than a line is divided, behind a sign where it has one. */
    static List<String> of(String text, double sizeMm, double widthMm) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (String word :
                SheetFont.drawable(text.replaceAll("\\s+", " ").strip()).split(" ")) {
            String joined = line.isEmpty() ? word : line + " " + word;
            if (width(joined, sizeMm) <= widthMm) {
                line.replace(0, line.length(), joined);
                continue;
            }
            if (!line.isEmpty()) {
                lines.add(line.toString());
                line.setLength(0);
            }
            line.append(divided(word, sizeMm, widthMm, lines));
        }
        lines.add(line.toString());
        return lines;
    }

    /** Adds the first pieces of a word that is too wide as lines. Returns the rest. */
    private static String divided(String word, double sizeMm, double widthMm, List<String> lines) {
        String rest = word;
        while (width(rest, sizeMm) > widthMm && rest.length() > 1) {
            int fits = 1;
            while (fits < rest.length() - 1 && width(rest.substring(0, fits + 1), sizeMm) <= widthMm) {
                fits++;
            }
            int sign = fits;
            while (sign > 1 && "_.,/-:+".indexOf(rest.charAt(sign - 1)) < 0) {
                sign--;
            }
            int cut = sign > 1 ? sign : fits;
            cut += Character.isHighSurrogate(rest.charAt(cut - 1)) ? 1 : 0;
            lines.add(rest.substring(0, cut));
            rest = rest.substring(cut);
        }
        return rest;
    }

    /** The width of the widest piece that is not divided willingly. */
    static double widestWord(String text, double sizeMm) {
        double widest = 0;
        for (String word : text.split("(?<=[_.,/:+-])|\\s+")) {
            widest = Math.max(widest, width(SheetFont.drawable(word), sizeMm));
        }
        return widest;
    }

    static double width(String drawable, double sizeMm) {
        return SheetFont.widthMm(drawable, sizeMm);
    }
}
