package sprag.bench.panel.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.bench.car.Lever;
import sprag.bench.panel.PanelBench;
import sprag.bench.panel.bench.FrameLayout.Head;
import sprag.bench.panel.bench.FrameLayout.Section;
import sprag.bench.panel.guide.Guidance;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/** Single ticks that are kept, and the chain of reasons that is made of them. */
final class HistoryTest {
    private static History filled(long ticks, long eventAt) {
        History history = new History();
        for (long tick = 0; tick < ticks; tick++) {
            history.add(
                    new History.Moment(
                            tick,
                            new float[FrameLayout.LENGTH],
                            new byte[Fact.COUNT],
                            new Guidance("", "", List.of(), ""),
                            List.of()),
                    tick == eventAt);
        }
        return history;
    }

    @Test
    void newTicks_areAllKept_oldOnesOnlyNearAnEventAndEachTenth() {
        long event = 1003;
        History history = filled(2 * History.RECENT, event);
        assertNotNull(history.at(2 * History.RECENT - 1));
        assertNotNull(history.at(History.RECENT), "the oldest of the new ones");
        assertNull(history.at(History.RECENT - 1), "one tick older");
        assertNotNull(history.at(event - History.AROUND));
        assertNotNull(history.at(event + History.AROUND));
        assertNull(history.at(event - History.AROUND - 1));
        assertNull(history.at(event + History.AROUND + 2));
        assertNotNull(history.at(500), "each tenth");
        assertNull(history.at(501));
    }

    @Test
    void manyTicks_memoryIsBounded_theOldestGoFirst() {
        History history = filled(100_000, -1);
        long kept = java.util.stream.LongStream.range(0, 100_000)
                .filter(tick -> history.at(tick) != null)
                .count();
        assertEquals(History.MOST, kept);
        assertNull(history.at(0));
    }

    @ParameterizedTest
    @EnumSource(Fact.class)
    void eachFact_hasItsReadingsOrIsTheGatesOwnOrATimers(Fact fact) {
        boolean made = List.of(Fact.GATE_VETOED, Fact.CHARGE_RETRY, Fact.CHARGE_TOO_LONG)
                .contains(fact);
        assertEquals(made, FactSource.of(fact).readings().isEmpty());
    }

    @Test
    void pluggedWhileDriving_tickOfTheStop_showsReadingFactInterlockAndOutput() {
        PanelBench panel = new PanelBench().drive().move(Lever.PLUG, 1).run(1000);
        Note note = panel.note("DRIVE_ENABLE \u2192 RUNDOWN");
        History.Moment moment = panel.bench.history().at(note.tick());
        assertEquals(State.RUNDOWN.ordinal(), (int) moment.numbers()[Head.STATE.ordinal()]);
        assertEquals(1, moment.numbers()[Section.SIGNALS.offset() + Signal.PLUG_PRESENT.ordinal()]);
        List<Chain> chains = Chain.of(moment, panel.bench.history(), panel.bench.notes(), panel.bench.vehicle());
        Chain exit = chains.get(0);
        assertEquals("DRIVE_ENABLE \u2192 RUNDOWN", exit.rule());
        assertTrue(exit.fact().contains("plug seen became yes"), exit.fact());
        assertTrue(exit.readings().contains("plug_present on"), exit.readings().toString());
        Chain plug = chains.stream()
                .filter(chain -> chain.rule().equals("plug-present acts"))
                .findFirst()
                .orElseThrow();
        assertEquals(Interlock.PLUG_PRESENT.why, plug.sentence());
        Chain outputs = chains.get(chains.size() - 1);
        assertTrue(outputs.effect().contains("torque_request_nm 0"), outputs.effect());
        History.Moment before = panel.bench.history().at(note.tick() - 1);
        assertEquals(State.DRIVE_ENABLE.ordinal(), (int) before.numbers()[Head.STATE.ordinal()]);
    }

    @Test
    void coverOpened_chainNamesTheLimitWithTheValueOfThisVehicle() {
        PanelBench panel = new PanelBench()
                .run(100)
                .move(Lever.KEY, 1)
                .run(300)
                .move(Lever.COVER_LOOP, 0)
                .run(300);
        Note note = panel.note("cover-loop-open");
        Chain cover = Chain.of(
                        panel.bench.history().at(note.tick()),
                        panel.bench.history(),
                        panel.bench.notes(),
                        panel.bench.vehicle())
                .stream()
                .filter(chain -> chain.rule().startsWith("cover-loop-open"))
                .findFirst()
                .orElseThrow();
        assertEquals(List.of("for 50 ms (loop.blind_ms)"), cover.limits());
    }

    @Test
    void newCar_nothingOfTheOldOneIsKept() {
        PanelBench panel = new PanelBench().run(2000);
        assertNotNull(panel.bench.history().at(150));
        panel.order(new Order.Afresh()).run(100);
        assertNull(panel.bench.history().at(150));
    }

    /** The clock of a new car begins at 0 again: an event of the old one is no event of the same tick. */
    @Test
    void newCar_sameTickAsAnEventOfTheOldOne_chainTellsNothingOfThatEvent() {
        PanelBench panel = new PanelBench().run(100).move(Lever.KEY, 1).run(500);
        Note old = panel.note("OFF \u2192 IGNITION");
        panel.order(new Order.Afresh()).run(1000);
        History.Moment moment = panel.bench.history().at(old.tick());
        List<String> rules =
                Chain.of(moment, panel.bench.history(), panel.bench.notes(), panel.bench.vehicle()).stream()
                        .map(Chain::rule)
                        .toList();
        assertFalse(rules.contains(old.what()), rules::toString);
        assertEquals(old.car() + 1, panel.note("new car").car());
    }

    @Test
    void leverMoved_longAgo_itsTicksAreStillKept() {
        PanelBench panel = new PanelBench().run(1030).move(Lever.HEATER, 1);
        panel.run(40_000);
        long tick = panel.note("heater to 1").tick();
        assertTrue(tick % History.SPARSE != 0, "a tick that only its event keeps: " + tick);
        assertNotNull(panel.bench.history().at(tick));
        assertNotNull(panel.bench.history().at(tick + 1));
    }

    @Test
    void startRefused_chainGivesTheSentenceAsItIs() {
        PanelBench panel = new PanelBench().run(100).move(Lever.START, 1).run(200);
        Note note = panel.note("start refused");
        Chain chain = Chain.of(
                        panel.bench.history().at(note.tick()),
                        panel.bench.history(),
                        panel.bench.notes(),
                        panel.bench.vehicle())
                .get(0);
        assertEquals(note.cause(), chain.sentence());
    }

    @Test
    void pedalPressedWhileOff_isRefusedOnce_withTheReason() {
        PanelBench panel = new PanelBench().run(100).move(Lever.PEDAL, 0.5).run(1000);
        Note note = panel.note("pedal refused");
        assertTrue(note.cause().contains("Turn the key on"), note.cause());
        assertEquals(
                1,
                java.util.stream.LongStream.range(0, panel.bench.notes().count())
                        .filter(i -> panel.bench.notes().get(i).what().equals("pedal refused"))
                        .count());
    }

    @Test
    void reverseChosenWhileRolling_isRefused_withTheReason() {
        PanelBench panel = new PanelBench().drive().move(Lever.DIRECTION, -1).run(500);
        Note note = panel.note("direction refused");
        assertTrue(note.cause().contains("standstill"), note.cause());
    }

    @Test
    void driveThatObeys_refusesNothing() {
        assertNull(new PanelBench().drive().run(2000).note("refused"));
    }
}
