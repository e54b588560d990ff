package sprag.bench.docs;

import java.util.Map;
import org.junit.jupiter.api.Test;
import sprag.bench.cli.Numbers;
import sprag.bench.explain.KeyEntries;
import sprag.bench.explain.KeyTexts;
import sprag.bench.explain.KeyTexts.KeyText;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.Unit;

/** docs/keys.md and docs/signals.md list everything that the tables hold. */
class KeysPageTest {
    private static String keys() {
        Map<String, KeyText> texts = KeyTexts.all();
        StringBuilder page = new StringBuilder();
        String section = "";
        for (Row row : KeyEntries.rows()) {
            if (!section.equals(KeyEntries.section(row))) {
                page.append(section.isEmpty() ? "" : "\n");
                section = KeyEntries.section(row);
                page.append("## [").append(section).append("]\n\n");
                page.append("| key | meaning | allowed | without it | how to find it |\n|---|---|---|---|---|\n");
            }
            KeyText text = texts.get(row.key());
            page.append("| `").append(row.key().substring(section.length() + 1)).append("` | ");
            page.append(text.meaning())
                    .append(" | ")
                    .append(KeyEntries.allowed(row))
                    .append(" | ");
            page.append(row.required() ? "**must be given**" : KeyEntries.without(row))
                    .append(" | ");
            page.append(text.howToFind()).append(" |\n");
        }
        return page.toString();
    }

    private static String signals() {
        StringBuilder page =
                new StringBuilder("## Signals\n\n| signal | what it is | range | fitted |\n|---|---|---|---|\n");
        for (Signal signal : Signal.values()) {
            page.append("| `")
                    .append(signal.key())
                    .append("` | ")
                    .append(signal.meaning)
                    .append(" | ");
            page.append(range(signal))
                    .append(" | ")
                    .append(signal.optional ? "may be missing" : "always")
                    .append(" |\n");
        }
        page.append("\n"
                + "## Outputs\n\n"
                + "Released means 0 for each of them.\n\n"
                + "| output | what it does | given in |\n"
                + "|---|---|---|\n");
        for (Output output : Output.values()) {
            String unit = output.unit == Unit.SWITCH ? "0 or 1" : Numbers.symbol(output.unit);
            page.append("| `")
                    .append(output.key())
                    .append("` | ")
                    .append(output.meaning)
                    .append(" | ");
            page.append(unit.isEmpty() ? "number" : unit).append(" |\n");
        }
        return page.toString();
    }

    private static String range(Signal signal) {
        return signal.isSwitch()
                ? "0 or 1"
                : Numbers.text(signal.min) + " to " + Numbers.text(signal.max, Numbers.symbol(signal.unit));
    }

    @Test
    void keys_ofThePage_areThoseOfTheTables() throws Exception {
        MadePages.endsWith("keys.md", keys());
    }

    @Test
    void signals_ofThePage_areThoseOfTheTables() throws Exception {
        MadePages.endsWith("signals.md", signals());
    }
}
