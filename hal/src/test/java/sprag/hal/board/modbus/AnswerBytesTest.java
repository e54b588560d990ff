package sprag.hal.board.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.HexFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Frames whose check sums were worked out by another program (polynomial A001, start FFFF, low byte first). */
class AnswerBytesTest {
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        BYTES                            | UNIT | WRONG | BECAUSE
        01 03 04 00 0a 01 02 5a 60       | 1    | false | a sound reply to a read
        01 03 04 00 0b 01 02 5a 60       | 1    | true  | one bit of the value is another
        01 03 04 00 0a 01 02 5a          | 1    | false | it broke off: nobody knows its sum
        01 03 04 00 0a 01 02 5a 60 00 00 | 1    | false | what follows a sound reply does not count
        03 03 04 00 0a 01 02 5a 60       | 3    | true  | one bit of the address is another, so no stranger has answered
        01 83 02 c0 f1                   | 1    | false | a refusal
        01 83 02 c4 f1                   | 1    | true  | a refusal with a wrong sum
        01 06 00 05 00 01 58 0b          | 1    | false | a sound reply to a write
        01 06 00 05 00 01 58 8b          | 1    | true  | a reply to a write with a wrong sum
        ff ff ff ff ff ff ff ff          | 255  | false | noise, no frame
        01                               | 1    | false | one byte
        """)
    void answer_isJudgedByItsBytes(String hex, int unit, boolean wrong, String because) {
        AnswerBytes answer = of(hex);
        assertEquals(unit, answer.unit(), because);
        assertEquals(wrong, answer.hasWrongSum(), because);
    }

    @Test
    void nothingCame_hasNoUnit() {
        AnswerBytes answer = of("01 03 04 00 0b 01 02 5a 60");
        answer.clear();
        assertEquals(-1, answer.unit());
        assertEquals(false, answer.hasWrongSum());
    }

    @Test
    void moreThanAFrameCanHold_isDropped() {
        AnswerBytes answer = of("01 03 04 00 0b 01 02 5a 60");
        answer.add(new byte[1000], 1000);
        assertEquals(true, answer.hasWrongSum());
        answer.add(new byte[0], -1);
        assertEquals(1, answer.unit());
    }

    private static AnswerBytes of(String hex) {
        byte[] bytes = HexFormat.of().parseHex(hex.replace(" ", ""));
        AnswerBytes answer = new AnswerBytes();
        answer.add(bytes, 1);
        byte[] rest = Arrays.copyOfRange(bytes, 1, bytes.length);
        answer.add(rest, rest.length);
        return answer;
    }
}
