package sprag.bench.docs;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.Sprag;
import sprag.bench.vehicle.Catalogue;

/** What docs/first-steps.md shows as the output of a command is what the command prints, line by line and in this order. */
class QuotedOutputTest {
    private static final String QUOTE = "    > ";

    @TempDir
    Path folder;

    @Test
    void output_quotedBelowACommand_isPrintedByIt() throws Exception {
        Path page = Catalogue.installed().home().resolve("docs").resolve("first-steps.md");
        String command = "";
        List<String> printed = List.of();
        int quoted = 0;
        for (String line : Files.readAllLines(page)) {
            if (line.startsWith("    bench/sprag run ")) {
                command = line.strip().substring("bench/sprag ".length());
                printed = new ArrayList<>(printed(command));
            } else if (line.startsWith(QUOTE) && !line.equals(QUOTE + "...")) {
                int at = printed.indexOf(line.substring(QUOTE.length()));
                assertTrue(
                        at >= 0,
                        command + " does not print, or not there: " + line + "\n" + String.join("\n", printed));
                printed.subList(0, at + 1).clear();
                quoted++;
            }
        }
        assertTrue(quoted >= 10, quoted + " lines");
    }

    private List<String> printed(String command) {
        StringWriter out = new StringWriter();
        List<String> words = new ArrayList<>(List.of(command.split(" ")));
        words.addAll(List.of("--out", folder.resolve("o" + words.hashCode()).toString()));
        Sprag.commandLine().setOut(new PrintWriter(out, true)).execute(words.toArray(new String[0]));
        assertFalse(out.toString().isEmpty(), command);
        return out.toString().lines().map(String::stripTrailing).toList();
    }
}
