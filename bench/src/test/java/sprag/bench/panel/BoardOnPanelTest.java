package sprag.bench.panel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.List;
import org.junit.jupiter.api.Test;
import sprag.bench.car.Lever;
import sprag.bench.panel.FrameLayout.Head;
import sprag.bench.panel.FrameLayout.Section;
import sprag.hal.Device;
import sprag.hal.Health;
import sprag.hal.SimulatedDevice;
import sprag.supervisor.vocabulary.Signal;

/** A board beside the simulated car: real time, deliberate arming, and a page that is gone holds nothing. */
final class BoardOnPanelTest {
    private static final long PAGE = 3;

    private final SimulatedDevice pins = new SimulatedDevice(EnumSet.of(Signal.KEY_ON, Signal.BRAKE_PRESSED));
    private final ManualClock clock = new ManualClock();
    private final FakeBoard board = new FakeBoard();
    private final Panel panel = new Panel(PanelBench.vehicle("parcel-van"), board, clock, List.of());
    private final BenchThread bench = panel.bench();
    private int disarmed;

    private final class FakeBoard implements BoardLink {
        private Stage stage = Stage.READY;

        @Override
        public Device device() {
            return pins;
        }

        @Override
        public Stage stage() {
            return stage;
        }

        @Override
        public String identity() {
            return "bench board 1.0";
        }

        @Override
        public Health arm() {
            stage = Stage.ARMED;
            return Health.OK;
        }

        @Override
        public void disarm() {
            disarmed++;
            stage = Stage.READY;
        }
    }

    /** Runs the bench's own real-time loop for so many ticks, while the page speaks or not. */
    private void run(int ticks, boolean speaks) {
        long end = bench.plant().loop.ticks() + ticks;
        pins.set(Signal.KEY_ON, 0);
        pins.set(Signal.BRAKE_PRESSED, 0);
        Plant plant = bench.plant();
        plant.closed.run(
                () -> {
                    if (speaks) {
                        panel.helm().heard(PAGE, clock.nowNs());
                    }
                    return bench.beforeRealTick() && plant.loop.ticks() < end;
                },
                bench::seen);
    }

    private void inControl() {
        panel.helm().ask(PAGE, clock.nowNs());
        run(20, true);
    }

    private Source source(Signal signal) {
        return Source.values()[(int) PanelBench.number(bench.newest(), Section.SOURCES.offset() + signal.ordinal())];
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
        bench.order(new Order.Arm());
        run(20, true);
        assertEquals(BoardLink.Stage.ARMED, board.stage());
        int before = disarmed;
        run(200, false);
        assertEquals(BoardLink.Stage.READY, board.stage());
        assertEquals(before + 1, disarmed);
    }

    @Test
    void armed_signalForced_isRefused() {
        inControl();
        bench.order(new Order.Arm());
        run(20, true);
        bench.order(new Order.Force(Signal.BRAKE_PRESSED, 1));
        run(20, true);
        assertEquals(0, bench.plant().device.count());
    }

    @Test
    void signalForced_arm_isRefused() {
        inControl();
        bench.order(new Order.Force(Signal.BRAKE_PRESSED, 1));
        bench.order(new Order.Arm());
        run(20, true);
        assertEquals(BoardLink.Stage.READY, board.stage());
    }

    @Test
    void speedAndPause_withABoard_areRefused() {
        inControl();
        bench.order(new Order.Speed(20));
        bench.order(new Order.Pause(true));
        long before = bench.plant().loop.ticks();
        run(100, true);
        assertEquals(100, bench.plant().loop.ticks() - before, 1);
        assertFalse(bench.isPaused());
        assertEquals(1, PanelBench.number(bench.newest(), Head.SPEED.ordinal()));
    }

    @Test
    void newCar_disarmsTheBoard() {
        inControl();
        bench.order(new Order.Arm());
        run(20, true);
        bench.order(new Order.Afresh());
        run(20, true);
        assertEquals(BoardLink.Stage.READY, board.stage());
    }

    @Test
    void levers_stillMoveTheSimulatedPart() {
        inControl();
        bench.order(new Order.Move(Lever.AMBIENT_C, 35));
        run(20, true);
        assertTrue(bench.plant().car.levers().get(Lever.AMBIENT_C) == 35);
    }
}
