package sprag.hal.board;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mockito.ArgumentMatchers.any;
import static org.mockito.ArgumentMatchers.anyInt;
import static org.mockito.ArgumentMatchers.anyString;
import static org.mockito.Mockito.inOrder;
import static org.mockito.Mockito.mock;
import static org.mockito.Mockito.mockStatic;
import static org.mockito.Mockito.never;
import static org.mockito.Mockito.verify;
import static org.mockito.Mockito.when;

import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.mockito.InOrder;
import org.mockito.MockedStatic;
import sprag.hal.VirtualClock;

/** What a line makes of the answers of the serial library, and how long it waits for its bytes. */
class SerialLineBytesTest {
    private static final LineSettings LINE = new LineSettings(9600, LineSettings.Parity.EVEN, 2);
    private static final long MS = 1_000_000;
    private static final long BRIDGE_NS = 20 * MS;

    @TempDir
    Path folder;

    private final VirtualClock clock = new VirtualClock();
    private final SerialPort port = mock(SerialPort.class);
    private SerialLine line;

    private SerialLine line(PortChoice choice, LineSettings settings, PortInfo... attached) {
        line = new SerialLine(choice, settings, () -> List.of(attached), clock);
        return line;
    }

    private SerialLine opened(LineSettings settings) throws LinkLost {
        SerialLine made = line(PortChoice.path("/dev/ttyX"), settings);
        when(port.openPort(0)).thenReturn(true);
        open(made);
        return made;
    }

    private void open(SerialLine which) throws LinkLost {
        try (MockedStatic<SerialPort> library = mockStatic(SerialPort.class)) {
            library.when(() -> SerialPort.getCommPort(anyString())).thenReturn(port);
            which.open();
        }
    }

    @AfterEach
    void close() {
        if (line != null) {
            line.close();
        }
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource({"NONE, 0", "ODD, 1", "EVEN, 2"})
    void opened_lineRunsAsSetAndNothingOldIsLeftInIt(LineSettings.Parity parity, int ofTheLibrary) throws LinkLost {
        opened(new LineSettings(9600, parity, 2));
        InOrder order = inOrder(port);
        order.verify(port).setComPortParameters(9600, 8, 2, ofTheLibrary);
        order.verify(port).setComPortTimeouts(SerialPort.TIMEOUT_NONBLOCKING, 0, 0);
        order.verify(port).openPort(0);
        order.verify(port).flushIOBuffers();
        assertEquals("/dev/ttyX", line.name());
    }

    @Test
    void lineIsOpen_nothingOfItKeepsTheProgramFromEnding() throws LinkLost {
        SerialLine watched = line(PortChoice.path("/dev/watched"), LINE);
        when(port.openPort(0)).thenReturn(true);
        open(watched);
        List<Thread> threads = Thread.getAllStackTraces().keySet().stream()
                .filter(thread -> thread.getName().equals("write watch /dev/watched"))
                .toList();
        assertEquals(1, threads.size());
        assertTrue(threads.get(0).isDaemon());
    }

    @Test
    void openedAgain_theFormerPortIsClosed() throws LinkLost {
        opened(LINE);
        verify(port, never()).closePort();
        open(line);
        verify(port).closePort();
    }

    @Test
    void choiceByIdentity_opened_isSearchedAmongWhatIsAttachedNow() throws LinkLost {
        PortInfo attached = new PortInfo("/dev/ttyACM7", "", "", "2a03", "0043", "A1", "");
        SerialLine found = line(new PortChoice("", "2a03", "0043", ""), LINE, attached);
        assertEquals("usb 2a03:0043", found.name());
        when(port.openPort(0)).thenReturn(true);
        open(found);
        assertEquals("/dev/ttyACM7", found.name());
    }

    @Test
    void bytesHaveCome_read_noMoreAreAskedForThanThereAreAndThanThereIsRoomFor() throws LinkLost {
        opened(LINE);
        byte[] into = new byte[4];
        when(port.bytesAvailable()).thenReturn(0, 3, 9);
        when(port.readBytes(any(), anyInt())).thenAnswer(call -> call.getArgument(1));
        assertEquals(0, line.read(into));
        verify(port, never()).readBytes(any(), anyInt());
        assertEquals(3, line.read(into));
        assertEquals(4, line.read(into));
    }

    @Test
    void cableIsPulled_read_isLost() throws LinkLost {
        opened(LINE);
        when(port.bytesAvailable()).thenReturn(-1, 3);
        when(port.readBytes(any(), anyInt())).thenReturn(-1);
        LinkLost first = assertThrows(LinkLost.class, () -> line.read(new byte[4]));
        assertTrue(first.getMessage().startsWith("/dev/ttyX is gone"), first.getMessage());
        LinkLost second = assertThrows(LinkLost.class, () -> line.read(new byte[4]));
        assertTrue(second.getMessage().startsWith("/dev/ttyX is gone"), second.getMessage());
    }

    @Test
    void farEndTakesAPart_written_isLost() throws LinkLost {
        opened(LINE);
        byte[] three = {1, 2, 3};
        when(port.writeBytes(three, 3)).thenReturn(3, 2);
        line.write(three, 3);
        LinkLost lost = assertThrows(LinkLost.class, () -> line.write(three, 3));
        assertTrue(lost.getMessage().startsWith("/dev/ttyX took 2 of 3 bytes"), lost.getMessage());
        assertArrayEquals(new byte[] {1, 2, 3}, three);
    }

    /** 96 characters of 12 bits at 9600 bit/s are 120 ms on the line. */
    @Test
    void driverHasTakenAll_drained_waitsForTheBytesOnTheLineAndForABridge() throws LinkLost {
        opened(LINE);
        when(port.writeBytes(any(), anyInt())).thenReturn(96);
        line.write(new byte[96], 96);
        long beganNs = clock.nowNs();
        line.drain();
        assertEquals(120 * MS + BRIDGE_NS, clock.nowNs() - beganNs);
    }

    @Test
    void driverStillHoldsBytes_drained_waitsUntilItHoldsNone() throws LinkLost {
        opened(LINE);
        when(port.bytesAwaitingWrite()).thenReturn(5, 4, 1, 0);
        long beganNs = clock.nowNs();
        line.drain();
        assertEquals(3 * MS + BRIDGE_NS, clock.nowNs() - beganNs);
    }

    @Test
    void driverNeverGetsRidOfItsBytes_drained_ends() throws LinkLost {
        opened(LINE);
        when(port.bytesAwaitingWrite()).thenReturn(5);
        long beganNs = clock.nowNs();
        line.drain();
        assertEquals(200 * MS + BRIDGE_NS, clock.nowNs() - beganNs);
    }

    @Test
    void closed_everyUseSaysSo() throws LinkLost {
        opened(LINE);
        line.close();
        verify(port).closePort();
        assertEquals(
                "/dev/ttyX is closed",
                assertThrows(LinkLost.class, () -> line.read(new byte[1])).getMessage());
        assertEquals(
                "/dev/ttyX is closed",
                assertThrows(LinkLost.class, () -> line.write(new byte[1], 1)).getMessage());
        assertEquals(
                "/dev/ttyX is closed",
                assertThrows(LinkLost.class, () -> line.drain()).getMessage());
    }

    @Test
    void portThatIsThere_notOpened_isToldWithWhatTheSystemSays() throws IOException {
        Path there = Files.createFile(folder.resolve("tty"));
        when(port.getSystemPortPath()).thenReturn(there.toString());
        when(port.getLastErrorCode()).thenReturn(16);
        String words = refusal();
        assertEquals(there + " cannot be opened (system error 16); is another program using it?", words);
    }

    @Test
    void portThatIsGone_notOpened_isToldWithItsRemedy() {
        when(port.getSystemPortPath()).thenReturn(folder.resolve("gone").toString());
        assertTrue(refusal().contains("is not there; plug the board in"), refusal());
    }

    @Test
    void nameWithoutAPath_notOpened_isNotLookedForAsAFile() {
        when(port.getSystemPortPath()).thenReturn("COM9");
        when(port.getLastErrorCode()).thenReturn(2);
        assertEquals("COM9 cannot be opened (system error 2); is another program using it?", refusal());
    }

    private String refusal() {
        return assertThrows(LinkLost.class, () -> open(line(PortChoice.path("/dev/ttyX"), LINE)))
                .getMessage();
    }

    @Test
    void nameThatIsNoPort_opened_isTold() {
        SerialLine none = line(PortChoice.path("nonsense"), LINE);
        try (MockedStatic<SerialPort> library = mockStatic(SerialPort.class)) {
            library.when(() -> SerialPort.getCommPort("nonsense"))
                    .thenThrow(new SerialPortInvalidPortException("no", null));
            LinkLost lost = assertThrows(LinkLost.class, none::open);
            assertTrue(lost.getMessage().startsWith("nonsense is not there"), lost.getMessage());
        }
    }
}
