package sprag.bench.hand.commission.record;

/** A step ended early: it failed, it was skipped, or the whole session was stopped. */
public final class StepAbandoned extends Exception {
    private static final long serialVersionUID = 1L;

    private final transient StepResult result;

    private StepAbandoned(StepResult result) {
        super(result == null ? "stopped" : result.seen());
        this.result = result;
    }

    public static StepAbandoned sessionStopped() {
        return new StepAbandoned(null);
    }

    public static StepAbandoned failed(String seen) {
        return new StepAbandoned(StepResult.failed(seen));
    }

    public static StepAbandoned skipped(String reason) {
        return new StepAbandoned(StepResult.of(StepVerdict.SKIPPED, reason.isEmpty() ? "no reason was given" : reason));
    }

    public boolean endsSession() {
        return result == null;
    }

    public StepResult result() {
        return result;
    }
}
