package sprag.bench.evidence.prove;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import sprag.bench.cli.Wrap;
import sprag.bench.evidence.prove.promise.GateView;
import sprag.bench.loop.TakenOut;

/** A proof for a terminal of 80 columns. */
record ProofText(PrintWriter out) {

    void proof(String vehicle, Proof proof, boolean gated, double seconds) {
        String taken = TakenOut.words(proof.without());
        wrapped("", "  ", vehicle + taken + (gated ? ", the Gate in place" : ", Logic alone"));
        out.println("  " + ProofWords.count(proof.states(), "reachable state", "reachable states") + " of Logic; "
                + ProofWords.count(proof.transitions(), "transition", "transitions") + " in "
                + ProofWords.count(proof.passes().size(), "exploration", "explorations"));
        out.println(String.format(Locale.ROOT, "  %.1f s; ", seconds) + completeness(proof));
        out.println("  every fact may have any value in every tick, so a lying sensor is included");
        if (gated) {
            wrapped("  assumed: ", "           ", GateView.ASSUMPTION);
        }
        out.println();
        int broken = proof.broken().size();
        int silent = proof.idle().size() + proof.vacuous().size();
        out.println("  " + ProofWords.count(proof.verdicts().size() - broken - silent, "promise holds", "promises hold")
                + (broken == 0 ? "; none is broken" : "; " + broken + (broken == 1 ? " is broken" : " are broken")));
        proof.idle()
                .forEach(verdict ->
                        wrapped("  ", "    ", verdict.id() + " has nothing to say on this vehicle: " + verdict.idle()));
        proof.vacuous()
                .forEach(verdict -> wrapped(
                        "  ", "    ", verdict.hazard() + " " + verdict.id() + ProofWords.vacuous(proof.complete())));
        proof.broken().forEach(this::broken);
        if (!proof.unreached().isEmpty()) {
            out.println();
            out.println("  Written in the code but cannot happen:");
            proof.unreached().forEach(dead -> out.println("    " + dead.kind() + " " + dead.name()));
        } else if (proof.complete()) {
            out.println("  every state, step, transition, interlock, charge phase and action can happen");
        }
    }

    private static String completeness(Proof proof) {
        return proof.complete() ? "complete: every reachable state was visited" : "NOT COMPLETE: " + proof.stoppedBy();
    }

    private void broken(Proof.Verdict verdict) {
        Counterexample story = verdict.story().orElseThrow();
        out.println();
        out.println("  " + verdict.hazard() + " " + verdict.id() + " is broken; the shortest way takes "
                + ProofWords.count(story.ticks().size(), "tick", "ticks"));
        wrapped("      ", "      ", verdict.explanation());
        for (Counterexample.Chapter chapter : story.chapters()) {
            String facts = ProofWords.facts(chapter.changed());
            wrapped(
                    String.format("    %-18s", ProofWords.ticks(chapter)),
                    " ".repeat(22),
                    facts.isEmpty() ? "(nothing changes)" : facts);
            wrapped(" ".repeat(22) + "-> ", " ".repeat(25), ProofWords.result(chapter.shown()));
        }
    }

    void necessity(Necessity necessity, double seconds) {
        out.println();
        out.printf(Locale.ROOT, "What each interlock and each wait is needed for (%.1f s):%n%n", seconds);
        out.printf("  %-38s %-5s%s%n", "left out or changed", "", "breaks first, in how many ticks");
        for (Necessity.Row row : necessity.rows()) {
            wrapped(
                    String.format("  %-38s %-5s", row.what(), row.hazard()),
                    " ".repeat(46),
                    row.broken().map(ProofText::breaks).orElse(nothing(row)));
            if (!row.hazard().isEmpty() && row.broken().isPresent() && !same(row)) {
                String gated = row.gated().map(ProofText::breaks).orElse("nothing");
                wrapped(" ".repeat(46) + "with the Gate: ", " ".repeat(48), gated);
            }
        }
        out.println();
        List<Necessity.Row> findings = necessity.findings();
        long known = findings.stream().filter(Necessity.Row::isKnown).count();
        if (findings.isEmpty()) {
            out.println("  Every interlock and every wait is needed.");
        }
        if (known > 0) {
            out.println("  " + ProofWords.count(known, "removal breaks", "removals break")
                    + " nothing: redundant, or a promise is missing.");
        }
        if (known < findings.size()) {
            out.println("  " + ProofWords.count(findings.size() - known, "row is", "rows are") + " not known.");
        }
    }

    private static String nothing(Necessity.Row row) {
        if (row.note().isEmpty()) {
            return "NOTHING: a finding";
        }
        return row.isKnown() ? "- " + row.note() : row.note();
    }

    private void wrapped(String first, String rest, String text) {
        Wrap.hanging(first, rest, text, Wrap.TERMINAL_COLUMNS).forEach(out::println);
    }

    private static boolean same(Necessity.Row row) {
        return row.gated().map(Proof.Verdict::id).equals(row.broken().map(Proof.Verdict::id));
    }

    private static String breaks(Proof.Verdict verdict) {
        return verdict.id() + " (" + verdict.story().orElseThrow().ticks().size() + ")";
    }
}
