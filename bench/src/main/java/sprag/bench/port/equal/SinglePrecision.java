package sprag.bench.port.equal;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import sprag.bench.cli.Trouble;
import sprag.bench.port.translate.StateCell;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/**
 * The C in single precision beside the Java in double precision. Every decision must be the same, or differ because some quantity stands
 * so close to a limit that rounding carries it across. Then that quantity is named, and both go on from the same memory.
 */
final class SinglePrecision {
    /** A sum of many roundings may move a quantity by this share of it within one step. */
    private static final double NUDGE = 4 * 0x1p-24;

    private static final Pattern FACT = Pattern.compile(".*facts->value\\[(\\d+)]");

    private final Twin twin;
    private final HostProgram program;
    private final JavaStep step;
    private final List<Difference> differences = new ArrayList<>();
    private final Map<Output, Double> most = new EnumMap<>(Output.class);
    private final Set<Integer> found = new LinkedHashSet<>();
    private final long[] fresh;
    private long[] inJava;
    private long[] inC;
    private long ticks;

    /**
     * Compares one vehicle.
     *
     * @param twin its supervisor in C, in single precision
     * @param program the C
     */
    SinglePrecision(Twin twin, HostProgram program) {
        this.twin = twin;
        this.program = program;
        step = new JavaStep(twin.settings(), twin.cells());
        fresh = new long[twin.cells().size()];
        step.memory(fresh, 0);
    }

    /**
     * A decision that differs.
     *
     * @param at when
     * @param what the decision in words
     * @param limit the quantity that stands at a limit; empty when none was found
     */
    record Difference(String at, String what, Optional<String> limit) {
        @Override
        public String toString() {
            return at + what + "; " + limit.orElse("NO LIMIT EXPLAINS IT");
        }
    }

    /** One decision: a whole number, a yes or no, or a row. */
    private record Decision(String words, long inJava, long inC, int cell, int output) {}

    List<Difference> differences() {
        return differences;
    }

    /** The largest difference of each quantity. */
    Map<Output, Double> most() {
        return most;
    }

    long ticks() {
        return ticks;
    }

    /** Takes ticks that the Java has decided. */
    void take(Batch java) {
        try {
            long[] javaBefore = java.fresh() ? fresh : inJava;
            long[] cBefore = java.fresh() ? fresh : inC;
            Batch c = program.play(java);
            ticks += java.ticks();
            inJava = java.remembered();
            inC = c.remembered();
            boolean same = differs(java.remembered(), c.remembered()).isEmpty();
            for (int tick = 0; tick < java.ticks() && same; tick++) {
                same = differs(java.decided(), c.decided(), tick).isEmpty();
            }
            if (same) {
                bound(java, c);
            } else {
                oneByOne(java, javaBefore, cBefore);
                program.remember(inJava);
                inC = inJava;
            }
        } catch (IOException e) {
            throw new Trouble(java.name() + ", tick " + java.firstTick() + ": the C has ended: " + e.getMessage());
        }
    }

    private void bound(Batch java, Batch c) {
        for (Output output : Output.values()) {
            for (int tick = 0; tick < java.ticks() && !output.isSwitch(); tick++) {
                int i = tick * Output.COUNT + output.ordinal();
                double away = Math.abs(java.decided().outputs()[i] - c.decided().outputs()[i]);
                most.merge(output, away == away ? away : 0, Math::max);
            }
        }
    }

    private void oneByOne(Batch java, long[] javaBefore, long[] cBefore) throws IOException {
        long[] ofJava = javaBefore;
        long[] ofC = cBefore;
        program.remember(ofC);
        for (int tick = 0; tick < java.ticks(); tick++) {
            double[] readings = Arrays.copyOfRange(java.readings(), tick * Signal.COUNT, (tick + 1) * Signal.COUNT);
            Batch before = one(java, tick, readings);
            step.decide(ofJava, 0, readings, 0);
            long[] after = new long[ofJava.length];
            step.memory(after, 0);
            Batch c = program.play(before);
            Optional<Decision> differs = differs(after, c.remembered());
            if (differs.isEmpty()) {
                differs = differs(before.decided(), c.decided(), 0);
            }
            if (differs.isPresent()) {
                Decision decision = differs.get();
                String what = String.format(
                        "%s is %d in Java and %d in single precision", decision.words, decision.inJava, decision.inC);
                differences.add(new Difference(
                        java.name() + ", tick " + (java.firstTick() + tick) + ": ",
                        what,
                        limit(decision, ofJava, ofC, readings)));
                program.remember(after);
            }
            ofC = differs.isPresent() ? after : c.remembered();
            ofJava = after;
        }
    }

    private static Batch one(Batch java, int tick, double[] readings) {
        double[] outputs = Arrays.copyOfRange(java.decided().outputs(), tick * Output.COUNT, (tick + 1) * Output.COUNT);
        long[] states = {java.decided().states()[tick]};
        return new Batch(
                java.name(),
                false,
                java.firstTick() + tick,
                1,
                readings,
                new Batch.Decided(outputs, states),
                new long[java.remembered().length]);
    }

    private Optional<Decision> differs(long[] java, long[] c) {
        for (int i = 0; i < java.length; i++) {
            StateCell cell = twin.cells().get(i);
            if (!cell.isQuantity() && java[i] != c[i]) {
                Matcher fact = FACT.matcher(cell.place());
                String words = fact.matches()
                        ? Fact.values()[Integer.parseInt(fact.group(1))].name().toLowerCase(Locale.ROOT)
                        : cell.place().replace("sprag_supervisor.", "");
                return Optional.of(new Decision(words, java[i], c[i], i, -1));
            }
        }
        return Optional.empty();
    }

    private static Optional<Decision> differs(Batch.Decided java, Batch.Decided c, int tick) {
        for (Output output : Output.values()) {
            int i = tick * Output.COUNT + output.ordinal();
            long inJava = decision(output, java.outputs()[i]);
            long inC = decision(output, c.outputs()[i]);
            if (inJava != inC) {
                return Optional.of(new Decision(output.key(), inJava, inC, -1, output.ordinal()));
            }
        }
        return java.states()[tick] == c.states()[tick]
                ? Optional.empty()
                : Optional.of(new Decision("the packed state", java.states()[tick], c.states()[tick], -1, -1));
    }

    /** A quantity is no decision, but whether it is known is one. */
    private static long decision(Output output, double value) {
        return output.isSwitch() ? (long) value : value == value ? 1 : 0;
    }

    /**
     * Looks for the quantity that stands at a limit: when it alone is rounded, the Java decides as the C has done. What was found before
     * is tried first: a reading at a limit mostly stays there for a while.
     */
    private Optional<String> limit(Decision decision, long[] ofJava, long[] ofC, double[] readings) {
        for (int place : found) {
            Optional<String> limit = limitAt(place, decision, ofJava, ofC, readings);
            if (limit.isPresent()) {
                return limit;
            }
        }
        for (int place = 0; place < Signal.COUNT + ofJava.length; place++) {
            Optional<String> limit = limitAt(place, decision, ofJava, ofC, readings);
            if (limit.isPresent()) {
                found.add(place);
                return limit;
            }
        }
        return together(decision, ofJava, ofC, readings);
    }

    /** The signals come first, then what is remembered. */
    private Optional<String> limitAt(int place, Decision decision, long[] ofJava, long[] ofC, double[] readings) {
        if (place < Signal.COUNT) {
            double value = readings[place];
            for (double other : new double[] {(float) value, value * (1 + NUDGE), value * (1 - NUDGE)}) {
                double[] changed = readings.clone();
                changed[place] = other;
                if (other != value && isSo(decision, ofJava, changed)) {
                    return Optional.of("the limit lies at " + Signal.values()[place].key() + " = " + value);
                }
            }
            return Optional.empty();
        }
        int cell = place - Signal.COUNT;
        double value = Double.longBitsToDouble(ofJava[cell]);
        double single = Double.longBitsToDouble(ofC[cell]);
        for (double other : new double[] {single, value * (1 + NUDGE), value * (1 - NUDGE)}) {
            long[] changed = ofJava.clone();
            changed[cell] = Double.doubleToLongBits(other);
            if (twin.cells().get(cell).isQuantity() && other != value && isSo(decision, changed, readings)) {
                String name = twin.cells().get(cell).place().replace("sprag_supervisor.", "");
                return Optional.of("the limit lies at " + name + " = " + value + ", in single precision " + single);
            }
        }
        return Optional.empty();
    }

    private Optional<String> together(Decision decision, long[] ofJava, long[] ofC, double[] readings) {
        long[] changed = ofJava.clone();
        for (int i = 0; i < changed.length; i++) {
            changed[i] = twin.cells().get(i).isQuantity() ? ofC[i] : changed[i];
        }
        double[] rounded = Arrays.stream(readings).map(value -> (float) value).toArray();
        return isSo(decision, changed, rounded)
                ? Optional.of("several quantities, each rounded, cross it together")
                : Optional.empty();
    }

    /** Whether the Java decides as the C did, from this memory with these readings. */
    private boolean isSo(Decision decision, long[] memory, double[] readings) {
        step.decide(memory, 0, readings, 0);
        if (decision.cell >= 0) {
            long[] after = new long[memory.length];
            step.memory(after, 0);
            return after[decision.cell] == decision.inC;
        }
        if (decision.output >= 0) {
            Output output = Output.values()[decision.output];
            return decision(output, step.commands().get(output)) == decision.inC;
        }
        return step.packed() == decision.inC;
    }
}
