package sprag.bench.scenario;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Problem;

/** What a scenario file may say, and what is answered to one that says something else. */
class ScenarioReaderTest {
    private static final String GOOD = """
            [about]
            title = "Drive away and stop"
            why = "The plain case."
            hazards = ["H01"]
            vehicles = ["parcel-van"]
            needs = ["pedal_b_v", "no isolation_kohm", "motor.kind = induction"]
            duration_s = 30
            seed = 7

            [start]
            grade = 0.05
            key = false

            [[do]]
            name = "the driver turns the key"
            at_s = 1
            set = { key = true }

            [[do]]
            name = "the contact welds"
            after = "the driver turns the key"
            wait_s = 0.5
            fault = "contactor.welded"
            set = { pedal = 0.4 }
            over_s = 2

            [[do]]
            after_quantity = "speed_kph"
            rises_to = 20
            set = { pedal = 0 }
            repeat_every_s = 2
            times = 3

            [[expect]]
            text = "ready in four seconds"
            state = "ON"
            by_s = 4
            """;

    private static Scenario parse(String text) throws BadInput {
        return ScenarioReader.parse(Path.of("config/scenarios/drive.toml"), text, Strip.VOCABULARY);
    }

    private static List<String> refused(String text) {
        BadInput bad = assertThrows(BadInput.class, () -> parse(text));
        return bad.problems().stream().map(Problem::message).toList();
    }

    @Test
    void aGoodFile_read_saysWhatItSays() throws Exception {
        Scenario scenario = parse(GOOD);
        ScenarioStep second = scenario.steps().get(1);
        ScenarioStep third = scenario.steps().get(2);
        assertAll(
                () -> assertEquals("drive", scenario.name()),
                () -> assertEquals(30_000, scenario.durationMs()),
                () -> assertEquals(7, scenario.seed()),
                () -> assertEquals(Map.of("grade", 0.05, "key", 0.0), scenario.start()),
                () -> assertEquals(
                        "the driver turns the key", scenario.steps().get(0).name()),
                () -> assertEquals(new Anchor.AfterStep("the driver turns the key"), second.anchor()),
                () -> assertEquals(500, second.waitMs()),
                () -> assertEquals(
                        List.of(new Action.Move("pedal", 0.4, 2000), new Action.Fault("contactor.welded")),
                        second.actions()),
                () -> assertEquals("pedal to 0", third.name()),
                () -> assertEquals(new ScenarioStep.Repeats(3, 2000), third.repeats()),
                () -> assertEquals(
                        "ready in four seconds", scenario.expectations().get(0).text()),
                () -> assertEquals(37, scenario.expectations().get(0).line()));
    }

    @Test
    void aFileWithManyMistakes_read_namesAllAtOnceWithTheirLines() {
        String bad = GOOD.replace("seed = 7", "sead = 7")
                .replace("key = false", "kee = false")
                .replace("pedal = 0.4", "pedal = 1.4")
                .replace("\"contactor.welded\"", "\"contactor.weld\"")
                .replace("\"speed_kph\"", "\"speed_kmh\"")
                .replace("\"ON\"", "\"ONN\"")
                .replace("by_s = 4", "by_s = 40");
        assertEquals(
                List.of(
                        "config/scenarios/drive.toml:8: about.sead is not a known key: it would have no effect. Did you mean"
                                + " seed?",
                        "config/scenarios/drive.toml:12: start.kee is no lever: it would have no effect. Did you mean key?",
                        "config/scenarios/drive.toml:23: do[1].fault = \"contactor.weld\" is no fault. Did you mean"
                                + " contactor.welded?",
                        "config/scenarios/drive.toml:24: do[1].set.pedal = 1.4 is not a number within 0..1: it would be"
                                + " further than the lever goes. Use a number within 0..1.",
                        "config/scenarios/drive.toml:28: do[2].after_quantity = \"speed_kmh\" is no quantity. Did you mean"
                                + " speed_kph?",
                        "config/scenarios/drive.toml:36: expect[0].state = \"ONN\" is no state. Did you mean ON?",
                        "config/scenarios/drive.toml:37: expect[0].by_s is after the end of the run: it would never be"
                                + " judged. Make the run longer or this earlier."),
                refused(bad));
    }

    @Test
    void anEmptyFile_read_namesWhatIsMissing() {
        assertEquals(
                List.of(
                        "config/scenarios/drive.toml:1: about.duration_s is missing. Add it: a number within 0.1..172800.",
                        "config/scenarios/drive.toml:1: about.title is missing. Add it: a text in quotes.",
                        "config/scenarios/drive.toml:1: about.why is missing. Add it: a text in quotes.",
                        "config/scenarios/drive.toml:1: expect is missing: it would prove nothing. Add an [[expect]]."),
                refused("").stream().sorted().toList());
    }

    @Test
    void contradictionsInAnExpectation_read_areRefused() {
        assertAll(
                () -> refusedFor(
                        "state=\"ON\"; signal=\"bus_v\"; is=1; by_s=1",
                        "signal stands beside state. Keep one of the two."),
                () -> refusedFor("by_s=1", "has none of state, signal, output, quantity, interlock. Add one of them."),
                () -> refusedFor(
                        "state=\"ON\"; by_s=1; always=true", "always stands beside by_s. Keep one of the two."),
                () -> refusedFor("state=\"ON\"", "has none of by_s, within_ms, at_s, always, never. Add one of them."),
                () -> refusedFor(
                        "state=\"ON\"; is=1; by_s=1",
                        "is goes with signal, output or quantity: it would have no effect. Remove it."),
                () -> refusedFor(
                        "signal=\"bus_v\"; by_s=1",
                        "signal has no limit. Say what the value must be: is, at_least, at_most."),
                () -> refusedFor(
                        "signal=\"bus_v\"; at_least=5; at_most=4; by_s=1",
                        "at_least is more than at_most: it would never hold. Exchange the two."),
                () -> refusedFor(
                        "state=\"ON\"; within_ms=9",
                        "within_ms has no event to count from. Add after or after_state, or use by_s."),
                () -> refusedFor(
                        "state=\"ON\"; by_s=9; after=\"go\"",
                        "by_s counts from the start: it would mislead. Use within_ms instead."),
                () -> refusedFor(
                        "state=\"ON\"; within_ms=9; after=\"goo\"",
                        "after = \"goo\" is no step above this one. Did you mean go?"),
                () -> refusedFor(
                        "state=\"ON\"; never=true; stays=true",
                        "stays goes with by_s or within_ms: it would have no effect. Remove it."),
                () -> refusedFor(
                        "state=\"ON\"; always=true; from_s=5; to_s=4",
                        "from_s is later than to_s: it would leave nothing to judge. Exchange the two."),
                () -> refusedFor(
                        "state=\"ON\"; always=false", "always = false says nothing. Write the contrary with true."));
    }

    private static void refusedFor(String keys, String message) {
        BadInput bad = assertThrows(BadInput.class, () -> Strip.expect(keys), keys);
        List<String> found = bad.problems().stream()
                .map(p -> p.message().replaceFirst("^t\\.toml:\\d+: expect\\[0\\][. ]", ""))
                .toList();
        assertEquals(List.of(message), found, keys);
    }

    @Test
    void aStepAfterALaterStep_read_isRefused() {
        String bad = GOOD.replace("after = \"the driver turns the key\"", "after = \"pedal to 0\"");
        assertEquals(
                List.of(
                        "config/scenarios/drive.toml:21: do[1].after = \"pedal to 0\" is no step above this one. Use one of:"
                                + " the driver turns the key."),
                refused(bad));
    }
}
