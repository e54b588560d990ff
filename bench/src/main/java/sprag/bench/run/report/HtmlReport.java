package sprag.bench.run.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import sprag.bench.page.Page;
import sprag.bench.scenario.ExpectationVerdict.Outcome;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioStep;

/** Writes one run as a page. */
public final class HtmlReport {
    private static final int MOST_ACTED = 200;

    private final RunReport run;
    private final RunResult result;
    private final RunTime time;

    private record Expected(Outcome outcome, String text, String seen, String margin) {}

    private record Chapter(Entry.Kind kind, String time, String text, List<Follow> follows) {}

    private record Follow(Entry.Kind kind, String later, String text) {}

    private record Acted(String name, String from, String to, String text) {}

    private HtmlReport(RunReport run) {
        this.run = run;
        this.result = run.result();
        this.time = RunTime.of(result.endMs());
    }

    /** Writes the page. */
    public static String of(RunReport run) {
        HtmlReport report = new HtmlReport(run);
        Scenario scenario = run.result().scenario();
        String over = scenario.name() + ", on the simulated " + run.vehicle().name();
        RunDrawings drawings = new RunDrawings(run);
        int lastState = run.history().state(run.history().size() - 1);
        Map<String, Object> model = Map.ofEntries(
                Map.entry("scenario", scenario),
                Map.entry("passed", run.result().passed()),
                Map.entry("outcome", report.outcome()),
                Map.entry(
                        "noCharge",
                        NoChargeWords.of(run.history(), run.vehicle().settings())),
                Map.entry("expected", report.expected()),
                Map.entry("story", report.story()),
                Map.entry("left", run.timeline().left()),
                Map.entry("end", report.time.told(run.result().endMs())),
                Map.entry("lastState", run.history().channels().states().get(lastState)),
                Map.entry("acted", report.acted()),
                Map.entry("drawings", drawings.whole()),
                Map.entry("precharges", drawings.precharges()),
                Map.entry("hazards", String.join(", ", scenario.about().hazards())));
        return Page.of(HtmlReport.class, "report.html", over, scenario.about().title(), model);
    }

    private String outcome() {
        int all = result.judged().size();
        long unjudged = result.count(Outcome.ERROR) + result.missed().size();
        String cut = result.interrupted() ? " The run was stopped before its end." : "";
        if (result.passed()) {
            return "All " + all + " expectations are met.";
        }
        return result.count(Outcome.FAIL) + " of " + all + " expectations failed"
                + (unjudged > 0 ? ", " + unjudged + " could not be judged." : ".") + cut;
    }

    private List<Expected> expected() {
        List<Expected> all = new ArrayList<>();
        result.judged()
                .forEach(each -> all.add(new Expected(
                        each.verdict().outcome(),
                        each.expectation().text(),
                        each.verdict().detail(),
                        each.verdict().marginText())));
        for (ScenarioStep step : result.missed()) {
            all.add(new Expected(Outcome.ERROR, Outcomes.expected(step), Outcomes.missed(step), ""));
        }
        return all;
    }

    /** What happened: each thing that was done, with what followed from it. */
    private List<Chapter> story() {
        List<Chapter> story = new ArrayList<>();
        long causeMs = 0;
        for (Entry entry : run.timeline().entries()) {
            if (entry.isDone() || story.isEmpty()) {
                causeMs = entry.timeMs();
                story.add(new Chapter(entry.kind(), time.told(causeMs), capital(entry.full()), new ArrayList<>()));
            } else {
                String later = RunTime.later(entry.timeMs() - causeMs);
                story.get(story.size() - 1).follows().add(new Follow(entry.kind(), later, entry.full()));
            }
        }
        return story;
    }

    private List<Acted> acted() {
        return run.timeline().acted().stream()
                .filter(acted -> !acted.rule().quiet())
                .limit(MOST_ACTED)
                .map(acted -> new Acted(
                        acted.rule().name(),
                        time.told(acted.fromMs()),
                        acted.lasting() ? "the end" : time.told(acted.toMs()),
                        capital(acted.rule().cause()) + ". It " + acted.rule().response() + ": "
                                + acted.rule().why() + "."))
                .toList();
    }

    private static String capital(String text) {
        return text.isEmpty() ? text : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    }
}
