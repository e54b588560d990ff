package sprag.hal.board;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import sprag.supervisor.vocabulary.Signal;

/** The newest reading of each pin, and the filter that a pin may have. */
class PinBankTest {
    private static final long MS = 1_000_000;
    private static final int SWITCH = 0;
    private static final int FILTERED = 1;
    private static final int PLAIN = 2;
    private static final Scale COUNT = new Scale(1, 0, 10, false);

    private final PinBank bank = new PinBank(List.of(
            BoardBench.switchOn(Signal.KEY_ON, "D2"),
            new InputPin(Signal.PEDAL_A_V, "A0", PinKind.ANALOGUE, false, COUNT, 100),
            new InputPin(Signal.PEDAL_B_V, "A1", PinKind.ANALOGUE, false, COUNT, 0)));

    /** The step response of a first-order low pass: 63.2 % after its time constant, 86.5 % after two (common practice). */
    @Test
    void filteredPin_steps_followsLikeALowPassOfItsTime() {
        bank.put(FILTERED, 200, 5 * MS);
        assertEquals(200, bank.value(FILTERED), "the first reading is taken as it is");
        bank.put(FILTERED, 300, 105 * MS);
        assertEquals(263.212, bank.value(FILTERED), 1e-3);
        bank.put(FILTERED, 300, 205 * MS);
        assertEquals(286.466, bank.value(FILTERED), 1e-3);
        assertEquals(300, bank.raw(FILTERED), "what arrived stays visible");
    }

    @Test
    void filteredPin_readTwiceAsOften_followsTheSame() {
        bank.put(FILTERED, 0, 0);
        bank.put(FILTERED, 1000, 50 * MS);
        bank.put(FILTERED, 1000, 100 * MS);
        assertEquals(632.12, bank.value(FILTERED), 1e-2);
    }

    @Test
    void pinWithoutFilter_steps_isThereAtOnce() {
        bank.put(PLAIN, 200, 0);
        bank.put(PLAIN, 300, MS);
        assertEquals(300, bank.value(PLAIN));
        assertEquals(MS, bank.arrivedNs(PLAIN));
    }

    @Test
    void filteredPin_wasUnknown_nothingOfItIsMixedIn() {
        bank.put(FILTERED, 200, 0);
        bank.putUnknown(FILTERED, 10 * MS);
        assertEquals(Double.NaN, bank.value(FILTERED));
        bank.put(FILTERED, 300, 20 * MS);
        assertEquals(300, bank.value(FILTERED));
    }

    @Test
    void linkLost_readingFromBeforeIsForgotten() {
        bank.put(FILTERED, 200, 0);
        bank.put(SWITCH, 0, 0);
        bank.put(SWITCH, 1, MS);
        bank.startAnew();
        assertEquals(PinBank.NEVER, bank.arrivedNs(FILTERED));
        assertEquals(PinBank.NEVER, bank.changedAtNs());
        bank.put(FILTERED, 300, 20 * MS);
        assertEquals(300, bank.value(FILTERED), "not filtered with what was before");
        bank.put(SWITCH, 0, 20 * MS);
        assertEquals(PinBank.NEVER, bank.changedAtNs(), "what a switch does while nobody listens is no change");
    }

    @Test
    void switchChanges_theFirstChangeStandsUntilItIsAnswered() {
        bank.put(SWITCH, 0, 1);
        assertEquals(PinBank.NEVER, bank.changedAtNs(), "the first reading is no change");
        bank.put(SWITCH, 0, 2);
        assertEquals(PinBank.NEVER, bank.changedAtNs());
        bank.put(SWITCH, 1, 3);
        bank.put(SWITCH, 0, 4);
        assertEquals(3, bank.changedAtNs());
        bank.answered();
        bank.put(PLAIN, 1, 5);
        bank.put(PLAIN, 2, 6);
        assertEquals(PinBank.NEVER, bank.changedAtNs(), "a number changes all the time");
        bank.put(SWITCH, 1, 7);
        assertEquals(7, bank.changedAtNs());
    }
}
