package sprag.bench.review.sizing;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import sprag.bench.cli.Numbers;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.finding.Weight;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Unit;

/** One calculation: what it is, its formula in words, its inputs, its result, the limit, where the limit comes from. */
public final class Calculation {
    /** How a result stands against its limit. */
    public enum Verdict {
        /** Kept. */
        KEPT,
        /** Broken. */
        BROKEN,
        /** There is no limit; the number is for information. */
        INFORMS,
        /** An input is not given. */
        UNKNOWN
    }

    /**
     * A number with its name and unit.
     *
     * @param unit its symbol, empty for a pure number
     */
    public record Quantity(String name, double value, String unit) {
        @Override
        public String toString() {
            return Numbers.text(value, unit);
        }
    }

    /** No rule book is needed: what a part stands is what its maker says. */
    static final String DATA_SHEET =
            "the part's data sheet, as written in vehicle.toml; no rule book is needed to keep a rating";
    /** No rule book is needed: two values of the file contradict each other or do not. */
    static final String OWN_VALUES = "two values of vehicle.toml held against each other; no outside source is needed";

    private final Vehicle vehicle;
    private final String id;
    private final String title;
    private final List<Quantity> inputs = new ArrayList<>();
    /** In the order of the inputs, each once. */
    private final Set<String> missing = new LinkedHashSet<>();

    private Weight weight = Weight.STOP;
    private String formula = "";
    private Quantity result;
    private Quantity limit;
    private boolean atMost;
    private String where = "";
    private Finding.Place place;
    private String consequence = "";
    private String source = "";

    Calculation(Vehicle vehicle, String id, String title) {
        this.vehicle = vehicle;
        this.id = id;
        this.title = title;
    }

    /** Takes an input from the vehicle's file and remembers it once, however often a formula takes it; NaN when the file does not give it. */
    double in(Row row) {
        double value = vehicle.get(row);
        if (Double.isNaN(value) && !missing.contains(row.key())) {
            missing.add(row.key());
        }
        Quantity input = new Quantity(row.key(), value, symbol(row));
        if (row.unit() != Unit.CHOICE && !inputs.contains(input)) {
            inputs.add(input);
        }
        where = where.isEmpty() ? row.key() : where;
        return value;
    }

    /** Takes an input that was worked out elsewhere. */
    double in(String name, double value, String unit) {
        inputs.add(new Quantity(name, value, unit));
        return value;
    }

    private static String symbol(Row row) {
        String key = row.key();
        if (key.endsWith("_mm2")) {
            return "mm²";
        }
        if (key.endsWith("_mohm")) {
            return "mohm";
        }
        return Numbers.symbol(row.unit());
    }

    Calculation formula(String words) {
        this.formula = words;
        return this;
    }

    Calculation gives(double value, String unit) {
        this.result = new Quantity(title, value, unit);
        return this;
    }

    Calculation atMost(String name, double value) {
        this.limit = new Quantity(name, value, result.unit());
        this.atMost = true;
        return this;
    }

    Calculation atLeast(String name, double value) {
        this.limit = new Quantity(name, value, result.unit());
        this.atMost = false;
        return this;
    }

    Calculation otherwise(Weight heavy, String clause) {
        this.weight = heavy;
        this.consequence = clause;
        return this;
    }

    Calculation about(Row row) {
        this.where = row.key();
        return this;
    }

    /** Says that it is about another file than the vehicle's. */
    Calculation at(String file, String about, int line) {
        this.where = about;
        this.place = new Finding.Place(file, line);
        return this;
    }

    Calculation source(String text) {
        this.source = text;
        return this;
    }

    /** The id in findings: words with hyphens. */
    public String id() {
        return id;
    }

    /** What is worked out. */
    public String title() {
        return title;
    }

    /** How, in words. */
    public String formula() {
        return formula;
    }

    /** What it was worked out from. */
    public List<Quantity> inputs() {
        return List.copyOf(inputs);
    }

    /** What came out. */
    public Quantity result() {
        return result;
    }

    /** What it is held against; null when there is no limit. */
    public Quantity limit() {
        return limit;
    }

    /** Why it cannot be judged, to stand behind its title; empty when it can. */
    public String lacks() {
        if (verdict() != Verdict.UNKNOWN) {
            return "";
        }
        return missing.isEmpty()
                ? "the inputs do not give a number"
                : String.join(", ", missing) + (missing.size() > 1 ? " are" : " is") + " not given";
    }

    /** Whether the limit is an upper one. */
    public boolean isAtMost() {
        return atMost;
    }

    /** Where the limit or the formula comes from. */
    public String source() {
        return source;
    }

    /** How the result stands against the limit. */
    public Verdict verdict() {
        if (!missing.isEmpty() || Double.isNaN(result.value())) {
            return Verdict.UNKNOWN;
        }
        if (limit == null) {
            return Verdict.INFORMS;
        }
        double scale = 1e-9 * Math.max(Math.abs(limit.value()), 1e-6);
        boolean kept = atMost ? result.value() <= limit.value() + scale : result.value() >= limit.value() - scale;
        return kept ? Verdict.KEPT : Verdict.BROKEN;
    }

    /**
     * What is left up to the limit, as a share of the limit; negative when it is broken, NaN when there is none. A result or a
     * limit without an end has none either.
     */
    public double margin() {
        if (verdict() == Verdict.UNKNOWN || limit == null || limit.value() == 0 || !isFinite()) {
            return Double.NaN;
        }
        double left = atMost ? limit.value() - result.value() : result.value() - limit.value();
        return left / Math.abs(limit.value());
    }

    private boolean isFinite() {
        return Double.isFinite(result.value()) && Double.isFinite(limit.value());
    }

    /** The findings: one when it is broken or cannot be judged, none otherwise. */
    public List<Finding> findings(java.util.function.ToIntFunction<String> lineOf) {
        return switch (verdict()) {
            case KEPT, INFORMS -> List.of();
            case BROKEN -> List.of(finding(weight, brokenSentence(), consequence, lineOf));
            case UNKNOWN -> List.of(finding(Weight.NOTE, unknownSentence(), "", lineOf));
        };
    }

    private String brokenSentence() {
        return capital(title) + " is " + result + ", " + (atMost ? "more" : "less") + " than " + limit.name() + " of "
                + limit + ".";
    }

    private String unknownSentence() {
        return "Cannot judge " + title + ", because " + lacks() + ".";
    }

    private Finding finding(
            Weight heavy, String sentence, String why, java.util.function.ToIntFunction<String> lineOf) {
        Map<String, Double> numbers = new LinkedHashMap<>();
        if (verdict() == Verdict.BROKEN) {
            numbers.put("result" + ending(result), result.value());
            numbers.put("limit" + ending(limit), limit.value());
        }
        for (Quantity input : inputs) {
            if (!Double.isNaN(input.value())) {
                numbers.put(input.name(), input.value());
            }
        }
        String about = missing.isEmpty() ? where : missing.iterator().next();
        return new Finding(
                id,
                heavy,
                about,
                place != null ? place : new Finding.Place("vehicle.toml", lineOf.applyAsInt(about)),
                sentence,
                why,
                numbers,
                source);
    }

    private static String ending(Quantity quantity) {
        String ascii = quantity.unit()
                .replace("²", "2")
                .replace("°", "")
                .replace("µ", "u")
                .replace("/", "p")
                .toLowerCase(Locale.ROOT);
        return ascii.isEmpty() ? "" : "_" + ascii;
    }

    private static String capital(String words) {
        return Character.toUpperCase(words.charAt(0)) + words.substring(1);
    }
}
