package sprag.bench.drawing.paper;

/** How a line is drawn. Kinds of conductors are told by width and pattern as well as by colour. One row each. */
public enum Pen {
    // @formatter:off
    //          class          width colour     dashes             core: colour and width of a second line on top; 0 for none
    THIN      ("thin",         0.25, 0x1c2126, new double[0],      0, 0),
    SYMBOL    ("symbol",       0.35, 0x1c2126, new double[0],      0, 0),
    HAIR      ("hair",         0.15, 0x525c66, new double[0],      0, 0),
    /** A dark line with a light core: it stays a double line on a black and white print. */
    TRACTION  ("traction",     1.30, 0x7a2e00, new double[0],      0xffb066, 0.6),
    MAINS     ("mains",        0.90, 0x7a1030, new double[] {4, 1.2}, 0xffd0dc, 0.35),
    SUPPLY    ("supply",       0.55, 0xb01414, new double[0],      0, 0),
    EARTH     ("earth",        0.50, 0x1a6b2e, new double[] {3, 0.8, 0.8, 0.8}, 0, 0),
    SIGNAL    ("signal",       0.35, 0x1f4f8a, new double[0],      0, 0),
    DATA      ("data",         0.35, 0x5a2a86, new double[] {1.6, 0.7}, 0, 0),
    GONE      ("gone",         0.40, 0x525c66, new double[] {0.6, 1}, 0, 0);
    // @formatter:on

    /** Its class in SVG. */
    public final String style;

    final double widthMm;
    final int colour;
    private final double[] dashesMm;
    final int coreColour;
    final double coreWidthMm;

    Pen(String style, double widthMm, int colour, double[] dashesMm, int coreColour, double coreWidthMm) {
        this.style = style;
        this.widthMm = widthMm;
        this.colour = colour;
        this.dashesMm = dashesMm;
        this.coreColour = coreColour;
        this.coreWidthMm = coreWidthMm;
    }

    double[] dashesMm() {
        return dashesMm.clone();
    }

    boolean hasCore() {
        return coreWidthMm > 0;
    }
}
