package sprag.bench.explain;

import java.util.List;
import java.util.Map;

/**
 * One name and its explanation.
 *
 * @param kind what sort of name it is
 * @param name as it is written in files and on the command line
 * @param meaning one sentence or clause
 * @param facts the rest, in the order in which it is read
 */
public record Entry(Kind kind, String name, String meaning, List<Fact> facts) {
    /** The commands whose page does not bear their name. */
    private static final Map<String, String> COMMAND_PAGES = Map.ofEntries(
            Map.entry("demo", "README.md"),
            Map.entry("new", "docs/new-vehicle.md"),
            Map.entry("key", "docs/keys.md"),
            Map.entry("check", "docs/checking.md"),
            Map.entry("run", "docs/scenarios.md"),
            Map.entry("replay", "docs/traces.md"),
            Map.entry("matrix", "docs/interlocks.md"),
            Map.entry("ports", "docs/boards.md"),
            Map.entry("probe", "docs/boards.md"),
            Map.entry("commission", "docs/commissioning.md"),
            Map.entry("port", "docs/porting.md"),
            Map.entry("vectors", "docs/porting.md"),
            Map.entry("value", "docs/traces.md"),
            Map.entry("lesson", "docs/lessons.md"));

    /**
     * One more thing to know.
     *
     * @param label e.g. {@code range}
     * @param text e.g. {@code 1 to 400}
     */
    public record Fact(String label, String text) {}

    /** The page of docs that tells most about it. */
    public String page() {
        return kind == Kind.COMMAND ? COMMAND_PAGES.getOrDefault(name, "docs/" + name + ".md") : kind.page;
    }

    /** Where a name of a kind stands. */
    enum Sort {
        /** In a file, as a key; with a dot when it belongs to a section. */
        KEY,
        /** In the heading of a table. */
        COLUMN,
        /** Anywhere else. */
        OTHER
    }

    /** The kinds of names. */
    public enum Kind {
        /** A value of a vehicle file. */
        KEY(Sort.KEY, "key of a vehicle file", "docs/keys.md"),
        /** What "new" asks. */
        ANSWER("answer to \"sprag new\" (answers.toml)", "docs/new-vehicle.md"),
        /** Of a file in config/boards. */
        BOARD_KEY(Sort.KEY, "key of a board file", "docs/boards.md"),
        /** Of a file in config/buses. */
        BUS_KEY(Sort.KEY, "key of a data bus file", "docs/bus.md"),
        /** Of a file in config/scenarios. */
        SCENARIO_KEY(Sort.KEY, "key of a scenario file", "docs/scenarios.md"),
        /** Of the answers to "draft". */
        DRAFT_KEY(Sort.KEY, "key of draft.toml", "docs/draft.md"),
        /** Of the findings that are intended. */
        ACCEPTED_KEY(Sort.KEY, "key of accepted.toml", "docs/checking.md"),
        /** Of the wiring schedule. */
        WIRING_COLUMN(Sort.COLUMN, "column of wiring.csv", "docs/checking.md"),
        /** Of the list of parts. */
        PARTS_COLUMN(Sort.COLUMN, "column of parts.csv", "docs/checking.md"),
        /** Of a speed trace. */
        TRIP_COLUMN(Sort.COLUMN, "column of a speed trace", "docs/trip.md"),
        /** Something that is sampled. */
        SIGNAL("signal", "docs/signals.md"),
        /** Something that is commanded. */
        OUTPUT("output", "docs/signals.md"),
        /** What the vehicle is doing. */
        STATE("state", "docs/states.md"),
        /** Where the contactors are in their sequence. */
        STEP("step of the contactors", "docs/states.md"),
        /** What the logic asks. */
        FACT("fact that the logic asks", "docs/prove.md"),
        /** A way from one state to another. */
        TRANSITION("transition", "docs/states.md"),
        /** A safety rule. */
        INTERLOCK("interlock", "docs/interlocks.md"),
        /** What must never happen. */
        PROMISE("promise of the proof", "docs/prove.md"),
        /** What a wiring schedule is reviewed by. */
        RULE("rule of the review", "docs/rules.md"),
        /** What a person can move in the simulated car. */
        LEVER("lever of a scenario", "docs/scenario-reference.md"),
        /** What is true about the simulated car. */
        QUANTITY("quantity of the simulated car", "docs/scenario-reference.md"),
        /** What can go wrong in the simulated car. */
        FAULT("fault point", "docs/scenario-reference.md"),
        /** A command of the program. */
        COMMAND("command", "docs");

        /** For people. */
        public final String words;
        /** The page that lists all of this kind. */
        public final String page;

        /** What is special about it. */
        final Sort sort;

        Kind(String words, String page) {
            this(Sort.OTHER, words, page);
        }

        Kind(Sort sort, String words, String page) {
            this.sort = sort;
            this.words = words;
            this.page = page;
        }
    }
}
