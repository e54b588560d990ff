package sprag.bench.review.finding;

import java.util.Locale;

/** How heavy a finding is. */
public enum Weight {
    /** Do not build it like this. */
    STOP("error", "do not build it like this"),
    /** Likely a mistake, or a margin too thin: decide before building. */
    CAUTION("warning", "likely a mistake, or a margin too thin"),
    /** Worth knowing; also what could not be judged. */
    NOTE("note", "worth knowing, or could not be judged");

    /** The level that SARIF 2.1.0 has for it. */
    public final String sarifLevel;
    /** What it asks of the reader. */
    public final String meaning;

    Weight(String sarifLevel, String meaning) {
        this.sarifLevel = sarifLevel;
        this.meaning = meaning;
    }

    /** The word in files and on pages. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
