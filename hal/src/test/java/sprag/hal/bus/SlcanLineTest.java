package sprag.hal.bus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.hal.VirtualClock;
import sprag.hal.board.LinkLost;
import sprag.hal.board.MemoryPort;

/** What an adapter says, and what becomes of it. */
class SlcanLineTest {
    private static final long MS = 1_000_000;

    private final VirtualClock clock = new VirtualClock();
    private final List<String> commands = new ArrayList<>();
    private final StringBuilder said = new StringBuilder();
    private final CanFrame frame = new CanFrame();
    private UnaryOperator<String> answers = command -> command.equals("V") ? "V1013\r" : "\r";
    private final MemoryPort port = new MemoryPort(new MemoryPort.FarEnd() {
        @Override
        public void take(byte[] bytes, int length) {
            String command = new String(bytes, 0, length, StandardCharsets.US_ASCII).strip();
            commands.add(command);
            said.append(answers.apply(command));
        }

        @Override
        public int give(byte[] into) {
            byte[] all = said.toString().getBytes(StandardCharsets.ISO_8859_1);
            said.setLength(0);
            System.arraycopy(all, 0, into, 0, all.length);
            return all.length;
        }
    });
    private final SlcanLine line = new SlcanLine(port, clock);

    private void open(int kbit) throws LinkLost {
        port.open();
        line.open(kbit, false);
    }

    private boolean hears(String bytes) throws LinkLost {
        said.append(bytes);
        return line.next(frame);
    }

    /** The commands S0 to S8 of the serial-line protocol (common practice). */
    @ParameterizedTest
    @CsvSource({"10, S0", "20, S1", "50, S2", "100, S3", "125, S4", "250, S5", "500, S6", "800, S7", "1000, S8"})
    void speed_hasItsCommand(int kbit, String command) throws LinkLost {
        open(kbit);
        assertEquals(List.of("C", "V", command, "O"), commands);
        assertEquals("V1013", line.identity());
    }

    @Test
    void speedThatTheProtocolDoesNotHave_isRefusedWithThoseThatItHas() {
        LinkLost lost = assertThrows(LinkLost.class, () -> open(300));
        assertTrue(lost.getMessage().startsWith("300 kbit/s is no speed"), lost.getMessage());
    }

    @Test
    void adapterWithoutAVersion_isOpenedAllTheSame() throws LinkLost {
        answers = command -> command.equals("V") ? "" : "\r";
        open(500);
        assertEquals("", line.identity());
        assertEquals("O", commands.get(3));
    }

    /** One that is closed already may refuse to be closed, and one without a version to be asked for it. */
    @Test
    void adapterRefusesWhatItNeedNotKnow_isOpenedAllTheSame() throws LinkLost {
        answers = command -> command.equals("V") || command.equals("C") ? "\u0007" : "\r";
        open(500);
        assertEquals(2, line.refusals());
        assertEquals(0, line.refusedInARow(), "those were no sends");
    }

    @ParameterizedTest
    @CsvSource({"S6", "O"})
    void adapterRefusesWhatItMustDo_isNamed(String command) {
        answers = asked -> asked.equals(command) ? "\u0007" : "\r";
        LinkLost lost = assertThrows(LinkLost.class, () -> open(500));
        assertTrue(lost.getMessage().contains("refuses the command " + command), lost.getMessage());
    }

    @Test
    void adapterDoesNotAnswer_isWaitedForHalfASecond() {
        answers = asked -> asked.equals("O") ? "" : "\r";
        long beganNs = clock.nowNs();
        LinkLost lost = assertThrows(LinkLost.class, () -> open(500));
        assertTrue(lost.getMessage().contains("no answer to the command O within 500 ms"), lost.getMessage());
        assertEquals(503 * MS, clock.nowNs() - beganNs, "the others answered within a look of 1 ms each");
    }

    @ParameterizedTest(name = "{3}")
    @CsvSource(delimiter = '|', textBlock = """
        V1013    | 0 | false | a version is no frame
        N00A1    | 0 | false | a serial number
        v12      | 0 | false | another form of it
        F00      | 0 | false | the flags of the adapter, which are not used
        e1       | 0 | false | a report of an error
        z        | 0 | false | a frame was sent
        Z        | 0 | false | a frame of 29 bits was sent
        ''       | 0 | false | a command was taken
        t1230    | 0 | true  | a frame
        x        | 1 | false | nothing of the protocol
        t12      | 1 | false | half a frame
        sw00000  | 1 | false | a state of seven characters
        sw0000000| 1 | false | of nine
        sx000000 | 1 | false | no letter of a state
        sw00000a | 1 | false | a letter for a digit
        sw/00000 | 1 | false | the character before 0
        sw:00000 | 1 | false | the character after 9
        t12381122334455667788112233445566 | 1 | false | too long for any line
        """)
    void lineOfTheAdapter_isWhatItIs(String text, long garbled, boolean isFrame, String because) throws LinkLost {
        open(500);
        assertEquals(isFrame, hears(text + "\r"), because);
        assertEquals(garbled, line.garbled(), because);
        assertTrue(hears("t1230\r"), "the next line is read as ever");
        assertTrue(line.errorText().endsWith(", unreadable lines " + garbled), line.errorText());
    }

    @ParameterizedTest
    @CsvSource({"a, ACTIVE", "w, WARNING", "p, PASSIVE", "b, BUS_OFF"})
    void state_isKeptWithItsCounters(char letter, SlcanLine.Errors state) throws LinkLost {
        open(500);
        assertFalse(hears("s" + letter + "019203\r"));
        assertEquals(state, line.errors());
        assertTrue(line.errorText().contains("receive errors 19, transmit errors 203"), line.errorText());
        assertFalse(hears("sx111111\r"));
        assertEquals(state, line.errors(), "what cannot be read changes nothing");
        assertTrue(line.errorText().contains("receive errors 19, transmit errors 203"), line.errorText());
    }

    @Test
    void errorReports_areCounted() throws LinkLost {
        open(500);
        hears("e1\re2\re1\r");
        assertTrue(line.errorText().contains("error reports 3"), line.errorText());
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        z | a frame of 11 bits was taken
        Z | a frame of 29 bits was taken
        '' | it was taken, as some adapters say it
        """)
    void refusals_inARow_endWithTheNextThatIsTaken(String taken, String because) throws LinkLost {
        open(500);
        hears("\u0007\u0007");
        assertEquals(2, line.refusedInARow());
        hears(taken + "\r\u0007");
        assertEquals(1, line.refusedInARow(), because);
        assertEquals(3, line.refusals());
    }

    @Test
    void bell_insideALine_throwsAwayWhatStoodBeforeIt() throws LinkLost {
        open(500);
        assertFalse(hears("t12\u0007"));
        assertTrue(hears("t1230\r"));
        assertEquals("123#", frame.toString());
    }
}
