package sprag.bench.evidence.campaign;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import sprag.bench.evidence.campaign.harm.Harm;
import sprag.bench.evidence.campaign.play.FaultOutcome;
import sprag.bench.evidence.campaign.play.FaultOutcome.Verdict;
import sprag.bench.page.Page;
import sprag.bench.vehicle.Vehicle;

/** Writes a campaign as a page: what could hurt, what was noticed too late, what nothing noticed, and the rest. */
final class CampaignPage {
    /** More rows of runs that went well would only make the page heavy. The file beside it has all of them. */
    private static final int MOST_ROWS = 400;

    private static final String NO_BREAK = "\u00a0";

    private record Count(Verdict verdict, String style, int runs, String meaning) {}

    private record Section(String title, String amount, int runs, List<Row> rows, int more) {}

    private record Row(
            String fault,
            String moments,
            String interlock,
            String detect,
            String exposed,
            String budget,
            String harm) {}

    private record Undetected(String fault, int moments, String remedy) {}

    private CampaignPage() {}

    static String of(Vehicle vehicle, CampaignKey key, List<FaultOutcome> worstFirst, Campaign campaign) {
        List<Count> counts = new ArrayList<>();
        Campaign.count(worstFirst)
                .forEach((verdict, runs) -> counts.add(new Count(verdict, style(verdict), runs, meaning(verdict))));
        List<Section> sections = List.of(
                section(vehicle, "What could hurt", worstFirst, Verdict.HARM),
                section(vehicle, "What was noticed too late", worstFirst, Verdict.LATE),
                section(
                        vehicle,
                        "What was noticed in time, the closest to its budget first",
                        worstFirst,
                        Verdict.SAFE));
        return Page.of(
                CampaignPage.class,
                "campaign.html",
                "one fault at one moment of a day in each run, on the simulated " + vehicle.name(),
                "Fault campaign: " + vehicle.name(),
                Map.of(
                        "share",
                        Stream.of(key.share(worstFirst.size()))
                                .filter(sentence -> !sentence.isEmpty())
                                .toList(),
                        "runs",
                        worstFirst.size(),
                        "counts",
                        counts,
                        "sections",
                        sections,
                        "undetected",
                        undetected(worstFirst, campaign),
                        "drawn",
                        campaign.isWired()));
    }

    /** One row for what one interlock noticed of one fault, with the worst of its moments. */
    private static Section section(Vehicle vehicle, String title, List<FaultOutcome> all, Verdict verdict) {
        Map<String, List<FaultOutcome>> groups = new LinkedHashMap<>();
        all.stream()
                .filter(o -> o.verdict() == verdict)
                .forEach(o -> groups.computeIfAbsent(o.fault() + " " + o.interlock(), key -> new ArrayList<>())
                        .add(o));
        int runs = groups.values().stream().mapToInt(List::size).sum();
        List<Row> rows = groups.values().stream()
                .limit(MOST_ROWS)
                .map(group -> row(vehicle, group))
                .toList();
        String amount = verdict == Verdict.HARM ? "Harm" : "Unasked torque";
        return new Section(title, amount, runs, rows, groups.size() - rows.size());
    }

    private static Row row(Vehicle vehicle, List<FaultOutcome> group) {
        FaultOutcome worst = group.get(0);
        return new Row(
                worst.fault(),
                String.join(
                        ", ",
                        group.stream().map(o -> o.moment().replace('_', ' ')).toList()),
                worst.interlock().isEmpty() ? "nothing" : worst.interlock(),
                ms(worst.detectMs()),
                ms(worst.exposedMs()),
                ms(worst.budgetMs()),
                worst.verdict() == Verdict.HARM
                        ? harm(vehicle, worst)
                        : unaskedTorque(worst).replace(" ", NO_BREAK));
    }

    private static String ms(double ms) {
        return ms < 0 ? "never" : String.format(Locale.ROOT, "%.0f ms", ms);
    }

    /** What harm there was, in words: each amount above its limit, with the limit. */
    static String harm(Vehicle vehicle, FaultOutcome o) {
        List<String> words = o.beyondLimits(vehicle).stream()
                .map(row -> String.format(
                        Locale.ROOT,
                        "%s %s %s (limit %s)",
                        figure(o.amount(row)),
                        row.unit,
                        row.meaning,
                        figure(row.limit(vehicle))))
                .toList();
        return words.isEmpty() ? "none" : String.join("; ", words);
    }

    /** The harm, or what unasked torque there was when nothing was beyond a limit, with its name. */
    static String amount(Vehicle vehicle, FaultOutcome o) {
        return o.verdict() == Verdict.HARM ? "harm: " + harm(vehicle, o) : "unasked torque: " + unaskedTorque(o);
    }

    /** The torque nobody asked for, in the rows that did no harm. */
    static String unaskedTorque(FaultOutcome o) {
        return figure(o.amount(Harm.UNASKED_TORQUE)) + " " + Harm.UNASKED_TORQUE.unit;
    }

    private static String figure(double amount) {
        return String.format(Locale.ROOT, amount >= 100 ? "%.0f" : amount >= 10 ? "%.1f" : "%.2f", amount);
    }

    private static List<Undetected> undetected(List<FaultOutcome> all, Campaign campaign) {
        Map<String, Integer> moments = new TreeMap<>();
        all.stream()
                .filter(o -> o.verdict() == Verdict.UNDETECTED)
                .forEach(o -> moments.merge(o.fault(), 1, Integer::sum));
        List<Undetected> rows = new ArrayList<>();
        moments.forEach((fault, count) -> rows.add(new Undetected(fault, count, campaign.remedy(fault))));
        return rows;
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
