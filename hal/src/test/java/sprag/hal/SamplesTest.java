package sprag.hal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;

class SamplesTest {
    private static final long TAKEN_NS = 1_000;
    private static final long MAX_AGE_NS = 100;

    private final Samples samples = new Samples();
    private final Readings readings = new Readings();

    @Test
    void noSampleYet_isUnknownAndInfinitelyOld() {
        assertEquals(Double.NaN, samples.get(Signal.BUS_VOLTAGE_V));
        assertEquals(Long.MAX_VALUE, samples.ageNs(Signal.BUS_VOLTAGE_V, 0));
        readings.set(Signal.BUS_VOLTAGE_V, 5);
        samples.read(readings, Long.MAX_VALUE, Long.MAX_VALUE);
        for (Signal signal : Signal.values()) {
            assertEquals(Double.NaN, readings.get(signal), signal.key());
        }
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            AGE_NS | KNOWN | BECAUSE
            0      | true  | just taken
            100    | true  | at the limit
            101    | false | a good value, but too old
            -5     | true  | taken after the tick began
            """)
    void sample_countsUpToItsAge(long ageNs, boolean known, String because) {
        samples.put(Signal.BUS_VOLTAGE_V, 42, TAKEN_NS);
        samples.read(readings, TAKEN_NS + ageNs, MAX_AGE_NS);
        assertEquals(known ? 42 : Double.NaN, readings.get(Signal.BUS_VOLTAGE_V), because);
        assertEquals(ageNs, samples.ageNs(Signal.BUS_VOLTAGE_V, TAKEN_NS + ageNs));
        assertEquals(42, samples.get(Signal.BUS_VOLTAGE_V), "the newest, however old");
    }

    @Test
    void newerSample_replacesTheOlderOneOfItsSignalOnly() {
        samples.put(Signal.BUS_VOLTAGE_V, 1, 10);
        samples.put(Signal.PACK_VOLTAGE_V, 2, 10);
        samples.put(Signal.BUS_VOLTAGE_V, 3, 20);
        assertEquals(3, samples.get(Signal.BUS_VOLTAGE_V));
        assertEquals(2, samples.get(Signal.PACK_VOLTAGE_V));
        assertEquals(0, samples.ageNs(Signal.BUS_VOLTAGE_V, 20));
        assertEquals(10, samples.ageNs(Signal.PACK_VOLTAGE_V, 20));
    }

    @Test
    void switches_areZeroOrOne() {
        samples.put(Signal.KEY_ON, true, 0);
        samples.put(Signal.BRAKE_PRESSED, false, 0);
        samples.read(readings, 0, 0);
        assertTrue(readings.isOn(Signal.KEY_ON));
        assertTrue(readings.isOff(Signal.BRAKE_PRESSED));
    }
}
