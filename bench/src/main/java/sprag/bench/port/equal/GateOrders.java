package sprag.bench.port.equal;

import java.lang.reflect.Field;
import java.lang.reflect.Method;
import java.lang.reflect.Modifier;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.DoubleStream;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/**
 * Orders that no sound supervisor gives, and what the gate in Java has made of them. In a whole step the gate hardly ever finds
 * anything to veto, so that most of its branches would never be compared.
 *
 * @param count how many ticks in a row
 * @param readings a number for each signal of each tick
 * @param asked a number for each output of each tick
 * @param left what the gate has left of them
 * @param vetoed whether it has changed anything
 */
record GateOrders(int count, double[] readings, double[] asked, double[] left, boolean[] vetoed) {
    /** As many go into one question. */
    static final int TICKS = 512;

    private static final int LONGEST_TICKS = 400;
    private static final double MOVES = 0.01;

    /** How often nothing is ordered for a while, except for single orders that begin meanwhile: the gate may let those pass. */
    private static final double SILENT = 0.006;

    private static final int SILENT_TICKS = 60;

    /** Orders to a gate that has seen nothing before the first of them.
     *
     * @param times how often 512 of them
     * @param seed where chance starts
     */
    static List<GateOrders> of(Settings settings, int times, long seed) {
        List<GateOrders> all = new ArrayList<>();
        Maker maker = new Maker(settings, seed);
        for (int i = 0; i < times; i++) {
            all.add(maker.make());
        }
        return all;
    }

    /** Every number is held for a while, so that what lasts too long is seen too. */
    private static final class Maker {
        private final SplittableRandom chance;
        private final Object gate;
        private final Method check;
        /** The values of the vehicle, and the numbers that the gate itself keeps. */
        private final double[] limits;

        private final double[] signals = new double[Signal.COUNT];
        private final double[] outputs = new double[Output.COUNT];
        private final int[] leftTicks = new int[Signal.COUNT + Output.COUNT];

        Maker(Settings settings, long seed) {
            chance = new SplittableRandom(seed);
            try {
                Field field = Supervisor.class.getDeclaredField("gate");
                field.setAccessible(true);
                gate = field.get(new Supervisor(settings));
                check = gate.getClass().getMethod("check", Readings.class, Commands.class);
                limits = limits(settings);
            } catch (ReflectiveOperationException e) {
                throw new IllegalStateException("a supervisor has no gate that checks readings and commands", e);
            }
        }

        private double[] limits(Settings settings) throws IllegalAccessException {
            DoubleStream.Builder limits = DoubleStream.builder();
            for (Parameter parameter : Parameter.values()) {
                limits.add(settings.get(parameter));
            }
            for (Field field : gate.getClass().getDeclaredFields()) {
                if (Modifier.isFinal(field.getModifiers()) && field.getType() == double.class) {
                    field.setAccessible(true);
                    limits.add(field.getDouble(gate));
                }
            }
            return limits.build().toArray();
        }

        /** The gate is seen by nobody outside of the supervisor; here it is asked as its state is: by reflection. */
        private boolean check(Readings in, Commands out) {
            try {
                return (boolean) check.invoke(gate, in, out);
            } catch (ReflectiveOperationException e) {
                throw new IllegalStateException("the gate cannot be asked", e);
            }
        }

        GateOrders make() {
            GateOrders orders = new GateOrders(
                    TICKS,
                    new double[TICKS * Signal.COUNT],
                    new double[TICKS * Output.COUNT],
                    new double[TICKS * Output.COUNT],
                    new boolean[TICKS]);
            Readings in = new Readings();
            Commands out = new Commands();
            for (int tick = 0; tick < TICKS; tick++) {
                move();
                for (Signal signal : Signal.values()) {
                    in.set(signal, signals[signal.ordinal()]);
                }
                for (Output output : Output.values()) {
                    out.set(output, outputs[output.ordinal()]);
                }
                in.copyTo(orders.readings, tick * Signal.COUNT);
                out.copyTo(orders.asked, tick * Output.COUNT);
                orders.vetoed[tick] = check(in, out);
                out.copyTo(orders.left, tick * Output.COUNT);
            }
            return orders;
        }

        private void move() {
            for (Signal signal : Signal.values()) {
                if (isDue(signal.ordinal())) {
                    signals[signal.ordinal()] =
                            signal.isSwitch() ? yes() : quantity(signal.min, signal.max, signals[signal.ordinal()]);
                }
            }
            for (Output output : Output.values()) {
                if (isDue(Signal.COUNT + output.ordinal())) {
                    outputs[output.ordinal()] = output.isSwitch() ? yes() : quantity(-1, 1, outputs[output.ordinal()]);
                }
            }
            if (chance.nextDouble() < SILENT) {
                silence();
            }
        }

        /** No order, in either way in which a quantity can be nothing. */
        private void silence() {
            for (Output output : Output.values()) {
                outputs[output.ordinal()] = output.isSwitch() || chance.nextBoolean() ? 0.0 : -0.0;
                leftTicks[Signal.COUNT + output.ordinal()] = SILENT_TICKS;
            }
        }

        private boolean isDue(int place) {
            if (leftTicks[place]-- > 0 && chance.nextDouble() > MOVES) {
                return false;
            }
            leftTicks[place] = chance.nextInt(LONGEST_TICKS);
            return true;
        }

        /** Mostly on: one thing that is missing shows more than many. */
        private double yes() {
            return chance.nextInt(4) == 0 ? 0 : 1;
        }

        private double quantity(double min, double max, double before) {
            boolean own = chance.nextInt(4) == 0;
            double limit = limits[
                    own
                            ? limits.length - 1 - chance.nextInt(limits.length - Parameter.COUNT)
                            : chance.nextInt(limits.length)];
            return switch (chance.nextInt(9)) {
                case 0 -> Double.NaN;
                case 1 -> 0;
                case 2 -> -before;
                case 3 -> Math.nextUp(before);
                case 4, 5 -> limit;
                case 6 -> -limit;
                default -> min + (max - min) * chance.nextDouble();
            };
        }
    }

    /** The first difference from what the C has left, in words; empty when there is none. */
    String differs(double[] leftInC, boolean[] vetoedInC) {
        for (int i = 0; i < left.length; i++) {
            if (Double.compare(left[i], leftInC[i]) != 0) {
                return Output.values()[i % Output.COUNT].key() + " is " + left[i] + " in Java and " + leftInC[i]
                        + " in C";
            }
        }
        return Arrays.equals(vetoed, vetoedInC) ? "" : "only one of Java and C tells a veto";
    }
}
