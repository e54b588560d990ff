package sprag.supervisor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.Set;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/**
 * A start, a drive, a rundown and a plug, again and again; at tick 0, then 1, then 2 ... one signal is lost, stuck low or
 * stuck high, once for three ticks and once for good. The absolutes hold, and the car comes to rest.
 */
@Execution(ExecutionMode.CONCURRENT)
class FaultAtEveryTickTest {
    private static final int LASTING = 100_000;
    private static final int BRIEF = 3;
    /** Lost, stuck low, stuck high. */
    private static final int WAYS = 3;

    private static final int SCRIPT_TICKS = 190;
    private static final int REST_TICKS = 260;
    /** After that long at rest a run is over: with the key off and no plug there is nothing left that could start it. */
    private static final int LONG_AT_REST_TICKS = 30;

    /** A quick vehicle, so that the script is short: what counts is the order, not the seconds. */
    private static final Settings QUICK = TestVehicle.full()
            .with(Parameter.PRECHARGE_RESISTANCE_OHM, 20)
            .with(Parameter.PRECHARGE_FAST_MS, 20)
            .with(Parameter.PRECHARGE_MIN_MS, 60)
            .with(Parameter.PRECHARGE_TIMEOUT_MS, 350)
            .with(Parameter.PRECHARGE_FLAT_FRACTION, 2)
            .with(Parameter.CONTACTOR_WELD_TEST_MS, 20)
            .with(Parameter.CONTACTOR_CLOSE_MS, 20)
            .with(Parameter.CONTACTOR_RELEASE_MS, 20)
            .with(Parameter.CONTACTOR_OVERLAP_MS, 20)
            .with(Parameter.INLET_STALE_MS, 50)
            .with(Parameter.RUNDOWN_WAIT_MS, 100)
            .with(Parameter.RUNDOWN_SPIN_MS, 200)
            .with(Parameter.BUS_BLEED_MS, 1000);

    private static Rig rig() {
        Rig rig = new Rig(QUICK);
        rig.bleedS = 0.05;
        return rig;
    }

    /** The speed rises and falls as a car's does: a jump would be doubted, and a doubted speed keeps a charge from beginning. */
    private static double speedKph(int tick) {
        return Math.max(0, 0.5 * Math.min(tick - 60, 110 - tick));
    }

    private static void script(Rig rig, int tick) {
        rig.given(Signal.MOTOR_SPEED_RPM, speedKph(tick) / rig.kphPerRpm());
        switch (tick) {
            case 2 -> rig.given(Signal.KEY_ON, 1).given(Signal.BRAKE_PRESSED, 1);
            case 6 -> rig.given(Signal.START_REQUEST, 1);
            case 9 -> rig.given(Signal.START_REQUEST, 0).given(Signal.FORWARD_SWITCH, 1);
            case 45 -> rig.given(Signal.BRAKE_PRESSED, 0).pedal(0.6);
            case 70 -> rig.pedal(0);
            case 85 -> rig.pedal(0.4);
            case 95 -> rig.given(Signal.KEY_ON, 0).pedal(0);
            case 135 ->
                rig.given(Signal.PLUG_PRESENT, 1).given(Signal.PROXIMITY_V, 1.9).given(Signal.PILOT_PEAK_V, 6);
            case 136 -> rig.given(Signal.PILOT_DUTY, 0.25);
            case SCRIPT_TICKS ->
                rig.given(Signal.PLUG_PRESENT, 0)
                        .given(Signal.PROXIMITY_V, 4.46)
                        .given(Signal.PILOT_PEAK_V, 0)
                        .given(Signal.PILOT_DUTY, 0);
            default -> {}
        }
    }

    @Test
    void withoutAFault_theScriptVisitsEverythingButFault() {
        Rig rig = rig();
        Set<State> seen = EnumSet.noneOf(State.class);
        boolean torque = false;
        boolean charge = false;
        for (int tick = 0; tick < SCRIPT_TICKS + REST_TICKS; tick++) {
            script(rig, tick);
            rig.run(1);
            seen.add(rig.state());
            torque |= rig.torqueNm() > 0;
            charge |= rig.out.isOn(Output.CHARGER_ENABLE);
        }
        assertEquals(EnumSet.complementOf(EnumSet.of(State.FAULT)), seen);
        assertTrue(torque, "torque flowed");
        assertTrue(charge, "charge flowed");
        assertEquals(State.OFF, rig.state());
    }

    /**
     * In every tick each signal fails: in one way for a short time, in another for good. The ways take turns from tick to tick and from
     * signal to signal. So in every tick each way befalls a third of the signals, and a short fault covers every tick.
     */
    @ParameterizedTest(name = "{0}")
    @EnumSource(Signal.class)
    void signalFailsAtAnyTick_absolutesHoldAndTheCarComesToRest(Signal signal) {
        failing(signal, 1);
    }

    @Tag("long")
    @ParameterizedTest(name = "{0}")
    @EnumSource(Signal.class)
    void signalFailsAtAnyTick_inEveryWay_absolutesHoldAndTheCarComesToRest(Signal signal) {
        failing(signal, WAYS);
    }

    /** That many of the ways in each tick. A lasting fault that begins with the honest value is the run that begins when it lies. */
    private static void failing(Signal signal, int waysATick) {
        double[] lies = {Double.NaN, signal.min, signal.max};
        double[] honest = honest(signal);
        boolean[][] lasted = new boolean[lies.length][SCRIPT_TICKS];
        for (int tick = 0; tick < SCRIPT_TICKS; tick++) {
            for (int turn = 0; turn < waysATick; turn++) {
                int brief = (signal.ordinal() + tick + turn) % lies.length;
                if (firstLie(lies[brief], honest, tick) < Math.min(SCRIPT_TICKS, tick + BRIEF)) {
                    once(signal, lies[brief], tick, BRIEF);
                }
                int forGood = (brief + 1) % lies.length;
                int from = Math.min(firstLie(lies[forGood], honest, tick), SCRIPT_TICKS - 1);
                if (!lasted[forGood][from]) {
                    lasted[forGood][from] = true;
                    once(signal, lies[forGood], from, LASTING);
                }
            }
        }
    }

    /** The first tick from that one on in which the value is not the honest one; the end of the script without one. */
    private static int firstLie(double lie, double[] honest, int from) {
        int tick = from;
        while (tick < SCRIPT_TICKS && Double.compare(honest[tick], lie) == 0) {
            tick++;
        }
        return tick;
    }

    /** What the signal shows in each tick of a run without a fault. */
    private static double[] honest(Signal signal) {
        Rig rig = rig();
        double[] values = new double[SCRIPT_TICKS];
        for (int tick = 0; tick < SCRIPT_TICKS; tick++) {
            script(rig, tick);
            rig.run(1);
            values[tick] = rig.in.get(signal);
        }
        return values;
    }

    private static boolean atRest(Rig rig) {
        return (rig.state() == State.OFF || rig.state() == State.FAULT) && !rig.anyContactor() && rig.torqueNm() == 0;
    }

    private static void once(Signal signal, double lie, int from, int duration) {
        Rig rig = rig();
        String who = signal + " = " + lie + " from tick " + from + " for " + duration;
        Absolutes absolutes = new Absolutes(rig, who);
        int restingTicks = 0;
        for (int tick = 0; tick < SCRIPT_TICKS + REST_TICKS && restingTicks < LONG_AT_REST_TICKS; tick++) {
            script(rig, tick);
            double honest = rig.in.get(signal);
            boolean lying = tick >= from && tick - from < duration;
            rig.meddle = () -> {};
            if (lying) {
                rig.meddle(signal, lie);
            }
            rig.run(1);
            absolutes.check();
            if (lying) {
                rig.in.set(signal, honest);
            }
            restingTicks = tick > SCRIPT_TICKS && atRest(rig) ? restingTicks + 1 : 0;
        }
        assertEquals(0, rig.torqueNm(), who);
        boolean keyStuckOn = signal == Signal.KEY_ON && lie == 1;
        assertTrue(keyStuckOn || !rig.anyContactor(), who + ": still closed in " + rig.state());
        if (duration < LASTING) {
            assertTrue(
                    rig.state() == State.OFF || rig.state() == State.FAULT || rig.state() == State.RUNDOWN,
                    who + ": " + rig.state());
            assertFalse(rig.out.isOn(Output.CHARGER_ENABLE), who);
        }
    }
}
