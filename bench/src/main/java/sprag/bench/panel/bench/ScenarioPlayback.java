package sprag.bench.panel.bench;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.function.BooleanSupplier;
import sprag.bench.car.Lever;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.Rig;
import sprag.bench.loop.trace.Channels;
import sprag.bench.loop.trace.Frame;
import sprag.bench.panel.bench.Note.Kind;
import sprag.bench.scenario.ExpectationVerdict;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioRun;

/** Plays a scenario on the bench at the pace of the bench, and judges it at its end. */
final class ScenarioPlayback implements Rig {
    private final Bench bench;
    private final Scenario scenario;
    private final BooleanSupplier going;
    private final BooleanSupplier advance;

    /** Prepares to play the bench's scenario on its present car, which must be new.
     *
     * @param going whether the bench still runs
     * @param advance does what is due now and waits for what is due next; true when a tick has run
     */
    ScenarioPlayback(Bench bench, BooleanSupplier going, BooleanSupplier advance) {
        this.bench = bench;
        this.scenario = bench.playing();
        this.going = going;
        this.advance = advance;
    }

    /** Plays to the end, or until stopped. */
    void play() {
        note(scenario.name(), "a person asked for it", scenario.about().title());
        RunResult result;
        try {
            result = new ScenarioRun(scenario, this)
                    .play(
                            bench.vehicle().name(),
                            (step, timeMs) -> note(step.name(), "the scenario does it", ""),
                            List.of(),
                            () -> !goesOn());
        } catch (IOException e) {
            throw new UncheckedIOException("nothing is written here, yet " + scenario.name() + " could not be", e);
        }
        bench.beginNotes();
        if (result.interrupted()) {
            note(scenario.name(), "stopped before its end", "not judged");
            return;
        }
        for (RunResult.Judged judged : result.judged()) {
            ExpectationVerdict verdict = judged.verdict();
            note(verdict.outcome().toString(), judged.expectation().text(), seen(verdict));
        }
        result.missed().forEach(step -> note("MISSED", step.name(), "what it waits for never came"));
        note(scenario.name(), "played to its end", result.passed() ? "all as expected" : "not as expected");
    }

    private void note(String what, String cause, String consequence) {
        bench.notes().add(Kind.SCENARIO, what, cause, consequence);
    }

    private static String seen(ExpectationVerdict verdict) {
        return verdict.marginText().isEmpty()
                ? verdict.detail()
                : verdict.detail() + "; margin " + verdict.marginText();
    }

    private boolean goesOn() {
        return !bench.isStopAsked() && going.getAsBoolean();
    }

    private ClosedLoop loop() {
        return bench.session().loop;
    }

    @Override
    public Channels channels() {
        return loop().channels();
    }

    @Override
    public long tickMs() {
        return loop().tickMs();
    }

    @Override
    public void move(String lever, double to) {
        loop().move(lever, to);
        Lever known = Lever.of(lever).orElseThrow();
        bench.actions().add(new ActionLog.Moved(loop().timeMs(), known, to));
    }

    @Override
    public double position(String lever) {
        return loop().position(lever);
    }

    @Override
    public void inject(String what) {
        loop().inject(what);
        bench.actions().add(new ActionLog.Broke(loop().timeMs(), what));
    }

    @Override
    public void clear(String what) {
        loop().clear(what);
        bench.actions().add(new ActionLog.Mended(loop().timeMs(), what));
    }

    /** Runs one tick when its time has come; without a tick when the scenario was stopped meanwhile. */
    @Override
    public void tick(Frame into) {
        boolean ticked = false;
        while (!ticked && goesOn()) {
            ticked = advance.getAsBoolean();
        }
        into.copyFrom(bench.lastTick());
    }
}
