package sprag.bench.commission;

/** A step was left before its end: it failed, it was skipped, or the whole session was stopped. */
final class Left extends Exception {
    private static final long serialVersionUID = 1L;

    private final transient Outcome outcome;

    private Left(Outcome outcome) {
        super(outcome == null ? "stopped" : outcome.seen());
        this.outcome = outcome;
    }

    static Left stopped() {
        return new Left(null);
    }

    static Left failed(String seen) {
        return new Left(Outcome.failed(seen));
    }

    static Left failed(Outcome outcome) {
        return new Left(outcome);
    }

    static Left skipped(String reason) {
        String why = reason.isEmpty() ? "no reason was given" : reason;
        return new Left(new Outcome(Verdict.SKIPPED, why, java.util.List.of()));
    }

    boolean stops() {
        return outcome == null;
    }

    Outcome outcome() {
        return outcome;
    }
}
