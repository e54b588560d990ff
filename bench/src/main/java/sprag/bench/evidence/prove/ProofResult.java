package sprag.bench.evidence.prove;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import sprag.bench.vehicle.Vehicle;

/**
 * What was proved of a vehicle's Logic, for those who only report it.
 *
 * @param good whether every promise holds and has something to say, nothing is dead, and every state was visited
 * @param summary the same in one sentence, with its figures
 * @param rows one for each promise
 * @param outside what the proof does not speak of, each with what covers it instead
 */
public record ProofResult(boolean good, String summary, List<Row> rows, List<List<String>> outside) {
    /**
     * One promise.
     *
     * @param never what must never happen
     * @param verdict the result in words
     */
    public record Row(String hazard, String name, String never, boolean holds, String verdict) {}

    /** Proves the promises of a vehicle. */
    public static ProofResult of(Vehicle vehicle) throws InterruptedException {
        Proof proof = new Prover(vehicle.settings())
                .workers(Runtime.getRuntime().availableProcessors())
                .prove();
        List<Row> rows = new ArrayList<>();
        for (Proof.Verdict verdict : proof.verdicts()) {
            rows.add(new Row(verdict.hazard(), verdict.id(), verdict.explanation(), verdict.holds(), words(verdict)));
        }
        String summary = String.format(
                Locale.ROOT,
                "%d of %d promises hold in every order of events: %,d states of the logic, %,d transitions tried.%s%s",
                rows.stream().filter(Row::holds).count(),
                rows.size(),
                proof.states(),
                proof.transitions(),
                proof.complete() ? "" : " Not every state was visited: " + proof.stoppedBy() + ".",
                proof.unreached().isEmpty()
                        ? ""
                        : " Written but never reached: " + proof.unreached().size() + ".");
        return new ProofResult(
                proof.good(),
                summary,
                rows,
                OutsideTheProof.ROWS.stream()
                        .map(row -> List.of(row.part(), row.cover()))
                        .toList());
    }

    private static String words(Proof.Verdict verdict) {
        if (!verdict.holds()) {
            return "BROKEN after " + verdict.story().orElseThrow().ticks().size() + " ticks";
        }
        return verdict.applied() > 0
                ? "holds"
                : verdict.vacuous() ? "holds, but never has anything to say" : "not on this car: " + verdict.idle();
    }
}
