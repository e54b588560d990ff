package sprag.bench.hand.commission;

/** A step was left before its end: it failed, it was skipped, or the whole session was stopped. */
final class StepAbandoned extends Exception {
    private static final long serialVersionUID = 1L;

    private final transient StepResult outcome;

    private StepAbandoned(StepResult outcome) {
        super(outcome == null ? "stopped" : outcome.seen());
        this.outcome = outcome;
    }

    static StepAbandoned stopped() {
        return new StepAbandoned(null);
    }

    static StepAbandoned failed(String seen) {
        return new StepAbandoned(StepResult.failed(seen));
    }

    static StepAbandoned failed(StepResult outcome) {
        return new StepAbandoned(outcome);
    }

    static StepAbandoned skipped(String reason) {
        String why = reason.isEmpty() ? "no reason was given" : reason;
        return new StepAbandoned(new StepResult(StepVerdict.SKIPPED, why, java.util.List.of()));
    }

    boolean stops() {
        return outcome == null;
    }

    StepResult outcome() {
        return outcome;
    }
}
