package sprag.bench.drawing.live.element;

/** What a conductor can be joined to. One row each, in the order in which it is shown. */
public enum Potential {
    // @formatter:off
    //            sign  in words
    PACK_PLUS   ("P+", "pack plus"),
    PACK_MIDDLE ("Pm", "the middle of the pack"),
    PACK_MINUS  ("P-", "pack minus"),
    LINE        ("L",  "mains line"),
    NEUTRAL     ("N",  "mains neutral"),
    LOW_VOLTAGE ("12", "12 V"),
    SENSOR      ("5",  "5 V"),
    GROUND      ("0",  "ground");
    // @formatter:on

    public static final int COUNT = values().length;

    /** At most two letters, for tables. */
    public final String sign;
    /** For sentences. */
    public final String words;

    Potential(String sign, String words) {
        this.sign = sign;
        this.words = words;
    }

    /** Whether it belongs to the traction side. */
    public boolean isTraction() {
        return this == PACK_PLUS || this == PACK_MIDDLE || this == PACK_MINUS;
    }

    public boolean isMains() {
        return this == LINE || this == NEUTRAL;
    }

    /** Whether it belongs to the traction side or to mains. */
    public boolean isDangerous() {
        return isTraction() || isMains();
    }
}
