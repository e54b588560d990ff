package sprag.bench.evidence.prove;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.stream.Collectors;
import sprag.bench.page.Cautions;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;

/** A proof as a page that stands alone: no other file, no network. */
final class ProofPage {
    private static final String STYLE = "/sprag/bench/page/report.css";

    private final StringBuilder page = new StringBuilder(1 << 16);

    private ProofPage() {}

    /** The page.
     *
     * @param necessity null when it was not asked for
     */
    static String of(String vehicle, Proof proof, boolean gated, Necessity necessity) {
        ProofPage made = new ProofPage();
        made.head(vehicle, proof, gated);
        made.broken(proof);
        made.promises(proof);
        made.passes(proof);
        if (necessity != null) {
            made.necessity(necessity);
        }
        return made.page.append("</body>\n</html>\n").toString();
    }

    private void head(String vehicle, Proof proof, boolean gated) {
        String taken = proof.without().isEmpty()
                ? ""
                : " without " + proof.without().stream().map(Interlock::id).collect(Collectors.joining(", "));
        add("<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
        add("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
        add("<title>Proof: %s</title>\n<style>\n", vehicle + taken);
        page.append(style());
        page.append(".lanes { overflow-x: auto; } .lanes svg { max-width: none; }\n</style>\n</head>\n<body>\n");
        add("<p class=\"over\">%s</p>\n", gated ? "Logic with the Gate in place" : "Logic alone, the Gate taken out");
        add("<h1>Proof: %s</h1>\n", vehicle + taken);
        int broken = proof.broken().size();
        page.append("<p><span class=\"badge ")
                .append(proof.good() ? "pass" : "fail")
                .append("\">");
        add(
                "%s</span></p>\n",
                broken == 0
                        ? proof.good() ? "every promise holds" : "not everything is in order"
                        : ProofWords.count(broken, "promise is broken", "promises are broken"));
        add(
                "<p>%s of Logic, %s, %s. Every fact is free at every tick: whatever a lying sensor could say was tried.</p>\n",
                ProofWords.count(proof.states(), "reachable state", "reachable states"),
                ProofWords.count(proof.transitions(), "transition", "transitions"),
                proof.complete() ? "complete: every reachable state was visited" : "NOT complete: a limit was met");
        if (gated) {
            add("<p>Assumed: %s.</p>\n", GateView.ASSUMPTION);
        }
        proof.unreached()
                .forEach(dead -> add("<p class=\"fail\">Cannot happen: %s %s</p>\n", dead.kind(), dead.name()));
        add(
                "<aside><h2>Not a safety case</h2><p>%s</p><p>What is proved is the Logic that runs, over what its facts can say; "
                        + "sensors, wires, contactors and the conditioning before the facts are not in it.</p></aside>\n",
                Cautions.STANDING);
    }

    private void broken(Proof proof) {
        for (Proof.Verdict verdict : proof.broken()) {
            Counterexample story = verdict.story().orElseThrow();
            add(
                    "<h2 class=\"fail\">%s %s</h2>\n<p>%s: the shortest way, %s.</p>\n",
                    verdict.hazard(),
                    verdict.id(),
                    verdict.explanation(),
                    ProofWords.count(story.ticks().size(), "tick", "ticks"));
            page.append("<div class=\"lanes\">")
                    .append(new CounterexampleLanes(story).svg())
                    .append("</div>\n<ul class=\"story\">\n");
            for (Counterexample.Chapter chapter : story.chapters()) {
                add(
                        "<li><time>%s</time> %s<br><span class=\"state\">%s</span></li>\n",
                        ProofWords.ticks(chapter),
                        ProofWords.facts(chapter.changed()),
                        ProofWords.deed(chapter.shown()));
            }
            page.append("</ul>\n<p class=\"over\">");
            for (Fact fact : story.facts()) {
                add("%s: %s. ", fact.name(), fact.meaning);
            }
            page.append("</p>\n");
        }
    }

    private void promises(Proof proof) {
        page.append("<h2>Promises</h2>\n<table><tr><th>hazard</th><th>promise</th><th>never</th><th></th></tr>\n");
        for (Proof.Verdict verdict : proof.verdicts()) {
            add(
                    "<tr><td>%s</td><td><code>%s</code></td><td>%s</td>",
                    verdict.hazard(), verdict.id(), verdict.explanation());
            page.append(verdict.holds() ? "<td class=\"pass\">holds</td>" : "<td class=\"fail\">broken</td>")
                    .append("</tr>\n");
        }
        page.append("</table>\n");
    }

    private void passes(Proof proof) {
        page.append(
                "<h2>Explorations</h2>\n<table><tr><th>watched</th><th>states</th><th>transitions</th><th>depth</th></tr>\n");
        for (Proof.Pass pass : proof.passes()) {
            add(
                    "<tr><td>%s</td><td class=\"num\">%s</td><td class=\"num\">%s</td><td class=\"num\">%s</td></tr>\n",
                    pass.watches(),
                    number(pass.size().states()),
                    number(pass.size().transitions()),
                    number(pass.size().depth()));
        }
        page.append("</table>\n");
    }

    private void necessity(Necessity necessity) {
        page.append("<h2>What each is needed for</h2>\n");
        page.append("<table><tr><th>left out or changed</th><th>hazard</th><th>breaks first</th><th>ticks</th>");
        page.append("<th>with the Gate</th></tr>\n");
        for (Necessity.Row row : necessity.rows()) {
            String breaks =
                    row.broken().map(Proof.Verdict::id).orElse(row.finding() ? "nothing: a finding" : row.note());
            String ticks = row.broken()
                    .flatMap(Proof.Verdict::story)
                    .map(story -> number(story.ticks().size()))
                    .orElse("");
            add(
                    "<tr><td>%s</td><td>%s</td><td>%s</td><td class=\"num\">%s</td><td>%s</td></tr>\n",
                    row.what(),
                    row.hazard(),
                    breaks,
                    ticks,
                    row.gated().map(Proof.Verdict::id).orElse(""));
        }
        page.append("</table>\n");
    }

    private static String number(long value) {
        return String.format(Locale.ROOT, "%,d", value);
    }

    private void add(String pattern, Object... values) {
        Object[] escaped = new Object[values.length];
        for (int i = 0; i < values.length; i++) {
            escaped[i] = String.valueOf(values[i])
                    .replace("&", "&amp;")
                    .replace("<", "&lt;")
                    .replace(">", "&gt;");
        }
        page.append(String.format(Locale.ROOT, pattern, escaped));
    }

    private static String style() {
        try (InputStream css = ProofPage.class.getResourceAsStream(STYLE)) {
            return new String(css.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read " + STYLE, e);
        }
    }
}
