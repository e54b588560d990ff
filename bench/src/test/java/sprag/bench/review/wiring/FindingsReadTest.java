package sprag.bench.review.wiring;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import sprag.bench.Golden;
import sprag.bench.cli.Numbers;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.wiring.SeededMistakesTest.Subject;

/** What is said of each planted mistake, and where one is told to look: as it was read and found right. */
class FindingsReadTest {
    private static final Path VAN = Path.of("..", "config", "vehicles", "parcel-van");

    private static String line(Finding finding) {
        String numbers = finding.numbers().entrySet().stream()
                .map(e -> e.getKey() + " " + Numbers.text(e.getValue()))
                .collect(Collectors.joining(", ", " (", ")"));
        return "  " + finding.weight().word() + " " + finding.id() + " at " + finding.where() + ", " + finding.place()
                + ": " + finding.sentence() + (finding.numbers().isEmpty() ? "" : numbers);
    }

    @Test
    void mistakesOfTheVan_areToldAsTheyWereRead() throws Exception {
        List<String> lines = new ArrayList<>();
        for (Mistake mistake : Mistake.values()) {
            Draft draft = Draft.of(VAN);
            mistake.plant.accept(draft);
            lines.add(mistake.name());
            WiringCheck.findings(draft.schedule(), TestLimits.van()).forEach(f -> lines.add(line(f)));
        }
        Golden.assertSame("review/mistakes-of-the-van.txt", lines);
    }

    @Test
    void mistakesByTerminal_areToldAsTheyWereRead() throws Exception {
        List<String> lines = new ArrayList<>();
        for (Subject subject : List.of(Subject.COUPE, Subject.PICKUP, Subject.LAUNCH)) {
            for (WrongByTerminal mistake : WrongByTerminal.values()) {
                Draft draft = Draft.of(subject.folder());
                if (mistake.plantIn(draft, new Random(0))) {
                    lines.add(subject + " " + mistake);
                    WiringCheck.findings(draft.schedule(), subject.limits()).forEach(f -> lines.add(line(f)));
                }
            }
        }
        Golden.assertSame("review/mistakes-by-terminal.txt", lines);
    }
}
