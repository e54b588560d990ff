package sprag.hal.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mockito.Mockito.mock;
import static org.mockito.Mockito.mockStatic;
import static org.mockito.Mockito.when;

import com.fazecast.jSerialComm.SerialPort;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.mockito.MockedStatic;

/** The list of what is attached, as a person chooses from it. */
class SerialPortsTest {
    private final SerialPort plain = mock(SerialPort.class);
    private final SerialPort usb = mock(SerialPort.class);

    @BeforeEach
    void attach() {
        when(plain.getSystemPortPath()).thenReturn("/dev/ttyS0");
        when(plain.getDescriptivePortName()).thenReturn("Unknown");
        when(plain.getVendorID()).thenReturn(-1);
        when(plain.getProductID()).thenReturn(-1);
        when(usb.getSystemPortPath()).thenReturn("/dev/ttyACM0");
        when(usb.getDescriptivePortName()).thenReturn(" test board ");
        when(usb.getManufacturer()).thenReturn("nobody");
        when(usb.getVendorID()).thenReturn(0x2a3);
        when(usb.getProductID()).thenReturn(0);
        when(usb.getSerialNumber()).thenReturn("A1");
        when(usb.getPortLocation()).thenReturn("1-2");
    }

    private List<PortInfo> attached() {
        try (MockedStatic<SerialPort> library = mockStatic(SerialPort.class)) {
            library.when(SerialPort::getCommPorts).thenReturn(new SerialPort[] {plain, usb});
            return SerialPorts.attached();
        }
    }

    @Test
    void whatTheSystemDoesNotKnow_isEmptyAndTheListIsSorted() {
        assertEquals(
                List.of(
                        new PortInfo("/dev/ttyACM0", "test board", "nobody", "02a3", "0000", "A1", "1-2"),
                        new PortInfo("/dev/ttyS0", "", "", "", "", "", "")),
                attached());
    }

    @Test
    void onePort_isOneLineForPeople() {
        List<PortInfo> all = attached();
        assertTrue(all.get(0).isUsb());
        assertEquals(
                "/dev/ttyACM0  usb 02a3:0000 serial A1  at 1-2  test board",
                all.get(0).line());
        assertFalse(all.get(1).isUsb());
        assertEquals("/dev/ttyS0  no usb  at", all.get(1).line().stripTrailing());
    }

    @ParameterizedTest(name = "{4}")
    @CsvSource(delimiter = '|', textBlock = """
        /dev/ttyACM0 | ''   | ''   | '' | /dev/ttyACM0
        ''           | 02a3 | 0000 | '' | usb 02a3:0000
        ''           | 02A3 | ''   | A1 | usb 02a3:any serial A1
        ''           | ''   | ''   | A1 | usb any:any serial A1
        """)
    void choice_tellsWhatItLooksFor(String path, String vendor, String product, String serial, String words) {
        assertEquals(words, new PortChoice(path, vendor, product, serial).toString());
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource({"/dev/ttyACM0, true, false", "/dev/ttyS0, false, true"})
    void choiceByPath_suitsThatPortOnly(String path, boolean first, boolean second) {
        List<PortInfo> all = attached();
        assertEquals(first, PortChoice.path(path).suits(all.get(0)));
        assertEquals(second, PortChoice.path(path).suits(all.get(1)));
    }

    /** Parity bit and stop bits count: a character takes 10 to 12 bits. */
    @ParameterizedTest
    @CsvSource({"NONE, 1, 10", "EVEN, 1, 11", "ODD, 2, 12"})
    void character_takesItsBits(LineSettings.Parity parity, int stopBits, int bits) {
        assertEquals(bits, new LineSettings(9600, parity, stopBits).bitsPerCharacter());
    }

    @ParameterizedTest
    @CsvSource({"300, 1", "4000000, 2"})
    void slowestAndFastestLine_areAllowed(int baud, int stopBits) {
        assertEquals(baud, new LineSettings(baud, LineSettings.Parity.NONE, stopBits).baud());
    }
}
