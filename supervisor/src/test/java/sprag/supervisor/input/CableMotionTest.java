package sprag.supervisor.input;

import static org.junit.jupiter.api.Assertions.assertEquals;

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

/** The test vehicle ticks every 10 ms and opens its contactors below contactor.open_a. */
class CableMotionTest {
    private static final int REST_TICKS = 12_000;

    private final Settings settings = TestVehicle.full();
    private final CableMotion cable = new CableMotion(settings);
    private final Debounce debounce = new Debounce(settings);
    private final TickFacts facts = new TickFacts();
    private final Commands last = new Commands();
    private final Conditioned c = new Conditioned();
    private final Readings in = new Readings();

    /** What a reading shows that is not believed. */
    private double shownKph;

    CableMotionTest() {
        facts.set(Fact.PLUG_SEEN, true);
        c.packCurrentA = 0;
    }

    private boolean rolling(double kph, int ticks) {
        c.speedKph = kph;
        c.roadKph = Math.abs(c.speedKph);
        c.shownKph = kph == kph ? Math.abs(kph) : shownKph;
        for (int i = 0; i < ticks; i++) {
            debounce.begin(in);
            cable.update(last, facts, debounce, c);
        }
        return facts.is(Fact.ROLLING_PLUGGED);
    }

    private int blindTicks() {
        return settings.ticks(Parameter.LOOP_BLIND_MS);
    }

    @ParameterizedTest(name = "{0} km/h: {1}")
    @CsvSource({"0, false", "5, false", "5.01, true", "-5, false", "-5.01, true", "51, true"})
    void knownSpeed_aboveWalkingPace_rolls(double kph, boolean rolls) {
        assertEquals(rolls, rolling(kph, blindTicks() + 2));
    }

    @Test
    void knownSpeed_noPlug_isNothing() {
        facts.set(Fact.PLUG_SEEN, false);
        assertEquals(false, rolling(51, 100));
        assertEquals(false, rolling(Double.NaN, 100));
    }

    @Test
    void speedLost_seenToStandOnTheCable_standsOn() {
        rolling(0, 10);
        assertEquals(false, rolling(Double.NaN, 100));
    }

    @ParameterizedTest(name = "doubted, shows {0} km/h for {1} ticks more than loop.blind_ms: {2}")
    @CsvSource({"5, 10, false", "5.01, 1, true", "28, 1, true", "28, -2, false"})
    void speedDoubted_seenToStandOnTheCable_aReadingThatShowsMovementCounts(double kph, int ticksMore, boolean rolls) {
        rolling(0, 10);
        shownKph = kph;
        assertEquals(rolls, rolling(Double.NaN, blindTicks() + ticksMore));
    }

    @ParameterizedTest(name = "{0} ticks of movement, {1} without, again and again: {2}")
    @CsvSource({"3, 3, true", "1, 1, true", "5, 9, true", "1, 2, false", "1, 20, false"})
    void speedDoubted_looseWire_movementWithGapsCounts(int shownTicks, int gapTicks, boolean rolls) {
        rolling(0, 10);
        boolean seen = false;
        for (int i = 0; i < 50 * blindTicks(); i++) {
            shownKph = i % (shownTicks + gapTicks) < shownTicks ? 28 : 0;
            seen |= rolling(Double.NaN, 1);
        }
        assertEquals(rolls, seen);
    }

    @Test
    void speedDoubted_showedMovement_restsBeforeItStandsAgain() {
        rolling(0, 10);
        shownKph = 28;
        rolling(Double.NaN, 100);
        shownKph = 0;
        assertEquals(true, rolling(Double.NaN, REST_TICKS - 1), "a doubted zero is no standstill");
        assertEquals(false, rolling(Double.NaN, 3 * blindTicks()));
    }

    @Test
    void speedLost_seenToRoll_rollsUntilRested() {
        rolling(30, 10);
        assertEquals(true, rolling(Double.NaN, REST_TICKS - 1));
        assertEquals(false, rolling(Double.NaN, 3 * blindTicks()));
        assertEquals(true, rolling(6, blindTicks() + 2), "a known speed is believed again at once");
    }

    @Test
    void speedNeverKnown_pluggedIn_chargesAfterTheRest() {
        assertEquals(true, rolling(Double.NaN, REST_TICKS - 1));
        assertEquals(false, rolling(Double.NaN, 3 * blindTicks()));
    }

    @Test
    void speedUnknown_plugPulled_isForgotten() {
        rolling(0, 10);
        facts.set(Fact.PLUG_SEEN, false);
        rolling(Double.NaN, 1);
        facts.set(Fact.PLUG_SEEN, true);
        assertEquals(true, rolling(Double.NaN, 100), "it may have been driven since");
    }

    @ParameterizedTest(name = "torque {0} Nm, {1} of contactor.open_a, charging {2}: rests {3}")
    @CsvSource({
        "0, 1, false, true",
        "0, -1, false, true",
        "0, 1.01, false, false",
        "0, -1.01, false, false",
        "0, -9, true, true",
        "1, 0, false, false",
        "-1, 0, false, false",
        "0, NaN, false, false"
    })
    void speedUnknown_somethingElseMoves_neverRests(double torqueNm, double share, boolean charging, boolean rests) {
        last.set(Output.TORQUE_REQUEST_NM, torqueNm);
        last.set(Output.CHARGER_ENABLE, charging);
        c.packCurrentA = share * settings.get(Parameter.CONTACTOR_OPEN_A);
        assertEquals(!rests, rolling(Double.NaN, 2 * REST_TICKS));
    }
}
