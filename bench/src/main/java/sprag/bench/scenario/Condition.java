package sprag.bench.scenario;

import sprag.bench.cli.Numbers;
import sprag.bench.loop.trace.Channel;
import sprag.bench.loop.trace.Frame;

/** Something that a frame shows or does not show. */
public interface Condition {
    /** Whether the frame shows it. A reading that nobody knows is never within a band. */
    boolean holds(Frame frame);

    /**
     * How far the frame is from the limit. Returns positive inside, negative outside, NaN when there is nothing to
     * measure.
     */
    default double margin(Frame frame) {
        return Double.NaN;
    }

    /** Whether the frame can answer at all. Returns false for a reading that nobody knows. */
    default boolean known(Frame frame) {
        return true;
    }

    /** What the margin is measured in. Returns a symbol, empty when there is nothing to measure. */
    default String unit() {
        return "";
    }

    /** The condition in words. For example {@code bus_voltage_v is at least 90 V}. */
    String words();

    /** What the frame showed instead, for a failed expectation. For example {@code 82.1 V}. */
    String seen(Frame frame);

    /** A state. */
    record InState(int index, String name) implements Condition {
        @Override
        public boolean holds(Frame frame) {
            return frame.state == index;
        }

        @Override
        public String words() {
            return "the state is " + name;
        }

        @Override
        public String seen(Frame frame) {
            return frame.state == index ? name : "another state" + (frame.why.isEmpty() ? "" : " (" + frame.why + ")");
        }
    }

    /** An interlock that acts. */
    record Acting(int index, String name) implements Condition {
        @Override
        public boolean holds(Frame frame) {
            return frame.acting[index];
        }

        @Override
        public String words() {
            return "the interlock " + name + " acts";
        }

        @Override
        public String seen(Frame frame) {
            return frame.acting[index] ? "it acts" : "it does not act";
        }
    }

    /** A column within limits, the limits included.
     *
     * @param atLeast the lower limit, minus infinity for none
     * @param atMost the upper limit, infinity for none
     */
    record Band(int index, Channel channel, double atLeast, double atMost) implements Condition {
        @Override
        public boolean holds(Frame frame) {
            double value = frame.value[index];
            return value >= atLeast && value <= atMost;
        }

        @Override
        public boolean known(Frame frame) {
            return !Double.isNaN(frame.value[index]);
        }

        @Override
        public double margin(Frame frame) {
            if (channel.isSwitch() || atLeast == atMost) {
                return Double.NaN;
            }
            double value = frame.value[index];
            return Math.min(value - atLeast, atMost - value);
        }

        @Override
        public String unit() {
            return channel.isSwitch() || atLeast == atMost ? "" : Numbers.symbol(channel.unit());
        }

        @Override
        public String words() {
            if (atLeast == atMost) {
                return channel.column() + " is " + channel.show(atLeast);
            }
            if (atMost == Double.POSITIVE_INFINITY) {
                return channel.column() + " is at least " + channel.show(atLeast);
            }
            if (atLeast == Double.NEGATIVE_INFINITY) {
                return channel.column() + " is at most " + channel.show(atMost);
            }
            return channel.column() + " is between " + channel.show(atLeast) + " and " + channel.show(atMost);
        }

        @Override
        public String seen(Frame frame) {
            return channel.show(frame.value[index]);
        }
    }

    /** The contrary of a condition. A reading that nobody knows counts as outside a band; see {@link #known}. */
    record Not(Condition of) implements Condition {
        @Override
        public boolean holds(Frame frame) {
            return !of.holds(frame);
        }

        @Override
        public boolean known(Frame frame) {
            return of.known(frame);
        }

        @Override
        public double margin(Frame frame) {
            return -of.margin(frame);
        }

        @Override
        public String unit() {
            return of.unit();
        }

        @Override
        public String words() {
            return "never: " + of.words();
        }

        @Override
        public String seen(Frame frame) {
            return of.seen(frame);
        }
    }
}
