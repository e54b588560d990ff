package sprag.bench.panel.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.car.Lever;
import sprag.bench.car.PartFault;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.FrameColumns;
import sprag.bench.panel.PanelBench;
import sprag.bench.panel.bench.FrameLayout.Head;
import sprag.bench.panel.session.Source;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioReader;
import sprag.bench.scenario.ScenarioRun;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/** The bench on a clock of the test's own: every time here is exact. */
final class BenchThreadTest {
    private final PanelBench rig = new PanelBench();

    @Test
    void coldCar_keyBrakeStartDirectionPedal_drives() {
        rig.drive();
        assertEquals(State.DRIVE_ENABLE, rig.state());
        assertTrue(rig.bench.session().loop.car().truth(sprag.bench.car.Quantity.SPEED_KPH) > 1);
        assertEquals("The torque request follows the pedal.", rig.guidance().now());
    }

    @Test
    void keyOnWithoutBrake_isToldWhatIsMissing_andNothingAfterTheBrake() {
        rig.run(100).move(Lever.KEY, 1).run(300);
        assertEquals(java.util.List.of("Press the brake."), rig.guidance().missing());
        rig.move(Lever.BRAKE, 0.5).run(300);
        assertEquals(java.util.List.of(), rig.guidance().missing());
        assertEquals("Nothing is missing: press Start.", rig.guidance().next());
    }

    @Test
    void keyOnWithoutBrake_startPressed_leavesANoteWithTheReason() {
        rig.run(100).move(Lever.KEY, 1).run(300).move(Lever.START, 1).run(300);
        assertEquals(State.IGNITION, rig.state());
        assertEquals("Press the brake.", rig.note("start refused").cause());
    }

    @Test
    void pluggedIn_startPressed_noteSaysUnplug() {
        rig.run(100).move(Lever.PLUG, 1).run(300).move(Lever.KEY, 1).run(100);
        rig.move(Lever.BRAKE, 0.5).move(Lever.START, 1).run(300);
        assertTrue(
                rig.note("start refused").cause().contains("Unplug."),
                rig.note("start refused").toString());
    }

    @Test
    void driving_plugIn_torqueEndsAndTheReasonIsTold() {
        rig.drive().move(Lever.PLUG, 1).run(500);
        assertEquals(State.RUNDOWN, rig.state());
        Note note = rig.note("DRIVE_ENABLE \u2192 RUNDOWN");
        assertTrue(note.cause().contains(Interlock.PLUG_PRESENT.id()), note.toString());
        assertEquals(0, rig.bench.session().loop.commands().get(sprag.supervisor.vocabulary.Output.TORQUE_REQUEST_NM));
    }

    @Test
    void driving_weldThenKeyOff_faultIsLatchedAndItsInterlockMarked() {
        rig.drive().order(new Order.Break(PartFault.POSITIVE_WELDED.key, "")).run(200);
        rig.move(Lever.PEDAL, 0).move(Lever.KEY, 0).run(20_000);
        assertEquals(State.FAULT, rig.state());
        assertTrue(rig.bench.session().latches.isLatched(Interlock.POSITIVE_WELDED));
    }

    @Test
    void latched_serviceResetWithTheCauseGone_marksNothingAnyMore() {
        driving_weldThenKeyOff_faultIsLatchedAndItsInterlockMarked();
        rig.order(new Order.MendAll()).run(15_000).move(Lever.SERVICE_RESET, 1).run(500);
        assertEquals(State.OFF, rig.state());
        for (Interlock row : Interlock.values()) {
            assertFalse(rig.bench.session().latches.isLatched(row), row.id());
        }
    }

    @ParameterizedTest
    @CsvSource(textBlock = """
        # silentMs, held, BECAUSE
        1400,       true,  a page may miss three words of four hundred milliseconds
        1600,       false, longer than the stated 1.5 s: the dead man's handle
        """)
    void driving_pageSilent_letsGoAfterTheStatedTimeAndNotBefore(long silentMs, boolean held, String because) {
        rig.drive().runSilent(silentMs);
        assertEquals(held ? 0.4 : 0, rig.lever(Lever.PEDAL), because);
        assertEquals(held, rig.panel.lease().holds(PanelBench.PAGE), because);
    }

    @Test
    void startHeld_pageSilent_letsGoOfStart() {
        rig.run(100).move(Lever.START, 1).move(Lever.SERVICE_RESET, 1).runSilent(1700);
        assertEquals(0, rig.lever(Lever.START));
        assertEquals(0, rig.lever(Lever.SERVICE_RESET));
    }

    @Test
    void driving_pageLeaves_letsGoInTheSameTickAndDropsWhatIsForced() {
        rig.drive().order(new Order.Force(Signal.BRAKE_PRESSED, 0)).run(50);
        assertEquals(1, rig.bench.session().device.count());
        rig.panel.lease().left(PanelBench.PAGE, rig.clock.nowNs());
        rig.thread.advance();
        assertEquals(0, rig.lever(Lever.PEDAL));
        assertEquals(0, rig.bench.session().device.count());
        assertNotNull(rig.note("pedal let go, forced signals dropped"));
    }

    @Test
    void ordersOfAnOldTerm_arriveAfterControlChanged_areNotDone() {
        rig.drive();
        rig.order(new Order.Move(Lever.PEDAL, 1));
        rig.panel.lease().left(PanelBench.PAGE, rig.clock.nowNs());
        rig.thread.advance();
        assertEquals(0, rig.lever(Lever.PEDAL));
    }

    @ParameterizedTest
    @CsvSource(textBlock = """
        # ms,  forced, BECAUSE
        29_900, true,  the stated time is 30 s
        30_100, false, nobody renewed it
        """)
    void forcedSignal_timePasses_fallsBackAfterTheStatedTimeAndNotBefore(String ms, boolean forced, String because) {
        rig.run(100).order(new Order.Force(Signal.PEDAL_A_V, 4.9)).run(Long.parseLong(ms.replace("_", "")));
        assertEquals(forced ? Source.FORCED : Source.SIMULATED, rig.source(Signal.PEDAL_A_V), because);
        assertEquals(forced, rig.bench.session().loop.readings().get(Signal.PEDAL_A_V) == 4.9, because);
    }

    @Test
    void signals_showWhereTheyComeFrom() {
        rig.run(200);
        assertEquals(Source.SIMULATED, rig.source(Signal.PACK_VOLTAGE_V));
        assertEquals(Source.LOOP, rig.source(Signal.LINK_LOST));
        assertEquals(Source.NOT_FITTED, rig.source(Signal.CHARGER_3_OK));
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.1, 0.5, 1, 2, 20})
    void speed_oneSecondOfRealTime_isThatManyTicks(double factor) {
        rig.run(100).order(new Order.Speed(factor)).run(20);
        long before = rig.ticks();
        rig.run(1000);
        long ticks = rig.ticks() - before;
        assertEquals(100 * factor, ticks, Math.max(1, 2 * factor), "ticks in a second at x" + factor);
        assertEquals(0, rig.head(Head.SLIPPED_S));
        assertEquals(0, rig.bench.session().loop.loop().overruns());
    }

    @Test
    void paused_singleTicks_areOneTickEach() {
        rig.run(100).order(new Order.Pause(true)).run(100);
        long before = rig.ticks();
        rig.run(5000);
        assertEquals(before, rig.ticks());
        rig.order(new Order.SingleTick()).run(200).order(new Order.SingleTick()).run(200);
        assertEquals(before + 2, rig.ticks());
        rig.order(new Order.Pause(false)).run(100);
        assertTrue(rig.ticks() > before + 5);
    }

    @Test
    void tenThousandOrdersAtOnce_queueIsBounded_andEveryTickComesOnTime() {
        rig.run(1000);
        long ticksBefore = rig.ticks();
        int taken = 0;
        for (int i = 0; i < 10_000; i++) {
            taken += rig.thread.order(new Order.Move(Lever.GRADE_PERCENT, i % 40)) ? 1 : 0;
        }
        assertEquals(256, taken);
        rig.run(1000);
        assertEquals(100, rig.ticks() - ticksBefore, 1);
        assertEquals(0, rig.bench.session().loop.loop().overruns());
        assertEquals(0, rig.head(Head.SLIPPED_S));
    }

    @Test
    void framesGoOut_twentyTimesASecond_whateverTheSpeed() {
        rig.run(100).order(new Order.Speed(20)).run(100);
        double before = rig.head(Head.FRAME);
        rig.run(2000);
        assertEquals(40, rig.head(Head.FRAME) - before, 1);
    }

    @Test
    void newCar_afterAWeld_isSoundAndOff() {
        driving_weldThenKeyOff_faultIsLatchedAndItsInterlockMarked();
        rig.order(new Order.Afresh()).run(100);
        assertEquals(State.OFF, rig.state());
        assertTrue(rig.bench.session().loop.car().faults().isEmpty());
        assertEquals(0, rig.lever(Lever.KEY));
    }

    @Test
    void savedScenario_playedByRun_passesAndEndsInTheSameState() throws Exception {
        rig.drive();
        for (int i = 0; i < 40; i++) {
            rig.move(Lever.PEDAL, 0.4 + 0.3 * Math.sin(i / 10.0)).run(60);
        }
        rig.order(new Order.Break(PartFault.POSITIVE_WELDED.key, "")).run(300);
        rig.move(Lever.PLUG, 1).run(9000);
        String text = rig.bench.scenario();
        Scenario scenario = ScenarioReader.parse(Path.of("saved.toml"), text, FrameColumns.VOCABULARY);
        ClosedLoop loop = new ClosedLoop(PanelBench.vehicle("parcel-van"), scenario.seed());
        RunResult result =
                new ScenarioRun(scenario, loop).play("parcel-van", (step, ms) -> {}, java.util.List.of(), () -> false);
        assertTrue(result.passed(), () -> text + "\n" + result.judged());
        assertEquals(State.FAULT, rig.state());
        assertTrue(
                scenario.steps().size() < 30,
                "a drag is a few ramps, not " + scenario.steps().size() + " steps");
    }

    @Test
    void savedScenario_nothingDone_saysSo() throws Exception {
        rig.run(2000);
        Scenario scenario = ScenarioReader.parse(Path.of("saved.toml"), rig.bench.scenario(), FrameColumns.VOCABULARY);
        assertEquals(1, scenario.expectations().size());
        assertEquals(0, scenario.steps().size());
    }

    @Test
    void exportedTrace_hasARowEachTenthOfASecondAndAtEveryChange() throws Exception {
        rig.drive();
        String csv = rig.bench.recent().csv();
        long rows = csv.lines().count() - 1;
        double seconds = rig.bench.session().loop.timeMs() / 1000.0;
        assertTrue(rows >= seconds * 10 && rows < seconds * 40, rows + " rows for " + seconds + " s");
        assertTrue(csv.contains(",DRIVE_ENABLE,"), csv.lines().findFirst().orElse(""));
    }

    @Test
    void shippedScenario_playedOnTheBench_isJudgedAsByRun() throws Exception {
        Scenario scenario = ScenarioReader.read(
                PanelBench.catalogue().scenario("drive-and-stop"),
                FrameColumns.VOCABULARY,
                PanelBench.vehicle("parcel-van"));
        PanelBench own = new PanelBench(scenario);
        own.order(new Order.Speed(20)).order(new Order.Play("drive-and-stop"));
        long latestNs = own.clock.nowNs() + TimeUnit.HOURS.toNanos(1);
        own.clock.onWait = () -> {
            own.panel.lease().heard(PanelBench.PAGE, own.clock.nowNs());
            boolean ended = own.note("played to its end") != null || own.note("stopped before") != null;
            if (ended || own.clock.nowNs() > latestNs) {
                own.thread.stop();
            }
        };
        own.thread.run();
        Note end = own.note("played to its end");
        assertNotNull(end, "it never came to its end");
        assertEquals("all as expected", end.consequence(), () -> "first not met: " + own.note("FAIL"));
    }

    @Test
    void playing_leversAndFaultsOfAPerson_areRefusedWithAReason() throws Exception {
        Scenario scenario = ScenarioReader.read(
                PanelBench.catalogue().scenario("drive-and-stop"),
                FrameColumns.VOCABULARY,
                PanelBench.vehicle("parcel-van"));
        PanelBench own = new PanelBench(scenario);
        own.run(100).order(new Order.Play("drive-and-stop")).run(50);
        own.move(Lever.PEDAL, 1).run(20);
        assertNotEquals(1, own.lever(Lever.PEDAL));
        assertNotNull(own.note("a scenario has the levers"));
        assertNull(own.note("played to its end"));
    }
}
