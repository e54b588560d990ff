package sprag.bench.review.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import sprag.bench.cli.Numbers;
import sprag.bench.review.wiring.RuleList;
import sprag.bench.vehicle.SizingParameter;
import sprag.supervisor.vocabulary.Unit;

/** docs/rules.md is made from the code; run with -Ddocs.update=true to write it anew, then read the difference. */
class RulesPageTest {
    private static final Path PAGE = Path.of("..", "docs", "rules.md");

    private static String page() {
        return "# The rules of the wiring review\n\n"
                + "Made from the code; a test compares. How to use them is told in [checking.md](checking.md).\n\n"
                + "## Rules\n\n" + RuleList.rules()
                + "\n## Kinds of parts\n\n"
                + "The column `kind` of `parts.csv`. A part that is not listed is told by the words of its name, from the top\n"
                + "of this table.\n\n" + RuleList.kinds()
                + "\n## Values for the design review alone\n\n"
                + "In `vehicle.toml`. All may be left out; a note then says what could not be judged.\n\n" + values();
    }

    private static String values() {
        StringBuilder text =
                new StringBuilder("| key | default | range | a value outside it would |\n|---|---|---|---|\n");
        for (SizingParameter row : SizingParameter.values()) {
            String byDefault = Double.isNaN(row.byDefault()) ? "none" : Numbers.text(row.byDefault());
            String range = row.unit() == Unit.CHOICE
                    ? String.join(" or ", row.choices())
                    : Numbers.text(row.min()) + " to " + Numbers.text(row.max());
            text.append("| `")
                    .append(row.key())
                    .append("` | ")
                    .append(byDefault)
                    .append(" | ")
                    .append(range)
                    .append(" | ")
                    .append(row.risk())
                    .append(" |\n");
        }
        return text.toString();
    }

    @Test
    void page_isWhatTheCodeSays() throws IOException {
        if (Boolean.getBoolean("docs.update")) {
            Files.writeString(PAGE, page());
        }
        assertEquals(page(), Files.readString(PAGE), PAGE + " is out of date: run with -Ddocs.update=true");
    }

    @Test
    void everyRule_saysWhyInAClause() {
        for (String row : RuleList.rules().lines().skip(2).toList()) {
            String why = row.split(" \\| ")[2];
            assertTrue(why.length() > 25 && !why.endsWith("."), row);
        }
    }
}
