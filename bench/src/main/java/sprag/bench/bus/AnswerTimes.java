package sprag.bench.bus;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import sprag.hal.bus.BusMessage;
import sprag.hal.bus.FrameBits;

/**
 * How long each message can take at worst, from the moment that its sender wants to send it until its last bit is on the wires.
 *
 * <p>Davis, Burns, Bril, Lukkien: Controller Area Network (CAN) schedulability analysis: refuted, revisited and revised. Real-Time
 * Systems 35 (2007), 239-272. Every instance in the longest busy period is looked at; the first alone, as in the analysis of 1994,
 * can be too hopeful.
 */
public final class AnswerTimes {
    /** More steps or instances than this mean that the times do not settle: the bus is full. */
    private static final int MOST_STEPS = 10_000;

    /**
     * A message as the calculation sees it.
     *
     * @param urgency the lower, the sooner it wins the wires
     * @param periodMs how often it is sent
     * @param jitterMs how late it may be queued
     * @param lengthMs how long it holds the wires
     */
    public record Load(long urgency, double periodMs, double jitterMs, double lengthMs) {}

    private final List<Load> byUrgency;
    private final double bitMs;

    /**
     * Takes the messages of a bus.
     *
     * @param loads in any order
     * @param bitMs length of one bit
     */
    public AnswerTimes(List<Load> loads, double bitMs) {
        this.byUrgency = new ArrayList<>(loads);
        this.byUrgency.sort(Comparator.comparingLong(Load::urgency));
        this.bitMs = bitMs;
    }

    /** The messages of a file as loads, in the order of the file, each at its greatest length. */
    public static List<Load> loads(BusFile bus) {
        List<Load> loads = new ArrayList<>();
        for (int i = 0; i < bus.map().messages().size(); i++) {
            BusMessage message = bus.map().messages().get(i);
            double bits = FrameBits.worst(message.extended(), message.length());
            loads.add(new Load(
                    urgency(message),
                    message.periodMs(),
                    bus.jitterMs().get(i),
                    bits / bus.map().bitRateKbit()));
        }
        return loads;
    }

    /** The order of arbitration: eleven bits first; of two that begin alike, the one with 11 bits wins. */
    static long urgency(BusMessage message) {
        return message.extended()
                ? (long) (message.id() >> 18) << 19 | 1L << 18 | message.id() & 0x3FFFF
                : (long) message.id() << 19;
    }

    /** The share of the time that the wires are busy at worst. */
    public double utilisation() {
        return byUrgency.stream().mapToDouble(l -> l.lengthMs / l.periodMs).sum();
    }

    /**
     * The worst answering time.
     *
     * @param load one of the messages
     * @return milliseconds; infinite when the messages do not fit on the bus
     */
    public double worstMs(Load load) {
        int own = byUrgency.indexOf(load);
        double blockedMs = byUrgency.stream()
                .skip(own + 1L)
                .mapToDouble(Load::lengthMs)
                .max()
                .orElse(0);
        double share = byUrgency.stream()
                .limit(own + 1L)
                .mapToDouble(l -> l.lengthMs / l.periodMs)
                .sum();
        double busyMs = share < 1 ? busyMs(own, blockedMs) : Double.POSITIVE_INFINITY;
        double instances = ceil((busyMs + load.jitterMs) / load.periodMs);
        if (!(instances < MOST_STEPS)) {
            return Double.POSITIVE_INFINITY;
        }
        double worstMs = 0;
        for (int q = 0; q < instances; q++) {
            double queuedMs = queuedMs(own, blockedMs + q * load.lengthMs);
            worstMs = Math.max(worstMs, load.jitterMs + queuedMs - q * load.periodMs + load.lengthMs);
        }
        return worstMs;
    }

    /** How long the wires can be busy with this and more urgent messages without a pause. */
    private double busyMs(int own, double blockedMs) {
        double busyMs = byUrgency.get(own).lengthMs;
        for (int step = 0; step < MOST_STEPS; step++) {
            double nextMs = blockedMs;
            for (int i = 0; i <= own; i++) {
                Load other = byUrgency.get(i);
                nextMs += ceil((busyMs + other.jitterMs) / other.periodMs) * other.lengthMs;
            }
            if (nextMs <= busyMs) {
                return busyMs;
            }
            busyMs = nextMs;
        }
        return Double.POSITIVE_INFINITY;
    }

    /** How long an instance waits for others. */
    private double queuedMs(int own, double beforeMs) {
        double waitMs = beforeMs;
        for (int step = 0; step < MOST_STEPS; step++) {
            double nextMs = beforeMs;
            for (int i = 0; i < own; i++) {
                Load other = byUrgency.get(i);
                nextMs += ceil((waitMs + other.jitterMs + bitMs) / other.periodMs) * other.lengthMs;
            }
            if (nextMs <= waitMs) {
                return waitMs;
            }
            waitMs = nextMs;
        }
        return Double.POSITIVE_INFINITY;
    }

    /** Rounded up; what is above a whole number by less than the error of the arithmetic is that number. */
    private static double ceil(double number) {
        return Math.ceil(number - 1e-9);
    }
}
