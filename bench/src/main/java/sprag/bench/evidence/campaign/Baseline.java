package sprag.bench.evidence.campaign;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import sprag.bench.evidence.campaign.harm.Harm;
import sprag.bench.evidence.campaign.play.FaultMoment;
import sprag.bench.evidence.campaign.play.FaultOutcome;
import sprag.bench.evidence.campaign.play.FaultOutcome.Verdict;
import sprag.bench.vehicle.Vehicle;

/**
 * What a campaign has found, in a form that is short enough to keep: one line a fault, one entry for each run of moments with
 * the same result. A later campaign is compared with it row by row.
 */
final class Baseline {
    private static final Map<String, Integer> MOMENTS =
            Arrays.stream(FaultMoment.values()).collect(Collectors.toMap(FaultMoment::key, FaultMoment::ordinal));
    private static final String NOTHING = "nothing";

    /**
     * What came of one fault at one moment, as far as it is compared.
     *
     * @param interlock what noticed it first, empty for none
     * @param detail exposure and budget, or the harms with their amounts
     */
    record Result(Verdict verdict, String interlock, String detail) {
        static Result of(Vehicle vehicle, FaultOutcome o) {
            return new Result(
                    o.verdict(),
                    o.interlock(),
                    switch (o.verdict()) {
                        case HARM ->
                            o.beyondLimits(vehicle).stream()
                                    .map(row -> row.key() + "=" + figure(o.amount(row)))
                                    .collect(Collectors.joining(","));
                        case LATE -> ms(o.exposedMs()) + "/" + ms(o.budgetMs());
                        case SAFE -> ms(o.exposedMs());
                        case UNDETECTED, DORMANT -> "";
                    });
        }

        private static String ms(double ms) {
            return Math.round(ms) + "ms";
        }

        /** Two digits: more would only tell one processor from another. */
        private static String figure(double amount) {
            return String.format(Locale.ROOT, "%.1e", amount);
        }

        @Override
        public String toString() {
            String name = verdict.name().toLowerCase(Locale.ROOT);
            return switch (verdict) {
                case UNDETECTED, DORMANT -> name;
                default -> name + " " + (interlock.isEmpty() ? NOTHING : interlock) + " " + detail;
            };
        }

        static Result parse(String text) {
            String[] words = text.split(" ");
            Verdict verdict = Verdict.valueOf(words[0].toUpperCase(Locale.ROOT));
            boolean short1 = words.length < 3;
            return new Result(verdict, short1 || words[1].equals(NOTHING) ? "" : words[1], short1 ? "" : words[2]);
        }
    }

    /** Results by fault, and in each by moment. */
    final Map<String, TreeMap<Integer, Result>> faults = new TreeMap<>();

    static Baseline of(Vehicle vehicle, List<FaultOutcome> outcomes) {
        Baseline made = new Baseline();
        outcomes.forEach(o -> made.put(o.fault(), MOMENTS.get(o.moment()), Result.of(vehicle, o)));
        return made;
    }

    /** Reads what {@link #toString} has written.
     *
     * @throws IllegalArgumentException for a line that is none; the message names it
     */
    static Baseline parse(List<String> lines) {
        Baseline read = new Baseline();
        for (int i = 0; i < lines.size(); i++) {
            String line = lines.get(i);
            try {
                if (!line.isBlank() && !line.startsWith("#")) {
                    read.take(line);
                }
            } catch (RuntimeException e) {
                throw new IllegalArgumentException("line " + (i + 1) + " is no line of a baseline: " + line, e);
            }
        }
        return read;
    }

    private void take(String line) {
        int at = line.indexOf(": ");
        String fault = line.substring(0, at);
        for (String entry : line.substring(at + 2).split("; ")) {
            int space = entry.indexOf(' ');
            String[] ends = entry.substring(0, space).split("\\.\\.");
            int last = MOMENTS.get(ends[ends.length - 1]);
            for (int m = MOMENTS.get(ends[0]); m <= last; m++) {
                put(fault, m, Result.parse(entry.substring(space + 1)));
            }
        }
    }

    private void put(String fault, int moment, Result result) {
        faults.computeIfAbsent(fault, f -> new TreeMap<>()).put(moment, result);
    }

    /** One line a fault. */
    @Override
    public String toString() {
        StringBuilder text =
                new StringBuilder("# What a campaign has found: fault: moments verdict noticed-by amount; ...\n");
        faults.forEach((fault, results) -> text.append(fault)
                .append(": ")
                .append(spans(results).entrySet().stream()
                        .map(e -> e.getKey() + " " + e.getValue())
                        .collect(Collectors.joining("; ")))
                .append('\n'));
        return text.toString();
    }

    private static Map<String, Result> spans(TreeMap<Integer, Result> results) {
        Map<String, Result> spans = new LinkedHashMap<>();
        int from = -1;
        for (int m : results.keySet()) {
            from = from < 0 ? m : from;
            boolean goesOn = results.containsKey(m + 1) && results.get(m + 1).equals(results.get(m));
            if (!goesOn) {
                spans.put(span(from, m), results.get(m));
                from = -1;
            }
        }
        return spans;
    }

    private static String span(int from, int to) {
        String first = FaultMoment.values()[from].key();
        return from == to ? first : first + ".." + FaultMoment.values()[to].key();
    }

    /** Every row that is not as in an earlier campaign, one line each.
     *
     * @param whole whether rows that only the earlier one has count as well
     */
    List<String> differencesFrom(Baseline accepted, boolean whole) {
        List<String> lines = new ArrayList<>();
        faults.forEach((fault, results) -> results.forEach((m, now) -> {
            Result then = accepted.faults.getOrDefault(fault, new TreeMap<>()).get(m);
            if (!now.equals(then)) {
                lines.add(row(fault, m) + ": was " + (then == null ? "not there" : then) + ", is " + now);
            }
        }));
        if (whole) {
            accepted.faults.forEach((fault, results) -> results.forEach((m, then) -> {
                if (!faults.getOrDefault(fault, new TreeMap<>()).containsKey(m)) {
                    lines.add(row(fault, m) + ": was " + then + ", is not there");
                }
            }));
        }
        lines.sort(Comparator.naturalOrder());
        return lines;
    }

    private static String row(String fault, int moment) {
        return FaultMoment.values()[moment].key() + " " + fault;
    }

    /** How many single faults at single moments came out in a certain way. */
    long count(Verdict verdict) {
        return faults.entrySet().stream()
                .filter(e -> !FaultOutcome.isPair(e.getKey()))
                .flatMap(e -> e.getValue().values().stream())
                .filter(result -> result.verdict() == verdict)
                .count();
    }

    /** The table of a page: every single fault that did harm or was noticed late, in Markdown. */
    String table() {
        StringBuilder rows = new StringBuilder(
                "| fault | when | noticed by | what happened | what would help |\n|---|---|---|---|---|\n");
        for (Verdict verdict : List.of(Verdict.HARM, Verdict.LATE)) {
            faults.forEach((fault, results) -> {
                if (!FaultOutcome.isPair(fault)) {
                    rows(fault, results, verdict, rows);
                }
            });
        }
        return rows.toString();
    }

    private static void rows(String fault, TreeMap<Integer, Result> results, Verdict verdict, StringBuilder rows) {
        Map<String, TreeMap<Integer, Result>> byInterlock = new TreeMap<>();
        results.forEach((m, r) -> {
            if (r.verdict() == verdict) {
                byInterlock.computeIfAbsent(r.interlock(), i -> new TreeMap<>()).put(m, r);
            }
        });
        byInterlock.forEach((interlock, at) -> {
            String what = verdict == Verdict.HARM ? harmWords(at) : lateWords(at);
            TreeMap<Integer, Result> moments = new TreeMap<>();
            at.keySet().forEach(m -> moments.put(m, new Result(verdict, "", "")));
            String when = String.join(", ", spans(moments, FaultMoment.values().length));
            rows.append(String.format(
                            "| `%s` | %s | %s | %s | %s |%n",
                            fault, when, interlock.isEmpty() ? NOTHING : "`" + interlock + "`", what, Remedy.of(fault))
                    .replace("\r\n", "\n"));
        });
    }

    private static List<String> spans(TreeMap<Integer, Result> moments, int all) {
        if (moments.size() == all) {
            return List.of("always");
        }
        return spans(moments).keySet().stream()
                .map(s -> s.replace('_', ' ').replace("..", " to "))
                .toList();
    }

    private static String harmWords(TreeMap<Integer, Result> at) {
        Map<Harm, Double> worst = new TreeMap<>();
        at.values().forEach(r -> {
            for (String part : r.detail().split(",")) {
                String[] pair = part.split("=");
                worst.merge(Harm.valueOf(pair[0].toUpperCase(Locale.ROOT)), Double.parseDouble(pair[1]), Math::max);
            }
        });
        return "harm: "
                + worst.entrySet().stream()
                        .map(e -> e.getKey().hazard + ", " + e.getKey().meaning + ", up to " + plain(e.getValue()) + " "
                                + e.getKey().unit)
                        .collect(Collectors.joining("; "));
    }

    private static String plain(double amount) {
        return amount >= 10 ? String.format(Locale.ROOT, "%.0f", amount) : String.format(Locale.ROOT, "%.2f", amount);
    }

    private static String lateWords(TreeMap<Integer, Result> at) {
        int worst = 0;
        String budget = "";
        for (Result r : at.values()) {
            String[] pair = r.detail().split("/");
            worst = Math.max(worst, Integer.parseInt(pair[0].replace("ms", "")));
            budget = pair[1];
        }
        return "late: up to " + worst + " ms, the budget is " + budget.replace("ms", " ms");
    }
}
