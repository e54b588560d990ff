package sprag.bench.run.report;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import sprag.bench.cli.Wrap;
import sprag.bench.scenario.ExpectationVerdict;
import sprag.bench.scenario.ExpectationVerdict.Outcome;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.RunResult.Judged;
import sprag.bench.scenario.ScenarioStep;

/**
 * Tells runs on a terminal of 80 columns.
 *
 * @param colour whether colour may be used
 */
public record Terminal80(PrintWriter out, boolean colour) {

    private static final int STATE_AT = 10;
    private static final int TEXT_AT = 26;
    private static final int STORY_AT = 14;

    /** Tells one run in full. */
    public void run(RunReport run) {
        heading(run);
        timeline(run);
        out.println();
        String harm = HarmWords.of(run.history());
        if (!harm.isEmpty()) {
            paragraph(harm);
            out.println();
        }
        String noCharge = NoChargeWords.of(run.history(), run.vehicle().settings());
        if (!noCharge.isEmpty()) {
            paragraph(noCharge);
            out.println();
        }
        run.result().judged().forEach(this::judged);
        run.result().missed().forEach(this::missed);
        out.println();
        out.println(summary(run.result()));
    }

    private void heading(RunReport run) {
        paragraph(run.result().scenario().about().title() + " ("
                + run.result().scenario().name() + " on " + run.vehicle().name() + ")");
        paragraph(run.result().scenario().about().why().strip());
        out.println();
    }

    /** Tells what happened. */
    public void timeline(RunReport run) {
        RunTime time = RunTime.of(run.result().endMs());
        int wider = time.width - RunTime.SECONDS.width;
        String column = "%" + time.width + "s  ";
        out.printf(Locale.ROOT, column + "%-14s  %s%n", time.heading, "state", "what happened");
        List<String> states = run.history().channels().states();
        if (run.history().size() > 0) {
            out.printf(
                    Locale.ROOT,
                    column + "%s%n",
                    time.at(0),
                    states.get(run.history().state(0)));
        }
        for (Entry entry : run.timeline().entries()) {
            String sign = entry.kind() == Entry.Kind.STATE ? "" : entry.kind().sign + " ";
            List<String> lines =
                    Wrap.lines(entry.besideState(), Wrap.TERMINAL_COLUMNS - TEXT_AT - wider - sign.length());
            out.printf(
                    Locale.ROOT,
                    column + "%-14s  %s%n",
                    time.at(entry.timeMs()),
                    entry.state(),
                    paint(entry.kind(), sign + lines.get(0)));
            for (String line : lines.subList(1, lines.size())) {
                out.println(" ".repeat(TEXT_AT + wider + sign.length()) + paint(entry.kind(), line));
            }
        }
        if (run.timeline().left() > 0) {
            out.println(" ".repeat(STATE_AT + wider) + run.timeline().left()
                    + " further lines are left out; see trace.csv");
        }
    }

    /** Tells what was done and what came of it, without every single command. */
    public void story(RunReport run) {
        RunTime time = RunTime.of(run.result().endMs());
        for (Entry entry : run.timeline().entries()) {
            if (entry.kind() != Entry.Kind.COMMAND) {
                String sign = entry.kind().sign;
                String told = entry.kind() == Entry.Kind.STATE ? entry.full() : entry.text();
                List<String> lines = Wrap.lines(told, Wrap.TERMINAL_COLUMNS - STORY_AT);
                out.printf(
                        Locale.ROOT,
                        "%10s  %s %s%n",
                        time.told(entry.timeMs()),
                        sign,
                        paint(entry.kind(), lines.get(0)));
                lines.subList(1, lines.size())
                        .forEach(line -> out.println(" ".repeat(STORY_AT) + paint(entry.kind(), line)));
            }
        }
    }

    private String paint(Entry.Kind kind, String text) {
        return switch (kind) {
            case DONE, FAULT -> Ansi.BOLD.on(colour, text);
            case INTERLOCK -> Ansi.YELLOW.on(colour, text);
            default -> text;
        };
    }

    private void judged(Judged judged) {
        ExpectationVerdict verdict = judged.verdict();
        List<String> lines = Wrap.lines(judged.expectation().text(), Wrap.TERMINAL_COLUMNS - 7);
        out.println(word(verdict.outcome()) + "  " + lines.get(0));
        lines.subList(1, lines.size()).forEach(line -> out.println(" ".repeat(7) + line));
        String margin = verdict.marginText().isEmpty() ? "" : "; margin " + verdict.marginText();
        Wrap.lines(verdict.detail() + margin, Wrap.TERMINAL_COLUMNS - 9)
                .forEach(line -> out.println(" ".repeat(9) + line));
    }

    private void missed(ScenarioStep step) {
        out.println(word(Outcome.ERROR) + "  " + Outcomes.expected(step));
        Wrap.lines(Outcomes.missed(step), Wrap.TERMINAL_COLUMNS - 9).forEach(line -> out.println(" ".repeat(9) + line));
    }

    private String word(Outcome outcome) {
        Ansi paint = outcome == Outcome.PASS ? Ansi.GREEN : outcome == Outcome.FAIL ? Ansi.RED : Ansi.YELLOW;
        return paint.on(
                colour, String.format(Locale.ROOT, "%-5s", outcome.name().toLowerCase(Locale.ROOT)));
    }

    /** One line about a run. For example {@code 5 of 5 expectations met}. */
    public static String summary(RunResult result) {
        long unjudged = result.count(Outcome.ERROR);
        String text = result.count(Outcome.PASS) + " of " + result.judged().size() + " expectations met";
        text += unjudged > 0 ? ", " + unjudged + " could not be judged" : "";
        text += result.missed().isEmpty() ? "" : ", " + result.missed().size() + " steps not done";
        return text + (result.interrupted() ? ", stopped before the end" : "");
    }

    /** Prints several runs: one line each, what went wrong, and how many planned runs were not played. */
    public void table(List<RunResult> runs, int planned) {
        int widest =
                runs.stream().mapToInt(r -> r.scenario().name().length()).max().orElse(0);
        int nameWidth = Math.min(36, Math.max(8, widest));
        out.printf(Locale.ROOT, "       %-" + nameWidth + "s  %7s  %s%n", "scenario", "seconds", "expectations");
        for (RunResult run : runs) {
            Outcome outcome = Outcomes.of(run);
            out.printf(
                    Locale.ROOT,
                    "%s  %-" + nameWidth + "s  %7.1f  %s%n",
                    word(outcome),
                    run.scenario().name(),
                    run.endMs() / 1000.0,
                    run.count(Outcome.PASS) + " of " + run.judged().size());
        }
        for (RunResult run : runs) {
            if (!run.passed()) {
                out.println();
                paragraph(run.scenario().name() + ": " + run.scenario().about().title());
                run.judged().stream().filter(j -> !j.verdict().passed()).forEach(this::judged);
                run.missed().forEach(this::missed);
            }
        }
        long passed = runs.stream().filter(RunResult::passed).count();
        out.println();
        out.println(passed + " of " + planned + " scenarios as expected"
                + (runs.size() == planned ? "" : "; interrupted, so " + (planned - runs.size()) + " were not played"));
    }

    /** Prints a paragraph. */
    public void paragraph(String text) {
        Wrap.lines(text, Wrap.TERMINAL_COLUMNS).forEach(out::println);
    }

    private enum Ansi {
        BOLD("1"),
        GREEN("32"),
        YELLOW("33"),
        RED("31");

        private final String code;

        Ansi(String code) {
            this.code = code;
        }

        String on(boolean colour, String text) {
            return colour && !text.isEmpty() ? "\u001b[" + code + "m" + text + "\u001b[0m" : text;
        }
    }
}
