package sprag.bench.panel;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import sprag.bench.car.Lever;
import sprag.bench.loop.FrameColumns;
import sprag.bench.loop.Rig;
import sprag.bench.loop.trace.Channels;
import sprag.bench.loop.trace.Frame;
import sprag.bench.panel.Note.Kind;
import sprag.bench.scenario.ExpectationVerdict;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioRun;
import sprag.bench.scenario.ScenarioStep;

/** A scenario that is played on the bench at the pace of the bench, and judged at its end. */
final class ScenarioPlayback implements Rig {
    private final BenchThread bench;
    private final Scenario scenario;
    private volatile boolean stopped;

    /** Prepares to play on the bench's present car, which must be new. */
    ScenarioPlayback(BenchThread bench, Scenario scenario) {
        this.bench = bench;
        this.scenario = scenario;
    }

    /** Plays to the end, or until stopped. */
    void play() {
        NoteBook notes = bench.notes();
        notes.add(
                Kind.SCENARIO,
                scenario.name(),
                "a person asked for it",
                scenario.about().title());
        RunResult result;
        try {
            result = new ScenarioRun(scenario, this)
                    .play(bench.vehicle().name(), this::tell, List.of(), () -> stopped || !bench.isGoing());
        } catch (IOException e) {
            throw new UncheckedIOException("nothing is written here, yet " + scenario.name() + " could not be", e);
        }
        notes.at(bench.plant().timeMs(), bench.plant().loop.ticks());
        if (result.interrupted()) {
            notes.add(Kind.SCENARIO, scenario.name(), "stopped before its end", "not judged");
            return;
        }
        for (RunResult.Judged judged : result.judged()) {
            ExpectationVerdict verdict = judged.verdict();
            notes.add(
                    Kind.SCENARIO,
                    verdict.outcome().toString(),
                    judged.expectation().text(),
                    seen(verdict));
        }
        result.missed()
                .forEach(step -> notes.add(Kind.SCENARIO, "MISSED", step.name(), "what it waits for never came"));
        notes.add(
                Kind.SCENARIO,
                scenario.name(),
                "played to its end",
                result.passed() ? "all as expected" : "not as expected");
    }

    private static String seen(ExpectationVerdict verdict) {
        return verdict.marginText().isEmpty()
                ? verdict.detail()
                : verdict.detail() + "; margin " + verdict.marginText();
    }

    private void tell(ScenarioStep step, long timeMs) {
        bench.notes().add(Kind.SCENARIO, step.name(), "the scenario does it", "");
    }

    /** Ends it before its end; false when it had already been stopped. */
    boolean stop() {
        boolean first = !stopped;
        stopped = true;
        return first;
    }

    String name() {
        return scenario.name();
    }

    /** How much of it has been played. */
    double share(long nowMs) {
        return Math.min(1, nowMs / (double) scenario.durationMs());
    }

    @Override
    public Channels channels() {
        return FrameColumns.CHANNELS;
    }

    @Override
    public long tickMs() {
        return bench.plant().tickMs;
    }

    @Override
    public void move(String lever, double to) {
        Lever known = Lever.of(lever).orElseThrow();
        bench.plant().car.levers().set(known, to);
        bench.doings().add(new ActionLog.Moved(bench.plant().timeMs(), known, to));
    }

    @Override
    public double position(String lever) {
        return bench.plant().car.levers().get(Lever.of(lever).orElseThrow());
    }

    @Override
    public void inject(String what) {
        bench.plant().closed.inject(what);
        bench.doings().add(new ActionLog.Broke(bench.plant().timeMs(), what));
    }

    @Override
    public void clear(String what) {
        bench.plant().closed.clear(what);
        bench.doings().add(new ActionLog.Mended(bench.plant().timeMs(), what));
    }

    @Override
    public void tick(Frame into) {
        while (!stopped && bench.isGoing() && !bench.advance()) {
            // time stands still or the next tick is not due yet
            continue;
        }
        into.copyFrom(bench.lastTick());
    }
}
