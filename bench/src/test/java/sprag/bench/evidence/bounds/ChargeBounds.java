package sprag.bench.evidence.bounds;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import sprag.supervisor.input.ChargerLines;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;

/**
 * The charge current of one tick, for every reading, every quantity and everything that the shaper can remember at once. Never above the
 * least of its ceilings is the same as never above each of them: so each is looked at by itself, while all others are anything.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
abstract class ChargeBounds {
    private static final double INF = Double.POSITIVE_INFINITY;
    private static final double ROUNDING = 1e-9;

    /** The vehicles that it is shown for. */
    abstract Stream<Cars> cars();

    /** A tick for every choice of chargers that are well. */
    private static List<Charge> ticks(Cars car) {
        List<Charge> ticks = new ArrayList<>();
        for (int well = 0; well < 1 << (int) car.get(Parameter.CHARGER_COUNT); well++) {
            ticks.add(new Charge(car, well));
        }
        return ticks;
    }

    private static void assertWithin(double lo, double hi, Object value, String what) {
        Reals real = Memory.real(value);
        assertTrue(real.isEmpty() || real.lo() >= lo && real.hi() <= hi, what + ": " + real);
        assertFalse(real.nan(), what + ": " + real);
    }

    private static void assertMost(double share, Charge charge, Charge.Tick tick, String what) {
        double mostA = charge.greatestA() * share * (1 + ROUNDING);
        // a charger that can only be switched gives all or nothing: nothing, where a share is missing
        assertWithin(0, charge.isLimited() || share >= 1 ? mostA : 0, tick.totalA(), what);
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void anyTick_staysWithinTheGreatestAndKeepsWhatItRemembersInRange(Cars car) {
        double limitV = Math.min(car.get(Parameter.CHARGE_VOLTAGE_V), car.get(Parameter.PACK_MAX_V));
        for (Charge charge : ticks(car)) {
            Charge.Tick tick = charge.with();
            assertMost(1, charge, tick, "total");
            assertWithin(0, limitV, tick.out(Output.CHARGE_VOLTAGE_LIMIT_V), "voltage");
            assertWithin(0, charge.greatestA(), tick.remembered("fromVoltageA"), "by voltage");
            assertWithin(0, charge.greatestA(), tick.remembered("trimA"), "trim");
            assertWithin(0, 3 * charge.mostGivenA(), tick.remembered("silentA"), "silent");
            for (int i = 0; i < ChargerLines.MOST; i++) {
                assertWithin(0, charge.greatestA(), tick.out(ChargerLines.limit(i)), "charger " + i);
                assertWithin(0, charge.greatestA(), tick.remembered("askedA", i), "asked " + i);
                assertWithin(0, charge.mostGivenA(), tick.remembered("mayGiveA", i), "may give " + i);
                assertWithin(0, charge.mostSilentTicks(), tick.remembered("silentTicks", i), "silent ticks " + i);
            }
        }
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void notPermitted_isNothing(Cars car) {
        for (Charge charge : ticks(car)) {
            Charge.Tick tick = charge.permitted(false).with();
            for (Output output : Output.values()) {
                assertWithin(0, 0, tick.out(output), output.key());
            }
        }
    }

    /** What a charger says counts only within the range that its signal can have: that is what the other tests rest on. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void whatAChargerSays_isWithinTheRangeOfItsSignal(Cars car) {
        ChargerLines lines = new ChargerLines(car.settings());
        Readings in = new Readings();
        Signal[] currents = {Signal.CHARGER_1_CURRENT_A, Signal.CHARGER_2_CURRENT_A, Signal.CHARGER_3_CURRENT_A};
        for (int i = 0; i < ChargerLines.MOST; i++) {
            double mostA = currents[i].max;
            for (Reals piece : new Reals[] {
                Reals.between(-INF, -Double.MIN_VALUE),
                Reals.between(0, mostA),
                Reals.between(Math.nextUp(mostA), INF),
                Reals.NAN
            }) {
                Walk walk = new Walk();
                walk.setElement(walk.get(in, "value"), currents[i].ordinal(), piece);
                Reals said = (Reals) walk.call(lines, "currentA", Ints.of(i), in);
                assertTrue(said.isEmpty() || said.lo() >= 0 && said.hi() <= mostA, piece + " gives " + said);
            }
        }
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void temperaturesAndCells_leaveTheirShareAtMost(Cars car) {
        double coldC = car.get(Parameter.PACK_COLD_C);
        double coolC = car.get(Parameter.PACK_COOL_C);
        double coolShare = car.get(Parameter.PACK_COOL_SHARE);
        double highV = car.get(Parameter.CELL_HIGH_V);
        double endV = highV + 0.75 * (car.get(Parameter.CELL_MAX_V) - highV);
        for (Charge charge : ticks(car)) {
            assertMost(
                    0,
                    charge,
                    charge.with("packColdC", Reals.between(-INF, coldC).orNan()),
                    "cold");
            Reals cool = Reals.between(Math.nextUp(coldC), coolC);
            assertMost(coolShare, charge, charge.with("packColdC", cool), "cool");
            for (int i = 0; i < car.pieces(); i++) {
                double to = (i + 1.0) / car.pieces();
                Reals mild = Reals.between(Math.nextUp(coolC), coolC + 2 * to);
                assertMost(coolShare + (1 - coolShare) * to, charge, charge.with("packColdC", mild), "from cool");
            }
            falling(charge, "packHotC", car.get(Parameter.CHARGE_WARM_C), car.get(Parameter.CHARGE_HOT_C));
            if (car.settings().has(Signal.CELL_MAX_V)) {
                falling(charge, "cellMaxV", highV, endV);
            }
            if (car.settings().has(Signal.CELL_MIN_V)) {
                drained(charge, "cellMinV", car.get(Parameter.CELL_MIN_V));
            }
            drained(charge, "packVoltageV", car.get(Parameter.PACK_MIN_V));
        }
    }

    private static void falling(Charge charge, String quantity, double from, double to) {
        int pieces = charge.car.pieces();
        for (int i = 0; i <= pieces; i++) {
            double share = i / (double) pieces;
            // the last piece begins at the end itself, not a rounding before it
            Reals piece = Reals.between(i == pieces ? to : from + (to - from) * share, INF);
            assertMost(1 - share, charge, charge.with(quantity, piece), quantity + " " + piece);
        }
        assertMost(0, charge, charge.with(quantity, Reals.NAN), quantity + " unknown");
    }

    private static void drained(Charge charge, String quantity, double leastV) {
        Reals dead = Reals.between(-INF, Math.nextDown(0.5 * leastV)).orNan();
        assertMost(0, charge, charge.with(quantity, dead), quantity + " dead or unknown");
        Reals low = Reals.between(0.5 * leastV, Math.nextDown(leastV));
        assertMost(0.1, charge, charge.with(quantity, low), quantity + " low");
    }

    /** The station's power, the chargers' ratings, and the voltage: each at every pack voltage. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void stationRatingsAndVoltage_areNeverPassed(Cars car) {
        double perA = car.get(Parameter.INLET_PHASES)
                * car.get(Parameter.INLET_SUPPLY_V)
                * car.get(Parameter.CHARGER_POWER_FACTOR)
                * car.get(Parameter.CHARGER_EFFICIENCY);
        double minV = car.get(Parameter.PACK_MIN_V);
        double overV = car.get(Parameter.CHARGE_OVER_V);
        double limitV = Math.min(car.get(Parameter.CHARGE_VOLTAGE_V), car.get(Parameter.PACK_MAX_V));
        double endV = limitV + overV * 3 / 4;
        for (Charge charge : ticks(car)) {
            assertWithin(
                    0,
                    0,
                    charge.with("packVoltageV", Reals.between(endV, INF).orNan())
                            .totalA(),
                    "too high");
            if (!charge.isLimited()) {
                continue;
            }
            Reals nothing = Reals.between(-INF, 0).orNan();
            assertWithin(0, 0, charge.with("allowedAcA", nothing).totalA(), "nothing offered");
            for (int i = 0; i < car.pieces(); i++) {
                double fromV = i == 0 ? -INF : minV + (endV - minV) * i / car.pieces();
                Reals packV = Reals.between(fromV, minV + (endV - minV) * (i + 1) / car.pieces());
                double divisorV = Math.max(fromV, minV);
                for (double acA : new double[] {1, 6, 10, 16, 32, 80}) {
                    Charge.Tick tick = charge.with("packVoltageV", packV, "allowedAcA", Reals.between(-INF, acA));
                    assertWithin(0, acA * perA / divisorV * (1 + ROUNDING), tick.totalA(), acA + " A at " + packV);
                }
                double ratedA = charge.wellW() / divisorV * (1 + ROUNDING);
                assertWithin(0, ratedA, charge.with("packVoltageV", packV).totalA(), "rated at " + packV);
                double atOnce = Math.min((endV - Math.min(fromV, endV)) / (overV / 2), 1);
                assertMost(atOnce, charge, charge.with("packVoltageV", Reals.between(fromV, INF)), "from " + fromV);
            }
            heat(car, charge, minV);
        }
    }

    private static void heat(Cars car, Charge charge, double minV) {
        if (!car.settings().has(Signal.CHARGER_TEMP_V)) {
            return;
        }
        double warmC = car.get(Parameter.CHARGER_WARM_C);
        double hotC = car.get(Parameter.CHARGER_HOT_C);
        for (int i = 0; i < car.pieces(); i++) {
            double share = i / (double) car.pieces();
            Reals piece = Reals.between(warmC + (hotC - warmC) * share, INF);
            double mostA = charge.wellW() * (1 - share) / minV * (1 + ROUNDING) + ROUNDING;
            assertWithin(0, mostA, charge.with("chargerTempC", piece).totalA(), "charger " + piece);
        }
        assertWithin(
                0,
                charge.wellW() / 2 / minV * (1 + ROUNDING),
                charge.with("chargerTempC", Reals.NAN).totalA(),
                "unknown");
    }

    /** Falls at once, rises by the ramp. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void current_risesByTheRampAtMost(Cars car) {
        double rampA = car.get(Parameter.CHARGE_RAMP_A_PER_S) * car.settings().tickS();
        for (Charge charge : ticks(car)) {
            if (!charge.isLimited()) {
                continue;
            }
            for (int i = 0; i < car.pieces(); i++) {
                Reals before = Reals.between(
                        charge.greatestA() * i / car.pieces(), charge.greatestA() * (i + 1) / car.pieces());
                for (int k = 0; k < ChargerLines.MOST; k++) {
                    charge.asked(k, k == i % ChargerLines.MOST ? before : Reals.of(0));
                }
                assertWithin(
                        0, before.hi() + rampA * (1 + ROUNDING), charge.with().totalA(), "from " + before);
            }
        }
    }
}
