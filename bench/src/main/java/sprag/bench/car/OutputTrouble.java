package sprag.bench.car;

/** A fault at work on one output, with what it must remember. */
public final class OutputTrouble {
    private final OutputFault kind;
    private final double magnitude;
    private final DelayLine line;

    OutputTrouble(OutputFault kind, double magnitude) {
        this.kind = kind;
        this.magnitude = magnitude;
        this.line = kind == OutputFault.DELAY ? new DelayLine((int) magnitude) : null;
    }

    /** What is driven instead of what is commanded. */
    public double distort(double asked, long nowMs) {
        switch (kind) {
            case STUCK_ON:
                return magnitude;
            case DELAY:
                return line.pass(asked, nowMs);
            default:
                return 0;
        }
    }
}
