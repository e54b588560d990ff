package sprag.hal.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.hal.board.firmata.FirmataDriver;
import sprag.hal.board.modbus.ModbusDriver;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** What can be told of a map without a board. */
class MapCheckTest {
    private static List<MapFault> faults(String driver, List<InputPin> inputs, List<OutputPin> outputs) {
        BoardDriver found = "modbus".equals(driver) ? new ModbusDriver() : new FirmataDriver();
        return MapCheck.faults(new BoardMap(inputs, outputs), found);
    }

    @ParameterizedTest(name = "{7}")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
        firmata | KEY_ON        | D2         | DIGITAL  | false | 1     | 0    | -                           | a switch on a digital pin
        firmata | KEY_ON        | D2         | PULL_UP  | true  | 1     | 0    | -                           | a switch to ground
        firmata | KEY_ON        | A0         | ANALOGUE | false | 1     | 0    | is a switch; its kind is    | a switch cannot be a number
        firmata | BUS_VOLTAGE_V | D2         | DIGITAL  | false | 1     | 0    | is a number; its kind is    | a number cannot be a switch
        firmata | BUS_VOLTAGE_V | A0         | ANALOGUE | false | 0.4   | 0    | -                           | 0..409 V lies inside
        firmata | BUS_VOLTAGE_V | A0         | ANALOGUE | false | 0     | 0    | cannot be the value of one   | a scale of nothing
        firmata | BUS_VOLTAGE_V | A0         | ANALOGUE | false | NaN   | 0    | cannot be the value of one   | not a number
        firmata | BUS_VOLTAGE_V | A0         | ANALOGUE | true  | 0.4   | 0    | negative scale instead      | a number cannot be inverted
        firmata | BUS_VOLTAGE_V | A0         | ANALOGUE | false | 0.4   | 2000 | counts give 2000.0          | can never show a sound value
        firmata | KEY_ON        | D2         | PWM      | false | 1     | 0    | is not a kind of input       | PWM is an output
        firmata | LINK_LOST     | D2         | DIGITAL  | false | 1     | 0    | set by the loop             | no pin stands for it
        firmata | KEY_ON        | D128       | DIGITAL  | false | 1     | 0    | no pin of a Firmata board   | one above the last number
        firmata | KEY_ON        | D127       | DIGITAL  | false | 1     | 0    | -                           | the last number
        firmata | KEY_ON        | coil:1     | DIGITAL  | false | 1     | 0    | no pin of a Firmata board   | another protocol's pin
        modbus  | KEY_ON        | discrete:0 | DIGITAL  | false | 1     | 0    | -                           | a discrete input
        modbus  | KEY_ON        | input:0.15 | DIGITAL  | false | 1     | 0    | -                           | the last bit of a register
        modbus  | KEY_ON        | input:0.16 | DIGITAL  | false | 1     | 0    | no pin of a Modbus module   | one bit too many
        modbus  | KEY_ON        | input:0    | DIGITAL  | false | 1     | 0    | is a whole register         | which bit is not said
        modbus  | KEY_ON        | discrete:0 | PULL_UP  | false | 1     | 0    | no pull-up to switch on     | a module has none
        modbus  | BUS_VOLTAGE_V | coil:0     | ANALOGUE | false | 0.01  | 0    | is one bit                  | a number needs a register
        modbus  | BUS_VOLTAGE_V | input:65535| ANALOGUE | false | 0.01  | 0    | -                           | the last address
        modbus  | BUS_VOLTAGE_V | input:65536| ANALOGUE | false | 0.01  | 0    | no pin of a Modbus module   | one above the last
        """)
    void input(
            String driver,
            Signal signal,
            String pin,
            PinKind kind,
            boolean inverted,
            double scale,
            double offset,
            String expected,
            String because) {
        Scale counts = new Scale(scale, offset, kind.twoState ? 1 : 10, false);
        assertFault(
                faults(driver, List.of(new InputPin(signal, pin, kind, inverted, counts, 0)), List.of()),
                expected,
                because);
    }

    @ParameterizedTest(name = "{6}")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
        firmata | POSITIVE_CONTACTOR | D2        | DIGITAL  | 0   | -                             | a relay
        firmata | POSITIVE_CONTACTOR | D2        | DIGITAL  | 1   | must be released (0)          | a contactor never stays on
        firmata | COOLANT_PUMP       | D2        | DIGITAL  | 1   | -                             | a pump may run on
        firmata | POSITIVE_CONTACTOR | D2        | PWM      | 0   | is a switch; its kind is      | no share of a contactor
        firmata | RADIATOR_FAN_DUTY  | D9        | PWM      | 1   | -                             | a fan may run on
        firmata | RADIATOR_FAN_DUTY  | D9        | ANALOGUE | 0   | no analogue outputs           | Firmata has none
        firmata | RADIATOR_FAN_DUTY  | D9        | PULL_UP  | 0   | is not a kind of output        | a pull-up is an input
        firmata | TORQUE_REQUEST_NM  | D9        | PWM      | 5   | must be released (0)          | no torque when nobody asks
        modbus  | POSITIVE_CONTACTOR | coil:0    | DIGITAL  | 0   | -                             | a coil
        modbus  | POSITIVE_CONTACTOR | discrete:0| DIGITAL  | 0   | cannot be driven              | an input cannot be written
        modbus  | TORQUE_REQUEST_NM  | holding:0 | ANALOGUE | 0   | -                             | a holding register
        modbus  | TORQUE_REQUEST_NM  | input:0   | ANALOGUE | 0   | cannot be driven              | an input cannot be written
        modbus  | TORQUE_REQUEST_NM  | holding:0 | PWM      | 0   | takes numbers, not PWM        | a module has no PWM
        """)
    void output(String driver, Output output, String pin, PinKind kind, double safe, String expected, String because) {
        Scale counts = new Scale(0.1, 0, kind.twoState ? 1 : 8, false);
        assertFault(
                faults(driver, List.of(), List.of(new OutputPin(output, pin, kind, false, counts, safe))),
                expected,
                because);
    }

    @Test
    void theSamePinTwice_isRefusedForEveryPair() {
        InputPin key = BoardBench.switchOn(Signal.KEY_ON, "D2");
        InputPin brake = BoardBench.switchOn(Signal.BRAKE_PRESSED, "2");
        OutputPin lamp = BoardBench.relay(Output.READY_LAMP, "D2");
        List<MapFault> found = faults("firmata", List.of(key, brake), List.of(lamp));
        assertEquals(
                List.of("input 2, pin: 2 is already input 1", "output 1, pin: D2 is already input 1"),
                found.stream().map(MapFault::toString).toList());
    }

    @Test
    void theSameSignalOrOutputTwice_isRefused() {
        List<MapFault> found = faults(
                "firmata",
                List.of(BoardBench.switchOn(Signal.KEY_ON, "D2"), BoardBench.switchOn(Signal.KEY_ON, "D3")),
                List.of(BoardBench.relay(Output.BUZZER, "D4"), BoardBench.relay(Output.BUZZER, "D5")));
        assertEquals(
                List.of("input 2, signal: key_on is already input 1", "output 2, output: buzzer is already output 1"),
                found.stream().map(MapFault::toString).toList());
    }

    @Test
    void releasedByAHighLevel_isToldAsACaution() {
        OutputPin lowActive = new OutputPin(Output.POSITIVE_CONTACTOR, "D8", PinKind.DIGITAL, true, Scale.SWITCH, 0);
        assertTrue(new BoardMap(List.of(), List.of(lowActive)).cautions().get(0).contains("positive_contactor acts"));
        assertEquals(
                List.of(),
                new BoardMap(List.of(), List.of(BoardBench.relay(Output.POSITIVE_CONTACTOR, "D8"))).cautions());
    }

    @Test
    void driversOnTheClassPath_areFoundByName() {
        assertEquals(
                List.of("firmata", "modbus"),
                BoardDriver.all().stream().map(BoardDriver::protocol).sorted().toList());
    }

    /** Both sides of each limit of an input's numbers. */
    @ParameterizedTest(name = "{6}")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
        BUS_VOLTAGE_V | ANALOGUE | 0.4 | 0   | 1000   | -                                | the longest filter
        BUS_VOLTAGE_V | ANALOGUE | 0.4 | 0   | 1000.1 | filter_ms: 1000.1 is outside      | a longer one would hide a fault
        BUS_VOLTAGE_V | ANALOGUE | 0.4 | 0   | -0.1   | filter_ms: -0.1 is outside        | time does not run backwards
        BUS_VOLTAGE_V | ANALOGUE | 0.4 | 0   | NaN    | filter_ms: NaN is outside         | not a number
        KEY_ON        | DIGITAL  | 1   | 0   | 0      | -                                | a switch without a filter
        KEY_ON        | DIGITAL  | 1   | 0   | 1      | filter_ms: a switch is debounced  | the supervisor does that
        BUS_VOLTAGE_V | ANALOGUE | 0.4 | NaN | 0      | offset: NaN is not a finite       | an offset that is none
        BUS_VOLTAGE_V | ANALOGUE | 0.4 | Infinity | 0 | offset: Infinity is not a finite  | the same
        """)
    void numbersOfAnInput(
            Signal signal,
            PinKind kind,
            double scale,
            double offset,
            double filterMs,
            String expected,
            String because) {
        Scale counts = new Scale(scale, offset, kind.twoState ? 1 : 10, false);
        String pin = kind.twoState ? "D2" : "A0";
        assertFaultText(
                faults("firmata", List.of(new InputPin(signal, pin, kind, false, counts, filterMs)), List.of()),
                expected,
                because);
    }

    @ParameterizedTest(name = "{0}: {1} bits")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
        firmata | 1  | -
        firmata | 14 | -
        firmata | 15 | bits: 15 is outside 1..14
        firmata | 0  | bits: 0 is outside 1..32
        modbus  | 16 | -
        modbus  | 17 | bits: 17 is outside 1..16
        modbus  | 32 | bits: 32 is outside 1..16
        modbus  | 33 | bits: 33 is outside 1..32
        """)
    void bitsOfAnInputAndOfAnOutput(String driver, int bits, String expected) {
        boolean modbus = "modbus".equals(driver);
        Scale counts = new Scale(0.001, 0, bits, false);
        assertFaultText(
                faults(
                        driver,
                        List.of(new InputPin(
                                Signal.BUS_VOLTAGE_V, modbus ? "input:1" : "A0", PinKind.ANALOGUE, false, counts, 0)),
                        List.of()),
                expected,
                driver);
        assertFaultText(
                faults(
                        driver,
                        List.of(),
                        List.of(new OutputPin(
                                Output.RADIATOR_FAN_DUTY,
                                modbus ? "holding:1" : "D9",
                                modbus ? PinKind.ANALOGUE : PinKind.PWM,
                                false,
                                counts,
                                0))),
                expected,
                driver);
    }

    /** A signal's range and the range of the counts must have a value in common; one is enough. */
    @ParameterizedTest(name = "offset {0}")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
        1000  | -
        1001  | counts give 1001.0..2024.0
        -1023 | -
        -1024 | counts give -1024.0..-1.0
        """)
    void countsAtTheEdgeOfTheSignal(double offset, String expected) {
        Scale counts = new Scale(1, offset, 10, false);
        assertFaultText(
                faults(
                        "firmata",
                        List.of(new InputPin(Signal.BUS_VOLTAGE_V, "A0", PinKind.ANALOGUE, false, counts, 0)),
                        List.of()),
                expected == null ? null : "scale: " + expected,
                "offset " + offset);
    }

    /** The safe value may lie one count outside the range of the counts. */
    @ParameterizedTest(name = "offset {0}")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
        0 | false | -
        1 | false | -
        2 | false | scale: the safe value 0.0 is outside the range of the counts by 2.0
        0 | true  | invert: only a switch can be inverted
        """)
    void safeValueOfAnOutput_isOneThatTheCountsReach(double offset, boolean inverted, String expected) {
        OutputPin fan =
                new OutputPin(Output.RADIATOR_FAN_DUTY, "D9", PinKind.PWM, inverted, new Scale(1, offset, 8, false), 0);
        assertFaultText(faults("firmata", List.of(), List.of(fan)), expected, "offset " + offset);
    }

    @Test
    void outputWithoutAScale_isRefused() {
        OutputPin fan = new OutputPin(Output.RADIATOR_FAN_DUTY, "D9", PinKind.PWM, false, new Scale(0, 0, 8, false), 0);
        List<MapFault> found = faults("firmata", List.of(), List.of(fan));
        assertEquals(1, found.size(), found::toString);
        assertTrue(found.get(0).toString().startsWith("output 1, scale: 0.0 cannot be the value of one count"));
    }

    @Test
    void countsWithASign_areNoneOfAFirmataBoard() {
        Scale signed = new Scale(0.001, 0, 10, true);
        assertFaultText(
                faults(
                        "firmata",
                        List.of(new InputPin(Signal.BUS_VOLTAGE_V, "A0", PinKind.ANALOGUE, false, signed, 0)),
                        List.of(new OutputPin(Output.RADIATOR_FAN_DUTY, "D9", PinKind.PWM, false, signed, 0))),
                "bits: a Firmata board gives counts without sign",
                "input");
    }

    @Test
    void theSamePinTwice_isNamedWithTheSecondOutputToo() {
        assertEquals(
                List.of("output 2, pin: D4 is already output 1"),
                faults(
                                "firmata",
                                List.of(),
                                List.of(
                                        BoardBench.relay(Output.BUZZER, "D4"),
                                        BoardBench.relay(Output.READY_LAMP, "D4")))
                        .stream()
                        .map(MapFault::toString)
                        .toList());
        assertEquals(
                List.of("input 2, pin: coil:1 is already input 1", "output 2, pin: coil:4 is already output 1"),
                faults(
                                "modbus",
                                List.of(
                                        BoardBench.switchOn(Signal.KEY_ON, "coil:1"),
                                        BoardBench.switchOn(Signal.BRAKE_PRESSED, "coil:1")),
                                List.of(
                                        BoardBench.relay(Output.BUZZER, "coil:4"),
                                        BoardBench.relay(Output.READY_LAMP, "coil:4")))
                        .stream()
                        .map(MapFault::toString)
                        .toList());
    }

    @Test
    void modbusBitZeroOfARegister_isASwitchToReadAndNothingToDrive() {
        assertEquals(List.of(), faults("modbus", List.of(BoardBench.switchOn(Signal.KEY_ON, "input:3.0")), List.of()));
        assertFaultText(
                faults(
                        "modbus",
                        List.of(),
                        List.of(new OutputPin(
                                Output.TORQUE_REQUEST_NM,
                                "holding:3.0",
                                PinKind.ANALOGUE,
                                false,
                                new Scale(1, 0, 16, true),
                                0))),
                "pin: holding:3.0 cannot be driven; an analogue output is holding:N",
                "a bit");
    }

    @Test
    void driver_tellsWhatItSpeaksAndWhatIsUsual() {
        BoardDriver firmata = new FirmataDriver();
        assertTrue(firmata.meaning().contains("Firmata 2.x"));
        assertEquals(
                List.of("firmata.sampling_ms", "firmata.refresh_ms"),
                firmata.settings().stream().map(row -> row.key()).toList());
        assertEquals(1, firmata.usualBits(PinKind.PULL_UP));
        assertEquals(8, firmata.usualBits(PinKind.PWM));
        assertEquals(10, firmata.usualBits(PinKind.ANALOGUE));
        assertTrue(firmata.measuresAgainstSupply());
        BoardDriver modbus = new ModbusDriver();
        assertTrue(modbus.meaning().contains("Modbus RTU"));
        assertEquals("modbus.unit_id", modbus.settings().get(0).key());
        assertEquals(1, modbus.usualBits(PinKind.DIGITAL));
        assertEquals(16, modbus.usualBits(PinKind.ANALOGUE));
        assertEquals(false, modbus.measuresAgainstSupply());
        assertEquals("pull-up", PinKind.PULL_UP.word());
    }

    private static void assertFaultText(List<MapFault> found, String expected, String because) {
        if (expected == null) {
            assertEquals(List.of(), found, because);
        } else {
            assertTrue(found.stream().anyMatch(f -> f.toString().contains(expected)), because + ": " + found);
        }
    }

    private static void assertFault(List<MapFault> found, String expected, String because) {
        if (expected == null) {
            assertEquals(List.of(), found, because);
        } else {
            assertTrue(found.stream().anyMatch(f -> f.words().contains(expected)), because + ": " + found);
        }
    }
}
