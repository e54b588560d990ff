package sprag.bench.scenario;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.scenario.ExpectationVerdict.Outcome;

/** Every kind of expectation on runs that just keep it, just break it, and cannot answer it. */
class WatcherTest {
    // @formatter:off
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        EXPECT                                             | RUN                                 | OUTCOME | MARGIN  | BECAUSE
        state="ON"; by_s=0.2                               | OFF:0 OFF:0 ON:0                    | PASS    | 0 ms    | the last tick still counts
        state="ON"; by_s=0.2                               | OFF:0 ON:0 ON:0                     | PASS    | 100 ms  | one tick to spare
        state="ON"; by_s=0.2                               | OFF:0 OFF:0 OFF:0 ON:0              | FAIL    | -100 ms | one tick late
        state="ON"; by_s=0.2                               | OFF:0 OFF:0 OFF:0                   | FAIL    | ''      | never
        state="ON"; by_s=0.3                               | OFF:0 OFF:0 OFF:0                   | ERROR   | ''      | the run ends before the time is up
        state="ON"; by_s=0.3                               | OFF:0 ON:0                          | PASS    | 200 ms  | reached, so the rest does not matter
        state="ON"; by_s=4                                 | OFF:0 ON:0                          | PASS    | 3.9 s   | long waits are told in seconds
        state="ON"; by_s=0.2; from_s=0.2                   | ON:0 ON:0 OFF:0                     | FAIL    | ''      | too early does not count
        state="ON"; by_s=0.2; stays=true                   | OFF:0 ON:0 ON:0 ON:0                | PASS    | 100 ms  | kept to the end
        state="ON"; by_s=0.2; stays=true                   | OFF:0 ON:0 ON:0 OFF:0               | FAIL    | ''      | lost on the last tick
        state="ON"; by_s=0.2; stays_s=0.1                  | OFF:0 ON:0 ON:0 ON:0 OFF:0          | PASS    | 100 ms  | kept as long as asked
        state="ON"; by_s=0.2; stays_s=0.2                  | OFF:0 ON:0 ON:0 ON:0 OFF:0          | FAIL    | ''      | lost on the last tick asked
        state="ON"; by_s=0.2; stays_s=0.2                  | OFF:0 ON:0 ON:0                     | ERROR   | ''      | the run ends while it should stay
        signal="bus_v"; at_least=90; by_s=0.2              | OFF:0 OFF:80 OFF:90                 | PASS    | 0 ms    | the limit itself is reached
        signal="bus_v"; at_least=90; by_s=0.2              | OFF:0 OFF:80 OFF:89.9               | FAIL    | -0.1 V  | the nearest value tells how far it was
        interlock="BUS_HIGH"; by_s=0.1                     | OFF:0 OFF:0*                        | PASS    | 0 ms    | it acts
        interlock="BUS_HIGH"; by_s=0.1                     | OFF:0 OFF:0                         | FAIL    | ''      | it does not
        interlock="plugged"; never=true                    | OFF:0* OFF:0*                       | PASS    | ''      | another one acts
        interlock="BUS_HIGH"; never=true                   | OFF:0 OFF:0*                        | FAIL    | ''      | this one acts
        state="FAULT"; never=true                          | OFF:0 ON:0                          | PASS    | ''      | not seen
        state="FAULT"; never=true                          | OFF:0 FAULT:0                       | FAIL    | ''      | seen on the last tick
        signal="bus_v"; at_least=10; always=true           | OFF:12 OFF:10 OFF:11                | PASS    | 0 V     | the limit itself is allowed
        signal="bus_v"; at_least=10; always=true           | OFF:12 OFF:9.9 OFF:11               | FAIL    | -0.1 V  | the next value is not
        signal="bus_v"; at_most=10; always=true            | OFF:5 OFF:10 OFF:8                  | PASS    | 0 V     | the limit itself is allowed
        signal="bus_v"; at_most=10; always=true            | OFF:5 OFF:10.5 OFF:8                | FAIL    | -0.5 V  | the next value is not
        signal="bus_v"; at_most=10; at_least=4; always=true| OFF:5 OFF:7 OFF:8                   | PASS    | 1 V     | the nearer of two limits
        signal="bus_v"; at_least=10; always=true           | OFF:12 OFF:?                        | FAIL    | 2 V     | an unknown value is not within the band
        signal="bus_v"; at_least=10; never=true            | OFF:? OFF:?                         | ERROR   | ''      | a value never known proves nothing
        signal="bus_v"; at_least=10; never=true            | OFF:? OFF:9                         | PASS    | 1 V     | known at least once
        signal="bus_v"; at_least=10; never=true            | OFF:9 OFF:10                        | FAIL    | 0 V     | never includes the limit
        signal="plug"; is=1; always=true                   | OFF:1 OFF:1                         | PASS    | ''      | a switch has no distance
        signal="plug"; is=1; always=true                   | OFF:1 OFF:0                         | FAIL    | ''      | off
        output="torque_nm"; is=0; always=true; while_on="plug"   | OFF:0 OFF:0                   | ERROR   | ''      | the plug was never in
        output="contactor"; is=1; always=true; while_on="plug"   | OFF:0 OFF:1                   | PASS    | ''      | only ticks with the plug count
        quantity="speed_kph"; at_most=5; always=true; while_state="ON" | OFF:9 ON:5 OFF:9        | PASS    | 0 km/h  | other states do not count
        quantity="speed_kph"; at_most=5; always=true; while_state="ON" | OFF:9 ON:6 OFF:9        | FAIL    | -1 km/h | this state does
        quantity="speed_kph"; at_most=5; always=true; while_state="FAULT" | OFF:1 ON:1           | ERROR   | ''      | the state was never entered
        quantity="speed_kph"; at_most=5; always=true; while_state="ON"; settle_ms=100 | OFF:9 ON:9 ON:5 | PASS | 0 km/h | the first tick is left out
        quantity="speed_kph"; at_most=5; always=true; while_state="ON"; settle_ms=100 | OFF:9 ON:9 ON:9 | FAIL | -4 km/h | the second is not
        quantity="speed_kph"; at_most=5; always=true; while_state="ON"; settle_ms=200 | OFF:9 ON:9 ON:9 | ERROR | '' | settled only after the run
        signal="bus_v"; at_most=5; always=true; from_s=0.1; to_s=0.2 | OFF:9 OFF:5 OFF:5 OFF:9   | PASS    | 0 V     | both ends are inside
        signal="bus_v"; at_most=5; always=true; from_s=0.1; to_s=0.2 | OFF:9 OFF:5 OFF:6 OFF:9   | FAIL    | -1 V    | the end counts
        signal="bus_v"; at_most=5; always=true; from_s=0.1; to_s=0.2 | OFF:9 OFF:6 OFF:5 OFF:9   | FAIL    | -1 V    | the beginning counts
        signal="bus_v"; at_most=5; always=true; from_s=0.1; to_s=0.3 | OFF:9 OFF:5 OFF:5         | ERROR   | ''      | the run ends within the time
        signal="bus_v"; at_most=5; always=true; from_s=0.3 | OFF:9 OFF:5 OFF:5                   | ERROR   | ''      | no tick lies in the time
        signal="bus_v"; at_most=5; at_s=0.15               | OFF:9 OFF:9 OFF:5 OFF:9             | PASS    | 0 V     | the first tick not before
        signal="bus_v"; at_most=5; at_s=0.15               | OFF:5 OFF:5 OFF:6 OFF:5             | FAIL    | -1 V    | only that tick
        signal="bus_v"; at_most=5; at_s=0.15               | OFF:5 OFF:5                         | ERROR   | ''      | the run ends before it
        """)
    // @formatter:on
    void expectation(String expect, String run, Outcome outcome, String margin, String because) throws Exception {
        ExpectationVerdict verdict = Strip.judge(expect, run, 0);
        assertAll(
                () -> assertEquals(outcome, verdict.outcome(), because + ": " + verdict.detail()),
                () -> assertEquals(margin, verdict.marginText(), because + ": " + verdict.detail()));
    }

    // @formatter:off
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        EXPECT                                                        | GO_MS | RUN                            | OUTCOME | BECAUSE
        state="ON"; within_ms=100; after="go"                         | 100   | OFF:0 OFF:0 ON:0               | PASS    | exactly in time
        state="ON"; within_ms=99; after="go"                          | 100   | OFF:0 OFF:0 ON:0               | FAIL    | one millisecond short
        state="ON"; within_ms=100; after="go"                         | -1    | OFF:0 OFF:0 ON:0               | ERROR   | the step never happened
        state="ON"; within_ms=200; after="go"                         | 100   | ON:0 OFF:0 OFF:0               | ERROR   | before the step does not count, and the run is short
        state="FAULT"; within_ms=100; after_state="ON"                | -1    | OFF:0 ON:0 FAULT:0             | PASS    | counts from the entry
        state="FAULT"; within_ms=100; after_state="ON"                | -1    | OFF:0 ON:0 ON:0 FAULT:0        | FAIL    | the entry, not the stay
        state="FAULT"; within_ms=100; after_state="ON"                | -1    | OFF:0 FAULT:0                  | ERROR   | never entered
        state="FAULT"; within_ms=100; after_state="ON"; not_before_s=0.2 | -1 | ON:0 OFF:0 ON:0 FAULT:0        | PASS    | the second entry
        state="FAULT"; within_ms=100; after_state="ON"; not_before_s=0.2 | -1 | ON:0 ON:0 ON:0 FAULT:0         | ERROR   | no entry that late
        state="FAULT"; within_ms=0; after_interlock="bus-high"        | -1    | ON:0 FAULT:0*                  | PASS    | on the same tick
        state="FAULT"; within_ms=0; after_interlock="BUS_HIGH"        | -1    | ON:0 ON:0* FAULT:0*            | FAIL    | a tick late
        state="FAULT"; within_ms=0; after_signal="bus_v"; rises_to=50 | -1    | ON:0 FAULT:50                  | PASS    | the limit itself is a crossing
        state="FAULT"; within_ms=0; after_signal="bus_v"; rises_to=50 | -1    | FAULT:50 FAULT:60              | ERROR   | above from the start is no crossing
        state="FAULT"; within_ms=0; after_quantity="speed_kph"; falls_to=1 | -1 | ON:5 ON:2 FAULT:1            | PASS    | falls to the limit
        signal="bus_v"; at_most=5; always=true; after="go"; from_s=0.1 | 100  | ON:9 ON:9 ON:5 ON:5            | PASS    | from a tick after the step to the end
        signal="bus_v"; at_most=5; always=true; after="go"; from_s=0.1 | 100  | ON:9 ON:9 ON:6 ON:5            | FAIL    | the first tick counts
        signal="bus_v"; at_most=5; always=true; after="go"; to_s=0.1  | 100   | ON:9 ON:5 ON:5 ON:9            | PASS    | up to a tick after the step
        signal="bus_v"; at_most=5; always=true; after="go"; to_s=0.3  | 100   | ON:9 ON:5 ON:5 ON:5            | ERROR   | the run ends first
        """)
    // @formatter:on
    void expectationAfterAnEvent(String expect, long goMs, String run, Outcome outcome, String because)
            throws Exception {
        ExpectationVerdict verdict = Strip.judge(expect, run, goMs);
        assertEquals(outcome, verdict.outcome(), because + ": " + verdict.detail());
    }

    @Test
    void aVerdict_toldInWords_saysWhatWasSeenAndWhen() throws Exception {
        assertAll(
                () -> assertEquals(
                        "at 0.1 s: 9.9 V",
                        Strip.judge("signal=\"bus_v\"; at_least=10; always=true", "ON:12 ON:9.9", 0)
                                .detail()),
                () -> assertEquals(
                        "only at 0.3 s",
                        Strip.judge("state=\"ON\"; by_s=0.2", "OFF:0 OFF:0 OFF:0 ON:0", 0)
                                .detail()),
                () -> assertEquals(
                        "cannot be judged: it counts from the state is FAULT, which never came in 0.1 s",
                        Strip.judge("state=\"ON\"; within_ms=9; after_state=\"FAULT\"", "OFF:0 OFF:0", 0)
                                .detail()));
    }
}
