package sprag.hal.board;

import java.util.List;
import java.util.concurrent.atomic.AtomicLongArray;

/**
 * The newest reading of each input: written by the board's thread, read by any.
 *
 * <p>A number is written before its time and read after it, so that a reader may take a number for older than it is, never
 * for younger.
 */
final class PinBank implements PinSink {
    static final long NEVER = Long.MIN_VALUE;

    private final List<InputPin> pins;
    private final AtomicLongArray raws;
    private final AtomicLongArray valueBits;
    private final AtomicLongArray arrivalsNs;
    private long changedAtNs = NEVER;

    PinBank(List<InputPin> pins) {
        this.pins = pins;
        raws = new AtomicLongArray(pins.size());
        valueBits = new AtomicLongArray(pins.size());
        arrivalsNs = new AtomicLongArray(pins.size());
        for (int i = 0; i < pins.size(); i++) {
            arrivalsNs.set(i, NEVER);
        }
    }

    @Override
    public void put(int input, long raw, long arrivedNs) {
        InputPin pin = pins.get(input);
        long beforeNs = arrivalsNs.get(input);
        double value = pin.value(raw);
        if (pin.filterMs() > 0 && beforeNs != NEVER && !Double.isNaN(value(input))) {
            double share = 1 - Math.exp(-(arrivedNs - beforeNs) / (pin.filterMs() * 1e6));
            double last = value(input);
            value = last + share * (value - last);
        }
        if (pin.kind().twoState && beforeNs != NEVER && raws.get(input) != raw && changedAtNs == NEVER) {
            changedAtNs = arrivedNs;
        }
        raws.set(input, raw);
        valueBits.set(input, Double.doubleToRawLongBits(value));
        arrivalsNs.set(input, arrivedNs);
    }

    @Override
    public void putUnknown(int input, long nowNs) {
        valueBits.set(input, Double.doubleToRawLongBits(Double.NaN));
        arrivalsNs.set(input, nowNs);
    }

    /** Clears the filters, so that no reading from before a lost link is mixed into one after it. */
    void startAnew() {
        for (int i = 0; i < pins.size(); i++) {
            arrivalsNs.set(i, NEVER);
        }
        changedAtNs = NEVER;
    }

    long arrivedNs(int input) {
        return arrivalsNs.get(input);
    }

    double value(int input) {
        return Double.longBitsToDouble(valueBits.get(input));
    }

    long raw(int input) {
        return raws.get(input);
    }

    /** When the first switch changed to which no output has reacted yet; the board's thread only. */
    long changedAtNs() {
        return changedAtNs;
    }

    void answered() {
        changedAtNs = NEVER;
    }
}
