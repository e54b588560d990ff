package sprag.hal.board.firmata;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.hal.board.BoardBench;
import sprag.hal.board.BoardMap;
import sprag.hal.board.InputPin;
import sprag.hal.board.LinkLost;
import sprag.hal.board.OutputPin;
import sprag.hal.board.PinKind;
import sprag.hal.board.Scale;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** What a board can, by its own list; layout of the list: firmata/protocol, protocol.md, capability query. */
class FirmataPinsTest {
    private static final HexFormat HEX = HexFormat.ofDelimiter(" ");
    /** Three pins: a switch with pull-up, PWM of 8 bits, and analogue of 10 bits. */
    private static final String THREE = "00 01 0B 01 7F 01 01 03 08 7F 02 0A 7F";

    private static final String CHANNELS = "7F 7F 00";

    private static FirmataPins pins(String capability, String mapping) throws LinkLost {
        return new FirmataPins(HEX.parseHex(capability), HEX.parseHex(mapping));
    }

    @Test
    void list_read_isPinsWithModesAndChannels() throws LinkLost {
        FirmataPins pins = pins(THREE, CHANNELS);
        assertEquals(3, pins.count());
        assertEquals(8, pins.bits(1, PinMode.PWM));
        assertEquals(-1, pins.bits(0, PinMode.PWM));
        assertEquals(0, pins.channel(2));
    }

    @ParameterizedTest
    @CsvSource({"D0, 0", "2, 2", "D3, -1", "A0, 2", "A1, -1", "x, -1"})
    void name_isThePinOfThatNumberOrChannel(String name, int number) throws LinkLost {
        assertEquals(number, pins(THREE, CHANNELS).number(name));
    }

    @ParameterizedTest(name = "{2}")
    @CsvSource(delimiter = '|', textBlock = """
        00 01 7F 02      | 7F 7F | breaks off at byte 3 of 4
        00 01 7F 02 7F   | 7F 7F | breaks off at byte 3 of 5
        00 01            | 7F    | has 0 whole pins in 2 bytes
        7F 00 01         | 7F    | has 1 whole pins in 3 bytes
        00 01 7F         | 7F 7F | lists 1 pins but maps 2
        """)
    void listThatCannotBe_isRefused(String capability, String mapping, String words) {
        LinkLost lost = assertThrows(LinkLost.class, () -> pins(capability, mapping));
        assertTrue(lost.getMessage().contains(words), lost.getMessage());
    }

    @Test
    void emptyList_isRefused() {
        LinkLost lost = assertThrows(LinkLost.class, () -> new FirmataPins(new byte[0], new byte[0]));
        assertTrue(lost.getMessage().contains("0 whole pins in 0 bytes"), lost.getMessage());
    }

    private static OutputPin fan(String pin, int bits) {
        return new OutputPin(
                Output.RADIATOR_FAN_DUTY, pin, PinKind.PWM, false, new Scale(1.0 / 255, 0, bits, false), 0);
    }

    @Test
    void mapThatFits_hasNoMisfit() throws LinkLost {
        BoardMap map =
                new BoardMap(List.of(BoardBench.volts(Signal.PEDAL_A_V, "A0"), pullUp("D0")), List.of(fan("D1", 8)));
        assertEquals(List.of(), pins(THREE, CHANNELS).misfits(map));
    }

    private static InputPin pullUp(String pin) {
        return new InputPin(Signal.KEY_ON, pin, PinKind.PULL_UP, true, Scale.SWITCH, 0);
    }

    @Test
    void pwmOfAnotherResolution_isNamed() throws LinkLost {
        BoardMap map = new BoardMap(List.of(), List.of(fan("D1", 10)));
        assertEquals(
                List.of("radiator_fan_duty on D1: the board gives 8 bits, the map scales 10 bits"),
                pins(THREE, CHANNELS).misfits(map));
    }

    @Test
    void pullUpThatThePinLacks_isNamedWithItsRemedy() throws LinkLost {
        List<String> misfits = pins(THREE, CHANNELS).misfits(new BoardMap(List.of(pullUp("D2")), List.of()));
        assertEquals(1, misfits.size());
        assertTrue(misfits.get(0).contains("it can be analogue input; pull-ups need Firmata 2.5"), misfits::toString);
        List<String> other =
                pins(THREE, CHANNELS).misfits(new BoardMap(List.of(), List.of(BoardBench.relay(Output.BUZZER, "D2"))));
        assertEquals(List.of("buzzer on D2: pin 2 cannot be digital output; it can be analogue input"), other);
    }
}
