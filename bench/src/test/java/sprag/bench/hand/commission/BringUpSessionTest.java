package sprag.bench.hand.commission;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.hand.commission.pins.Loom;
import sprag.bench.hand.commission.pins.PinDriver;
import sprag.bench.hand.commission.record.BringUpJournal;
import sprag.bench.hand.commission.record.CommissionRecord;
import sprag.bench.hand.commission.record.RecordPage;
import sprag.bench.hand.commission.record.RecordState;
import sprag.bench.hand.commission.record.StepResult;
import sprag.bench.hand.commission.record.StepVerdict;
import sprag.bench.hand.commission.steps.Answers;
import sprag.bench.hand.commission.steps.BringUpStep;
import sprag.bench.hand.commission.steps.Console;
import sprag.bench.hand.commission.steps.Plan;
import sprag.bench.hand.commission.steps.StepContext;
import sprag.bench.loop.record.Recordings;
import sprag.bench.review.pins.Drawing;
import sprag.bench.review.pins.Wired;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/** One session on the simulated loom, answered in other ways than a willing person would. */
class BringUpSessionTest {
    @TempDir
    Path folder;

    private final StringWriter said = new StringWriter();
    private Loom loom;
    private Plan plan;

    private record Scripted(UnaryOperator<String> reply) implements Answers {
        @Override
        public String next(PinDriver driver, String simulated) {
            return reply.apply(simulated);
        }

        @Override
        public String unasked() {
            return null;
        }

        @Override
        public boolean isDeserted() {
            return false;
        }
    }

    @BeforeEach
    void noJournalYet() throws Exception {
        Files.deleteIfExists(folder.resolve(BringUpJournal.FILE));
    }

    /** Runs a session on what the folder's journal holds. */
    private boolean session(UnaryOperator<String> reply) throws Exception {
        Path home = Catalogue.installed().vehicle("yard-cart");
        Vehicle vehicle = VehicleReader.read(home);
        Drawing drawing = Drawing.read(home);
        Wired wired = Wired.of(vehicle, drawing, null);
        loom = new Loom(vehicle, wired, null, List.of());
        PinDriver driver = new PinDriver(vehicle, loom, Recordings.none(), () -> false);
        Console console = new Console(new PrintWriter(said, true), new Scripted(reply), driver);
        StepContext context = new StepContext(vehicle, drawing, wired, loom, loom, driver, console, false);
        plan = Plan.of(context);
        try (BringUpJournal journal = new BringUpJournal(folder)) {
            RecordState state = new RecordState(journal);
            if (state.begin() == null) {
                state.addBegin("yard-cart", true, "", Map.of(), List.of());
            }
            return new BringUpSession(context, plan, state).run();
        }
    }

    private Map<String, RecordState.LastResult> results() {
        try (BringUpJournal journal = new BringUpJournal(folder)) {
            return new RecordState(journal).results();
        }
    }

    private StepVerdict verdict(String id) {
        return results().get(id).result().verdict();
    }

    @Test
    void wordForArmingNotTyped_nothingIsDriven() throws Exception {
        assertTrue(session(simulated -> simulated.equals("arm") ? "no" : simulated));
        assertFalse(loom.everDriven());
        assertEquals(StepVerdict.SKIPPED, verdict("arming.deliberate"));
        assertEquals(StepVerdict.NOT_DONE, verdict("output.positive_contactor"));
        assertEquals(StepVerdict.NOT_DONE, verdict("interlock.cut-loop-open"));
    }

    @Test
    void voltageFoundWhereNoneShouldBe_nothingIsDriven() throws Exception {
        int[] numbers = {0};
        assertTrue(session(simulated -> simulated.equals("0.0000") && numbers[0]++ == 0 ? "48" : simulated));
        assertEquals(StepVerdict.FAILED, verdict("safety.absence"));
        assertEquals(StepVerdict.NOT_DONE, verdict("arming.deliberate"));
        assertFalse(loom.everDriven());
    }

    @Test
    void limitOfAbsentVoltage_bothSides() throws Exception {
        int[] numbers = {0};
        session(simulated -> simulated.equals("0.0000") && numbers[0]++ == 0 ? "5" : simulated);
        assertEquals(StepVerdict.PASSED, verdict("safety.absence"));
        Files.delete(folder.resolve(BringUpJournal.FILE));
        numbers[0] = 0;
        session(simulated -> simulated.equals("0.0000") && numbers[0]++ == 0 ? "5,01" : simulated);
        assertEquals(StepVerdict.FAILED, verdict("safety.absence"));
    }

    @Test
    void skippedAndFailedByHand_areWrittenDownWithTheirWords() throws Exception {
        int[] asked = {0};
        session(simulated -> ++asked[0] == 4 ? "s no tester here" : simulated);
        assertEquals(
                "no tester here", results().get("safety.insulation").result().seen());
        assertEquals(StepVerdict.SKIPPED, verdict("safety.insulation"));
        asked[0] = 0;
        session(simulated -> ++asked[0] == 5 ? "f 3 ohm at the motor" : simulated);
        assertEquals(
                "3 ohm at the motor", results().get("safety.bonding").result().seen());
        assertEquals(StepVerdict.FAILED, verdict("safety.bonding"));
    }

    /** Whatever is typed afterwards, in this session and in the next: no step that needs the safety step is done. */
    @ParameterizedTest
    @CsvSource({
        "1, f no",
        "1, s no",
        "2, f no",
        "2, s no",
        "2, n",
        "3, f no",
        "3, s no",
        "3, 400",
        "3, -400",
        "4, f no",
        "4, s no",
        "4, 0.001",
        "5, f no",
        "5, s no",
        "5, 3"
    })
    void safetyStepNotPassed_everyStepThatNeedsItIsRefused_alsoAfterAResume(int which, String answer) throws Exception {
        for (int attempt = 0; attempt < 2; attempt++) {
            int[] asked = {0};
            // the insulation has passed before the bonding is asked for, so a resume leaves it out
            int question = which == 5 && attempt == 1 ? 4 : which;
            assertTrue(session(simulated -> ++asked[0] == question ? answer : simulated));
            assertFalse(loom.everDriven(), "attempt " + attempt);
            SafetyGate gate = new SafetyGate(plan.steps());
            BringUpStep open = plan.steps().get(which - 1);
            for (BringUpStep step : plan.steps()) {
                if (gate.neededFor(step).contains(open)) {
                    assertEquals(StepVerdict.NOT_DONE, verdict(step.id()), step.id());
                }
            }
            assertTrue(said.toString().contains("STOP"), said.toString());
        }
        assertTrue(session(simulated -> simulated));
        assertTrue(results().values().stream().allMatch(RecordState.LastResult::hasPassed), "mended: all is done");
    }

    @Test
    void failureMendedLater_staysInTheRecordWithItsTime() throws Exception {
        int[] asked = {0};
        session(simulated -> ++asked[0] == 3 ? "400" : simulated);
        session(simulated -> simulated);
        try (BringUpJournal journal = new BringUpJournal(folder)) {
            RecordState state = new RecordState(journal);
            List<RecordState.LastResult> attempts = state.attempts().get("safety.absence");
            assertEquals(
                    List.of(StepVerdict.FAILED, StepVerdict.PASSED),
                    attempts.stream().map(each -> each.result().verdict()).toList());
            CommissionRecord record = new CommissionRecord("yard-cart", "a cart", plan.texts(), plan.gaps(), state);
            String page = RecordPage.of(record);
            String failed = attempts.get(0).result().seen();
            assertTrue(failed.contains("400"), failed);
            assertTrue(page.contains("What failed before it passed"), "listed first");
            assertTrue(page.contains("before, " + attempts.get(0).at()), "and at the step");
            assertTrue(record.json().contains("\"seen\" : \"" + failed + "\""), record.json());
            assertTrue(
                    page.contains("<thead><tr><td><strong>REHEARSAL, nothing real</strong>, yard-cart"),
                    "on every sheet");
        }
    }

    @Test
    void nonsenseTyped_isAskedAgain() throws Exception {
        int[] asked = {0};
        session(simulated -> switch (++asked[0]) {
            case 2 -> "perhaps";
            case 4 -> "much";
            default -> simulated;
        });
        assertTrue(said.toString().contains("\"perhaps\" is neither y nor n"), said.toString());
        assertTrue(said.toString().contains("\"much\" is not a number"), said.toString());
        assertEquals(StepVerdict.PASSED, verdict("safety.absence"));
    }

    @Test
    void inputEnds_stops_andAResumeDoesOnlyWhatIsLeftAndWhatIsAskedAnew() throws Exception {
        int[] asked = {0};
        assertFalse(session(simulated -> ++asked[0] > 40 ? null : simulated));
        Map<String, RecordState.LastResult> first = results();
        assertFalse(loom.everDriven());
        assertTrue(session(simulated -> simulated));
        Map<String, RecordState.LastResult> second = results();
        assertEquals(plan.steps().size(), second.size());
        assertEquals(1, second.get("safety.insulation").session(), "done before, not asked again");
        assertEquals(2, second.get("safety.absence").session(), "asked in each session: the world may have changed");
        assertTrue(
                first.size() > 5 && first.size() < second.size(), first.keySet().toString());
        assertTrue(second.values().stream().allMatch(d -> d.result().verdict() == StepVerdict.PASSED));
    }

    @Test
    void everythingPassed_resumeAsksNothing() throws Exception {
        session(simulated -> simulated);
        assertTrue(session(simulated -> {
            throw new AssertionError("asked for " + simulated);
        }));
    }

    @Test
    void journalCutAtEveryByte_losesAtMostTheLastStep_andGoesOn() throws Exception {
        int[] asked = {0};
        session(simulated -> ++asked[0] > 4 ? null : simulated);
        byte[] whole = Files.readAllBytes(folder.resolve(BringUpJournal.FILE));
        List<String> ids = List.copyOf(results().keySet());
        for (int length = 0; length <= whole.length; length++) {
            Files.write(folder.resolve(BringUpJournal.FILE), Arrays.copyOf(whole, length));
            long ends = count(whole, length);
            try (BringUpJournal journal = new BringUpJournal(folder)) {
                RecordState state = new RecordState(journal);
                assertEquals(ends, journal.entries().size(), "cut at byte " + length);
                state.addStep("after.the_cut", StepResult.passed("it goes on"));
            }
            Set<String> kept = new HashSet<>(results().keySet());
            assertTrue(kept.remove("after.the_cut"), "cut at byte " + length);
            assertEquals(Set.copyOf(ids.subList(0, kept.size())), kept, "cut at byte " + length);
            assertEquals(Math.max(0, ends - 2), kept.size(), "a begin and a session come first; cut at byte " + length);
        }
    }

    @Test
    void journalCutWithinALine_theSessionGoesOnToTheEnd() throws Exception {
        int[] asked = {0};
        session(simulated -> ++asked[0] > 30 ? null : simulated);
        byte[] whole = Files.readAllBytes(folder.resolve(BringUpJournal.FILE));
        Files.write(folder.resolve(BringUpJournal.FILE), Arrays.copyOf(whole, whole.length - 7));
        assertTrue(session(simulated -> simulated));
        assertEquals(plan.steps().size(), results().size());
    }

    private static long count(byte[] bytes, int length) {
        long ends = 0;
        for (int i = 0; i < length; i++) {
            ends += bytes[i] == '\n' ? 1 : 0;
        }
        return ends;
    }
}
