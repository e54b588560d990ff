package sprag.bench.docs;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.junit.jupiter.api.Test;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Reset;

/** docs/reset.md lists every interlock with what ends it, and tells every way of resetting. */
class ResetPageTest {
    private static String table() {
        StringBuilder text = new StringBuilder("| interlock | cause | effect | reset |\n|---|---|---|---|\n");
        List<Interlock> rows = Arrays.stream(Interlock.values())
                .filter(row -> row.reset != Reset.NONE)
                .sorted(Comparator.comparing((Interlock row) -> row.reset).reversed())
                .toList();
        for (Interlock row : rows) {
            text.append("| `")
                    .append(row.id())
                    .append("` | ")
                    .append(row.cause)
                    .append(" | ")
                    .append(row.response.words)
                    .append(" | ")
                    .append(row.reset.words)
                    .append(" |\n");
        }
        return text.append("\nEvery other interlock ends by itself, with its cause.\n")
                .toString();
    }

    @Test
    void interlocks_ofThePage_areThoseOfTheCode() throws Exception {
        MadePages.endsWith("reset.md", table());
    }

    @Test
    void ways_everyReset_isToldInTheWordsOfTheTables() throws Exception {
        String page = Files.readString(MadePages.docs().resolve("reset.md"));
        for (Reset way : Reset.values()) {
            assertTrue(page.contains("| " + way.words + " | "), "no row for: " + way.words);
        }
    }
}
