package sprag.supervisor.charge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.Wild;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Permissions;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** 350 V, 18 A, charge voltage 400 V with a tolerance of 4 V; three chargers of 2, 3 and 5 kW. */
class ChargeShaperTest {
    private static final Settings SETTINGS = TestVehicle.full()
            .with(Parameter.CHARGER_COUNT, 3)
            .with(Parameter.CHARGER_1_MAX_W, 2000)
            .with(Parameter.CHARGER_2_MAX_W, 3000)
            .with(Parameter.CHARGER_3_MAX_W, 5000);
    private static final int RAMPED = 1000;

    private final Permissions may = new Permissions();
    private final Conditioned c = new Conditioned();
    private final Readings in = new Readings();
    private final Commands out = new Commands();
    private ChargeShaper shaper = new ChargeShaper(SETTINGS);

    ChargeShaperTest() {
        well(c, in);
        may.charging = true;
    }

    /** A warm, half-full pack at rest with every charger well: nothing takes current away. */
    static void well(Conditioned c, Readings in) {
        c.allowedAcA = 80;
        c.packVoltageV = 350;
        c.packCurrentA = 0;
        c.packHotC = 25;
        c.packColdC = 24;
        c.chargerTempC = 30;
        c.cellMaxV = 3.65;
        c.cellMinV = 3.64;
        in.set(Signal.CHARGER_1_OK, 1);
        in.set(Signal.CHARGER_2_OK, 1);
        in.set(Signal.CHARGER_3_OK, 1);
        in.set(Signal.CHARGER_1_CURRENT_A, 0);
        in.set(Signal.CHARGER_2_CURRENT_A, 0);
        in.set(Signal.CHARGER_3_CURRENT_A, 0);
        in.set(Signal.CHARGER_1_VOLTAGE_V, 350);
        in.set(Signal.CHARGER_2_VOLTAGE_V, 350);
        in.set(Signal.CHARGER_3_VOLTAGE_V, 350);
    }

    private double run(int ticks) {
        for (int i = 0; i < ticks; i++) {
            shaper.shape(may, c, in, out);
        }
        return out.get(Output.CHARGE_CURRENT_LIMIT_A);
    }

    private static double each(Commands out) {
        return out.get(Output.CHARGER_1_LIMIT_A)
                + out.get(Output.CHARGER_2_LIMIT_A)
                + out.get(Output.CHARGER_3_LIMIT_A);
    }

    @Nested
    class Ceiling {
        /** Stepping down below 10 and ending at 0 degree Celsius: JEITA type, TI BQ25611D data sheet (T1, T2). */
        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                COLD_C | HOT_C | CELL_MAX_V | CELL_MIN_V | CURRENT_A | BECAUSE
                24     | 25    | 3.65       | 3.64       | 18        | all is well: charge.current_a
                0      | 5     | 3.65       | 3.64       | 0         | cold: none
                0.1    | 5     | 3.65       | 3.64       | 5.4       | cool: 0.3 of it
                10     | 15    | 3.65       | 3.64       | 5.4       | the end of cool
                11     | 15    | 3.65       | 3.64       | 11.7      | half-way up, 1 K above
                12     | 15    | 3.65       | 3.64       | 18        | no longer cool
                30     | 40    | 3.65       | 3.64       | 18        | charge.warm_c itself
                30     | 42.5  | 3.65       | 3.64       | 9         | half-way to charge.hot_c
                30     | 45    | 3.65       | 3.64       | 0         | hot: none
                24     | 25    | 4.15       | 4.10       | 18        | cell.high_v itself
                24     | 25    | 4.16875    | 4.10       | 9         | one high cell bends the current
                24     | 25    | 4.1875     | 4.10       | 0         | three quarters of the way to cell.max_v
                24     | 25    | 3.65       | 2.99       | 1.8       | a drained cell is lifted gently
                24     | 25    | 3.65       | 3.0        | 18        | cell.min_v itself
                24     | 25    | 3.65       | 1.5        | 1.8       | half of cell.min_v: drained
                24     | 25    | 3.65       | 1.49       | 0         | less: dead, or a reading that is none
                24     | 25    | 3.65       | 0          | 0         | no cell has 0 V
                NaN    | 25    | 3.65       | 3.64       | 0         | unknown cold place
                24     | NaN   | 3.65       | 3.64       | 0         | unknown warm place
                24     | 25    | NaN        | 3.64       | 0         | unknown highest cell
                24     | 25    | 3.65       | NaN        | 0         | unknown lowest cell
                """)
        void current_isReduced(
                double coldC, double hotC, double cellMaxV, double cellMinV, double currentA, String because) {
            c.packColdC = coldC;
            c.packHotC = hotC;
            c.cellMaxV = cellMaxV;
            c.cellMinV = cellMinV;
            assertEquals(currentA, run(RAMPED), 1e-6, because);
        }

        /** P = phases * I * 230 V * 0.98 * 0.92; at 350 V one ampere a.c. is 0.592 A d.c. (elementary). */
        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                AC_A | PHASES | PACK_V | CURRENT_A | BECAUSE
                6    | 1      | 350    | 3.55488   | 1244.2 W
                16   | 1      | 350    | 9.47968   | 3317.9 W
                16   | 1      | 300    | 11.05963  | the same power at less voltage
                6    | 3      | 350    | 10.66464  | three phases
                16   | 3      | 350    | 18        | charge.current_a is the least now
                0    | 1      | 350    | 0         | nothing offered
                16   | 1      | 200    | 1.8       | a pack below its minimum is lifted gently
                16   | 1      | 144    | 1.8       | half of pack.min_v: drained
                16   | 1      | 143    | 0         | less: an open fuse or a lost reading
                16   | 1      | 0      | 0         | no pack has 0 V
                """)
        void stationLimit_becomesDirectCurrent(double acA, int phases, double packV, double currentA, String because) {
            shaper = new ChargeShaper(SETTINGS.with(Parameter.INLET_PHASES, phases));
            c.allowedAcA = acA;
            c.packVoltageV = packV;
            assertEquals(currentA, run(RAMPED), 1e-4, because);
        }

        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                CHARGER_C | CURRENT_A | BECAUSE
                60        | 18        | charger.warm_c itself
                67.5      | 14.2857   | half of 10 kW at 350 V
                75        | 0         | charger.hot_c
                NaN       | 14.2857   | unknown: half
                """)
        void warmCharger_isSpared(double chargerC, double currentA, String because) {
            c.chargerTempC = chargerC;
            assertEquals(currentA, run(RAMPED), 1e-4, because);
        }

        @Test
        void unknownPackVoltage_allowsNothing() {
            run(RAMPED);
            c.packVoltageV = Double.NaN;
            assertEquals(0, run(1));
        }
    }

    @Nested
    class Time {
        @Test
        void current_risesByTheRamp() {
            assertEquals(0.05, run(1), 1e-9, "5 A/s are 0.05 A a tick of 10 ms");
            assertEquals(0.5, run(9), 1e-9);
        }

        @Test
        void stationThrottles_currentFollowsInTheSameTick() {
            run(RAMPED);
            c.allowedAcA = 6;
            assertTrue(run(1) <= 3.56);
        }

        @Test
        void permissionGone_everythingIsZeroInTheSameTick() {
            run(RAMPED);
            may.charging = false;
            run(1);
            assertEquals(new Commands(), out);
        }

        @Test
        void permissionBack_beginsAtZero() {
            run(RAMPED);
            may.charging = false;
            run(1);
            may.charging = true;
            assertEquals(0.05, run(1), 1e-9);
        }

        @Test
        void voltageRises_currentFallsWithinTheTolerance() {
            run(RAMPED);
            c.packVoltageV = 401.01;
            assertTrue(run(1) < 18, "a quarter of 4 V above 400 V");
            c.packVoltageV = 403;
            assertEquals(0, run(1), "three quarters");
        }
    }

    @Nested
    class Sharing {
        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                OK_1 | OK_2 | OK_3 | A_1    | A_2    | A_3     | BECAUSE
                1    | 1    | 1    | 3.6    | 5.4    | 9       | 18 A by 2, 3 and 5 kW
                1    | 1    | 0    | 5.7143 | 8.5714 | 0       | 5 kW at 350 V are all they have
                0    | 0    | 1    | 0      | 0      | 14.2857 | 5 kW at 350 V
                NaN  | 1    | 1    | 0      | 6.75   | 11.25   | unknown is not well
                0    | 0    | 0    | 0      | 0      | 0       | none is well
                """)
        void current_isSharedByRating(
                double ok1, double ok2, double ok3, double a1, double a2, double a3, String because) {
            in.set(Signal.CHARGER_1_OK, ok1);
            in.set(Signal.CHARGER_2_OK, ok2);
            in.set(Signal.CHARGER_3_OK, ok3);
            run(RAMPED);
            assertEquals(a1, out.get(Output.CHARGER_1_LIMIT_A), 1e-4, because);
            assertEquals(a2, out.get(Output.CHARGER_2_LIMIT_A), 1e-4, because);
            assertEquals(a3, out.get(Output.CHARGER_3_LIMIT_A), 1e-4, because);
        }

        @Test
        void oneChargerLost_othersTakeOverByTheRampWithoutPassingTheTotal() {
            c.allowedAcA = 10;
            run(RAMPED);
            double before = out.get(Output.CHARGER_1_LIMIT_A);
            in.set(Signal.CHARGER_3_OK, 0);
            run(1);
            assertEquals(0, out.get(Output.CHARGER_3_LIMIT_A));
            assertTrue(out.get(Output.CHARGER_1_LIMIT_A) - before <= 0.05 * 0.4 + 1e-9);
            assertEquals(10 * 230 * 0.98 * 0.92 / 350, run(RAMPED), 1e-6);
        }

        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                OK_3 | SAYS_3_A | AFTER_S | OTHERS_A | BECAUSE
                NaN  | NaN      | 0.01    | 9        | the silent one may go on with its 9 A of 18
                NaN  | NaN      | 2.99    | 9        | charger.silent_ms is not over
                NaN  | NaN      | 6       | 14.2857  | after 3 s it must have switched itself off: 5 kW at 350 V are left
                0    | 9        | 6       | 9        | it says that it goes on: it counts for as long as it does
                0    | 0        | 6       | 14.2857  | it says that it gives nothing
                1    | NaN      | 2.99    | 9        | ready, but it does not say what it gives: as good as silent
                """)
        void oneChargerNotWell_othersGetWhatItLeaves(
                double ok, double saysA, double afterS, double othersA, String because) {
            run(RAMPED);
            in.set(Signal.CHARGER_3_OK, ok);
            in.set(Signal.CHARGER_3_CURRENT_A, saysA);
            for (int i = 0; i < Math.round(afterS * 100); i++) {
                double total = run(1);
                double mayGiveA = saysA >= 0 ? saysA : i < 300 ? 9 : 0;
                assertTrue(total + mayGiveA <= 18 + 1e-6, "never more than the total, in tick " + i);
                assertEquals(0, out.get(Output.CHARGER_3_LIMIT_A));
            }
            assertEquals(othersA, out.get(Output.CHARGE_CURRENT_LIMIT_A), 1e-4, because);
        }

        @Test
        void silentChargerComesBack_isAskedAgainByTheRamp() {
            run(RAMPED);
            in.set(Signal.CHARGER_3_CURRENT_A, Double.NaN);
            run(RAMPED);
            in.set(Signal.CHARGER_3_CURRENT_A, 0);
            run(1);
            assertTrue(out.get(Output.CHARGER_3_LIMIT_A) <= 0.05 * 0.5 + 1e-9);
            run(RAMPED);
            assertEquals(9, out.get(Output.CHARGER_3_LIMIT_A), 1e-4);
        }

        @Test
        void chargersSayMoreThanAsked_isTakenBackThoughThePackShowsLess() {
            run(RAMPED);
            in.set(Signal.CHARGER_1_CURRENT_A, 8);
            in.set(Signal.CHARGER_2_CURRENT_A, 6);
            in.set(Signal.CHARGER_3_CURRENT_A, 9);
            run(100);
            assertTrue(out.get(Output.CHARGE_CURRENT_LIMIT_A) < 17.5, "23 A flow where 18 A were asked");
        }

        @Test
        void chargerBeyondTheCount_getsNothing() {
            shaper = new ChargeShaper(SETTINGS.with(Parameter.CHARGER_COUNT, 2));
            run(RAMPED);
            assertEquals(0, out.get(Output.CHARGER_3_LIMIT_A));
        }

        @Test
        void chargerWithoutALine_isTakenToBeWell() {
            shaper = new ChargeShaper(SETTINGS.without(Signal.CHARGER_2_OK));
            in.set(Signal.CHARGER_2_OK, Double.NaN);
            run(RAMPED);
            assertEquals(5.4, out.get(Output.CHARGER_2_LIMIT_A), 1e-6);
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4})
    void anyInput_neverPassesALimitAndTheSharesAddUp(long seed) {
        Random random = new Random(seed);
        double before = 0;
        for (int i = 0; i < 100_000; i++) {
            if (random.nextInt(20) == 0) {
                may.charging = random.nextInt(4) != 0;
                shuffle(random);
            }
            double total = run(1);
            if (!may.charging) {
                assertEquals(new Commands(), out);
                before = 0;
                continue;
            }
            assertTrue(total >= 0 && total <= 18, "total " + total);
            assertTrue(total <= before + 0.05 + 1e-9, "rises by the ramp at most");
            assertEquals(total, each(out), 1e-12);
            assertTrue(total * Math.max(c.packVoltageV, 288) <= c.allowedAcA * 230 * 0.98 * 0.92 + 1e-6 || total == 0);
            assertTrue(total == 0 || c.packColdC > 0 && c.packHotC < 45 && c.cellMaxV < 4.2 && c.packVoltageV < 403);
            for (Output limit :
                    new Output[] {Output.CHARGER_1_LIMIT_A, Output.CHARGER_2_LIMIT_A, Output.CHARGER_3_LIMIT_A}) {
                assertTrue(out.get(limit) >= 0);
            }
            assertEquals(400, out.get(Output.CHARGE_VOLTAGE_LIMIT_V));
            before = total;
        }
    }

    private void shuffle(Random random) {
        well(c, in);
        switch (random.nextInt(8)) {
            case 0 -> c.allowedAcA = random.nextInt(3) == 0 ? 0 : 6 + 74 * random.nextDouble();
            case 1 -> c.packVoltageV = Wild.of(random, 250, 410);
            case 2 -> c.packCurrentA = Wild.of(random, -40, 20);
            case 3 -> c.packHotC = Wild.of(random, 20, 50);
            case 4 -> c.packColdC = Wild.of(random, -5, 20);
            case 5 -> c.cellMaxV = Wild.of(random, 3, 4.3);
            case 6 -> c.chargerTempC = Wild.of(random, 40, 90);
            default -> {
                in.set(Signal.CHARGER_1_OK, Wild.aSwitch(random));
                in.set(Signal.CHARGER_2_OK, Wild.aSwitch(random));
                in.set(Signal.CHARGER_3_OK, Wild.aSwitch(random));
            }
        }
    }

    /** A charger that does not do what it is told, on a pack of 96 cells and 10 Ah with 0.3 ohm. */
    @Nested
    class ClosedLoop {
        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                GAIN | OFFSET_A | LAG_S | DEAF_S | OBEYS_V | BECAUSE
                1    | 0        | 0.1   | 0      | true    | a good charger
                1    | 0        | 0.1   | 0      | false   | has no voltage limit of its own
                1.15 | 0        | 0.5   | 0      | false   | overshoots
                1    | 1.5      | 0.5   | 0      | false   | adds to what it is asked
                0.9  | 0        | 0.5   | 0      | false   | gives less
                1    | 0        | 2.0   | 0      | false   | lags
                1.15 | 0        | 2.0   | 0      | false   | overshoots and lags
                1    | 0        | 0.5   | 1.0    | false   | loses one command in three and holds the last
                1.15 | 1        | 2.0   | 1.0    | false   | all together
                """)
        void charge_staysBelowTheLimitAndGetsFull(
                double gain, double offsetA, double lagS, double deafS, boolean obeys, String because) {
            shaper = new ChargeShaper(TestVehicle.full());
            Random random = new Random(7);
            double soc = 0.75;
            double currentA = 0;
            double heardA = 0;
            double deafLeftS = 0;
            double mostV = 0;
            double mostA = 0;
            int atEnd = 0;
            for (int i = 0; i < 3600 * 100; i++) {
                double ocvV = 96 * (3.4 + 0.8 * soc);
                c.packVoltageV = ocvV + currentA * 0.3;
                c.packCurrentA = -currentA;
                c.cellMaxV = c.packVoltageV / 96 - 0.05;
                c.cellMinV = c.cellMaxV - 0.01;
                run(1);
                deafLeftS -= 0.01;
                if (deafS > 0 && i % 100 == 0 && random.nextInt(3) == 0) {
                    deafLeftS = deafS;
                }
                heardA = deafLeftS > 0 ? heardA : out.get(Output.CHARGE_CURRENT_LIMIT_A);
                double aimA = heardA > 0 ? heardA * gain + offsetA : 0;
                if (obeys) {
                    aimA = Math.max(Math.min(aimA, (400 - ocvV) / 0.3), 0);
                }
                currentA += (aimA - currentA) * 0.01 / lagS;
                soc += currentA * 0.01 / 36_000;
                mostV = Math.max(mostV, c.packVoltageV);
                mostA = i > 6000 ? Math.max(mostA, currentA) : mostA;
                atEnd = currentA < 2 && c.packVoltageV > 396 ? atEnd + 1 : 0;
            }
            assertTrue(mostV <= 400 + 4, because + ": " + mostV + " V");
            assertTrue(mostA <= 18.2, because + ": once settled " + mostA + " A");
            assertTrue(atEnd > 6000, because + ": ends, at soc " + soc);
        }

        @Test
        void chargerThatIgnoresTheLastCommand_isStillWithinItsRating() {
            run(RAMPED);
            c.packCurrentA = -20;
            double asked = run(1);
            double later = run(500);
            assertTrue(later < asked, "asked for less while more flows");
            c.packCurrentA = -10;
            assertFalse(run(RAMPED) > 18);
        }
    }
}
