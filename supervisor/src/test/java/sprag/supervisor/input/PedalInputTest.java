package sprag.supervisor.input;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/**
 * One or two wipers to one travel. Track A runs from 1.0 to 4.0 V, track B from 0.5 to 2.0 V; dead band 3 %, released below
 * 5 %, against the brake above 25 %.
 */
public class PedalInputTest {
    private final Settings two = TestVehicle.full();
    private final Settings one = two.without(Signal.PEDAL_B_V).without(Signal.PEDAL_SUPPLY_V);
    private final Readings in = new Readings();
    private final TickFacts facts = new TickFacts();
    private final Conditioned c = new Conditioned();
    private PedalInput pedal = new PedalInput(two);
    private Debounce debounce = new Debounce(two);

    PedalInputTest() {
        in.set(Signal.PEDAL_SUPPLY_V, 5);
        in.set(Signal.BRAKE_PRESSED, 0);
    }

    private void fit(Settings settings) {
        pedal = new PedalInput(settings);
        debounce = new Debounce(settings);
    }

    private void look(double aV, double bV, int ticks) {
        in.set(Signal.PEDAL_A_V, aV);
        in.set(Signal.PEDAL_B_V, bV);
        for (int i = 0; i < ticks; i++) {
            pedal.update(in, facts, debounce, c);
        }
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        A_V   | B_V   | TRAVEL   | BECAUSE
        1.0   | 0.5   | 0        | released
        1.09  | 0.545 | 0        | 3 % is the end of the dead band
        1.12  | 0.56  | 0.010638 | 4 %: (0.04 - 0.03) / 0.94
        2.5   | 1.25  | 0.5      | the middle is the middle
        3.91  | 1.955 | 1        | 97 % is full
        4.0   | 2.0   | 1        | full
        4.1   | 2.05  | 1        | beyond full is full
        0.9   | 0.45  | 0        | below released is released
        2.5   | 1.4   | 0.5      | 10 % apart is plausible; the lower track drives
        2.8   | 1.25  | 0.5      | the same the other way round
        2.5   | 1.402 | NaN      | more than 10 % apart: in doubt at once
        0.24  | 0.5   | NaN      | track A out of range
        2.5   | 4.76  | NaN      | track B out of range
        NaN   | 1.25  | NaN      | nobody knows
        2.0   | 1.86  | NaN      | wipers closer than 0.15 V
        """)
    void travel_isTheLowerTrackLessTheDeadBands(double aV, double bV, double travel, String because) {
        look(aV, bV, 1);
        assertEquals(travel, c.travel, 1e-6, because);
    }

    /** FSAE Rules 2026 T.4.2.4 and T.4.2.5, FS Rules 2024 T 11.8.8 and T 11.8.9: more than 10 % for more than 100 ms. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        A_V | B_V   | LASTS_MS | DISAGREES | BECAUSE
        2.5 | 1.4   | 10000    | false     | exactly 10 % is plausible for ever
        2.5 | 1.402 | 100      | false     | 100 ms is not more than 100 ms
        2.5 | 1.402 | 110      | true      | the next tick is
        2.5 | 1.098 | 110      | true      | the same below
        2.5 | 1.10  | 10000    | false     | exactly 10 % below
        """)
    void tracksApart_disagreeAfterMoreThan100Ms(double aV, double bV, int lastsMs, boolean disagrees, String because) {
        look(aV, bV, lastsMs / 10);
        assertEquals(disagrees, facts.is(Fact.PEDAL_DISAGREES), because);
    }

    /**
     * FS Rules 2024 T 11.8.6: a short between the two signal wires must be seen whatever the pedal's position; FSAE Rules
     * 2026 T.4.2.3: the tracks differ.
     */
    @ParameterizedTest(name = "both wipers at {0} V")
    @ValueSource(doubles = {0, 0.25, 0.3, 0.5, 0.75, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 4.75, 5})
    void wipersShortedTogether_areSeenAnywhere(double volts) {
        look(volts, volts, 6);
        assertTrue(facts.is(Fact.PEDAL_SHORTED) || facts.is(Fact.PEDAL_OUT_OF_RANGE));
        assertFalse(facts.is(Fact.PEDAL_RELEASED));
        assertEquals(Double.NaN, c.travel);
    }

    /**
     * FSAE Rules 2026 T.4.2.10 gives below 0.5 V and above 4.5 V as an example of an open or shorted wire. Where the wires
     * of a pedal stop is the pedal's, so the limits are the vehicle's; with the rule's own figures it behaves by the rule.
     */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        A_V  | LASTS_MS | BROKEN | BECAUSE
        0.5  | 1000     | false  | not below 0.5 V
        0.49 | 50       | false  | not long enough
        0.49 | 60       | true   | shorted to ground
        4.5  | 1000     | false  | not above 4.5 V
        4.51 | 60       | true   | open, or shorted to the supply
        """)
    void trackOutOfRange_isBroken(double aV, int lastsMs, boolean broken, String because) {
        fit(one.with(Parameter.PEDAL_MIN_V, 0.5).with(Parameter.PEDAL_MAX_V, 4.5));
        look(aV, Double.NaN, lastsMs / 10);
        assertEquals(broken, facts.is(Fact.PEDAL_OUT_OF_RANGE), because);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        A_V   | B_V    | RELEASED | BECAUSE
        1.0   | 0.5    | true     | both at rest
        1.147 | 0.5735 | true     | 4.9 %
        1.15  | 0.575  | false    | 5 % is not below 5 %
        1.0   | 0.58   | false    | the higher track decides
        1.16  | 0.5    | false    | the same the other way round
        0.6   | 0.5    | false    | apart: nobody knows
        0.3   | 0.3    | false    | shorted together
        0.24  | 0.5    | false    | a broken wire is no released pedal
        """)
    void released_needsBothTracksSoundAndLow(double aV, double bV, boolean released, String because) {
        look(aV, bV, 1);
        assertEquals(released, facts.is(Fact.PEDAL_RELEASED), because);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        A_V   | B_V   | WRONG | BECAUSE
        1.0   | 0.5   | false | both at rest
        1.14  | 0.49  | true  | released, yet 5.3 % apart
        1.14  | 0.501 | false | 4.6 % apart
        0.851 | 0.43  | false | both 5 % below their rest
        0.845 | 0.43  | true  | more than that: nobody pulls a pedal up
        2.5   | 1.15  | false | pressed: 7 % apart is plausible there
        0.24  | 0.5   | false | a broken wire is another matter
        """)
    void trackThatHasDrifted_showsAtRest(double aV, double bV, boolean wrong, String because) {
        look(aV, bV, 20);
        assertEquals(wrong, facts.is(Fact.PEDAL_REST_WRONG), because);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        TRAVEL | BRAKE | TICKS | STEP  | STILL | BECAUSE
        0.1    | 1     | 201   | 0     | true  | 2 s without any movement
        0.1    | 1     | 200   | 0     | false | not yet
        0.1    | 0     | 900   | 0     | false | a steady foot on a free road
        0.1    | NaN   | 201   | 0     | true  | an unknown brake is a pressed one
        0.04   | 1     | 900   | 0     | false | released
        0.1    | 1     | 900   | 0.002 | true  | noise is no movement
        0.1    | 1     | 900   | 0.011 | false | a foot trembles
        """)
    void pedalThatDoesNotMoveUnderTheBrake_isStill(
            double travel, double brake, int ticks, double step, boolean still, String because) {
        in.set(Signal.BRAKE_PRESSED, brake);
        for (int i = 0; i < ticks; i++) {
            double now = travel + (i % 2) * step;
            look(1 + 3 * now, 0.5 + 1.5 * now, 1);
        }
        assertEquals(still, facts.is(Fact.PEDAL_STILL), because);
    }

    @Test
    void stillPedal_brakeLetGo_beginsAnew() {
        in.set(Signal.BRAKE_PRESSED, 1);
        look(1.3, 0.65, 200);
        in.set(Signal.BRAKE_PRESSED, 0);
        look(1.3, 0.65, 1);
        in.set(Signal.BRAKE_PRESSED, 1);
        look(1.3, 0.65, 200);
        assertFalse(facts.is(Fact.PEDAL_STILL));
        look(1.3, 0.65, 1);
        assertTrue(facts.is(Fact.PEDAL_STILL));
    }

    /** FSAE Rules 2026 EV.4.7.2 a: brake engaged and more than 25 % travel. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        A_V   | B_V    | BRAKE | FIGHTS | BECAUSE
        1.75  | 0.875  | 1     | false  | exactly 25 %
        1.753 | 0.8765 | 1     | true   | more than 25 %
        1.753 | 0.8765 | 0     | false  | no brake
        1.753 | 0.8765 | NaN   | true   | an unknown brake is pressed
        1.753 | 0.875  | 1     | true   | the higher track decides
        0.24  | 2.0    | 1     | false  | a broken track is another cause
        """)
    void brakeWithPedal_isSeenAtOnce(double aV, double bV, double brake, boolean fights, String because) {
        in.set(Signal.BRAKE_PRESSED, brake);
        look(aV, bV, 1);
        assertEquals(fights, facts.is(Fact.PEDAL_WITH_BRAKE), because);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        SUPPLY_V | WRONG | BECAUSE
        4.75     | false | the lower limit
        4.74     | true  | below
        5.25     | false | the upper limit
        5.26     | true  | above
        NaN      | true  | unknown
        """)
    void reference_isJudgedByBothLimits(double supplyV, boolean wrong, String because) {
        in.set(Signal.PEDAL_SUPPLY_V, supplyV);
        look(1.0, 0.5, 6);
        assertEquals(wrong, facts.is(Fact.PEDAL_REFERENCE_WRONG), because);
    }

    @Test
    void reference_notFitted_isNotJudged() {
        fit(two.without(Signal.PEDAL_SUPPLY_V));
        in.set(Signal.PEDAL_SUPPLY_V, Double.NaN);
        look(1.0, 0.5, 100);
        assertFalse(facts.is(Fact.PEDAL_REFERENCE_WRONG));
    }

    @Test
    void oneTrack_drivesAloneWhateverTheOtherWireShows() {
        fit(one);
        look(2.5, 2.5, 100);
        assertEquals(0.5, c.travel, 1e-9);
        assertFalse(facts.is(Fact.PEDAL_SHORTED));
        assertFalse(facts.is(Fact.PEDAL_DISAGREES));
        assertFalse(facts.is(Fact.PEDAL_OUT_OF_RANGE));
        look(1.0, Double.NaN, 1);
        assertTrue(facts.is(Fact.PEDAL_RELEASED));
    }

    /** Some pedals fall in voltage when pressed. */
    @Test
    void fallingTrack_readsTheSameTravel() {
        fit(one.with(Parameter.PEDAL_A_RELEASED_V, 4.0).with(Parameter.PEDAL_A_FULL_V, 1.0));
        look(4.0, 0, 1);
        assertEquals(0, c.travel);
        assertTrue(facts.is(Fact.PEDAL_RELEASED));
        look(2.5, 0, 1);
        assertEquals(0.5, c.travel, 1e-9);
    }

    @Test
    void pedalAtItsBrakeLimit_trembles_fightsOnceAndNotAgain() {
        in.set(Signal.BRAKE_PRESSED, 1);
        look(1 + 3 * 0.25, 0.5 + 1.5 * 0.25, 1);
        assertFalse(facts.is(Fact.PEDAL_WITH_BRAKE), "exactly 25 % does not fight yet");
        for (double share : new double[] {0.26, 0.24, 0.26, 0.23}) {
            look(1 + 3 * share, 0.5 + 1.5 * share, 1);
            assertTrue(facts.is(Fact.PEDAL_WITH_BRAKE), "still fights at " + share);
        }
        look(1 + 3 * 0.21, 0.5 + 1.5 * 0.21, 1);
        assertFalse(facts.is(Fact.PEDAL_WITH_BRAKE), "21 % is more than 3 % below the limit");
        look(1 + 3 * 0.24, 0.5 + 1.5 * 0.24, 1);
        assertFalse(facts.is(Fact.PEDAL_WITH_BRAKE), "24 % is below the limit from which it fights");
    }

    @Test
    void pedalFightsBrake_brakeLetGoAndPressedBelowTheLimit_fightsNoMore() {
        in.set(Signal.BRAKE_PRESSED, 1);
        look(1 + 3 * 0.26, 0.5 + 1.5 * 0.26, 1);
        in.set(Signal.BRAKE_PRESSED, 0);
        look(1 + 3 * 0.24, 0.5 + 1.5 * 0.24, 1);
        in.set(Signal.BRAKE_PRESSED, 1);
        look(1 + 3 * 0.24, 0.5 + 1.5 * 0.24, 1);
        assertFalse(facts.is(Fact.PEDAL_WITH_BRAKE));
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        B_V  | SHORTED | BECAUSE
        1.75 | false   | pedal.short_v itself is far enough apart
        1.76 | true    | closer
        2.24 | true    | closer on the other side
        2.25 | false   | far enough
        """)
    void wipersAroundTheShortLimit_areShortedBelowIt(double bV, boolean shorted, String because) {
        fit(two.with(Parameter.PEDAL_SHORT_V, 0.25));
        look(2, bV, 50);
        assertEquals(shorted, facts.is(Fact.PEDAL_SHORTED), because);
    }
}
