package sprag.supervisor.input;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.vocabulary.BusLevel;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** Bus, contacts and resistor: 350 V pack, 100 ohm and 1 mF (time constant 0.1 s), discharged at 60 V, done at 95 %. */
class BusInputTest {
    private final Readings in = new Readings();
    private final Commands last = new Commands();
    private final TickFacts facts = new TickFacts();
    private final Conditioned c = new Conditioned();
    private Settings settings = TestVehicle.full();
    private Debounce debounce;
    private BusInput bus;

    @BeforeEach
    void begin() {
        fit(settings);
        in.set(Signal.PACK_VOLTAGE_V, 350);
        in.set(Signal.BUS_VOLTAGE_V, 0);
        in.set(Signal.PACK_CURRENT_A, 0);
        in.set(Signal.MOTOR_SPEED_RPM, 0);
        in.set(Signal.NEGATIVE_AUX_CLOSED, 0);
        in.set(Signal.POSITIVE_AUX_CLOSED, 0);
        in.set(Signal.PRECHARGE_AUX_CLOSED, 0);
    }

    private void fit(Settings with) {
        settings = with;
        bus = new BusInput(settings);
        debounce = new Debounce(settings);
    }

    private void look(int ticks) {
        for (int i = 0; i < ticks; i++) {
            c.motorSpeedRpm = in.get(Signal.MOTOR_SPEED_RPM);
            bus.update(in, last, facts, debounce, c);
        }
    }

    private void at(double busV, int ticks) {
        in.set(Signal.BUS_VOLTAGE_V, busV);
        look(ticks);
    }

    private void closed(boolean negative, boolean precharge, boolean positive) {
        last.set(Output.NEGATIVE_CONTACTOR, negative);
        last.set(Output.PRECHARGE_RELAY, precharge);
        last.set(Output.POSITIVE_CONTACTOR, positive);
    }

    @ParameterizedTest
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        FIRST_A | SECOND_A | APART | BELIEVED_A | BECAUSE
        10      | 90       | true  | 90         | the greater counts
        10      | -90      | true  | -90        | whichever way it flows
        90      | 10       | true  | 90         | the first may be the greater
        90      | -90      | true  | 90         | as much the other way: the first is the measure
        90      | NaN      | true  | 90         | an unknown one is not the greater
        10      | 90       | false | 10         | sound sensors differ a little: the first is the measure
        """)
    void currents_thatDiffer_theGreaterIsBelieved(
            double first, double second, boolean apart, double believed, String because) {
        fit(TestVehicle.every());
        for (int i = 0; i <= settings.ticks(Parameter.PACK_APART_MS) + 1; i++) {
            debounce.into(facts, Fact.CURRENTS_APART, apart);
        }
        in.set(Signal.PACK_CURRENT_A, first);
        in.set(Signal.PACK_CURRENT_2_A, second);
        look(1);
        assertEquals(believed, c.packCurrentA, because);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            PACK_V | BUS_V  | LEVEL      | BECAUSE
            350    | 0      | DISCHARGED | dead
            350    | 60     | DISCHARGED | 60 V d.c. still counts as low voltage
            350    | 60.1   | PARTIAL    | above it does not
            350    | -60    | DISCHARGED | an offset either way
            350    | -60.1  | PARTIAL    | reversed is not dead
            350    | 332.4  | PARTIAL    | just below 95 %
            350    | 332.5  | CHARGED    | 95 % of 350 V
            350    | 385    | CHARGED    | 110 %: a little more than the pack is a sensor's error
            300    | 330    | CHARGED    | 110 % to the last bit
            350    | 385.1  | PARTIAL    | more than that is a lying sensor or a spinning motor
            350    | 1000   | PARTIAL    | a wire shorted high is no charged bus
            60     | 60.1   | PARTIAL    | a pack that is dead itself charges nothing
            NaN    | 340    | PARTIAL    | an unknown pack: nobody knows
            350    | NaN    | PARTIAL    | an unknown bus is neither dead nor charged
            350    | Infinity | PARTIAL  | nonsense is not charged
            """)
    void level_isToldFromBothVoltages(double packV, double busV, BusLevel level, String because) {
        in.set(Signal.PACK_VOLTAGE_V, packV);
        at(busV, 1);
        assertEquals(level, facts.busLevel(), because);
    }

    @Test
    void discharged_staysSoForNoiseAtTheLimit() {
        at(60, 1);
        at(63, 1);
        assertEquals(BusLevel.DISCHARGED, facts.busLevel(), "5 % above");
        at(63.1, 1);
        assertEquals(BusLevel.PARTIAL, facts.busLevel());
        at(60.1, 1);
        assertEquals(BusLevel.PARTIAL, facts.busLevel(), "coming down it must reach the limit itself");
        at(60, 1);
        assertEquals(BusLevel.DISCHARGED, facts.busLevel());
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            CURRENT_A | TORQUE_NM | LOW   | BECAUSE
            5         | 0         | true  | the limit itself
            5.1       | 0         | false | above
            -5        | 0         | true  | either way
            -5.1      | 0         | false | either way
            0         | 10        | false | the current of a ramp may pass through zero while torque still flows
            0         | -10       | false | or regeneration balances the loads
            NaN       | 0         | false | unknown is not low
            """)
    void currentLow_needsCurrentAndTorqueGone(double currentA, double torqueNm, boolean low, String because) {
        in.set(Signal.PACK_CURRENT_A, currentA);
        last.set(Output.TORQUE_REQUEST_NM, torqueNm);
        look(1);
        assertEquals(low, facts.is(Fact.CURRENT_LOW), because);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            RPM    | HIGH  | BECAUSE
            10750  | false | 40 V per 1000 rpm: 430 V, the bus limit itself
            10760  | true  | above
            -10760 | true  | backwards as well
            NaN    | true  | an unknown speed may be any
            """)
    void backEmf_isToldFromTheSpeed(double rpm, boolean high, String because) {
        in.set(Signal.MOTOR_SPEED_RPM, rpm);
        look(1);
        assertEquals(high, facts.is(Fact.BACK_EMF_HIGH), because);
    }

    @Test
    void inductionMotor_hasNoBackEmf() {
        fit(settings.with(Parameter.MOTOR_KIND, 0));
        in.set(Signal.MOTOR_SPEED_RPM, 20_000);
        look(1);
        assertFalse(facts.is(Fact.BACK_EMF_HIGH));
        in.set(Signal.MOTOR_SPEED_RPM, Double.NaN);
        look(1);
        assertFalse(facts.is(Fact.BACK_EMF_HIGH), "nor at an unknown speed");
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            V_PER_TICK | FLAT  | BECAUSE
            1.74       | true  | 0.497 of the pack per second
            1.76       | false | 0.503
            -1.74      | true  | falling slowly
            -1.76      | false | falling
            """)
    void rise_isFlatBelowHalfThePackPerSecond(double voltPerTick, boolean flat, String because) {
        for (int i = 0; i < 20; i++) {
            at(100 + i * voltPerTick, 1);
        }
        assertEquals(flat, facts.is(Fact.BUS_FLAT), because);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            V_PER_TICK | FROM_V | REVERSED | BECAUSE
            -0.69      | 200    | false    | 0.197 of the pack per second: a sagging pack
            -0.71      | 200    | true     | 0.203: it falls
            0          | -3     | false    | an offset
            0          | -3.1   | true     | negative
            1          | 100    | false    | it rises
            """)
    void fallingOrNegativeBus_isReversedWhileRaising(
            double voltPerTick, double fromV, boolean reversed, String because) {
        at(fromV, 6);
        closed(true, true, false);
        for (int i = 0; i < 20; i++) {
            at(fromV + i * voltPerTick, 1);
        }
        assertEquals(reversed, facts.is(Fact.BUS_REVERSED), because);
    }

    @Test
    void fallingBus_isNotReversedUnlessRaising() {
        for (int i = 0; i < 50; i++) {
            at(300 - 2 * i, 1);
        }
        assertFalse(facts.is(Fact.BUS_REVERSED));
        assertFalse(facts.is(Fact.BUS_STALLED));
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            OHM  | STALLED | BECAUSE
            100  | false   | 0.1 s: quick
            500  | false   | 0.5 s
            1000 | false   | 1 s: slow, but it arrives
            2000 | false   | 2 s: slower still
            """)
    void slowPrecharge_isNoStall(double ohm, boolean stalled, String because) {
        fit(settings.with(Parameter.PRECHARGE_RESISTANCE_OHM, ohm));
        closed(true, true, false);
        double tauTicks = ohm * 0.1;
        boolean any = false;
        for (int i = 0; facts.busLevel() != BusLevel.CHARGED; i++) {
            at(350 * (1 - Math.exp(-i / tauTicks)), 1);
            any |= facts.is(Fact.BUS_STALLED);
        }
        assertEquals(stalled, any, because);
    }

    /** A load on the bus makes a divider with the resistor: the bus ends below the done fraction. */
    @ParameterizedTest(name = "ends at {0} of the pack")
    @CsvSource({"0.0", "0.5", "0.9", "0.94"})
    void loadedBus_stallsWithinItsTimeOfTheEndOfTheRise(double share) {
        closed(true, true, false);
        int stalledAt = -1;
        for (int i = 0; i < 200 && stalledAt < 0; i++) {
            at(350 * share * (1 - Math.exp(-i / 10.0 / Math.max(share, 0.1))), 1);
            stalledAt = facts.is(Fact.BUS_STALLED) ? i : -1;
        }
        assertTrue(stalledAt >= 30 && stalledAt < 95, "stalled at tick " + stalledAt);
    }

    @Test
    void resistorHeat_countsPowerOverTimeAndCoolsAway() {
        closed(true, true, false);
        at(0, 32);
        assertFalse(facts.is(Fact.RESISTOR_OVERLOADED), "350 V over 100 ohm, 1225 W, 0.32 s: 392 J of 400 J");
        look(1);
        assertTrue(facts.is(Fact.RESISTOR_OVERLOADED), "404 J less what cooled away");
        assertTrue(facts.is(Fact.RESISTOR_SPENT));
        closed(false, false, false);
        look(600);
        assertFalse(facts.is(Fact.RESISTOR_OVERLOADED));
        assertTrue(facts.is(Fact.RESISTOR_SPENT), "404 J * exp(-6/30) = 331 J, and one more takes 81 J");
        look(100);
        assertFalse(facts.is(Fact.RESISTOR_SPENT), "404 J * exp(-7/30) = 320 J");
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            NEGATIVE | PRECHARGE | PACK_V | HEATS | BECAUSE
            false    | true      | 350    | false | weld test: no current can flow
            true     | false     | 350    | false | relay open
            true     | true      | 350    | true  | precharge
            true     | true      | NaN    | true  | unknown voltages count as the full pack
            """)
    void resistor_heatsOnlyWhileCurrentCanFlow(
            boolean negative, boolean precharge, double packV, boolean heats, String because) {
        in.set(Signal.PACK_VOLTAGE_V, packV);
        closed(negative, precharge, false);
        at(0, 100);
        assertEquals(heats, facts.is(Fact.RESISTOR_OVERLOADED), because);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            CLOSED | AUX | WELDED | DROPPED | CONFIRMED | BECAUSE
            false  | 0   | false  | false   | false     | open and says so
            false  | 1   | true   | false   | true      | released but still closed
            false  | NaN | false  | false   | false     | unknown: no evidence of a weld, none of closing either
            true   | 1   | false  | false   | true      | closed and says so
            true   | 0   | false  | true    | false     | energised but open
            true   | NaN | false  | true    | false     | energised and unknown
            true   | 0.5 | false  | true    | false     | half-way is unknown
            """)
    void contacts_areComparedWithTheirCoils(
            boolean closed, double aux, boolean welded, boolean dropped, boolean confirmed, String because) {
        closed(closed, closed, closed);
        in.set(Signal.NEGATIVE_AUX_CLOSED, aux);
        in.set(Signal.POSITIVE_AUX_CLOSED, aux);
        in.set(Signal.PRECHARGE_AUX_CLOSED, aux);
        look(7);
        assertEquals(welded, facts.is(Fact.NEGATIVE_WELDED), because);
        assertEquals(welded, facts.is(Fact.POSITIVE_WELDED), because);
        assertEquals(welded, facts.is(Fact.PRECHARGE_WELDED), because);
        assertEquals(dropped, facts.is(Fact.NEGATIVE_DROPPED), because);
        assertEquals(dropped, facts.is(Fact.POSITIVE_DROPPED), because);
        assertEquals(confirmed, facts.is(Fact.NEGATIVE_CONFIRMED), because);
        assertEquals(confirmed, facts.is(Fact.POSITIVE_CONFIRMED), because);
    }

    @Test
    void withoutAuxContacts_nothingIsWeldedOrDroppedAndAllIsConfirmed() {
        fit(settings.without(Signal.NEGATIVE_AUX_CLOSED)
                .without(Signal.POSITIVE_AUX_CLOSED)
                .without(Signal.PRECHARGE_AUX_CLOSED));
        for (boolean closed : new boolean[] {false, true}) {
            for (double aux : new double[] {0, 1, Double.NaN}) {
                closed(closed, closed, closed);
                in.set(Signal.NEGATIVE_AUX_CLOSED, aux);
                in.set(Signal.POSITIVE_AUX_CLOSED, aux);
                in.set(Signal.PRECHARGE_AUX_CLOSED, aux);
                look(20);
                assertTrue(facts.is(Fact.NEGATIVE_CONFIRMED) && facts.is(Fact.POSITIVE_CONFIRMED));
                assertFalse(facts.is(Fact.NEGATIVE_WELDED) || facts.is(Fact.POSITIVE_WELDED));
                assertFalse(facts.is(Fact.PRECHARGE_WELDED));
                assertFalse(facts.is(Fact.NEGATIVE_DROPPED) || facts.is(Fact.POSITIVE_DROPPED));
            }
        }
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            NEGATIVE | PRECHARGE | POSITIVE | BUS_V | LOST  | BECAUSE
            true     | false     | true     | 245   | false | 70 % of the pack
            true     | false     | true     | 244.9 | true  | below
            true     | false     | true     | NaN   | true  | nobody knows
            true     | true      | true     | 100   | false | still in the overlap
            true     | false     | false    | 0     | false | not connected at all
            false    | false     | true     | 0     | false | not connected at all
            """)
    void busLost_isJudgedOnlyWhileConnected(
            boolean negative, boolean precharge, boolean positive, double busV, boolean lost, String because) {
        closed(negative, precharge, positive);
        at(busV, 11);
        assertEquals(lost, facts.is(Fact.BUS_LOST), because);
    }

    /** A live bus counts from the opening it follows; openings before it do not add up. */
    @Test
    void busStillLive_countsFromTheLastOpening() {
        for (int i = 0; i < 5; i++) {
            at(100, 400);
            assertFalse(facts.is(Fact.BUS_STILL_LIVE), "4 s of 5 s, for the time number " + (i + 1));
            closed(true, false, false);
            look(5);
            closed(false, false, false);
        }
        at(100, 500);
        assertFalse(facts.is(Fact.BUS_STILL_LIVE));
        look(1);
        assertTrue(facts.is(Fact.BUS_STILL_LIVE));
    }

    @Test
    void busLiveFromASpinningMotor_isNoWeld() {
        in.set(Signal.MOTOR_SPEED_RPM, 1501);
        at(100, 2000);
        assertFalse(facts.is(Fact.BUS_STILL_LIVE), "60.04 V of its own");
        in.set(Signal.MOTOR_SPEED_RPM, 1500);
        look(501);
        assertTrue(facts.is(Fact.BUS_STILL_LIVE), "60 V explains no 100 V for ever");
    }

    @Test
    void busLost_isNotSeenAtItsLimit() {
        in.set(Signal.PACK_VOLTAGE_V, 300);
        closed(true, false, true);
        at(210, 100);
        assertFalse(facts.is(Fact.BUS_LOST), "70 % of 300 V to the last bit");
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            BUS_V | OVER  | BECAUSE
            430   | false | bus.max_v itself is allowed
            430.1 | true  | above it
            """)
    void busOvervoltage_countsAboveTheLimit(double busV, boolean over, String because) {
        at(busV, 200);
        assertEquals(over, facts.is(Fact.BUS_OVERVOLTAGE), because);
    }

    /** One tick of 300 V over 100 ohm is 9 J. One precharge of 400 V and 1 mF takes 80 J. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            LIMIT_J | TICKS | OVERLOADED | SPENT | BECAUSE
            9       | 1     | false      | true  | the limit itself is allowed; there is no room for another precharge
            8.99    | 1     | true       | true  | above the limit
            80      | 0     | false      | false | one precharge fits exactly
            79.99   | 0     | false      | true  | it does not fit
            """)
    void resistorHeat_isJudgedAboveItsLimit(
            double limitJ, int ticks, boolean overloaded, boolean spent, String because) {
        fit(settings.with(Parameter.PRECHARGE_ENERGY_J, limitJ).with(Parameter.PACK_MAX_V, 400));
        in.set(Signal.PACK_VOLTAGE_V, 300);
        closed(ticks > 0, ticks > 0, false);
        look(1);
        assertEquals(overloaded, facts.is(Fact.RESISTOR_OVERLOADED), because);
        assertEquals(spent, facts.is(Fact.RESISTOR_SPENT), because);
    }

    @Test
    void contactorThatDoesNotClose_whileNoSwitchMoves_isFound() {
        for (int i = 0; i < 40; i++) {
            closed(i >= 20, false, false);
            debounce.begin(in);
            look(1);
        }
        assertTrue(facts.is(Fact.NEGATIVE_DROPPED), "told to close, and its contact stays as it was");
    }

    /** The slope is that of five ticks: 10 V of 400 V are half the pack per second. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            RISE_V | FLAT  | BECAUSE
            10     | false | precharge.flat_fraction itself is a rise
            9.9    | true  | less
            -10    | false | the same down
            -9.9   | true  | less
            """)
    void bus_aroundTheFlatLimit_risesAtIt(double riseV, boolean flat, String because) {
        in.set(Signal.PACK_VOLTAGE_V, 400);
        at(100, 5);
        at(100 + riseV, 1);
        assertEquals(flat, facts.is(Fact.BUS_FLAT), because);
    }

    /** A bus that falls in steps of five ticks: 4 V of 400 V are a fifth of the pack per second. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            STEP_V | REVERSED | BECAUSE
            4      | false    | the limit itself may be a sagging pack
            5      | true     | it falls faster
            """)
    void busThatFallsInSteps_isReversedBeyondItsLimit(double stepV, boolean reversed, String because) {
        in.set(Signal.PACK_VOLTAGE_V, 400);
        at(300, 10);
        closed(true, true, false);
        for (int i = 0; i < 50; i++) {
            at(300 - stepV * (i / 5), 1);
        }
        assertEquals(reversed, facts.is(Fact.BUS_REVERSED), because);
    }
}
