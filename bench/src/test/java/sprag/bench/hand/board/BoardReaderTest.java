package sprag.bench.hand.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Problem;
import sprag.hal.board.BoardSetting;
import sprag.hal.board.BoardSpec;
import sprag.hal.board.InputPin;
import sprag.hal.board.LineSettings;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** A board's file is either wholly good or refused with every mistake named. */
class BoardReaderTest {
    @TempDir
    Path folder;

    @ParameterizedTest
    @ValueSource(strings = {"usb-bench", "rail-module"})
    void shippedBoard_read_isGood(String name) throws Exception {
        BoardSpec board = BoardReader.read(BoardFiles.find(Catalogue.installed(), name));
        assertTrue(board.map().driven().contains(Output.HEARTBEAT), "the shipped examples feed a watchdog");
        assertEquals(List.of(), board.map().cautions(), "no output of an example acts by a low level");
    }

    @Test
    void everyShippedBoard_isTested() {
        assertEquals(List.of("rail-module", "usb-bench"), BoardFiles.names(Catalogue.installed()));
    }

    @Test
    void goodFile_read_everyValueArrives() throws Exception {
        BoardSpec board = BoardReader.read(BoardFiles.find(Catalogue.installed(), "rail-module"));
        assertEquals("rail module", board.name());
        assertEquals("modbus", board.driver().protocol());
        assertEquals("/dev/ttyUSB0", board.port().path());
        assertEquals(
                new LineSettings(115200, LineSettings.Parity.NONE, 1),
                board.settings().line());
        assertEquals(200, board.settings().get(BoardSetting.SILENCE_MS));
        InputPin current = board.map().inputs().get(6);
        assertEquals(Signal.PACK_CURRENT_A, current.signal());
        assertEquals(-600, current.value(-10000 & 0xFFFF), 1e-9, "-10 V of the transducer");
    }

    @Test
    void scalesOfTheUsbBench_areThoseOfItsDividers() throws Exception {
        BoardSpec board = BoardReader.read(BoardFiles.find(Catalogue.installed(), "usb-bench"));
        assertEquals(5.0, valueOf(board, Signal.PEDAL_A_V, 1023), 1e-4, "5 V at full counts");
        assertEquals(7.5, valueOf(board, Signal.PEDAL_SUPPLY_V, 1023), 1e-4, "5 V * 30 k / 20 k");
        assertEquals(28.5, valueOf(board, Signal.LV_SUPPLY_V, 1023), 1e-4, "5 V * 57 k / 10 k");
        assertEquals(1, valueOf(board, Signal.KEY_ON, 0), "a switch to ground is on when low");
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        OLD                          | NEW                              | LINE               | EXPECTED                                                      | BECAUSE
        protocol = "firmata"         | protocol = "firmatta"            | protocol           | Did you mean firmata?                                         | a letter too many
        baud = 57600                 | baud = 57                        | baud               | board.baud = 57 is not a number within 300..4000000           | no such speed
        baud = 57600                 | #                                | [board]            | board.baud is missing                                         | required
        silence_ms = 200             | silence_ms = 19                  | silence_ms         | board.silence_ms = 19 is not a number within 20..2000         | just outside
        sampling_ms = 10             | sampling = 10                    | sampling           | firmata.sampling is not a known key                           | unknown key
        [firmata]                    | [modbus]                         | [modbus]           | modbus is not a known section                                 | another protocol's section
        port = "/dev/ttyACM0"        | usb_vendor = "2A3"               | usb_vendor         | is not four hex digits                                        | three digits
        port = "/dev/ttyACM0"        | #                                | [board]            | board.port is missing, and no USB identity is given           | neither
        port = "/dev/ttyACM0"        | port = "/dev/x"\\nusb_vendor = "2a03" | port           | board.port is given beside a USB identity                     | both
        signal = "key_on"            | signal = "key_onn"               | signal = "key_onn" | Did you mean key_on?                                          | no such signal
        pin = "D2"                   | pin = "X2"                       | pin = "X2"         | input[0].pin is wrong: "X2" is no pin of a Firmata board      | no such pin
        pin = "D3"                   | pin = 2                          | pin = 2            | input[1].pin is wrong: 2 is already input 1                   | the same pin by number
        signal = "start_request"     | signal = "key_on"                | signal = "key_on" # 2 | input[1].signal is wrong: key_on is already input 1        | the same signal twice
        kind = "pull-up" # first     | kind = "pullup"                  | kind = "pullup"    | input[0].kind = "pullup" is not one of digital, pull-up, analogue | no such kind
        invert = true # first        | #                                | [[input]] # first  | input[0].invert is missing                                    | a pull-up must say it
        unit = "v" # pedal a         | unit = "a"                       | unit = "a"         | input[7].unit = "a" is not "v", the unit of pedal_a_v         | the wrong unit
        unit = "v" # pedal a         | #                                | [[input]] # pedal a| input[7].unit is missing                                      | every scale says its unit
        scale = 0.00488758 # pedal a | scale = 0                        | scale = 0          | input[7].scale is wrong: 0.0 cannot be the value of one       | a scale of nothing
        bits = 10 # pedal a          | bits = 15                        | bits = 15          | input[7].bits is wrong: 15 is outside 1..14 of a Firmata board | more than it can have
        filter_ms = 20               | filter_ms = 1001                 | filter_ms = 1001   | filter_ms = 1001 is not a number within 0..1000               | would hide a fault
        output = "precharge_relay"   | output = "precharge_relay"\\nsafe = true | safe = true | output[1].safe is wrong: precharge_relay must be released (0) | never stays on
        kind = "pwm"                 | kind = "digital"                 | kind = "digital" # fan | radiator_fan_duty is a number; its kind is pwm or analogue | a quantity
        """)
    void oneMistake_read_namesLineKeyAndRemedy(String old, String changed, String line, String expected, String because)
            throws Exception {
        String good = marked();
        assertTrue(good.contains(old), old);
        int at = good.indexOf(old);
        String bad = good.substring(0, at) + changed.replace("\\n", "\n") + good.substring(at + old.length());
        if (line.endsWith("# 2") || line.endsWith("# fan")) {
            line = line.substring(0, line.indexOf(" #"));
        }
        List<Problem> problems = refused(bad);
        Problem found = problems.stream()
                .filter(p -> p.message().contains(expected))
                .findFirst()
                .orElseThrow(() -> new AssertionError(because + ": " + problems));
        assertTrue(bad.split("\n")[found.line() - 1].contains(line), because + ": shown at line " + found.line());
    }

    @Test
    void severalMistakes_read_allAreToldAtOnce() throws Exception {
        String bad = marked().replace("baud = 57600", "baud = 1")
                .replace("pin = \"D2\"", "pin = \"Q9\"")
                .replace("sampling_ms = 10", "sampling_ms = 0");
        assertEquals(3, refused(bad).size());
    }

    @Test
    void boardThatIsNotThere_isRefusedWithTheNearestName() {
        BadInput refused = assertThrows(BadInput.class, () -> BoardFiles.find(Catalogue.installed(), "usb-bensh"));
        assertTrue(refused.getMessage().contains("Did you mean usb-bench?"), refused.getMessage());
    }

    @Test
    void boardInAVehiclesFolder_isFoundAndNamedAfterIt() throws Exception {
        Path vehicle = Files.createDirectory(folder.resolve("old-van"));
        Files.writeString(vehicle.resolve("board.toml"), marked().replace("name = \"usb bench\"", ""));
        assertEquals(
                "old-van",
                BoardReader.read(BoardFiles.find(Catalogue.installed(), vehicle.toString()))
                        .name());
    }

    /** The shipped file with marks where a line stands more than once. */
    private static String marked() throws Exception {
        String text = Files.readString(BoardFiles.find(Catalogue.installed(), "usb-bench"));
        return text.replaceFirst("\\[\\[input\\]\\]", "[[input]] # first")
                .replaceFirst("kind = \"pull-up\"", "kind = \"pull-up\" # first")
                .replaceFirst("invert = true", "invert = true # first")
                .replaceFirst("\\[\\[input\\]\\](\\s+signal = \"pedal_a_v\")", "[[input]] # pedal a$1")
                .replaceFirst("unit = \"v\"", "unit = \"v\" # pedal a")
                .replaceFirst("scale = 0.00488758 ", "scale = 0.00488758 # pedal a ")
                .replaceFirst("bits = 10", "bits = 10 # pedal a");
    }

    private List<Problem> refused(String text) throws Exception {
        Path file = folder.resolve("bad.toml");
        Files.writeString(file, text);
        return assertThrows(BadInput.class, () -> BoardReader.read(file)).problems();
    }

    private static double valueOf(BoardSpec board, Signal signal, long raw) {
        return board.map().inputs().stream()
                .filter(p -> p.signal() == signal)
                .findFirst()
                .orElseThrow()
                .value(raw);
    }
}
