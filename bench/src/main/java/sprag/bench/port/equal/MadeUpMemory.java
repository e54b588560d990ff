package sprag.bench.port.equal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import sprag.bench.port.translate.StateCell;
import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/**
 * Single ticks from a memory that is made up: what a scenario has left behind, with some numbers changed, and readings changed too. A
 * tick has one number of its own, which stands in the code or among the values of the vehicle; many of the changed places get exactly
 * that number. So limits are met to the last bit, which hardly happens in a scenario.
 */
final class MadeUpMemory {
    private static final Pattern NUMBER = Pattern.compile("(?<![\\w.])\\d+\\.\\d+(?:[eE]-?\\d+)?(?![\\w.])");
    private static final Pattern ALONE = Pattern.compile("= -?(\\d+\\.\\d+(?:[eE]-?\\d+)?)[,;]");
    private static final Pattern WHOLE = Pattern.compile("= (\\d{1,9}),");

    /** In how many places a limit is looked for. */
    private static final int TRIES = 6;
    /** The same where the change must show in one object. */
    private static final int TRIES_INSIDE = 30;

    /** So many other numbers of the object that is tried are changed, as a mean. */
    private static final double INSIDE = 1.5;

    private final List<StateCell> cells;
    private final JavaStep step;
    /** Ticks of scenarios, those of each kind of moment together. */
    private final List<List<Batch>> left;
    /** The cells of each object, by their places. Each object is tried as often as the others, however many cells it has. */
    private final int[][] objects;
    /** Of each object the places where limits were found that it shows, once for each time. */
    private final Map<int[], List<Integer>> proven = new IdentityHashMap<>();
    /** Of each object the ticks that were seldom in what they did to it. */
    private final Map<int[], Kept> kept = new IdentityHashMap<>();
    /** Those of the code that a signal can show, those of the vehicle, whole ones, and those that stand beside each cell. */
    private final double[][] within;

    private final double[] limits;
    private final double[] counts;
    private final double[][] besides;

    /**
     * Ticks of one vehicle.
     *
     * @param twin its supervisor in C, for the numbers that stand there
     * @param left ticks of scenarios, to begin with what they left behind
     */
    MadeUpMemory(Twin twin, List<Batch> left) {
        this.cells = twin.cells();
        // In the order of the ticks: a plain map goes by the hash of a state, which is another one in each virtual
        // machine.
        this.left = List.copyOf(left.stream()
                .collect(Collectors.groupingBy(MadeUpMemory::moment, LinkedHashMap::new, Collectors.toList()))
                .values());
        step = new JavaStep(twin.settings(), cells);
        objects = objects();
        for (int[] object : objects) {
            kept.put(object, new Kept(cells, object));
        }
        besides = cells.stream().map(cell -> cell.besides(step.supervisor())).toArray(double[][]::new);
        Map<String, String> code = new TreeMap<>(twin.files());
        String values = code.remove("vehicle.c");
        double[] literals = all(NUMBER, String.join("\n", code.values()));
        within = Stream.of(Signal.values())
                .map(signal -> DoubleStream.of(literals)
                        .filter(number -> number >= signal.min && number <= signal.max)
                        .toArray())
                .toArray(double[][]::new);
        limits = all(ALONE, values);
        counts = all(WHOLE, values);
    }

    /** What tells one moment from another: the state, and which switches are on. A night on the cable is then not most of what is tried. */
    private static List<Object> moment(Batch batch) {
        int last = batch.ticks() - 1;
        long on = 0;
        for (Output output : Output.values()) {
            boolean isOn = output.isSwitch() && batch.decided().outputs()[last * Output.COUNT + output.ordinal()] == 1;
            on |= (isOn ? 1L : 0) << output.ordinal();
        }
        return List.of(LogicState.stateOf(batch.decided().states()[last]), on);
    }

    private int[][] objects() {
        Map<Object, List<Integer>> places = new IdentityHashMap<>();
        List<List<Integer>> inOrder = new ArrayList<>();
        for (int cell = 0; cell < cells.size(); cell++) {
            Object holder = cells.get(cell).holder(step.supervisor());
            places.computeIfAbsent(holder, h -> {
                        inOrder.add(new ArrayList<>());
                        return inOrder.get(inOrder.size() - 1);
                    })
                    .add(cell);
        }
        return inOrder.stream()
                .map(all -> all.stream().mapToInt(Integer::intValue).toArray())
                .toArray(int[][]::new);
    }

    private Batch some(SplittableRandom chance) {
        List<Batch> alike = left.get(chance.nextInt(left.size()));
        return alike.get(chance.nextInt(alike.size()));
    }

    private static double[] all(Pattern pattern, String text) {
        Matcher matcher = pattern.matcher(text);
        DoubleStream.Builder found = DoubleStream.builder();
        while (matcher.find()) {
            found.add(Double.parseDouble(matcher.group(matcher.groupCount())));
        }
        return found.build().distinct().toArray();
    }

    /** Makes ticks and lets the Java decide them.
     *
     * @param count how many
     * @param seed where chance starts
     * @param to who gets them
     */
    void make(int count, long seed, Consumer<Cases> to) {
        SplittableRandom chance = new SplittableRandom(seed);
        for (int done = 0; done < count; done += Cases.MOST) {
            int now = Math.min(Cases.MOST, count - done);
            Cases cases = new Cases(
                    now,
                    new long[now * cells.size()],
                    new double[now * Signal.COUNT],
                    new Cases.Result(
                            new boolean[now],
                            new Batch.Decided(new double[now * Output.COUNT], new long[now]),
                            new long[now * cells.size()]));
            for (int i = 0; i < now; i++) {
                int[] object = objects[chance.nextInt(objects.length)];
                one(cases, i, object, chance);
                if (i % 2 == 1 && chance.nextBoolean()) {
                    atLimit(cases, i, object, chance);
                }
            }
            to.accept(cases);
        }
    }

    /** One number and one signal are changed in any case; often nothing else, so that the rest fits together. */
    private void one(Cases cases, int i, int[] object, SplittableRandom chance) {
        Kept.Tick from = begin(object, chance);
        Change change = new Change(chance);
        int mainCell = object[chance.nextInt(object.length)];
        int mainSignal = chance.nextInt(Signal.COUNT);
        double inside = chance.nextBoolean() ? INSIDE / object.length : change.share;
        for (int cell = 0; cell < cells.size(); cell++) {
            double share = Arrays.binarySearch(object, cell) >= 0 ? inside : change.share;
            long number = from.memory()[cell];
            if (cell == mainCell || chance.nextDouble() < share) {
                number = change.of(cell, begin(object, chance).memory()[cell]);
            }
            cases.before()[i * cells.size() + cell] = number;
        }
        for (Signal signal : Signal.values()) {
            double reading = from.readings()[signal.ordinal()];
            if (signal.ordinal() == mainSignal || chance.nextDouble() < change.share) {
                reading = chance.nextInt(4) == 0
                        ? begin(object, chance).readings()[signal.ordinal()]
                        : change.reading(signal);
            }
            cases.readings()[i * Signal.COUNT + signal.ordinal()] = reading;
        }
        decide(cases, i);
        if (cases.result().possible()[i]) {
            kept.get(object).look(cases, i, chance);
        }
    }

    /** What a scenario has left behind, or a tick that was seldom in what it did to an object. */
    private Kept.Tick begin(int[] object, SplittableRandom chance) {
        Optional<Kept.Tick> seldom = chance.nextBoolean() ? kept.get(object).some(chance) : Optional.empty();
        return seldom.orElseGet(() -> {
            Batch batch = some(chance);
            int last = (batch.ticks() - 1) * Signal.COUNT;
            return new Kept.Tick(batch.remembered(), Arrays.copyOfRange(batch.readings(), last, last + Signal.COUNT));
        });
    }

    /** Puts both sides of a limit in the place of two ticks, if there is one between the second and the same with another number. */
    private void atLimit(Cases cases, int i, int[] object, SplittableRandom chance) {
        int memory = cells.size();
        LimitSearch.Start start = new LimitSearch.Start(
                Arrays.copyOfRange(cases.before(), i * memory, (i + 1) * memory),
                Arrays.copyOfRange(cases.readings(), i * Signal.COUNT, (i + 1) * Signal.COUNT));
        int[] looked = chance.nextInt(3) != 0 ? object : LimitSearch.ANYTHING;
        int[] changed = looked == object || chance.nextBoolean() ? object : LimitSearch.ANYTHING;
        LimitSearch search = new LimitSearch(step, cells, chance);
        Change change = new Change(chance);
        Optional<LimitSearch.Start[]> both = Optional.empty();
        int most = changed == object ? TRIES_INSIDE : TRIES;
        for (int tries = 0; cases.result().possible()[i] && both.isEmpty() && tries < most; tries++) {
            int place = place(changed, chance);
            if (place < Signal.COUNT) {
                both = search.between(start, place, change.reading(Signal.values()[place]), looked);
            } else if (cells.get(place - Signal.COUNT).isQuantity()) {
                double to = change.quantity(start.number(place), change.near(place - Signal.COUNT));
                both = search.between(start, place, to, looked);
            }
            if (both.isPresent() && looked == object) {
                proven.computeIfAbsent(object, o -> new ArrayList<>()).add(place);
            }
        }
        if (both.isPresent()) {
            for (int side = 0; side < 2; side++) {
                int at = i - 1 + side;
                System.arraycopy(both.get()[side].memory(), 0, cases.before(), at * memory, memory);
                System.arraycopy(both.get()[side].readings(), 0, cases.readings(), at * Signal.COUNT, Signal.COUNT);
                decide(cases, at);
            }
        }
    }

    /** A signal, or a cell. Where one object is tried, one of its own, and often a place that it is known to depend on. */
    private int place(int[] changed, SplittableRandom chance) {
        List<Integer> known = proven.getOrDefault(changed, List.of());
        if (!known.isEmpty() && chance.nextBoolean()) {
            return known.get(chance.nextInt(known.size()));
        }
        if (chance.nextBoolean()) {
            return chance.nextInt(Signal.COUNT);
        }
        return Signal.COUNT
                + (changed.length > 0 ? changed[chance.nextInt(changed.length)] : chance.nextInt(cells.size()));
    }

    private void decide(Cases cases, int i) {
        cases.result().possible()[i] =
                step.isPossible(cases.before(), i * cells.size(), cases.readings(), i * Signal.COUNT);
        step.commands().copyTo(cases.result().decided().outputs(), i * Output.COUNT);
        cases.result().decided().states()[i] = step.packed();
        step.memory(cases.result().after(), i * cells.size());
    }

    /** What is changed in one tick, and the numbers it likes. */
    private final class Change {
        private final SplittableRandom chance;
        private final double share;
        private final double number;
        private final int count;

        Change(SplittableRandom chance) {
            this.chance = chance;
            double root = chance.nextDouble();
            share = chance.nextBoolean() ? 0 : 0.3 * root * root;
            number = one(limits);
            count = (int) one(counts);
        }

        private double one(double[] from) {
            return from[chance.nextInt(from.length)];
        }

        long of(int index, long elsewhere) {
            StateCell cell = cells.get(index);
            if (chance.nextInt(4) == 0) {
                return elsewhere;
            }
            if (cell.isQuantity()) {
                return Double.doubleToLongBits(quantity(Double.longBitsToDouble(elsewhere), near(index)));
            }
            if (cell.type() == int.class || cell.type() == long.class) {
                boolean own = besides[index].length > 0 && chance.nextBoolean();
                int near = (int) (own ? one(besides[index]) : chance.nextBoolean() ? count : 0);
                return near + chance.nextInt(3) - 1;
            }
            return cell.type() == boolean.class ? chance.nextInt(2) : elsewhere;
        }

        /** A limit for a quantity: one of its own object, or that of this tick. */
        double near(int index) {
            return besides[index].length > 0 && chance.nextBoolean() ? one(besides[index]) : number;
        }

        private double quantity(double now, double near) {
            return switch (chance.nextInt(16)) {
                case 0 -> Double.NaN;
                case 1 -> Double.POSITIVE_INFINITY;
                case 2 -> Double.NEGATIVE_INFINITY;
                case 3 -> chance.nextBoolean() ? 0.0 : -0.0;
                case 4 -> -now;
                case 5, 6 -> now * chance.nextDouble(2.0);
                case 7, 8 -> -near;
                default -> near;
            };
        }

        double reading(Signal signal) {
            if (signal.isSwitch() && chance.nextInt(6) != 0) {
                return chance.nextInt(2);
            }
            double near = switch (chance.nextInt(6)) {
                case 0 -> signal.min;
                case 1 -> signal.max;
                case 2, 3 -> one(within[signal.ordinal()]);
                default -> number;
            };
            return quantity(signal.min + (signal.max - signal.min) * chance.nextDouble(), near);
        }
    }
}
