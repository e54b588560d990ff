package sprag.bench.evidence.prove;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import sprag.bench.evidence.prove.promise.GateView;
import sprag.bench.loop.TakenOut;
import sprag.bench.page.Page;
import sprag.supervisor.vocabulary.Fact;

/** Writes a proof as a page. */
final class ProofPage {
    private record Broken(
            String hazard,
            String id,
            String explanation,
            String ticks,
            String lanes,
            List<Told> story,
            List<Fact> facts) {}

    private record Promised(
            String hazard,
            String id,
            String explanation,
            boolean holds,
            String verdict,
            String ticks,
            List<Told> witness) {}

    private record Told(String ticks, String facts, String result) {}

    private record Explored(String watches, String states, String transitions, String depth) {}

    private record Needed(String what, String hazard, String breaks, String ticks, String gated) {}

    private ProofPage() {}

    /** The page.
     *
     * @param necessity null when it was not asked for
     */
    static String of(String vehicle, Proof proof, boolean gated, Necessity necessity) {
        String title = "Proof: " + vehicle + TakenOut.words(proof.without());
        String over = gated ? "Logic with the Gate in place" : "Logic alone, without the Gate";
        Map<String, Object> model = Map.ofEntries(
                Map.entry("good", proof.good()),
                Map.entry("verdict", verdict(proof)),
                Map.entry("states", ProofWords.count(proof.states(), "reachable state", "reachable states")),
                Map.entry("transitions", ProofWords.count(proof.transitions(), "transition", "transitions")),
                Map.entry("complete", proof.complete()),
                Map.entry("assumed", gated ? GateView.ASSUMPTION : ""),
                Map.entry("unreached", proof.unreached()),
                Map.entry(
                        "broken", proof.broken().stream().map(ProofPage::broken).toList()),
                Map.entry("stoppedBy", proof.stoppedBy()),
                Map.entry("outside", OutsideTheProof.ROWS),
                Map.entry(
                        "promises",
                        proof.verdicts().stream()
                                .map(verdict -> promised(verdict, proof.complete()))
                                .toList()),
                Map.entry(
                        "explorations",
                        proof.passes().stream().map(ProofPage::explored).toList()),
                Map.entry(
                        "needed",
                        necessity == null
                                ? List.of()
                                : necessity.rows().stream()
                                        .map(ProofPage::needed)
                                        .toList()));
        return Page.of(ProofPage.class, "proof.html", over, title, model);
    }

    private static String verdict(Proof proof) {
        int broken = proof.broken().size();
        if (broken > 0) {
            return ProofWords.count(broken, "promise is broken", "promises are broken");
        }
        return proof.good() ? "Every promise holds" : "No promise is broken, but the proof is not in order";
    }

    private static Broken broken(Proof.Verdict verdict) {
        Counterexample story = verdict.story().orElseThrow();
        return new Broken(
                verdict.hazard(),
                verdict.id(),
                verdict.explanation(),
                ProofWords.count(story.ticks().size(), "tick", "ticks"),
                new CounterexampleLanes(story).svg(),
                told(story),
                List.copyOf(story.facts()));
    }

    private static List<Told> told(Counterexample story) {
        return story.chapters().stream()
                .map(chapter -> new Told(
                        ProofWords.ticks(chapter),
                        ProofWords.facts(chapter.changed()),
                        ProofWords.result(chapter.shown())))
                .toList();
    }

    private static Promised promised(Proof.Verdict verdict, boolean complete) {
        String word = verdict.holds() ? "holds" : "broken";
        if (verdict.vacuous()) {
            word = verdict.id() + ProofWords.vacuous(complete);
        } else if (verdict.applied() == 0) {
            word = "nothing to say here: " + verdict.idle();
        }
        return new Promised(
                verdict.hazard(),
                verdict.id(),
                verdict.explanation(),
                verdict.holds() && !verdict.vacuous(),
                word,
                verdict.applied() == 0 ? "" : ProofWords.count(verdict.applied(), "tick", "ticks"),
                verdict.witness().map(ProofPage::told).orElse(List.of()));
    }

    private static Explored explored(Proof.Pass pass) {
        return new Explored(
                pass.watches(),
                number(pass.size().states()),
                number(pass.size().transitions()),
                number(pass.size().depth()));
    }

    private static Needed needed(Necessity.Row row) {
        return new Needed(
                row.what(),
                row.hazard(),
                row.broken().map(Proof.Verdict::id).orElse(row.nothing()),
                row.broken()
                        .flatMap(Proof.Verdict::story)
                        .map(story -> number(story.ticks().size()))
                        .orElse(""),
                row.gated().map(Proof.Verdict::id).orElse(""));
    }

    private static String number(long value) {
        return String.format(Locale.ROOT, "%,d", value);
    }
}
