package sprag.bench.panel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.List;
import org.junit.jupiter.api.Test;
import sprag.bench.car.Lever;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.panel.bench.Bench;
import sprag.bench.panel.bench.BenchThread;
import sprag.bench.panel.bench.FrameLayout.Head;
import sprag.bench.panel.bench.FrameLayout.Section;
import sprag.bench.panel.bench.Order;
import sprag.bench.panel.session.BoardLink;
import sprag.bench.panel.session.Source;
import sprag.bench.panel.web.Panel;
import sprag.hal.SimulatedDevice;
import sprag.supervisor.vocabulary.Signal;

/** A board beside the simulated car: real time, deliberate arming, and a page that is gone holds nothing. */
final class BoardOnPanelTest {
    private static final long PAGE = 3;

    private final SimulatedDevice pins = new SimulatedDevice(EnumSet.of(Signal.KEY_ON, Signal.BRAKE_PRESSED));
    private final ManualClock clock = new ManualClock();
    private final FakeBoard board = new FakeBoard(pins);
    private final Panel panel = new Panel(PanelBench.vehicle("parcel-van"), board, clock, List.of());
    private final Bench bench = panel.bench();
    private final BenchThread thread = panel.thread();

    /** Runs the bench's own real-time loop for so many ticks, while the page speaks or not. */
    private void run(int ticks, boolean speaks) {
        long end = bench.session().loop.loop().ticks() + ticks;
        pins.set(Signal.KEY_ON, 0);
        pins.set(Signal.BRAKE_PRESSED, 0);
        ClosedLoop loop = bench.session().loop;
        loop.run(
                () -> {
                    if (speaks) {
                        panel.lease().heard(PAGE, clock.nowNs());
                    }
                    return thread.beforeRealTick() && loop.loop().ticks() < end;
                },
                bench::seen);
    }

    private void inControl() {
        panel.lease().ask(PAGE, true, clock.nowNs());
        run(20, true);
    }

    private Source source(Signal signal) {
        return Source.values()[
                (int) PanelBench.number(panel.publisher().frame(), Section.SOURCES.offset() + signal.ordinal())];
    }

    @Test
    void signals_showWhetherTheyComeFromTheBoard() {
        inControl();
        assertEquals(Source.BOARD, source(Signal.KEY_ON));
        assertEquals(Source.SIMULATED, source(Signal.PACK_VOLTAGE_V));
    }

    @Test
    void armed_pageSilent_isDisarmed() {
        inControl();
        thread.order(new Order.Arm(true, true));
        run(20, true);
        assertEquals(BoardLink.Stage.ARMED, board.stage());
        int before = board.disarmed;
        run(200, false);
        assertEquals(BoardLink.Stage.READY, board.stage());
        assertEquals(before + 1, board.disarmed);
    }

    @Test
    void armed_signalForced_isRefused() {
        inControl();
        thread.order(new Order.Arm(true, true));
        run(20, true);
        thread.order(new Order.Force(Signal.BRAKE_PRESSED, 1));
        run(20, true);
        assertEquals(0, bench.session().device.count());
    }

    @Test
    void signalForced_arm_isRefused() {
        inControl();
        thread.order(new Order.Force(Signal.BRAKE_PRESSED, 1));
        thread.order(new Order.Arm(true, true));
        run(20, true);
        assertEquals(BoardLink.Stage.READY, board.stage());
    }

    @Test
    void speedAndPause_withABoard_areRefused() {
        inControl();
        thread.order(new Order.Speed(20));
        thread.order(new Order.Pause(true));
        long before = bench.session().loop.loop().ticks();
        run(100, true);
        assertEquals(100, bench.session().loop.loop().ticks() - before, 1);
        assertFalse(PanelBench.number(panel.publisher().frame(), Head.PAUSED.ordinal()) == 1);
        assertEquals(1, PanelBench.number(panel.publisher().frame(), Head.SPEED.ordinal()));
    }

    @Test
    void newCar_disarmsTheBoard() {
        inControl();
        thread.order(new Order.Arm(true, true));
        run(20, true);
        thread.order(new Order.Afresh());
        run(20, true);
        assertEquals(BoardLink.Stage.READY, board.stage());
    }

    @Test
    void levers_stillMoveTheSimulatedPart() {
        inControl();
        thread.order(new Order.Move(Lever.AMBIENT_C, 35));
        run(20, true);
        assertTrue(bench.session().lever(Lever.AMBIENT_C) == 35);
    }
}
