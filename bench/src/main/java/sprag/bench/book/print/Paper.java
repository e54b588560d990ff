package sprag.bench.book.print;

import java.util.Locale;

/** Sizes of paper (mm). A page on its side has them exchanged. */
public enum Paper {
    /** ISO 216. */
    A4(210, 297),
    /** North America. */
    LETTER(215.9, 279.4);

    final double widthMm;
    final double heightMm;

    Paper(double widthMm, double heightMm) {
        this.widthMm = widthMm;
        this.heightMm = heightMm;
    }

    double widthMm(boolean wide) {
        return wide ? heightMm : widthMm;
    }

    double heightMm(boolean wide) {
        return wide ? widthMm : heightMm;
    }

    /** As it is written on the command line. */
    @Override
    public String toString() {
        return name().toLowerCase(Locale.ROOT);
    }
}
