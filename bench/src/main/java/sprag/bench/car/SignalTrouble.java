package sprag.bench.car;

/** A fault at work on one signal, with what it must remember. */
public final class SignalTrouble {
    private final SignalFault kind;
    private final double magnitude;
    private final DelayLine line;
    private double held = Double.NaN;

    SignalTrouble(SignalFault kind, double magnitude) {
        this.kind = kind;
        this.magnitude = magnitude;
        this.line = kind == SignalFault.DELAY ? new DelayLine((int) magnitude) : null;
    }

    /** What the connector shows instead of the truth; NaN for no sample at all. */
    public double distort(double truth, Wire wire, long nowMs, Noise noise) {
        switch (kind) {
            case OPEN:
                return wire.openShows();
            case SHORT_LOW:
                return wire.lowShows();
            case SHORT_HIGH:
                return wire.highShows();
            case STUCK:
                held = held == held ? held : truth;
                return held;
            case BIAS:
                return truth + magnitude;
            case NOISE:
                return truth + magnitude * noise.next();
            case DELAY:
                return line.pass(truth, nowMs);
            case INTERMITTENT:
                return nowMs % (long) magnitude < magnitude / 2 ? wire.openShows() : truth;
            default:
                return Double.NaN;
        }
    }

    /**
     * What a wire shows when it is broken or shorted.
     *
     * @param openShows broken
     * @param lowShows shorted to ground
     * @param highShows shorted to its supply
     */
    public record Wire(double openShows, double lowShows, double highShows) {}
}
