package sprag.bench.evidence.bounds;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import sprag.supervisor.gate.Gate;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/**
 * The gate is the last that touches the commands. So what holds behind it holds for the whole supervisor, whatever stands before it: here
 * every command, every reading and everything that the gate can remember are anything at once, but for what a rule is about.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
abstract class GateBounds {
    private static final double INF = Double.POSITIVE_INFINITY;
    private static final Reals ANY_NUMBER = Reals.between(-INF, INF);
    private static final Reals POSITIVE = Reals.between(Double.MIN_VALUE, INF);
    private static final Reals NEGATIVE = Reals.between(-INF, -Double.MIN_VALUE);
    private static final List<Reals> ANY_PIECES = List.of(NEGATIVE, Reals.of(0), POSITIVE);
    private static final List<Output> CHARGE = List.of(
            Output.CHARGER_ENABLE,
            Output.CHARGE_CURRENT_LIMIT_A,
            Output.CHARGER_1_LIMIT_A,
            Output.CHARGER_2_LIMIT_A,
            Output.CHARGER_3_LIMIT_A);
    private static final List<Output> DRIVE = List.of(
            Output.NEGATIVE_CONTACTOR,
            Output.PRECHARGE_RELAY,
            Output.POSITIVE_CONTACTOR,
            Output.INVERTER_ENABLE,
            Output.TORQUE_REQUEST_NM);

    /** The vehicles that it is shown for. */
    abstract Stream<Cars> cars();

    /** A tick of the gate. */
    private static final class Tick {
        private final Gate gate;
        private final Readings in = new Readings();
        private final Commands c = new Commands();
        private final Set<Output> chosen = EnumSet.noneOf(Output.class);
        private Walk walk = new Walk();

        Tick(Cars car) {
            gate = new Gate(car.settings());
            for (Signal signal : Signal.values()) {
                given(signal, Reals.ANY);
            }
            // an open one takes everything away, see cutLoopNotClosed_nothingIsLeftOn; all other rules are looked at
            // with a closed one
            given(Signal.CUT_LOOP_CLOSED, Reals.of(1));
            for (Output output : Output.values()) {
                asked(output, ANY_NUMBER);
            }
            chosen.clear();
            walk.set(gate, "positiveWasClosed", Truth.EITHER);
            walk.set(gate, "lastTorqueNm", ANY_NUMBER);
            walk.set(gate, "prechargeTicks", new Ints(0, mostTicks() + 1));
        }

        int mostTicks() {
            return ((Ints) walk.get(gate, "prechargeMaxTicks")).lo();
        }

        Tick given(Signal signal, Reals value) {
            walk.setElement(walk.get(in, "value"), signal.ordinal(), value);
            return this;
        }

        Tick asked(Output output, Reals value) {
            walk.setElement(walk.get(c, "value"), output.ordinal(), value);
            chosen.add(output);
            return this;
        }

        Tick remembers(String field, Object value) {
            walk.set(gate, field, value);
            return this;
        }

        Truth check() {
            return (Truth) walk.call(gate, "check", in, c);
        }

        Reals out(Output output) {
            return (Reals) walk.element(walk.get(c, "value"), output.ordinal());
        }

        /** Each of the outputs is off behind the gate, whether it was asked for, either way, or not; the others are anything. */
        void assertReleased(Iterable<Output> outputs, String what) {
            Walk before = walk;
            for (Output output : outputs) {
                for (Reals asked : chosen.contains(output) ? List.of(out(output)) : ANY_PIECES) {
                    walk = before.copy();
                    walk.setElement(walk.get(c, "value"), output.ordinal(), asked);
                    check();
                    assertEquals(
                            Reals.of(0), out(output).plus(Reals.of(0)), what + ": " + output.key() + " at " + asked);
                    walk = before;
                }
            }
        }

        void assertReleased(Output output, String what) {
            assertReleased(List.of(output), what);
        }
    }

    /** Every reading of a switch but one, in pieces. */
    private static List<Reals> allBut(double value) {
        return List.of(Reals.between(-INF, Math.nextDown(value)), Reals.between(Math.nextUp(value), INF), Reals.NAN);
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void cutLoopNotClosed_nothingIsLeftOn(Cars car) {
        for (Reals loop : allBut(1)) {
            new Tick(car).given(Signal.CUT_LOOP_CLOSED, loop).assertReleased(DRIVE, "loop reads " + loop);
            new Tick(car).given(Signal.CUT_LOOP_CLOSED, loop).assertReleased(CHARGE, "loop reads " + loop);
        }
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void torque_neverWithoutWhatItNeeds(Cars car) {
        double mostNm = Math.max(car.get(Parameter.DRIVE_TORQUE_NM), car.get(Parameter.REGEN_TORQUE_NM));
        Output torque = Output.TORQUE_REQUEST_NM;
        for (Output needed : List.of(Output.NEGATIVE_CONTACTOR, Output.POSITIVE_CONTACTOR, Output.INVERTER_ENABLE)) {
            new Tick(car).asked(needed, Reals.of(0)).assertReleased(torque, "without " + needed.key());
        }
        new Tick(car).asked(torque, Reals.between(Math.nextUp(mostNm), INF)).assertReleased(torque, "too much");
        new Tick(car).asked(torque, Reals.between(-INF, -Math.nextUp(mostNm))).assertReleased(torque, "too much back");
        for (Reals key : allBut(1)) {
            for (int sign = -1; sign <= 1; sign += 2) {
                Reals before = Reals.between(-mostNm / 2, mostNm / 2);
                Reals more = Reals.between(Math.nextUp(mostNm / 2), mostNm);
                new Tick(car)
                        .given(Signal.KEY_ON, key)
                        .remembers("lastTorqueNm", before)
                        .asked(torque, sign > 0 ? more : more.negate())
                        .assertReleased(torque, "grows with the key at " + key);
            }
        }
        signs(car, torque);
    }

    /** Every sign of a plug that the vehicle has ends torque, each alone. */
    private static void signs(Cars car, Output torque) {
        Settings settings = car.settings();
        if (settings.has(Signal.PILOT_PEAK_V)) {
            Reals near = Reals.between(-INF, Math.nextDown(4.0)).orNan();
            new Tick(car).given(Signal.PROXIMITY_V, near).assertReleased(torque, "proximity");
            Reals station = Reals.between(Math.nextUp(2.0), INF).orNan();
            new Tick(car).given(Signal.PILOT_PEAK_V, station).assertReleased(torque, "pilot");
        }
        boolean plain = settings.is(Parameter.INLET_KIND, "plain");
        boolean byPlug = settings.has(Signal.PLUG_PRESENT) && (settings.has(Signal.PILOT_PEAK_V) || plain);
        Signal[] lines = {Signal.CHARGER_1_OK, Signal.CHARGER_2_OK, Signal.CHARGER_3_OK};
        for (Reals on : allBut(0)) {
            if (byPlug) {
                new Tick(car).given(Signal.PLUG_PRESENT, on).assertReleased(torque, "plug reads " + on);
            }
            for (int i = 0; i < car.get(Parameter.CHARGER_COUNT) && plain && !byPlug; i++) {
                if (settings.has(lines[i])) {
                    new Tick(car).given(lines[i], on).assertReleased(torque, lines[i].key() + " reads " + on);
                }
            }
        }
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void mainContactor_neverClosesOntoAnUnchargedBusAndTakesTheTorqueWithIt(Cars car) {
        double fraction = car.get(Parameter.PRECHARGE_DONE_FRACTION);
        List<Output> both = List.of(Output.POSITIVE_CONTACTOR, Output.TORQUE_REQUEST_NM);
        for (int i = 0; i < car.pieces(); i++) {
            Reals packV = Reals.between(1000.0 * i / car.pieces(), 1000.0 * (i + 1) / car.pieces());
            Reals less = Reals.between(-INF, Math.nextDown(fraction * packV.lo()));
            closing(car)
                    .given(Signal.PACK_VOLTAGE_V, packV)
                    .given(Signal.BUS_VOLTAGE_V, less)
                    .assertReleased(both, "bus " + less);
        }
        closing(car).given(Signal.PACK_VOLTAGE_V, Reals.NAN).assertReleased(both, "unknown pack");
        closing(car).given(Signal.BUS_VOLTAGE_V, Reals.NAN).assertReleased(both, "unknown bus");
    }

    private static Tick closing(Cars car) {
        return new Tick(car).remembers("positiveWasClosed", Truth.NO);
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void prechargeRelay_neverStaysClosedBeyondItsTime(Cars car) {
        Tick tick = new Tick(car);
        Ints beyond = new Ints(tick.mostTicks(), tick.mostTicks() + 1);
        tick.remembers("prechargeTicks", beyond).assertReleased(Output.PRECHARGE_RELAY, "beyond its time");
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void charge_neverWithoutWhatItNeeds(Cars car) {
        double mostA = car.get(Parameter.PACK_CHARGE_MAX_A);
        Reals tooMuch = Reals.between(Math.nextUp(mostA), INF);
        for (Output current : CHARGE.subList(1, CHARGE.size())) {
            new Tick(car).asked(current, NEGATIVE).assertReleased(CHARGE, "negative " + current.key());
            Tick more = new Tick(car).asked(current, tooMuch);
            for (Output other : CHARGE.subList(2, CHARGE.size())) {
                if (current != Output.CHARGE_CURRENT_LIMIT_A && other != current) {
                    more.asked(other, Reals.between(0, INF));
                }
            }
            more.assertReleased(CHARGE, "too much " + current.key());
        }
        Reals tooHigh = Reals.between(Math.nextUp(car.get(Parameter.PACK_MAX_V)), INF);
        new Tick(car).asked(Output.CHARGE_VOLTAGE_LIMIT_V, tooHigh).assertReleased(CHARGE, "too high");
        for (Reals on : List.of(NEGATIVE, POSITIVE)) {
            // with the loop closed: an open one takes the inverter away, and everything else with it
            Tick alive =
                    new Tick(car).given(Signal.CUT_LOOP_CLOSED, Reals.of(1)).asked(Output.INVERTER_ENABLE, on);
            alive.assertReleased(CHARGE, "inverter alive");
        }
        if (car.settings().is(Parameter.INLET_LOCK, "fitted") && car.settings().has(Signal.PLUG_LOCKED)) {
            for (Reals lock : allBut(1)) {
                new Tick(car).given(Signal.PLUG_LOCKED, lock).assertReleased(CHARGE, "lock reads " + lock);
            }
        }
        for (Reals switches : allBut(1)) {
            Reals proximityV = Reals.between(4, INF).orNan();
            Reals pilotV = Reals.between(-INF, 2).orNan();
            shows(new Tick(car), switches, proximityV, pilotV).assertReleased(CHARGE, "switches read " + switches);
        }
    }

    private static Tick unplugged(Tick tick) {
        return shows(tick, Reals.of(0), Reals.between(4, INF), Reals.between(-INF, 2));
    }

    /** What the signs of a plug read: all switches the same. */
    private static Tick shows(Tick tick, Reals switches, Reals proximityV, Reals pilotV) {
        return tick.given(Signal.PLUG_PRESENT, switches)
                .given(Signal.PROXIMITY_V, proximityV)
                .given(Signal.PILOT_PEAK_V, pilotV)
                .given(Signal.CHARGER_1_OK, switches)
                .given(Signal.CHARGER_2_OK, switches)
                .given(Signal.CHARGER_3_OK, switches);
    }

    /** Nothing that is in order is taken back, and nothing that no rule is about is ever touched. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void gate_touchesNothingElse(Cars car) {
        double mostNm = Math.max(car.get(Parameter.DRIVE_TORQUE_NM), car.get(Parameter.REGEN_TORQUE_NM));
        Tick drive = unplugged(new Tick(car))
                .given(Signal.CUT_LOOP_CLOSED, Reals.of(1))
                .given(Signal.KEY_ON, Reals.of(1))
                .asked(Output.NEGATIVE_CONTACTOR, Reals.of(1))
                .asked(Output.POSITIVE_CONTACTOR, Reals.of(1))
                .asked(Output.INVERTER_ENABLE, Reals.of(1))
                .asked(Output.PRECHARGE_RELAY, Reals.between(0, 1))
                .asked(Output.TORQUE_REQUEST_NM, Reals.between(-mostNm, mostNm))
                .remembers("positiveWasClosed", Truth.YES)
                .remembers("prechargeTicks", Ints.of(0));
        CHARGE.forEach(output -> drive.asked(output, Reals.of(0)));
        assertEquals(Truth.NO, drive.check(), "a drive in order");
        assertEquals(Reals.between(-mostNm, mostNm), drive.out(Output.TORQUE_REQUEST_NM));
        Tick any = new Tick(car);
        int mark = 1;
        for (Output output : Output.values()) {
            if (!DRIVE.contains(output) && !CHARGE.contains(output) && output != Output.CHARGE_VOLTAGE_LIMIT_V) {
                any.asked(output, Reals.of(mark++));
            }
        }
        any.check();
        mark = 1;
        for (Output output : Output.values()) {
            if (!DRIVE.contains(output) && !CHARGE.contains(output) && output != Output.CHARGE_VOLTAGE_LIMIT_V) {
                assertEquals(Reals.of(mark++), any.out(output), output.key());
            }
        }
        assertTrue(mark > 5, "outputs that no rule is about");
    }
}
