package sprag.supervisor.input;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** Ticks of 10 ms; charge voltage 400 V, tolerance 4 V, end below 2 A for 60 s. */
class ChargeMeterTest {
    private static final int END_TICKS = 6000;

    private final Commands last = new Commands();
    private final Readings in = new Readings();
    private final TickFacts facts = new TickFacts();
    private final Conditioned c = new Conditioned();
    private Debounce debounce;
    private ChargeMeter meter;

    ChargeMeterTest() {
        fit(TestVehicle.full());
        facts.set(Fact.PLUG_SEEN, true);
        c.packVoltageV = 350;
        c.packCurrentA = 0;
        c.cellMaxV = 3.65;
        c.stateOfCharge = 0.5;
    }

    private void fit(Settings settings) {
        debounce = new Debounce(settings);
        meter = new ChargeMeter(settings);
    }

    private void charging(double volts, double intoPackA) {
        last.set(Output.CHARGER_ENABLE, true);
        c.packVoltageV = volts;
        c.packCurrentA = -intoPackA;
    }

    private void run(int ticks) {
        for (int i = 0; i < ticks; i++) {
            meter.update(last, in, facts, debounce, c);
        }
    }

    @Nested
    class End {
        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                PACK_V | CELL_MAX_V | INTO_A | DONE  | BECAUSE
                400    | 4.10       | 1.9    | true  | at the voltage, current below the end
                400    | 4.10       | 2.0    | false | the end current itself is not below it
                396    | 4.10       | 1.9    | true  | 1 % below still counts as there
                395.9  | 4.10       | 1.9    | false | lower does not
                390    | 4.15       | 1.9    | true  | a cell is at its limit
                390    | 4.149      | 1.9    | false | the next lower voltage is not
                400    | 4.10       | -1.9   | true  | the converter takes a little more than the chargers give
                400    | 4.10       | -2.0   | false | it takes a lot more: no charge at all
                NaN    | 4.10       | 1.0    | false | unknown voltage
                400    | NaN        | NaN    | false | unknown current
                """)
        void charge_endsWhenFull(double volts, double cellV, double intoA, boolean done, String because) {
            charging(volts, intoA);
            c.cellMaxV = cellV;
            run(END_TICKS);
            assertFalse(facts.is(Fact.CHARGE_DONE), "not before it has lasted");
            assertTrue(facts.is(Fact.CHARGE_DUE));
            run(1);
            assertEquals(done, facts.is(Fact.CHARGE_DONE), because);
            assertEquals(!done, facts.is(Fact.CHARGE_DUE), because);
        }

        @Test
        void currentRises_startsTheEndAgain() {
            charging(400, 1);
            run(END_TICKS);
            charging(400, 3);
            run(1);
            charging(400, 1);
            run(END_TICKS);
            assertFalse(facts.is(Fact.CHARGE_DONE));
            run(1);
            assertTrue(facts.is(Fact.CHARGE_DONE));
        }

        @Test
        void notAllowed_neverEnds() {
            charging(400, 1);
            last.release();
            run(3 * END_TICKS);
            assertFalse(facts.is(Fact.CHARGE_DONE));
        }

        @Test
        void balanceHold_prolongsTheChargeByItsMinutes() {
            fit(TestVehicle.full().with(Parameter.CHARGE_BALANCE_MIN, 2));
            charging(400, 1);
            run(END_TICKS + 2 * 6000);
            assertFalse(facts.is(Fact.CHARGE_DONE));
            run(1);
            assertTrue(facts.is(Fact.CHARGE_DONE));
        }
    }

    @Nested
    class Restart {
        private void finishAt(double fraction) {
            c.stateOfCharge = fraction;
            charging(400, 1);
            run(END_TICKS + 1);
            assertFalse(facts.is(Fact.CHARGE_DUE));
            last.release();
        }

        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                FINISHED_AT | NOW    | DUE   | BECAUSE
                1           | 0.95   | false | the fraction itself is not below it
                1           | 0.9501 | false | restart fraction 0.95: not fallen enough
                1           | 0.9499 | true  | fallen
                0.92        | 0.90   | false | a charge that ends lower is not due at once: the fall counts
                0.92        | 0.873  | true  | 0.95 of 0.92 is 0.874
                1           | NaN    | false | an unknown charge is no fall
                """)
        void finishedCharge_staysSoUntilItHasFallen(double end, double now, boolean due, String because) {
            finishAt(end);
            run(1);
            c.stateOfCharge = now;
            run(2);
            assertEquals(due, facts.is(Fact.CHARGE_DUE), because);
            assertEquals(!due, facts.is(Fact.CHARGE_DONE), because);
        }

        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                CONVERTER | CHARGERS  | WEAK  | DUE   | BECAUSE
                bus-side  | bus-side  | true  | true  | the bus must be there for the converter
                bus-side  | bus-side  | false | false | nobody needs it
                pack-side | bus-side  | true  | false | the converter has the pack
                bus-side  | pack-side | true  | false | these chargers close no contactor
                """)
        void finishedCharge_weakBattery_isDueAgain(
                String converter, String chargers, boolean weak, boolean due, String because) {
            fit(sides(converter, chargers));
            finishAt(1);
            c.lvSupport = weak;
            run(1);
            assertEquals(due, facts.is(Fact.CHARGE_DUE), because);
        }

        @Test
        void helpedBattery_holdsTheChargeUntilItIsStrong() {
            fit(sides("bus-side", "bus-side"));
            charging(400, 1);
            c.lvSupport = true;
            run(END_TICKS + 1 + 60_000);
            assertTrue(facts.is(Fact.CHARGE_DUE), "held ten minutes longer than the charge needs");
            c.lvSupport = false;
            run(1);
            assertFalse(facts.is(Fact.CHARGE_DUE));
        }

        @Test
        void helpWithoutEffect_endsTheChargeAfterTwoHours() {
            fit(sides("bus-side", "bus-side"));
            charging(400, 1);
            c.lvSupport = true;
            run(END_TICKS + 720_000);
            assertTrue(facts.is(Fact.CHARGE_DUE));
            run(1);
            assertFalse(facts.is(Fact.CHARGE_DUE), "a dead converter keeps no contactor closed for ever");
        }

        /** A small pack has a short limit, often shorter than the help lasts. */
        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                INTO_A | TICKS | TOO_LONG | BECAUSE
                1      | 60001 | false    | the pack is full, and only the converter takes anything
                5      | 60000 | false    | ten minutes of charge are allowed
                5      | 60001 | true     | a charge that does not end
                """)
        void helpedBattery_onlyTheChargeCountsAgainstItsTimeLimit(
                double intoA, int ticks, boolean tooLong, String because) {
            fit(sides("bus-side", "bus-side").with(Parameter.CHARGE_MAX_MIN, 10));
            charging(400, intoA);
            c.lvSupport = true;
            run(ticks);
            assertEquals(tooLong, facts.is(Fact.CHARGE_TOO_LONG), because);
        }

        private static Settings sides(String converter, String chargers) {
            return TestVehicle.full()
                    .with(Parameter.DCDC_SIDE, Parameter.DCDC_SIDE.choices().indexOf(converter))
                    .with(
                            Parameter.CHARGER_SIDE,
                            Parameter.CHARGER_SIDE.choices().indexOf(chargers));
        }

        @Test
        void gaugeCorrectedAtTheEnd_fallIsCountedFromThere() {
            finishAt(0.65);
            c.stateOfCharge = 0.998;
            run(1);
            c.stateOfCharge = 0.94;
            run(2);
            assertTrue(facts.is(Fact.CHARGE_DUE), "0.95 of 0.998 is 0.948; what was believed before does not count");
        }

        @Test
        void plugOut_makesTheNextChargeDue() {
            finishAt(1);
            facts.set(Fact.PLUG_SEEN, false);
            run(1);
            assertTrue(facts.is(Fact.CHARGE_DUE));
        }

        @Test
        void refusal_waitsTheRetryTime() {
            run(1);
            assertTrue(facts.is(Fact.CHARGE_RETRY), "nothing was allowed yet");
            charging(350, 10);
            run(1);
            assertFalse(facts.is(Fact.CHARGE_RETRY));
            last.release();
            run(2999);
            assertFalse(facts.is(Fact.CHARGE_RETRY));
            run(1);
            assertTrue(facts.is(Fact.CHARGE_RETRY), "30 s after current was last allowed");
        }
    }

    @Nested
    class Offer {
        private boolean offeredAfter(int ticks) {
            for (int i = 0; i < ticks; i++) {
                facts.set(Fact.CHARGE_OFFERED, true);
                run(1);
            }
            return facts.is(Fact.CHARGE_OFFERED);
        }

        @Test
        void firstOffer_countsAtOnce() {
            assertTrue(offeredAfter(1));
        }

        @Test
        void chargeEnded_nextOfferWaitsTheRetryTime() {
            charging(350, 10);
            assertTrue(offeredAfter(100));
            last.release();
            assertFalse(offeredAfter(2999));
            assertTrue(offeredAfter(1));
            assertTrue(offeredAfter(1000), "while the contactors close");
        }

        @Test
        void plugOutAndIn_countsAtOnce() {
            charging(350, 10);
            offeredAfter(100);
            last.release();
            offeredAfter(1);
            facts.set(Fact.PLUG_SEEN, false);
            run(1);
            facts.set(Fact.PLUG_SEEN, true);
            assertTrue(offeredAfter(1));
        }
    }

    @Nested
    class Time {
        @Test
        void tooLong_addsUpOverInterruptionsAndStaysUntilUnplugged() {
            fit(TestVehicle.full().with(Parameter.CHARGE_MAX_MIN, 10));
            int half = 5 * 60 * 100;
            charging(350, 10);
            run(half);
            last.release();
            run(half);
            charging(350, 10);
            run(half);
            assertFalse(facts.is(Fact.CHARGE_TOO_LONG), "10 min are allowed");
            run(1);
            assertTrue(facts.is(Fact.CHARGE_TOO_LONG));
            last.release();
            run(half);
            assertTrue(facts.is(Fact.CHARGE_TOO_LONG), "stays");
            facts.set(Fact.PLUG_SEEN, false);
            run(1);
            assertFalse(facts.is(Fact.CHARGE_TOO_LONG));
        }

        /** The end takes as long as the whole charge may: both come in the same tick. */
        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                WEAK  | TICKS | DONE  | TOO_LONG | BECAUSE
                false | 60000 | false | false    | neither is over
                false | 60001 | true  | false    | a charge that is over was not too long
                true  | 60001 | false | true     | the tick that completes the end counts; the help after it does not
                """)
        void endInTheLastAllowedTick_isNotTooLong(
                boolean weak, int ticks, boolean done, boolean tooLong, String because) {
            fit(Restart.sides("bus-side", "bus-side")
                    .with(Parameter.CHARGE_END_S, 600)
                    .with(Parameter.CHARGE_MAX_MIN, 10));
            charging(400, 1);
            c.lvSupport = weak;
            run(ticks);
            assertEquals(done, facts.is(Fact.CHARGE_DONE), because);
            assertEquals(tooLong, facts.is(Fact.CHARGE_TOO_LONG), because);
        }

        /** A charger that nothing switches: only current says that it charges. Ten minutes are allowed. */
        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                INTO_A | TICKS | TOO_LONG | BECAUSE
                2.0    | 60000 | false    | the time itself is allowed
                2.0    | 60001 | true     | charge.end_a itself counts as a charge
                1.9    | 90000 | false    | less current is none
                -5     | 90000 | false    | nor is current out of the pack
                """)
        void chargerAlone_onlyTimeWithCurrentCounts(double intoA, int ticks, boolean tooLong, String because) {
            fit(TestVehicle.full()
                    .with(
                            Parameter.CHARGER_CONTROL,
                            Parameter.CHARGER_CONTROL.choices().indexOf("alone"))
                    .with(Parameter.CHARGE_MAX_MIN, 10));
            c.packCurrentA = -intoA;
            run(ticks);
            assertEquals(tooLong, facts.is(Fact.CHARGE_TOO_LONG), because);
        }

        @Test
        void finishedCharge_beginsToCountAnew() {
            fit(TestVehicle.full().with(Parameter.CHARGE_MAX_MIN, 10));
            charging(400, 1);
            run(END_TICKS + 1);
            c.stateOfCharge = 0.1;
            run(2);
            charging(350, 10);
            run(10 * 60 * 100 - 2);
            assertFalse(facts.is(Fact.CHARGE_TOO_LONG));
        }
    }

    @Nested
    class Disobedience {
        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                PLUG  | ENABLED | LIMIT_A | INTO_A | ABOVE | BECAUSE
                true  | 1       | 19.9    | 40     | true  | more than twice its limit
                true  | 1       | 20      | 40     | false | twice: taking the limit back may still help
                true  | 1       | 0       | 5.1    | true  | current at a limit of none
                true  | 1       | 0       | 5.0    | false | what contactors may open
                true  | 0       | 0       | 50     | false | none is allowed: charger-runs-on sees to that
                false | 1       | 0       | 50     | false | no plug: that is regeneration
                true  | 1       | 0       | NaN    | false | unknown; another cause sees to that
                """)
        void charger_ignoresItsLimit(
                boolean plug, double enabled, double limitA, double intoA, boolean above, String because) {
            facts.set(Fact.PLUG_SEEN, plug);
            last.set(Output.CHARGER_ENABLE, enabled);
            last.set(Output.CHARGE_CURRENT_LIMIT_A, limitA);
            c.packCurrentA = -intoA;
            run(400);
            assertFalse(facts.is(Fact.CHARGER_ABOVE_LIMIT), "it may be slow");
            run(1);
            assertEquals(above, facts.is(Fact.CHARGER_ABOVE_LIMIT), because);
        }

        @Test
        void limitIgnored_staysKnownUntilUnplugged() {
            last.set(Output.CHARGER_ENABLE, 1);
            c.packCurrentA = -40;
            run(401);
            assertTrue(facts.is(Fact.CHARGER_ABOVE_LIMIT));
            last.release();
            c.packCurrentA = 0;
            run(100_000);
            assertTrue(facts.is(Fact.CHARGER_ABOVE_LIMIT), "switched off it proves nothing");
            facts.set(Fact.PLUG_SEEN, false);
            run(1);
            assertFalse(facts.is(Fact.CHARGER_ABOVE_LIMIT));
            facts.set(Fact.PLUG_SEEN, true);
            run(300);
            assertFalse(facts.is(Fact.CHARGER_ABOVE_LIMIT));
        }

        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                PLUG  | ENABLED | INTO_A | RUNS_ON | BECAUSE
                true  | 0       | 5.1    | true    | current although none is allowed
                true  | 0       | 5.0    | false   | what contactors may open
                true  | 1       | 50     | false   | it is allowed
                false | 0       | 50     | false   | no plug: that is regeneration
                true  | 0       | -50    | false   | out of the pack
                true  | 0       | NaN    | false   | unknown; another cause sees to that
                """)
        void charger_runsOn(boolean plug, double enabled, double intoA, boolean runsOn, String because) {
            facts.set(Fact.PLUG_SEEN, plug);
            last.set(Output.CHARGER_ENABLE, enabled);
            c.packCurrentA = -intoA;
            run(200);
            assertFalse(facts.is(Fact.CHARGER_RUNS_ON), "within the chargers' lag");
            run(1);
            assertEquals(runsOn, facts.is(Fact.CHARGER_RUNS_ON), because);
        }

        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                PLUG  | ENABLED | LIMIT_2_A | SAYS_2_A | ABOVE | RUNS_ON | BECAUSE
                true  | 1       | 4.9       | 10       | true  | false   | more than twice its own limit, though the pack's sensor shows nothing
                true  | 1       | 5         | 10       | false | false   | twice: taking the limit back may still help
                true  | 1       | 0         | 5        | false | false   | what contactors may open
                true  | 0       | 0         | 5.1      | false | true    | it says that it delivers although none may
                true  | 0       | 0         | 5        | false | false   | what contactors may open
                false | 0       | 0         | 50       | false | false   | no plug: it has no mains to give from
                true  | 0       | 0         | NaN      | false | false   | silent: then it is not well
                true  | 0       | 0         | 1001     | false | false   | no current that it could say
                """)
        void chargerSaysMoreThanItMay_countsThoughThePackShowsNothing(
                boolean plug,
                double enabled,
                double limitA,
                double saysA,
                boolean above,
                boolean runsOn,
                String because) {
            fit(TestVehicle.full().with(Parameter.CHARGER_COUNT, 2));
            facts.set(Fact.PLUG_SEEN, plug);
            last.set(Output.CHARGER_ENABLE, enabled);
            last.set(Output.CHARGE_CURRENT_LIMIT_A, 20);
            last.set(Output.CHARGER_2_LIMIT_A, limitA);
            in.set(Signal.CHARGER_2_CURRENT_A, saysA);
            run(401);
            assertEquals(above, facts.is(Fact.CHARGER_ABOVE_LIMIT), because);
            assertEquals(runsOn, facts.is(Fact.CHARGER_RUNS_ON), because);
        }

        @Test
        void chargerBeyondTheCount_sayingMuch_countsForNothing() {
            fit(TestVehicle.full().with(Parameter.CHARGER_COUNT, 2));
            in.set(Signal.CHARGER_3_CURRENT_A, 50);
            in.set(Signal.CHARGER_3_VOLTAGE_V, 500);
            run(401);
            assertFalse(facts.is(Fact.CHARGER_RUNS_ON));
            assertFalse(facts.is(Fact.CHARGE_OVERVOLTAGE));
        }

        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                PLUG  | SAYS_V | OVER  | BECAUSE
                true  | 404    | false | the tolerance itself
                true  | 404.1  | true  | above it, though the pack's reading stands still at 350 V
                false | 410    | false | no plug: nothing charges
                true  | NaN    | false | silent: then it is not well
                true  | 1000   | true  | the greatest voltage that it could say
                true  | 1001   | false | no voltage that it could say
                """)
        void chargerMeasuresTooMuch_countsThoughThePackShowsLess(
                boolean plug, double saysV, boolean over, String because) {
            facts.set(Fact.PLUG_SEEN, plug);
            in.set(Signal.CHARGER_1_VOLTAGE_V, saysV);
            run(21);
            assertEquals(over, facts.is(Fact.CHARGE_OVERVOLTAGE), because);
        }

        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                PLUG  | PACK_V | OVER  | BECAUSE
                true  | 404    | false | the tolerance itself
                true  | 404.1  | true  | above it
                false | 410    | false | no plug: that is regeneration
                true  | NaN    | false | unknown; another cause sees to that
                """)
        void charger_passesTheVoltage(boolean plug, double volts, boolean over, String because) {
            facts.set(Fact.PLUG_SEEN, plug);
            c.packVoltageV = volts;
            run(20);
            assertFalse(facts.is(Fact.CHARGE_OVERVOLTAGE), "not before it has lasted 200 ms");
            run(1);
            assertEquals(over, facts.is(Fact.CHARGE_OVERVOLTAGE), because);
        }
    }
}
