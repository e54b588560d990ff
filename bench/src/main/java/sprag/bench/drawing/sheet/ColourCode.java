package sprag.bench.drawing.sheet;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/** Letters for the colours of coverings after IEC 60757, in the order of its table. */
enum ColourCode {
    BK("black"),
    BN("brown"),
    RD("red"),
    OG("orange"),
    YE("yellow"),
    GN("green"),
    BU("blue"),
    VT("violet"),
    GY("grey"),
    WH("white"),
    PK("pink"),
    GD("gold"),
    TQ("turquoise"),
    SR("silver");

    private final String word;

    ColourCode(String word) {
        this.word = word;
    }

    /**
     * The letters of a colour as the schedule writes it, base colour first, since the order tells which is the stripe. A word
     * that the standard does not have stays as it is; green with yellow is {@code GNYE}.
     */
    static String of(String colour) {
        if (colour.isEmpty()) {
            return "?";
        }
        List<String> codes = new ArrayList<>();
        for (String part : colour.split("[-/ ]+")) {
            codes.add(code(part));
        }
        String joined = String.join("", codes);
        return joined.equals("YEGN") ? "GNYE" : joined;
    }

    private static String code(String word) {
        String plain = word.toLowerCase(Locale.ROOT).replace("gray", "grey").replace("purple", "violet");
        return Arrays.stream(values())
                .filter(c -> c.word.equals(plain))
                .map(ColourCode::name)
                .findFirst()
                .orElse(word);
    }
}
