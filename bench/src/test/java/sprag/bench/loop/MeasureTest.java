package sprag.bench.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.loop.measure.Measure;
import sprag.bench.loop.measure.Track;
import sprag.bench.loop.trace.Channel.Source;
import sprag.bench.loop.trace.Channels;
import sprag.bench.loop.trace.Frame;
import sprag.supervisor.vocabulary.State;

/** Questions to a run of ten ticks: the bus rises by 10 V a tick against a pack of 100 V, and PRECHARGE begins at 50 ms. */
class MeasureTest {
    private static final Channels CHANNELS = FrameColumns.CHANNELS;

    private static Track track() {
        Track track = new Track(CHANNELS);
        Frame frame = CHANNELS.newFrame();
        for (int i = 0; i <= 10; i++) {
            frame.timeMs = i * 10L;
            frame.state = i < 5 ? State.IGNITION.ordinal() : State.PRECHARGE.ordinal();
            frame.value[CHANNELS.indexOf(Source.QUANTITY, "bus_voltage_v")] = i <= 8 ? 10 * i : 80 - 10 * (i - 8);
            frame.value[CHANNELS.indexOf(Source.QUANTITY, "pack_voltage_v")] = 100;
            track.add(frame);
        }
        track.did("start", 20);
        return track;
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
        car.bus_voltage_v at 0.03                               | 30 V    | at a tick
        car.bus_voltage_v at 0.031                              | 40 V    | the first tick that is not before
        car.bus_voltage_v at end                                | 60 V    | the last tick
        car.bus_voltage_v at 0.2                                | never   | the run ends before
        most car.bus_voltage_v                                  | 80 V    | over the whole run
        most car.bus_voltage_v to state PRECHARGE               | 50 V    | up to a moment
        least car.bus_voltage_v from state PRECHARGE            | 50 V    | from a moment on
        change car.bus_voltage_v from step "start" to end       | 40 V    | 60 less 20
        time car.bus_voltage_v above 45                         | 0.05 s  | not at 40
        time car.bus_voltage_v above 63.2 % of car.pack_voltage_v | 0.07 s | a share of another column
        time car.bus_voltage_v below 75 after step 'start'      | 0.09 s  | what was so before has not begun
        time car.bus_voltage_v below 75                         | 0 s     | so from the first tick
        time state PRECHARGE from step 'start'                  | 0.03 s  | a difference
        time state FAULT                                        | never   | a state that never came
        time interlock plug-present                             | never   | an interlock that never acts
        car.bus_voltage_v at state PRECHARGE + 0.02             | 70 V    | a while later
        state at 0.04                                           | IGNITION | a state
        pedal_a_v at end                                        | unknown | nobody knows
        """)
    void question_toARun_isAnswered(String question, String answer, String because) {
        assertEquals(answer, Measure.of(question, CHANNELS).in(track()).words(), because);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        ''                                | expected
        bus                               | There is no column bus
        car.bus_voltage_v                 | The question ends where "at" was expected
        car.bus_voltage_v at              | a moment
        car.bus_voltage_v at 0.1 0.2      | "0.2" stands where the question should end
        most car.bus_voltagev             | Did you mean car.bus_voltage_v?
        time state PRECHRGE               | Did you mean PRECHARGE?
        time car.bus_voltage_v over 3     | "below" was expected
        time car.bus_voltage_v above x    | a number was expected
        car.bus_voltage_v at 3 after 4    | "after" can follow only
        time interlock plug-presnt        | plug-present
        """)
    void question_wrong_saysWhatWasExpected(String question, String says) {
        String message = assertThrows(IllegalArgumentException.class, () -> Measure.of(question, CHANNELS))
                .getMessage();
        assertTrue(message.contains(says), message);
    }

    @Test
    void question_toAnEmptyRun_isNeverAnswered() {
        Track empty = new Track(CHANNELS);
        for (String question :
                new String[] {"car.bus_voltage_v at end", "most car.soc", "time state OFF", "state at 0"}) {
            assertEquals("never", Measure.of(question, CHANNELS).in(empty).words(), question);
        }
    }
}
