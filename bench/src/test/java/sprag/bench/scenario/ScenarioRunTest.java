package sprag.bench.scenario;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import sprag.bench.loop.Rig;
import sprag.bench.loop.trace.Channels;
import sprag.bench.loop.trace.Frame;

/** Steps happen when they should, and a step that never happens is never passed over. */
class ScenarioRunTest {
    /** A rig without a car: its bus follows the pedal, its state is ON while the key is on. Everything done to it is noted. */
    private static final class Bare implements Rig {
        private final Map<String, Double> levers = new TreeMap<>(Map.of("key", 0.0, "pedal", 0.0, "grade", 0.0));
        private final List<String> done = new ArrayList<>();
        private long tick;

        @Override
        public Channels channels() {
            return Strip.CHANNELS;
        }

        @Override
        public long tickMs() {
            return Strip.TICK_MS;
        }

        @Override
        public void move(String lever, double to) {
            levers.put(lever, to);
            done.add(tick * Strip.TICK_MS + " " + lever + " " + to);
        }

        @Override
        public double position(String lever) {
            return levers.get(lever);
        }

        @Override
        public void inject(String what) {
            done.add(tick * Strip.TICK_MS + " broken " + what);
        }

        @Override
        public void clear(String what) {
            done.add(tick * Strip.TICK_MS + " mended " + what);
        }

        @Override
        public void tick(Frame into) {
            into.timeMs = tick++ * Strip.TICK_MS;
            into.state = levers.get("key") > 0 ? 1 : 0;
            into.value[0] = 100 * levers.get("pedal");
        }
    }

    private static final String ENDS = "\n[[expect]]\ntext = \"t\"\nstate = \"ON\"\nby_s = 1\n";

    private static RunResult play(Bare rig, String steps) throws Exception {
        return new ScenarioRun(Strip.scenario(steps + ENDS), rig)
                .play("bare", (step, at) -> {}, List.of(), () -> false);
    }

    @Test
    void steps_timedAnchoredAndRepeated_happenWhenTheyShould() throws Exception {
        Bare rig = new Bare();
        RunResult result = play(rig, """
                [[do]]
                name = "press"
                at_s = 0.25
                set = { pedal = 0.5 }

                [[do]]
                name = "break"
                after = "press"
                wait_s = 0.5
                fault = "contactor.welded"

                [[do]]
                name = "mend"
                after_state = "ON"
                wait_s = 1
                clear = "contactor.welded"

                [[do]]
                name = "rock"
                after_signal = "bus_v"
                rises_to = 50
                set = { grade = 0.1 }
                repeat_every_s = 0.2
                times = 3
                """);
        assertEquals(
                List.of(
                        "0 key 1.0",
                        "300 pedal 0.5",
                        "400 grade 0.1",
                        "500 grade 0.1",
                        "700 grade 0.1",
                        "800 broken contactor.welded",
                        "1000 mended contactor.welded"),
                rig.done.stream()
                        .sorted((a, b) -> Long.compare(time(a), time(b)))
                        .toList());
        assertTrue(result.passed());
    }

    private static long time(String note) {
        return Long.parseLong(note.substring(0, note.indexOf(' ')));
    }

    @Test
    void aRamp_overSomeTime_movesTheLeverEvenlyAndArrives() throws Exception {
        Bare rig = new Bare();
        play(rig, "[[do]]\nat_s = 1\nset = { pedal = 0.8 }\nover_s = 0.4\n");
        assertEquals(
                List.of("1000 pedal 0.0", "1100 pedal 0.2", "1200 pedal 0.4", "1300 pedal 0.6", "1400 pedal 0.8"),
                rig.done.stream()
                        .filter(d -> d.contains("pedal"))
                        .map(ScenarioRunTest::rounded)
                        .toList());
    }

    private static String rounded(String note) {
        int at = note.lastIndexOf(' ') + 1;
        return note.substring(0, at) + Math.round(Double.parseDouble(note.substring(at)) * 1000) / 1000.0;
    }

    @Test
    void aStepWhoseMomentNeverComes_isAnErrorNotAPass() throws Exception {
        RunResult result = play(new Bare(), "[[do]]\nname = \"late\"\nafter_state = \"FAULT\"\nset = { key = 0 }\n");
        assertAll(
                () -> assertEquals(1, result.count(ExpectationVerdict.Outcome.PASS)),
                () -> assertEquals(
                        List.of("late"),
                        result.missed().stream().map(ScenarioStep::name).toList()),
                () -> assertFalse(result.passed()));
    }

    @Test
    void aRunStoppedFromOutside_isNotPassed() throws Exception {
        int[] left = {30};
        RunResult result = new ScenarioRun(Strip.scenario(ENDS), new Bare())
                .play("bare", (step, at) -> {}, List.of(), () -> left[0]-- == 0);
        assertAll(
                () -> assertTrue(result.interrupted()),
                () -> assertEquals(2900, result.endMs()),
                () -> assertFalse(result.passed()));
    }
}
