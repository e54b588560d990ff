package sprag.bench.explain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.cli.Wrap;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Problem;
import sprag.bench.vehicle.VehicleReader;

class ProblemTextTest {
    @TempDir
    Path folder;

    private List<Problem> problems(String text) throws Exception {
        Files.writeString(folder.resolve("vehicle.toml"), text);
        return assertThrows(BadInput.class, () -> VehicleReader.read(folder)).problems();
    }

    private static int screen(List<String> lines) {
        return lines.stream().mapToInt(l -> Wrap.lines(l, 80).size()).sum();
    }

    @Test
    void emptyFile_told_missingKeysBySectionWithMeaning_onAScreen() throws Exception {
        List<Problem> problems = problems("");
        List<String> lines = ProblemText.lines(problems, false);
        String text = String.join("\n", lines);
        assertTrue(screen(lines) <= 24, text);
        assertTrue(text.contains(problems.size() + " keys that must be there are missing"), text);
        assertTrue(text.contains("  [pack]"), text);
        assertTrue(text.contains("cells in series"), text);
        assertTrue(text.contains("sprag new"), text);
        assertTrue(text.contains("SPRAG_PROBLEMS=all"), text);
        String whole = String.join("\n", ProblemText.lines(problems, true));
        problems.forEach(each -> assertTrue(
                whole.contains("    " + each.key().substring(each.key().lastIndexOf('.') + 1)), each.key()));
    }

    @Test
    void wrongAndMissing_told_whatIsWrittenComesFirst() throws Exception {
        List<String> lines = ProblemText.lines(problems("[pack]\ncells = 0\nchemstry = \"lfp\"\n"), false);
        assertTrue(lines.get(0).contains("pack.cells = 0"), lines::toString);
        assertTrue(lines.get(1).contains("chemstry"), lines::toString);
        assertTrue(lines.get(2).contains("must be there"), lines::toString);
    }

    @Test
    void oneProblem_told_asItIs() throws Exception {
        List<Problem> one = problems("cruise = true\n").stream()
                .filter(p -> !p.isMissingKey())
                .toList();
        assertEquals(List.of(one.get(0).message()), ProblemText.lines(one, false));
        assertTrue(one.get(0).message().contains("Cruise control is not offered"), one.get(0)::message);
    }
}
