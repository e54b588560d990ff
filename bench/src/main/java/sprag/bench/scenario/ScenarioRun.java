package sprag.bench.scenario;

import java.io.IOException;
import java.util.List;
import java.util.function.BiConsumer;
import java.util.function.BooleanSupplier;
import sprag.bench.loop.Rig;
import sprag.bench.loop.trace.Frame;

/** Plays a scenario on a rig and judges it. The same scenario on the same rig gives the same run, bit for bit. */
public record ScenarioRun(Scenario scenario, Rig rig) {
    /** Is called with every tick. */
    public interface Observer {
        /** One tick.
         *
         * @param frame what it showed; not kept
         * @throws IOException when what is seen cannot be written
         */
        void tick(Frame frame) throws IOException;
    }

    /**
     * Plays to the end.
     *
     * @param vehicle the vehicle's name, for the result
     * @param told called with each step and its time in milliseconds
     * @param observers called with every tick
     * @param stop asked before every tick whether to stop
     * @throws IOException when an observer cannot write
     */
    public RunResult play(
            String vehicle, BiConsumer<ScenarioStep, Long> told, List<Observer> observers, BooleanSupplier stop)
            throws IOException {
        Events events = new Events();
        Player player = new Player(scenario, rig, events, told);
        List<Watcher> watchers =
                scenario.expectations().stream().map(Watcher::new).toList();
        Frame frame = rig.channels().newFrame();
        long tickMs = rig.tickMs();
        long timeMs = 0;
        while (timeMs <= scenario.durationMs() && !stop.getAsBoolean()) {
            player.before(timeMs);
            tick(frame, player, watchers, events);
            for (Observer observer : observers) {
                observer.tick(frame);
            }
            timeMs += tickMs;
        }
        List<RunResult.Judged> judged = watchers.stream()
                .map(w -> new RunResult.Judged(w.expectation(), w.verdict()))
                .toList();
        boolean interrupted = timeMs <= scenario.durationMs();
        return new RunResult(scenario, vehicle, judged, player.missed(), frame.timeMs, interrupted);
    }

    private void tick(Frame frame, Player player, List<Watcher> watchers, Events events) {
        rig.tick(frame);
        player.after(frame);
        for (Watcher watcher : watchers) {
            watcher.observe(frame, events);
        }
    }
}
