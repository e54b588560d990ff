package sprag.bench.scenario;

import java.util.ArrayList;
import java.util.List;
import java.util.function.BiConsumer;
import sprag.bench.loop.Rig;
import sprag.bench.loop.trace.Frame;

/** Does the steps of a scenario when their time has come. */
final class Player {
    private final Rig rig;
    private final List<Waiting> waiting = new ArrayList<>();
    /** Those of them that are still to be done, or to be done again. */
    private final List<Waiting> open = new ArrayList<>();

    private final List<Ramp> ramps = new ArrayList<>();
    private final Events events;
    private final BiConsumer<ScenarioStep, Long> told;

    private static final class Waiting {
        final ScenarioStep step;
        final AnchorWatch moment;
        int done;

        Waiting(ScenarioStep step) {
            this.step = step;
            this.moment = new AnchorWatch(step.anchor());
        }

        boolean isDone() {
            return done >= step.repeats().times();
        }

        boolean dueAt(long timeMs) {
            return !isDone()
                    && moment.atMs() >= 0
                    && timeMs
                            >= moment.atMs()
                                    + step.waitMs()
                                    + done * step.repeats().everyMs();
        }
    }

    private record Ramp(String lever, double from, double to, long startMs, long overMs) {}

    Player(Scenario scenario, Rig rig, Events events, BiConsumer<ScenarioStep, Long> told) {
        this.rig = rig;
        this.events = events;
        this.told = told;
        scenario.start().forEach(rig::move);
        for (ScenarioStep step : scenario.steps()) {
            waiting.add(new Waiting(step));
            if (step.anchor() instanceof Anchor.Start) {
                waiting.get(waiting.size() - 1).moment.observe(null, events);
            }
        }
        open.addAll(waiting);
    }

    /** Does what is due before a tick. */
    void before(long timeMs) {
        boolean anyDone = false;
        for (Waiting each : open) {
            if (each.dueAt(timeMs)) {
                each.done++;
                events.happened(each.step.name(), timeMs);
                told.accept(each.step, timeMs);
                each.step.actions().forEach(action -> perform(action, timeMs));
                anyDone |= each.isDone();
            }
        }
        if (anyDone) {
            open.removeIf(Waiting::isDone);
        }
        if (!ramps.isEmpty()) {
            ramps.removeIf(ramp -> follow(ramp, timeMs));
        }
    }

    private void perform(Action action, long timeMs) {
        if (action instanceof Action.Move move) {
            ramps.removeIf(ramp -> ramp.lever().equals(move.lever()));
            if (move.overMs() > 0) {
                ramps.add(new Ramp(move.lever(), rig.position(move.lever()), move.to(), timeMs, move.overMs()));
            } else {
                rig.move(move.lever(), move.to());
            }
        } else if (action instanceof Action.Fault fault) {
            rig.inject(fault.what());
        } else if (action instanceof Action.Clear clear) {
            rig.clear(clear.what());
        }
    }

    /** Moves a lever along its ramp; true when it has arrived. */
    private boolean follow(Ramp ramp, long timeMs) {
        double share = Math.min(1, (timeMs - ramp.startMs()) / (double) ramp.overMs());
        rig.move(ramp.lever(), ramp.from() + share * (ramp.to() - ramp.from()));
        return share >= 1;
    }

    /** Looks at what a tick has shown. */
    void after(Frame frame) {
        for (Waiting each : open) {
            each.moment.observe(frame, events);
        }
    }

    /** The steps that were not done, or not as often as asked. */
    List<ScenarioStep> missed() {
        return waiting.stream()
                .filter(each -> !each.isDone())
                .map(each -> each.step)
                .toList();
    }
}
