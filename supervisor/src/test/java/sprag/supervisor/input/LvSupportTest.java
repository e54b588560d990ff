package sprag.supervisor.input;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;

/** H13: the 12 V battery of a car that stays on the cable. Ticks of 10 ms; weak below 12.1 V. */
class LvSupportTest {
    private static final int S = 100;

    private final Readings in = new Readings();
    private final TickFacts facts = new TickFacts();
    private final Conditioned c = new Conditioned();
    private final LvSupport support = new LvSupport(TestVehicle.full());

    private boolean neededAfter(double volts, int ticks) {
        in.set(Signal.LV_SUPPLY_V, volts);
        for (int i = 0; i < ticks; i++) {
            support.update(in, facts, c);
        }
        return c.lvSupport;
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            PLUG  | VOLTS | TICKS | NEEDED | BECAUSE
            true  | 12.09 | 1000  | true   | weak for ten seconds
            true  | 12.09 | 999   | false  | a coil may pull it down for a moment
            true  | 12.1  | 1000  | false  | strong enough
            true  | NaN   | 1000  | true   | unknown counts as weak
            false | 12.09 | 1000  | false  | unplugged, nothing fills the pack again
            """)
    void battery_weakOnTheCable_needsTheConverter(
            boolean plug, double volts, int ticks, boolean needed, String because) {
        facts.set(Fact.PLUG_SEEN, plug);
        assertEquals(needed, neededAfter(volts, ticks), because);
    }

    @Test
    void battery_strongAgain_isHelpedForTwoHoursMore() {
        facts.set(Fact.PLUG_SEEN, true);
        neededAfter(12, 1000);
        assertTrue(neededAfter(13.8, 2 * 3600 * S - 1), "a filled voltage is not a filled battery");
        assertFalse(neededAfter(13.8, 1));
    }

    @Test
    void plugOut_endsTheHelpAtOnce() {
        facts.set(Fact.PLUG_SEEN, true);
        neededAfter(12, 1000);
        facts.set(Fact.PLUG_SEEN, false);
        assertFalse(neededAfter(12, 1));
    }

    /** 24 h with a battery that falls in five hours and rises while the converter runs: a handful of switchings. */
    @Test
    void dayOnTheCable_weakBattery_isHelpedWithFewSwitchings() {
        facts.set(Fact.PLUG_SEEN, true);
        double restV = 12.4;
        double leastV = restV;
        int switchings = 0;
        boolean on = false;
        for (int s = 0; s < 24 * 3600; s++) {
            boolean now = neededAfter(on ? 13.8 : restV, S);
            switchings += now != on ? 1 : 0;
            on = now;
            restV += on ? 0.8 / 7200 : -0.8 / 18_000;
            leastV = Math.min(leastV, restV);
        }
        assertTrue(leastV > 12.0, leastV + " V at the least");
        assertTrue(switchings >= 4 && switchings <= 10, switchings + " switchings");
    }
}
