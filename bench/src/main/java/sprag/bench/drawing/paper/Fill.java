package sprag.bench.drawing.paper;

/** How a shape is filled. */
public enum Fill {
    // @formatter:off
    NONE    (-1),
    PAPER   (0xffffff),
    PALE    (0xf3f5f7),
    INK     (0x1c2126),
    BAD     (0xb3261e),
    ODD     (0x8a5a00),
    NOTE    (0x1f5f9c);
    // @formatter:on

    final int colour;

    Fill(int colour) {
        this.colour = colour;
    }
}
