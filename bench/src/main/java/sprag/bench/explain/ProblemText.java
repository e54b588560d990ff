package sprag.bench.explain;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import sprag.bench.cli.Wrap;
import sprag.bench.explain.KeyTexts.KeyText;
import sprag.bench.vehicle.Problem;

/**
 * The problems of a file in the order in which they are best mended, a screen of them at most: first what is written and wrong, then what
 * is missing, section by section with its meaning.
 */
public final class ProblemText {
    private static final int COLUMNS = 80;
    /** With the last line of the program and the line that was typed it fills a screen of 24 lines. */
    private static final int SCREEN_LINES = 20;
    /** So many of the missing keys are told one by one in any case. */
    private static final int FEW = 3;

    private static final String ALL = " With SPRAG_PROBLEMS=all in the environment all are told.";

    private ProblemText() {}

    /** The problems in lines.
     *
     * @param whole whether all are told, however many
     */
    public static List<String> lines(List<Problem> problems, boolean whole) {
        List<Problem> wrong = problems.stream().filter(p -> !p.isMissingKey()).toList();
        List<Problem> missing = problems.stream().filter(Problem::isMissingKey).toList();
        if (missing.size() <= FEW) {
            wrong = problems;
            missing = List.of();
        }
        List<String> lines = new ArrayList<>();
        for (int i = 0; i < wrong.size(); i++) {
            String message = wrong.get(i).message();
            int needed = Wrap.lines(message, COLUMNS).size();
            int have =
                    lines.stream().mapToInt(l -> Wrap.lines(l, COLUMNS).size()).sum();
            if (!whole && i > 0 && have + needed > SCREEN_LINES) {
                int left = wrong.size() - i;
                String absent = missing.isEmpty() ? "" : ", and " + missing.size() + " missing keys";
                lines.add("... and " + left + " more" + absent + ". Correct these first." + ALL);
                return lines;
            }
            lines.add(message);
        }
        if (!missing.isEmpty()) {
            int used =
                    lines.stream().mapToInt(l -> Wrap.lines(l, COLUMNS).size()).sum();
            missing(missing, whole ? Integer.MAX_VALUE : Math.max(4, SCREEN_LINES - used - 4), lines);
        }
        return lines;
    }

    private static void missing(List<Problem> missing, int most, List<String> lines) {
        Map<String, List<Problem>> bySection = new LinkedHashMap<>();
        for (Problem each : missing) {
            int dot = each.key().lastIndexOf('.');
            bySection
                    .computeIfAbsent(each.key().substring(0, Math.max(0, dot)), s -> new ArrayList<>())
                    .add(each);
        }
        Map<String, KeyText> texts = KeyTexts.all();
        Problem first = missing.get(0);
        lines.add(first.file() + ":" + first.line() + ": " + missing.size() + " keys that must be there are missing.");
        List<String> told = new ArrayList<>();
        List<String> later = new ArrayList<>();
        bySection.forEach((section, keys) -> {
            List<String> these = section(section, keys, texts);
            if (later.isEmpty() && (told.isEmpty() || told.size() + these.size() <= most)) {
                told.addAll(these);
            } else {
                later.add("[" + section + "] " + keys.size());
            }
        });
        lines.addAll(told);
        if (!later.isEmpty()) {
            lines.addAll(Wrap.hanging("  ", "  ", "... and in " + String.join(", ", later) + "." + ALL, COLUMNS));
        }
        lines.add("  \"sprag new FOLDER\" writes a file with every key; \"sprag key NAME\" explains one.");
    }

    private static List<String> section(String section, List<Problem> keys, Map<String, KeyText> texts) {
        List<String> lines = new ArrayList<>();
        lines.add("  [" + section + "]");
        for (Problem each : keys) {
            String name = each.key().substring(each.key().lastIndexOf('.') + 1);
            KeyText text = texts.get(each.key());
            String meaning = text == null ? each.allowed() : text.meaning();
            String first = String.format("    %-22s ", name);
            lines.addAll(Wrap.hanging(first, " ".repeat(first.length()), meaning, COLUMNS));
        }
        return lines;
    }
}
