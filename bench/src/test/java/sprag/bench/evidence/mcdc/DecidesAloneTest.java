package sprag.bench.evidence.mcdc;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.ChangedClasses;
import sprag.bench.docs.MadePages;

/**
 * Each condition of Logic, of the sequences and of the gate is seen to decide alone: there are two ticks in which it differs, the decision
 * differs, and every other condition of it agrees or was not asked. Those that are not seen so stand in {@code masked.txt}, each with
 * the reason.
 */
class DecidesAloneTest {
    /** The smallest machine, the one with the pack-side charger, the one with the bus-side charger. */
    private static final List<String> VEHICLES = List.of("yard-cart", "parcel-van", "coupe");

    private static final int GATE_TICKS = 100_000;

    @Test
    @Tag("long")
    void eachCondition_decidesAloneOrIsListedWithItsReason(@TempDir Path folder) throws Exception {
        Instrumented code = new Instrumented(folder);
        List<?> told = (List<?>) new ChangedClasses(code.classes)
                .loadClass(Trial.class.getName())
                .getMethod("run", List.class, int.class)
                .invoke(null, VEHICLES, GATE_TICKS);
        boolean[][] hits = (boolean[][]) told.get(0);
        boolean[] arms = (boolean[]) told.get(1);
        Map<String, int[]> counts = new TreeMap<>();
        TreeSet<String> open = new TreeSet<>();
        for (Decision decision : code.decisions) {
            boolean[] seen = hits[decision.id()] == null ? new boolean[0] : hits[decision.id()];
            int[] count = counts.computeIfAbsent(decision.file(), f -> new int[6]);
            for (int i = 0; i < decision.conditions().size(); i++) {
                boolean alone = decision.decidesAlone(i, seen);
                count[0]++;
                count[1] += alone ? 1 : 0;
                if (!alone) {
                    open.add(decision.name(i));
                }
            }
            count[2] += 2;
            count[3] += (went(seen, 0) ? 1 : 0) + (went(seen, 1) ? 1 : 0);
        }
        for (int i = 0; i < code.arms.size(); i++) {
            int[] count = counts.get(code.arms.get(i).replaceAll(" \\|.*", ""));
            count[4]++;
            count[5] += arms[i] ? 1 : 0;
            if (!arms[i]) {
                open.add(code.arms.get(i));
            }
        }
        String table = table(counts, (Long) told.get(2), (Long) told.get(3));
        System.out.println(table);
        open.forEach(System.out::println);
        assertEquals(reasons().keySet(), open, "conditions that do not decide alone, and those listed in masked.txt");
        MadePages.endsWith("alone.md", table);
    }

    private static boolean went(boolean[] hits, int way) {
        for (int i = way; i < hits.length; i += 2) {
            if (hits[i]) {
                return true;
            }
        }
        return false;
    }

    /** What stands on the page. */
    private static String table(Map<String, int[]> counts, long steps, long gateTicks) {
        StringBuilder table = new StringBuilder(
                String.format(Locale.ROOT, "%,d steps of Logic and %,d ticks of the gate:%n%n", steps, gateTicks));
        table.append(
                "| source | conditions that decide alone | ways of decisions taken | cases taken |\n|---|---|---|---|\n");
        counts.forEach((file, n) -> table.append(
                String.format("| %s | %d of %d | %d of %d | %d of %d |%n", file, n[1], n[0], n[3], n[2], n[5], n[4])));
        return table.toString();
    }

    /** Each line is a condition and, behind two colons, the reason why it cannot be seen to decide alone. */
    private static Map<String, String> reasons() throws IOException {
        try (InputStream in = DecidesAloneTest.class.getResourceAsStream("masked.txt")) {
            Map<String, String> reasons = new TreeMap<>();
            for (String line : new String(in.readAllBytes(), StandardCharsets.UTF_8).split("\n")) {
                if (!line.isBlank() && !line.startsWith("#")) {
                    String[] parts = line.split(" :: ");
                    assertTrue(parts.length == 2 && !parts[1].isBlank(), "a reason is missing: " + line);
                    reasons.put(parts[0], parts[1]);
                }
            }
            return reasons;
        }
    }
}
