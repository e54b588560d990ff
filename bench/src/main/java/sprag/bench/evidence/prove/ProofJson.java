package sprag.bench.evidence.prove;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import sprag.bench.cli.Json;
import sprag.supervisor.vocabulary.Interlock;

/** A proof for a program that reads it. */
final class ProofJson {
    private ProofJson() {}

    /** One JSON object.
     *
     * @param necessity null when it was not asked for
     */
    static String of(String vehicle, Proof proof, boolean gated, Necessity necessity) {
        ObjectNode root = Json.object();
        root.put("vehicle", vehicle);
        root.put("good", proof.good());
        root.put("complete", proof.complete());
        root.put("with_gate", gated);
        ArrayNode without = root.putArray("without");
        proof.without().stream().map(Interlock::id).forEach(without::add);
        root.put("states", proof.states());
        root.put("transitions", proof.transitions());
        ArrayNode promises = root.putArray("promises");
        proof.verdicts().forEach(verdict -> verdict(promises.addObject(), verdict));
        ArrayNode dead = root.putArray("cannot_happen");
        proof.unreached().forEach(each -> dead.add(each.kind() + " " + each.name()));
        ArrayNode passes = root.putArray("explorations");
        for (Proof.Pass pass : proof.passes()) {
            ObjectNode node = passes.addObject();
            node.put("watches", pass.watches());
            node.put("states", pass.size().states());
            node.put("transitions", pass.size().transitions());
            node.put("depth", pass.size().depth());
            node.put("bytes", pass.size().bytes());
            node.put("seconds", pass.size().tookNs() / 1e9);
            node.put("complete", pass.complete());
            node.put("stopped_by", pass.stoppedBy());
        }
        if (necessity != null) {
            ArrayNode rows = root.putArray("necessity");
            necessity.rows().forEach(row -> row(rows.addObject(), row));
        }
        return root.toPrettyString();
    }

    private static void verdict(ObjectNode node, Proof.Verdict verdict) {
        node.put("id", verdict.id());
        node.put("hazard", verdict.hazard());
        node.put("otherwise", verdict.explanation());
        node.put("holds", verdict.holds());
        node.put("vacuous", verdict.vacuous());
        if (verdict.applied() > 0) {
            node.put("applies_after_ticks", verdict.applied());
        } else {
            node.put("never_applies_because", verdict.idle());
        }
        verdict.witness().ifPresent(story -> chapters(node.putArray("witness"), story));
        if (verdict.story().isPresent()) {
            Counterexample story = verdict.story().get();
            node.put("ticks", story.ticks().size());
            chapters(node.putArray("shortest_way"), story);
        }
    }

    private static void chapters(ArrayNode chapters, Counterexample story) {
        for (Counterexample.Chapter chapter : story.chapters()) {
            ObjectNode each = chapters.addObject();
            each.put("tick", chapter.from());
            each.put("count", chapter.count());
            ObjectNode facts = each.putObject("facts");
            chapter.changed().forEach((fact, value) -> facts.put(fact.name(), fact.labels.get(value)));
            each.put("state", chapter.shown().state().name());
            each.put("step", chapter.shown().step().name());
            each.put("torque", chapter.shown().torque().name());
            each.put("charging", chapter.shown().charging());
        }
    }

    private static void row(ObjectNode node, Necessity.Row row) {
        node.put("taken_out", row.what());
        node.put("hazard", row.hazard());
        node.put("breaks", row.broken().map(Proof.Verdict::id).orElse(null));
        node.put("breaks_with_gate", row.gated().map(Proof.Verdict::id).orElse(null));
        row.broken()
                .flatMap(Proof.Verdict::story)
                .ifPresent(story -> node.put("ticks", story.ticks().size()));
        node.put("note", row.note());
        node.put("finding", row.finding());
    }
}
