package sprag.bench.scenario;

import sprag.bench.cli.Numbers;
import sprag.bench.loop.trace.Frame;
import sprag.bench.scenario.ExpectationVerdict.Outcome;

/** Judges one expectation while a run goes on, one frame at a time, without keeping the frames. */
public final class Watcher {
    private final Expectation expectation;
    private final Condition condition;
    private final Expectation.Span span;
    private final AnchorWatch moment;

    private long lastMs = -1;
    private long duringSinceMs = -1;
    private long ticks;
    private long knownTicks;
    private long reachedMs = -1;
    private long brokenMs = -1;
    private double nearest = Double.NaN;
    /**
     * The tick of {@link #nearest}. Its words are made at the end only, because in a slow drift every tick is nearer
     * than the last.
     */
    private Frame nearestFrame;

    private String brokenSeen = "";

    /** Starts watching. */
    public Watcher(Expectation expectation) {
        this.expectation = expectation;
        this.condition = expectation.condition();
        this.span = expectation.span();
        this.moment = new AnchorWatch(expectation.anchor());
    }

    /** What is judged. */
    public Expectation expectation() {
        return expectation;
    }

    /** Looks at the next tick.
     *
     * @param events the steps that have happened up to it
     */
    public void observe(Frame frame, Events events) {
        moment.observe(frame, events);
        lastMs = frame.timeMs;
        if (moment.atMs() < 0) {
            return;
        }
        long sinceMs = frame.timeMs - moment.atMs();
        switch (expectation.mode()) {
            case REACHED -> reach(frame, sinceMs);
            case HELD -> hold(frame, sinceMs);
            case AT -> at(frame, sinceMs);
        }
    }

    private void reach(Frame frame, long sinceMs) {
        if (reachedMs < 0) {
            if (sinceMs < span.fromMs()) {
                return;
            }
            ticks++;
            if (condition.holds(frame)) {
                reachedMs = sinceMs;
            } else if (sinceMs <= span.toMs()) {
                note(frame, true);
            }
        } else if (sinceMs <= span.keepToMs() && brokenMs < 0 && !condition.holds(frame)) {
            broken(frame);
        }
    }

    private void hold(Frame frame, long sinceMs) {
        boolean counts = sinceMs >= span.fromMs() && sinceMs <= span.toMs();
        if (span.during() != null) {
            boolean during = span.during().holds(frame);
            duringSinceMs = !during ? -1 : duringSinceMs < 0 ? frame.timeMs : duringSinceMs;
            counts = counts && during && frame.timeMs - duringSinceMs >= span.settleMs();
        }
        if (counts) {
            judge(frame);
        }
    }

    private void at(Frame frame, long sinceMs) {
        if (ticks == 0 && sinceMs >= span.fromMs()) {
            judge(frame);
        }
    }

    private void judge(Frame frame) {
        ticks++;
        note(frame, false);
        if (brokenMs < 0 && !condition.holds(frame)) {
            broken(frame);
        }
    }

    private void broken(Frame frame) {
        brokenMs = frame.timeMs;
        brokenSeen = condition.seen(frame);
    }

    /** Keeps the tick nearest to the limit: from outside while it is to be reached, from inside while it is to be held. */
    private void note(Frame frame, boolean fromOutside) {
        if (condition.known(frame)) {
            knownTicks++;
        }
        double margin = condition.margin(frame);
        boolean nearer = Double.isNaN(nearest) || (fromOutside ? margin > nearest : margin < nearest);
        if (!Double.isNaN(margin) && nearer) {
            nearest = margin;
            keep(frame);
        }
    }

    private void keep(Frame frame) {
        if (nearestFrame == null) {
            nearestFrame = frame.copy();
        } else {
            nearestFrame.copyFrom(frame);
        }
    }

    /** Judges what was seen so far. Returns the verdict as if the run ended now. */
    public ExpectationVerdict verdict() {
        if (lastMs < 0) {
            return ExpectationVerdict.error("the run has no ticks");
        }
        if (moment.atMs() < 0) {
            return ExpectationVerdict.error("cannot be judged: it counts from "
                    + expectation.anchor().words() + ", which never came in " + seconds(lastMs));
        }
        return expectation.mode() == Expectation.Mode.REACHED ? reached() : held();
    }

    private ExpectationVerdict reached() {
        long runMs = lastMs - moment.atMs();
        if (reachedMs < 0) {
            if (runMs < span.toMs()) {
                return ExpectationVerdict.error("cannot be judged: the run ends " + seconds(runMs) + " after "
                        + expectation.anchor().words() + ", before the time of " + seconds(span.toMs()) + " is up");
            }
            String closest = nearestFrame == null ? "" : "; nearest " + nearestSeen();
            return new ExpectationVerdict(
                    Outcome.FAIL, "never reached" + closest, nearest, condition.unit(), Double.NaN);
        }
        double atS = (moment.atMs() + reachedMs) / 1000.0;
        double leftMs = span.toMs() - (double) reachedMs;
        boolean late = reachedMs > span.toMs();
        if (late) {
            return timed(Outcome.FAIL, "only at " + seconds(moment.atMs() + reachedMs), leftMs, atS);
        }
        if (brokenMs >= 0) {
            return new ExpectationVerdict(
                    Outcome.FAIL,
                    "reached at " + Numbers.text(atS) + " s but lost at " + seconds(brokenMs) + ": " + brokenSeen,
                    Double.NaN,
                    "",
                    brokenMs / 1000.0);
        }
        if (span.keepToMs() != Expectation.END && runMs < span.keepToMs()) {
            return ExpectationVerdict.error("cannot be judged: the run ends at " + seconds(lastMs) + ", before "
                    + seconds(moment.atMs() + span.keepToMs()));
        }
        return timed(Outcome.PASS, "at " + seconds(moment.atMs() + reachedMs), leftMs, atS);
    }

    /** A margin in time: short waits in milliseconds, long ones in seconds. */
    private ExpectationVerdict timed(Outcome outcome, String detail, double leftMs, double atS) {
        if (span.toMs() == Expectation.END) {
            return new ExpectationVerdict(outcome, detail, Double.NaN, "", atS);
        }
        boolean brief = span.toMs() < 2000;
        return new ExpectationVerdict(outcome, detail, brief ? leftMs : leftMs / 1000, brief ? "ms" : "s", atS);
    }

    private ExpectationVerdict held() {
        if (brokenMs >= 0) {
            String worst = nearestFrame == null || nearestFrame.timeMs == brokenMs ? "" : "; worst " + nearestSeen();
            return new ExpectationVerdict(
                    Outcome.FAIL,
                    "at " + seconds(brokenMs) + ": " + brokenSeen + worst,
                    nearest,
                    condition.unit(),
                    brokenMs / 1000.0);
        }
        if (ticks == 0) {
            return ExpectationVerdict.error(
                    span.during() == null
                            ? "cannot be judged: no tick lies in its time; the run ends at " + seconds(lastMs)
                            : "cannot be judged: never while " + span.during().words());
        }
        if (knownTicks == 0) {
            return ExpectationVerdict.error("cannot be judged: the value was unknown all the time");
        }
        boolean open = span.toMs() == Expectation.END || expectation.mode() == Expectation.Mode.AT;
        if (!open && lastMs - moment.atMs() < span.toMs()) {
            return ExpectationVerdict.error("cannot be judged: the run ends at " + seconds(lastMs) + ", before "
                    + seconds(moment.atMs() + span.toMs()));
        }
        if (nearestFrame == null) {
            return new ExpectationVerdict(
                    Outcome.PASS,
                    "at every one of " + ticks + (ticks == 1 ? " tick" : " ticks"),
                    Double.NaN,
                    "",
                    Double.NaN);
        }
        return new ExpectationVerdict(
                Outcome.PASS, "nearest " + nearestSeen(), nearest, condition.unit(), nearestFrame.timeS());
    }

    private String nearestSeen() {
        return condition.seen(nearestFrame) + " at " + seconds(nearestFrame.timeMs);
    }

    private static String seconds(long timeMs) {
        return Numbers.text(timeMs / 1000.0) + " s";
    }
}
