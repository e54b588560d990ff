package sprag.bench.port.equal;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import sprag.bench.port.translate.StateCell;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/**
 * Looks for a limit: two neighbouring numbers, in one place of the memory or of the readings, between which the Java decides otherwise or
 * one of its quantities jumps. A comparison that is meant the other way at equality differs for one of the two.
 */
final class LimitSearch {
    /** In place of the number of a quantity. */
    private static final int NOTHING = -1;

    private static final int DECISIONS = -2;
    /** Less the number of a decision: this decision alone. */
    private static final int ONE_DECISION = -3;

    /** A quantity that changes by less from one number to the next has a slope there and no limit. */
    private static final double SLOPE = 1e-9;

    /** Whatever of a supervisor changes is looked at. */
    static final int[] ANYTHING = {};

    private final JavaStep step;
    private final List<StateCell> cells;
    private final SplittableRandom chance;

    LimitSearch(JavaStep step, List<StateCell> cells, SplittableRandom chance) {
        this.step = step;
        this.cells = cells;
        this.chance = chance;
    }

    /**
     * A tick by itself.
     *
     * @param memory what is remembered before it
     * @param readings a number for each signal
     */
    record Start(long[] memory, double[] readings) {
        /** The same with another number in one place: those of the signals come first, then those of the memory. */
        Start with(int place, double number) {
            Start other = new Start(memory.clone(), readings.clone());
            if (place < Signal.COUNT) {
                other.readings[place] = number;
            } else {
                other.memory[place - Signal.COUNT] = Double.doubleToLongBits(number);
            }
            return other;
        }

        double number(int place) {
            return place < Signal.COUNT ? readings[place] : Double.longBitsToDouble(memory[place - Signal.COUNT]);
        }
    }

    /** What came of a tick: decisions, and the bits of quantities. */
    private record Came(long[] decisions, double[] quantities) {}

    /** Halves the way between two numbers until they are neighbours.
     *
     * @param place of a number, as in {@link Start#with}; in the memory one of a quantity
     * @param to the other number
     * @param cellsOf the cells in which a change is looked for, or {@link #ANYTHING}
     * @return both neighbours; empty when the Java makes the same of both ends or finds one of them impossible
     */
    Optional<Start[]> between(Start start, int place, double to, int[] cellsOf) {
        if (start.number(place) != start.number(place) || to != to) {
            return Optional.empty();
        }
        Optional<Came> first = decide(start);
        Optional<Came> last = first.isEmpty() ? first : decide(start.with(place, to));
        if (last.isEmpty()) {
            return Optional.empty();
        }
        int jumps = cellsOf == ANYTHING ? what(first.get(), last.get()) : what(first.get(), last.get(), cellsOf);
        if (jumps == NOTHING) {
            return Optional.empty();
        }
        long from = order(start.number(place));
        long end = order(to);
        long middle = between(from, end);
        while (middle != from && middle != end) {
            Optional<Came> came = decide(start.with(place, number(middle)));
            if (came.isEmpty()) {
                return Optional.empty();
            }
            if (isBehind(came.get(), first.get(), last.get(), jumps)) {
                from = middle;
                first = came;
            } else {
                end = middle;
                last = came;
            }
            middle = isSlope(first.get(), last.get(), jumps) ? from : between(from, end);
        }
        if (isSlope(first.get(), last.get(), jumps)) {
            return Optional.empty();
        }
        return Optional.of(new Start[] {start.with(place, number(from)), start.with(place, number(end))});
    }

    /** The middle, without overflow. */
    private static long between(long one, long other) {
        return (one & other) + ((one ^ other) >> 1);
    }

    /** What differs: a decision before all, else sometimes a quantity. Most quantities change without a jump. */
    private int what(Came one, Came other) {
        if (!Arrays.equals(one.decisions, other.decisions)) {
            return DECISIONS;
        }
        if (chance.nextInt(3) != 0) {
            return NOTHING;
        }
        int begin = chance.nextInt(one.quantities.length);
        for (int i = 0; i < one.quantities.length; i++) {
            int at = (begin + i) % one.quantities.length;
            if (Double.compare(one.quantities[at], other.quantities[at]) != 0) {
                return at;
            }
        }
        return NOTHING;
    }

    /** The same for some cells only: each of them as likely as the others. */
    private int what(Came one, Came other, int[] cellsOf) {
        int begin = chance.nextInt(cellsOf.length);
        for (int i = 0; i < cellsOf.length; i++) {
            int at = cellsOf[(begin + i) % cellsOf.length];
            if (one.decisions[at] != other.decisions[at]) {
                return ONE_DECISION - at;
            }
            if (Double.compare(one.quantities[at], other.quantities[at]) != 0) {
                return at;
            }
        }
        return NOTHING;
    }

    private static boolean isSlope(Came one, Came other, int jumps) {
        return jumps >= 0 && Math.abs(one.quantities[jumps] - other.quantities[jumps]) < SLOPE;
    }

    /** Whether the jump is behind a place on the way, rather than before it. */
    private static boolean isBehind(Came came, Came first, Came last, int jumps) {
        if (jumps == DECISIONS) {
            return Arrays.equals(came.decisions, first.decisions);
        }
        if (jumps <= ONE_DECISION) {
            int at = ONE_DECISION - jumps;
            return came.decisions[at] == first.decisions[at];
        }
        // the half in which it changes more: a slope gets smaller with each half, a jump does not
        double before = Math.abs(came.quantities[jumps] - first.quantities[jumps]);
        double behind = Math.abs(came.quantities[jumps] - last.quantities[jumps]);
        return before < behind;
    }

    private Optional<Came> decide(Start start) {
        if (!step.isPossible(start.memory, 0, start.readings, 0)) {
            return Optional.empty();
        }
        long[] after = new long[cells.size()];
        step.memory(after, 0);
        long[] decisions = new long[cells.size() + Output.COUNT + 1];
        double[] quantities = new double[cells.size() + Output.COUNT];
        for (int i = 0; i < after.length; i++) {
            boolean quantity = cells.get(i).isQuantity();
            double value = quantity ? Double.longBitsToDouble(after[i]) : 0;
            quantities[i] = value;
            decisions[i] = quantity ? (value == value ? 1 : 0) : after[i];
        }
        for (Output output : Output.values()) {
            double value = step.commands().get(output);
            int i = cells.size() + output.ordinal();
            quantities[i] = value;
            decisions[i] = output.isSwitch() ? (long) value : value == value ? 1 : 0;
        }
        decisions[decisions.length - 1] = step.packed();
        return Optional.of(new Came(decisions, quantities));
    }

    /** Whole numbers in the order of the quantities: neighbours differ by one. */
    private static long order(double number) {
        long bits = Double.doubleToLongBits(number);
        return bits < 0 ? Long.MIN_VALUE - bits : bits;
    }

    private static double number(long order) {
        return Double.longBitsToDouble(order < 0 ? Long.MIN_VALUE - order : order);
    }
}
