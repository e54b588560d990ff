package sprag.bench.evidence.prove;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.evidence.prove.export.Export;

/** A proof as other commands report it, and as it is handed to other tools. */
class ProofReportedTest {
    @TempDir
    Path folder;

    @Test
    void result_ofTheCart_hasARowForEachPromise_andSaysWhatIsNotOnIt() throws Exception {
        ProofResult result = ProofResult.of(Shipped.whole("yard-cart"));
        Proof proof = new Prover(Shipped.vehicle("yard-cart")).prove();
        assertTrue(result.good());
        assertEquals(proof.verdicts().size(), result.rows().size());
        int idle = 0;
        for (int i = 0; i < result.rows().size(); i++) {
            Proof.Verdict verdict = proof.verdicts().get(i);
            ProofResult.Row row = result.rows().get(i);
            assertEquals(verdict.id(), row.name());
            assertEquals(verdict.applied() > 0 ? "holds" : "not on this car: " + verdict.idle(), row.verdict());
            assertTrue(row.holds());
            idle += verdict.applied() > 0 ? 0 : 1;
        }
        assertTrue(idle > 0, "a cart lacks something");
        String summary = String.format(
                java.util.Locale.ROOT,
                "%d of %d promises hold in every order of events: %,d states of the logic, %,d transitions tried.",
                result.rows().size(),
                result.rows().size(),
                proof.states(),
                proof.transitions());
        assertEquals(summary, result.summary());
        assertEquals(OutsideTheProof.ROWS.size(), result.outside().size());
        assertTrue(result.outside().stream()
                .allMatch(row -> row.size() == 2 && !row.get(1).isBlank()));
    }

    @Test
    void export_written_tellsHowFarItIs_andLeavesThreeWholeFiles() throws Exception {
        Files.writeString(folder.resolve(Export.STATES), "of another day");
        List<Integer> told = new ArrayList<>();
        String words = new Export(Shipped.whole("yard-cart"), Set.of())
                .write(folder, 1_000_000, () -> false, told::add)
                .orElseThrow();
        LabelledSystem read = new LabelledSystem(Files.lines(folder.resolve(Export.GRAPH)));
        int states = read.from.size();
        assertEquals(
                String.format(java.util.Locale.ROOT, "%,d states and %,d ways between them", states, read.ways), words);
        assertEquals(
                states + 1, Files.readAllLines(folder.resolve(Export.STATES)).size());
        assertTrue(Files.readString(folder.resolve(Export.MODEL)).contains("yard-cart"));
        assertEquals(2 * states, told.get(told.size() - 1), "as many found, and then as many written");
        List<Integer> none = new ArrayList<>();
        assertTrue(new Export(Shipped.whole("yard-cart"), Set.of())
                .write(folder, 10, () -> false, none::add)
                .isEmpty());
        assertFalse(Files.exists(folder.resolve(Export.GRAPH)) || Files.exists(folder.resolve(Export.STATES)));
    }
}
