package sprag.bench.explain;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import sprag.bench.cli.Numbers;
import sprag.bench.evidence.prove.promise.HistoryPromise;
import sprag.bench.evidence.prove.promise.Promise;
import sprag.bench.explain.Entry.Fact;
import sprag.bench.explain.Entry.Kind;
import sprag.bench.review.wiring.Rule;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;
import sprag.supervisor.vocabulary.Transition;
import sprag.supervisor.vocabulary.Unit;

/** The names of the supervisor and of what judges it. */
final class Vocables {
    /** A fact that an interlock is named after is told with the interlock. */
    private static final Set<String> INTERLOCKS =
            Arrays.stream(Interlock.values()).map(Enum::name).collect(Collectors.toSet());

    private Vocables() {}

    static List<Entry> all() {
        List<Entry> all = new ArrayList<>();
        Arrays.stream(Signal.values()).map(Vocables::signal).forEach(all::add);
        Arrays.stream(Output.values()).map(Vocables::output).forEach(all::add);
        Arrays.stream(State.values()).map(Vocables::state).forEach(all::add);
        Arrays.stream(Step.values()).map(Vocables::step).forEach(all::add);
        Arrays.stream(sprag.supervisor.vocabulary.Fact.values())
                .filter(fact -> !INTERLOCKS.contains(fact.name()))
                .map(Vocables::fact)
                .forEach(all::add);
        Arrays.stream(Transition.values()).map(Vocables::transition).forEach(all::add);
        Arrays.stream(Interlock.values()).map(Vocables::interlock).forEach(all::add);
        Arrays.stream(Promise.values()).map(Vocables::promise).forEach(all::add);
        Arrays.stream(HistoryPromise.values()).map(Vocables::promise).forEach(all::add);
        Arrays.stream(Rule.values()).map(Vocables::rule).forEach(all::add);
        return all;
    }

    /** A range of values with its unit. */
    static String range(double min, double max, Unit unit) {
        return unit == Unit.SWITCH ? "0 or 1" : Numbers.text(min) + " to " + Numbers.text(max, Numbers.symbol(unit));
    }

    /** The spelling that is shown everywhere for names of the tables. */
    private static String spelled(Enum<?> row) {
        return row.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    private static Entry signal(Signal signal) {
        return new Entry(
                Kind.SIGNAL,
                signal.key(),
                signal.meaning,
                List.of(
                        new Fact("range", range(signal.min, signal.max, signal.unit)),
                        new Fact("fitted", fitted(signal)),
                        new Fact("unknown", "NaN; the supervisor then assumes the side that is safe"),
                        new Fact(
                                "fault points",
                                signal.key() + ".open, .stuck, .stale ... (sprag key " + signal.key() + ".open)")));
    }

    private static String fitted(Signal signal) {
        return switch (signal.fit) {
            case ALWAYS -> "in every vehicle";
            case OPTIONAL -> "when signals.fitted in the vehicle file names it; without it what it guards is lost";
            case INLET ->
                "in every vehicle whose inlet has a pilot; with inlet.kind = \"plain\" when signals.fitted names it";
            case PILOT -> "in every vehicle whose inlet.kind is \"type-1\" or \"type-2\"";
        };
    }

    private static Entry output(Output output) {
        return new Entry(
                Kind.OUTPUT,
                output.key(),
                output.meaning,
                List.of(
                        new Fact(
                                "given in",
                                output.unit == Unit.SWITCH
                                        ? "0 or 1"
                                        : Numbers.symbol(output.unit).isEmpty()
                                                ? "a number"
                                                : Numbers.symbol(output.unit)),
                        new Fact("released", "0"),
                        new Fact("fault points", output.key() + ".stuck_on, .stuck_off, .delay")));
    }

    private static Entry state(State state) {
        String ways = Arrays.stream(Transition.values())
                .filter(way -> way.from == state)
                .map(way -> "to " + way.to + " when " + way.reason)
                .collect(Collectors.joining("; "));
        String rows = Arrays.stream(Interlock.values())
                .filter(row -> row.where.contains(state))
                .map(Interlock::id)
                .collect(Collectors.joining(", "));
        return new Entry(
                Kind.STATE,
                state.name(),
                meaning(state),
                List.of(new Fact("ways out", ways), new Fact("interlocks asked", rows)));
    }

    private static String meaning(State state) {
        return switch (state) {
            case OFF -> "key off, no plug, everything asked to open";
            case IGNITION -> "key on, everything asked to open; the driver is told what is missing for a start";
            case PRECHARGE ->
                "the contactors are tested for welds, then the bus is charged through the resistor; no torque";
            case DRIVE_ENABLE -> "the contactors are asked to close and torque follows the pedal";
            case RUNDOWN -> "torque goes to zero, the contactors open at low current, the bus bleeds down";
            case CHARGE_LOCKOUT -> "a plug is seen: no torque whatever is asked; charging happens here";
            case FAULT -> "everything is asked to open and latched until the cause is gone and somebody resets";
        };
    }

    private static Entry step(Step step) {
        String closed = Stream.of(
                        step.negativeClosed ? "negative contactor" : "",
                        step.prechargeClosed ? "precharge relay" : "",
                        step.positiveClosed ? "positive contactor" : "")
                .filter(name -> !name.isEmpty())
                .collect(Collectors.joining(", "));
        return new Entry(
                Kind.STEP,
                step.name(),
                meaning(step),
                List.of(new Fact("asked to be closed", closed.isEmpty() ? "nothing" : closed)));
    }

    private static String meaning(Step step) {
        return switch (step) {
            case IDLE -> "everything is open and at rest";
            case TEST_NEGATIVE -> "first half of the weld test: a bus that rises says the negative contactor is welded";
            case TEST_PAUSE -> "everything is open between the two halves of the weld test";
            case TEST_POSITIVE -> "second half of the weld test: a bus that rises says the positive side is welded";
            case RAISE_BUS -> "the bus is charged through the resistor";
            case OVERLAP -> "the positive contactor closes while the precharge path still holds";
            case HOLD -> "bus and pack are connected";
            case RAMP_DOWN -> "still connected; torque or charge current goes to zero";
            case OPEN_POSITIVE -> "the positive contactor and the precharge relay open first";
            case OPEN_NEGATIVE -> "the negative contactor opens last";
            case BLEED -> "everything is open; the bus bleeds down";
        };
    }

    private static Entry fact(sprag.supervisor.vocabulary.Fact fact) {
        String seen = fact.detection == null ? "in the same tick" : fact.detection.key() + " after its cause";
        return new Entry(
                Kind.FACT,
                fact.name(),
                fact.meaning,
                List.of(new Fact("values", String.join(", ", fact.labels)), new Fact("seen", seen)));
    }

    private static Entry promise(HistoryPromise promise) {
        return promise(promise, promise.explanation, promise.hazard);
    }

    private static Entry transition(Transition way) {
        return new Entry(
                Kind.TRANSITION,
                spelled(way),
                way.reason,
                List.of(new Fact("from", way.from.name()), new Fact("to", way.to.name())));
    }

    private static Entry interlock(Interlock row) {
        List<Fact> facts = new ArrayList<>();
        facts.add(new Fact("does", row.response.words));
        facts.add(new Fact("until", row.reset.words));
        facts.add(new Fact("in", row.where.stream().map(State::name).collect(Collectors.joining(", "))));
        facts.add(new Fact("why", row.why));
        facts.add(new Fact("hazard", row.hazard + " (docs/hazards.md)"));
        facts.add(new Fact("fault-tolerant time", row.budget.key()));
        if (row.cause.detection() != null) {
            facts.add(new Fact("seen after", row.cause.detection().key()));
        }
        return new Entry(Kind.INTERLOCK, row.id(), row.cause.toString(), facts);
    }

    private static Entry promise(Promise promise) {
        return promise(promise, promise.explanation(), promise.hazard);
    }

    private static Entry promise(Enum<?> row, String broken, String hazard) {
        return new Entry(
                Kind.PROMISE,
                spelled(row),
                "never: " + broken,
                List.of(new Fact("hazard", hazard + " (docs/hazards.md)"), new Fact("shown by", "sprag prove")));
    }

    private static Entry rule(Rule rule) {
        return new Entry(
                Kind.RULE,
                rule.id(),
                rule.why,
                List.of(
                        new Fact("weight", rule.weight.name().toLowerCase(Locale.ROOT)),
                        new Fact("source", rule.source),
                        new Fact("judged by", "sprag check")));
    }
}
