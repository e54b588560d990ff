package sprag.supervisor.vocabulary;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.supervisor.TestVehicle;

/** The values of a vehicle, their ranges, and the pairs that contradict each other. */
class SettingsTest {
    private final Settings settings = TestVehicle.full();

    private double[] values() {
        double[] values = new double[Parameter.COUNT];
        for (Parameter p : Parameter.values()) {
            values[p.ordinal()] = settings.get(p);
        }
        return values;
    }

    @ParameterizedTest(name = "{0}")
    @EnumSource(Parameter.class)
    void valueOutsideItsRange_isRefusedByName(Parameter p) {
        for (double bad : new double[] {p.min() - 0.001, p.max() + 0.001, Double.POSITIVE_INFINITY}) {
            double[] values = values();
            values[p.ordinal()] = bad;
            IllegalArgumentException e = assertThrows(
                    IllegalArgumentException.class, () -> Settings.of(values, EnumSet.noneOf(Signal.class)));
            assertTrue(e.getMessage().contains(p.key()), e.getMessage());
            assertTrue(e.getMessage().contains(Double.toString(bad)), e.getMessage());
        }
    }

    @ParameterizedTest(name = "{0}")
    @EnumSource(Parameter.class)
    void endsOfARange_areAllowed(Parameter p) {
        assertEquals(p.min(), settings.with(p, p.min()).get(p));
        assertEquals(p.max(), settings.with(p, p.max()).get(p));
        assertTrue(p.min() < p.max(), p + " has a range");
    }

    @ParameterizedTest(name = "{0}")
    @EnumSource(Parameter.class)
    void missingValue_takesItsDefaultOrIsRefused(Parameter p) {
        double[] values = values();
        values[p.ordinal()] = Double.NaN;
        if (p.required()) {
            assertThrows(IllegalArgumentException.class, () -> Settings.of(values, EnumSet.noneOf(Signal.class)));
        } else {
            assertEquals(
                    p.byDefault(),
                    Settings.of(values, EnumSet.noneOf(Signal.class)).get(p));
            assertTrue(p.byDefault() >= p.min() && p.byDefault() <= p.max(), p + " by default within its range");
        }
    }

    @Test
    void wrongCount_isRefused() {
        IllegalArgumentException e = assertThrows(
                IllegalArgumentException.class, () -> Settings.of(new double[3], EnumSet.noneOf(Signal.class)));
        assertTrue(e.getMessage().contains("3 values"), e.getMessage());
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            TICK_MS | TIMEOUT_MS | TICKS | BECAUSE
            10      | 1000       | 100   | even
            10      | 1001       | 101   | rounded up, never shorter than asked
            50      | 60         | 2     | rounded up
            50      | 50         | 1     | one
            """)
    void duration_becomesWholeTicksNeverShorter(double tickMs, double timeoutMs, int ticks, String because) {
        Settings with = settings.with(Parameter.LOOP_TICK_MS, tickMs).with(Parameter.PRECHARGE_TIMEOUT_MS, timeoutMs);
        assertEquals(ticks, with.ticks(Parameter.PRECHARGE_TIMEOUT_MS), because);
        assertEquals(tickMs / 1000, with.tickS());
    }

    @Test
    void durationOfNothing_isStillATick() {
        assertEquals(1, settings.with(Parameter.PRECHARGE_FAST_MS, 0).ticks(Parameter.PRECHARGE_FAST_MS));
    }

    @Test
    void choice_isToldByItsWord() {
        assertTrue(settings.is(Parameter.MOTOR_KIND, "permanent-magnet"));
        assertFalse(settings.is(Parameter.MOTOR_KIND, "induction"));
        assertFalse(settings.is(Parameter.MOTOR_KIND, "nonsense"));
    }

    @Test
    void fitted_areTheAlwaysAndTheNamed() {
        Settings bare = Settings.of(values(), EnumSet.noneOf(Signal.class));
        for (Signal signal : Signal.values()) {
            assertEquals(signal != Signal.PACK_CURRENT_2_A, settings.has(signal), signal.key());
            assertEquals(!signal.optional, bare.has(signal), signal.key());
        }
        assertFalse(settings.without(Signal.PEDAL_B_V).has(Signal.PEDAL_B_V));
        assertTrue(settings.has(Signal.PEDAL_B_V), "the original stays as it is");
    }

    @Test
    void equality_looksAtValuesAndFit() {
        assertEquals(settings, TestVehicle.full());
        assertEquals(settings.hashCode(), TestVehicle.full().hashCode());
        assertNotEquals(settings, settings.with(Parameter.PACK_MIN_V, 289));
        assertNotEquals(settings, settings.without(Signal.PEDAL_B_V));
        assertNotEquals(settings, null);
        assertFalse(settings.equals("settings"));
    }

    @Test
    void changingACopy_leavesTheOriginal() {
        double[] values = values();
        Settings made = Settings.of(values, EnumSet.complementOf(EnumSet.of(Signal.PACK_CURRENT_2_A)));
        Arrays.fill(values, -1);
        assertEquals(settings, made);
        assertEquals(
                288,
                settings.with(Parameter.PACK_MIN_V, 300)
                        .with(Parameter.PACK_MIN_V, 288)
                        .get(Parameter.PACK_MIN_V));
    }

    @ParameterizedTest(name = "{0}")
    @EnumSource(Consistency.class)
    void pair_holdsOnlyWhileTheFirstIsLess(Consistency row) {
        assertTrue(row.holds(1, 2));
        assertFalse(row.holds(2, 2), "equal is a contradiction");
        assertFalse(row.holds(2, 1));
        assertFalse(row.holds(Double.NaN, 1));
        assertNotEquals(row.lower, row.upper);
        assertEquals(row.lower.unit(), row.upper.unit(), "only like can be compared");
        assertFalse(row.otherwise.isBlank());
        assertTrue(row.holds(settings.get(row.lower), settings.get(row.upper)), "the test vehicle is consistent");
    }

    @Test
    void keys_areUniqueAndCarryTheirUnit() {
        Set<String> keys = new HashSet<>();
        for (Parameter p : Parameter.values()) {
            assertTrue(keys.add(p.key()), p.key());
            assertTrue(p.key().matches("[a-z]+\\.[a-z0-9_]+"), p.key());
            String symbol = p.unit().symbol;
            assertTrue(symbol.isEmpty() || p.key().matches(".*[_.]" + symbol + "(_.*)?"), p.key());
            assertFalse(p.risk().isBlank());
            assertEquals(p.unit() == Unit.CHOICE, !p.choices().isEmpty());
        }
        assertEquals("precharge.done_fraction", Parameter.PRECHARGE_DONE_FRACTION.key());
    }
}
