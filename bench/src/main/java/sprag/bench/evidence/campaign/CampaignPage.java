package sprag.bench.evidence.campaign;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import sprag.bench.evidence.campaign.FaultOutcome.Verdict;
import sprag.bench.page.Html;
import sprag.bench.page.Page;
import sprag.bench.vehicle.Vehicle;

/** A campaign as a page: what could hurt, what came late, what nothing noticed and what would, and the rest. */
final class CampaignPage {
    /** Beyond this many rows of well-behaved runs the page would only be heavy; all of them are in the file beside it. */
    private static final int MOST_ROWS = 400;

    private CampaignPage() {}

    static String of(Vehicle vehicle, List<FaultOutcome> worstFirst) {
        Page page = new Page(
                "every single fault at every moment, on the simulated " + vehicle.name(),
                "Fault campaign: " + vehicle.name());
        Map<Verdict, Integer> counts = Campaign.count(worstFirst);
        page.raw(
                "<p>" + worstFirst.size()
                        + " runs. Each is the same drive or charge with one fault added, so every difference comes from that fault. "
                        + "Times count from the first reading that the fault visibly changed. Exposed is how long the car was not yet as the interlock asks. The budget is that of the interlock that noticed the fault.</p>\n");
        page.raw("<table><thead><tr><th>Verdict</th><th>Runs</th><th>Meaning</th></tr></thead><tbody>\n");
        counts.forEach((verdict, count) -> page.raw(
                "<tr><td class=\"" + style(verdict) + "\">" + verdict.name().toLowerCase(Locale.ROOT)
                        + "</td><td class=\"num\">" + count + "</td><td>" + meaning(verdict) + "</td></tr>\n"));
        page.raw("</tbody></table>\n");
        page.cautions();
        section(page, "What could hurt", worstFirst, Verdict.HARM);
        section(page, "What was noticed too late", worstFirst, Verdict.LATE);
        undetected(page, worstFirst);
        section(page, "What was noticed in time, the closest to its budget first", worstFirst, Verdict.SAFE);
        return page.end();
    }

    /** One row for what one interlock noticed of one fault, with the worst of its moments. */
    private static void section(Page page, String title, List<FaultOutcome> all, Verdict verdict) {
        Map<String, List<FaultOutcome>> groups = new LinkedHashMap<>();
        all.stream()
                .filter(o -> o.verdict() == verdict)
                .forEach(o -> groups.computeIfAbsent(o.fault() + " " + o.interlock(), key -> new ArrayList<>())
                        .add(o));
        int runs = groups.values().stream().mapToInt(List::size).sum();
        page.raw("<section>\n<h2>" + Html.escape(title) + " (" + runs + " runs)</h2>\n");
        if (groups.isEmpty()) {
            page.raw("<p>None.</p>\n</section>\n");
            return;
        }
        page.raw("<table class=\"stack\"><thead><tr><th>Fault and when</th><th>Noticed by</th><th>Detection</th>"
                + "<th>Exposed</th><th>Budget</th><th>Harm</th></tr></thead><tbody>\n");
        groups.values().stream().limit(MOST_ROWS).forEach(group -> page.raw(row(group)));
        page.raw("</tbody></table>\n");
        if (groups.size() > MOST_ROWS) {
            page.raw("<p>" + (groups.size() - MOST_ROWS) + " more in campaign.csv.</p>\n");
        }
        page.raw("</section>\n");
    }

    private static String row(List<FaultOutcome> group) {
        FaultOutcome worst = group.get(0);
        String moments = String.join(
                ", ", group.stream().map(o -> o.moment().replace('_', ' ')).toList());
        return "<tr><td><code>" + Html.escape(worst.fault()) + "</code><br>" + moments
                + "</td><td data-label=\"noticed by\">" + (worst.interlock().isEmpty() ? "nothing" : worst.interlock())
                + "</td><td class=\"num\" data-label=\"detection\">" + ms(worst.detectMs())
                + "</td><td class=\"num\" data-label=\"exposed\">" + ms(worst.exposedMs())
                + "</td><td class=\"num\" data-label=\"budget\">" + ms(worst.budgetMs())
                + "</td><td data-label=\"harm\">"
                + harm(worst).replace(" ", "&nbsp;").replace(",&nbsp;", ", ")
                + "</td></tr>\n";
    }

    private static String ms(double ms) {
        return ms < 0 ? "never" : String.format(Locale.ROOT, "%.0f ms", ms);
    }

    /** The quantities that are not zero, in words. */
    static String harm(FaultOutcome o) {
        StringBuilder words = new StringBuilder();
        add(words, o.unaskedNms(), "%.1f Nm s unasked");
        add(words, o.arcJ(), "%.1f J arc");
        add(words, o.inrushJ(), "%.1f J inrush");
        add(words, o.overV(), "%.2f V over");
        add(words, o.tetheredM(), "%.2f m tethered");
        return words.length() == 0 ? "none" : words.toString();
    }

    private static void add(StringBuilder words, double amount, String pattern) {
        if (amount > 0.05) {
            words.append(words.length() == 0 ? "" : ", ").append(String.format(Locale.ROOT, pattern, amount));
        }
    }

    private static void undetected(Page page, List<FaultOutcome> all) {
        Map<String, Integer> moments = new TreeMap<>();
        all.stream()
                .filter(o -> o.verdict() == Verdict.UNDETECTED)
                .forEach(o -> moments.merge(o.fault(), 1, Integer::sum));
        page.raw(
                "<section>\n<h2>What nothing noticed (" + moments.size() + " faults)</h2>\n"
                        + "<p>None of these did harm in these runs. Other drives may differ: read the last column.</p>\n"
                        + "<table class=\"stack\"><thead><tr><th>Fault</th><th>Moments</th><th>What would notice it</th></tr></thead><tbody>\n");
        moments.forEach((fault, count) -> page.raw(
                "<tr><td><code>" + Html.escape(fault) + "</code></td><td class=\"num\" data-label=\"moments\">" + count
                        + "</td><td data-label=\"would notice it\">" + Html.escape(Remedy.of(fault)) + "</td></tr>\n"));
        page.raw("</tbody></table>\n</section>\n");
    }

    private static String style(Verdict verdict) {
        return switch (verdict) {
            case HARM -> "fail";
            case LATE, UNDETECTED -> "error";
            case SAFE, DORMANT -> "pass";
        };
    }

    static String meaning(Verdict verdict) {
        return switch (verdict) {
            case HARM -> "something happened that could hurt";
            case LATE -> "noticed, but not within the budget";
            case UNDETECTED -> "nothing noticed it; no harm in these runs";
            case SAFE -> "noticed and answered within the budget";
            case DORMANT -> "changed nothing that anybody could see";
        };
    }
}
