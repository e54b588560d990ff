package sprag.bench.evidence.prove;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.page.JUnitXml;
import sprag.bench.page.JUnitXml.Outcome;

/** A proof for a build server. There is a case for each promise, for completeness, for dead logic, and for each necessity. */
final class ProofXml {
    private final String group;
    private final List<JUnitXml.Case> cases = new ArrayList<>();

    private ProofXml(String vehicle) {
        this.group = "prove." + vehicle;
    }

    /** The document.
     *
     * @param necessity null when it was not asked for
     */
    static String of(String vehicle, Proof proof, Necessity necessity, double seconds) {
        ProofXml xml = new ProofXml(vehicle);
        xml.add("every reachable state was visited", proof.stoppedBy());
        xml.add(
                "everything that is written can happen",
                proof.unreached().isEmpty() ? "" : proof.unreached().toString());
        for (Proof.Verdict verdict : proof.verdicts()) {
            String wrong = verdict.holds() ? vacuous(verdict, proof.complete()) : broken(verdict);
            xml.add(verdict.hazard() + " " + verdict.id(), wrong);
        }
        if (necessity != null) {
            for (Necessity.Row row : necessity.rows()) {
                xml.add(
                        "needed: " + row.what(),
                        row.finding() ? (row.isKnown() ? "taking it out breaks no promise" : row.note()) : "");
            }
        }
        return JUnitXml.of("sprag prove", List.of(new JUnitXml.Suite(xml.group, seconds, xml.cases)));
    }

    private void add(String name, String wrong) {
        cases.add(new JUnitXml.Case(group, name, wrong.isEmpty() ? Outcome.PASSED : Outcome.FAILED, wrong));
    }

    private static String vacuous(Proof.Verdict verdict, boolean complete) {
        return verdict.vacuous() ? verdict.id() + ProofWords.vacuous(complete) : "";
    }

    private static String broken(Proof.Verdict verdict) {
        Counterexample story = verdict.story().orElseThrow();
        StringBuilder told = new StringBuilder(verdict.explanation());
        for (Counterexample.Chapter chapter : story.chapters()) {
            told.append("; ").append(ProofWords.ticks(chapter)).append(": ");
            told.append(ProofWords.facts(chapter.changed())).append(" -> ").append(ProofWords.result(chapter.shown()));
        }
        return told.toString();
    }
}
