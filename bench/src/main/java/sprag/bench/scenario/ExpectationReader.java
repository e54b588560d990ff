package sprag.bench.scenario;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.scenario.Expectation.Mode;
import sprag.bench.scenario.Expectation.Span;
import sprag.bench.vehicle.Section;

/** Reads one {@code [[expect]]} of a scenario. */
record ExpectationReader(Names names, long durationMs) {
    private static final List<String> HOW = List.of("by_s", "within_ms", "at_s", "always", "never");

    /**
     * All other keys of an expectation. A key in the wrong place gets a message that says so; it is not called unknown.
     */
    private static final List<String> ELSEWHERE =
            List.of("is", "at_least", "at_most", "rises_to", "falls_to", "not_before_s");
    /** Keys that say over which span an expectation is judged. */
    private static final List<String> SPAN =
            List.of("from_s", "to_s", "while_state", "while_on", "while_interlock", "settle_ms", "stays", "stays_s");

    List<Expectation> read(List<Section> sections) {
        List<Expectation> all = new ArrayList<>();
        for (Section section : sections) {
            ELSEWHERE.forEach(section::has);
            SPAN.forEach(section::has);
            String text = section.text("text", null);
            Condition subject = names.subject(section);
            Anchor anchor = names.anchor(section);
            String how = Names.oneOf(section, HOW, true);
            if (how != null) {
                all.add(expectation(section, text, subject, anchor, how));
            }
        }
        return all;
    }

    private Expectation expectation(Section section, String text, Condition subject, Anchor anchor, String how) {
        boolean reach = how.equals("by_s") || how.equals("within_ms");
        boolean never = how.equals("never");
        if (how.equals("by_s") && !(anchor instanceof Anchor.Start)) {
            section.note("by_s", "counts from the start", "without after...", "mislead", "Use within_ms instead.");
        }
        if (how.equals("within_ms") && anchor instanceof Anchor.Start) {
            section.note(
                    "within_ms",
                    "has no event to count from",
                    "with after...",
                    "",
                    "Add after or after_state, or use by_s.");
        }
        if ((how.equals("always") || never) && !section.flag(how, true)) {
            section.note(how, "= false says nothing", "true", "", "Write the contrary with true.");
        }
        Span span = reach ? reachSpan(section, how) : how.equals("at_s") ? atSpan(section) : holdSpan(section);
        if (anchor instanceof Anchor.Start) {
            checkDuration(section, span);
        }
        Condition condition = never && subject != null ? new Condition.Not(subject) : subject;
        Mode mode = reach ? Mode.REACHED : how.equals("at_s") ? Mode.AT : Mode.HELD;
        return new Expectation(text, section.line(how), condition, mode, anchor, span);
    }

    private Span reachSpan(Section section, String how) {
        Names.refuse(
                section,
                List.of("to_s", "while_state", "while_on", "while_interlock", "settle_ms"),
                "goes with always or never");
        long toMs = how.equals("by_s")
                ? Names.millis(section, how, Double.NaN)
                : Math.round(section.number(how, Double.NaN, 0, 1e8, "lie outside any run"));
        long fromMs = Names.millis(section, "from_s", 0);
        String keep = Names.oneOf(section, List.of("stays", "stays_s"), false);
        long keepToMs = 0;
        if ("stays_s".equals(keep)) {
            keepToMs = toMs + Names.millis(section, keep, 0);
        } else if ("stays".equals(keep) && section.flag(keep, true)) {
            keepToMs = Expectation.END;
        }
        return new Span(fromMs, toMs, keepToMs, null, 0);
    }

    private Span atSpan(Section section) {
        Names.refuse(section, SPAN, "does not go with at_s");
        long atMs = Names.millis(section, "at_s", Double.NaN);
        return Span.between(atMs, Expectation.END);
    }

    private Span holdSpan(Section section) {
        Names.refuse(section, List.of("stays", "stays_s"), "goes with by_s or within_ms");
        Condition during = names.during(section);
        long settleMs = Math.round(section.number("settle_ms", 0, 0, 1e7, "lie outside any run"));
        long fromMs = Names.millis(section, "from_s", 0);
        long toMs = section.has("to_s") ? Names.millis(section, "to_s", 0) : Expectation.END;
        if (fromMs > toMs) {
            section.note("from_s", "is later than to_s", "before to_s", "leave nothing to judge", "Exchange the two.");
        }
        return new Span(fromMs, toMs, 0, during, settleMs);
    }

    private void checkDuration(Section section, Span span) {
        long limitMs = durationMs;
        for (String key : List.of("by_s", "at_s", "from_s", "to_s")) {
            if (section.has(key) && Names.millis(section, key, 0) > limitMs) {
                String allowed = "at most about.duration_s, " + limitMs / 1000.0;
                section.note(
                        key,
                        "is after the end of the run",
                        allowed,
                        "never be judged",
                        "Make the run longer or this earlier.");
            }
        }
        if (span.keepToMs() != Expectation.END && span.keepToMs() > limitMs) {
            section.note("stays_s", "ends after the run", "within the run", "never be judged", "Make the run longer.");
        }
    }
}
