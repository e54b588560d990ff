package sprag.hal.board.modbus;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.ghgande.j2mod.modbus.net.AbstractSerialConnection;
import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.hal.VirtualClock;
import sprag.hal.board.LineSettings;
import sprag.hal.board.LineSettings.Parity;
import sprag.hal.board.LinkLost;
import sprag.hal.board.MemoryPort;

/** The line as the Modbus library sees it: 10 bits a character at 10000 Bd, so a byte takes 1 ms. */
class PortConnectionTest {
    private static final long MS = 1_000_000;
    private static final LineSettings LINE = new LineSettings(10000, Parity.NONE, 1);

    private final VirtualClock clock = new VirtualClock();
    private final ByteArrayOutputStream toHost = new ByteArrayOutputStream();
    private final MemoryPort port = new MemoryPort(new MemoryPort.Speaker(toHost));
    private final PortConnection connection = new PortConnection(port, LINE, clock);

    @BeforeEach
    void open() throws LinkLost {
        port.open();
        connection.setTimeout(20);
    }

    private void comes(int... bytes) {
        for (int each : bytes) {
            toHost.write(each);
        }
    }

    @Test
    void bytesAreThere_read_areTakenAsFarAsTheyAreWanted() {
        comes(1, 2, 3, 4, 5);
        assertEquals(5, connection.bytesAvailable());
        byte[] into = new byte[4];
        assertEquals(2, connection.readBytes(into, 2));
        assertEquals(3, connection.bytesAvailable());
        assertEquals(3, connection.readBytes(into, 3));
        assertArrayEquals(new byte[] {3, 4, 5, 0}, into);
        assertEquals(0, connection.bytesAvailable());
    }

    @Test
    void bytesComeInParts_read_areWaitedForUntilTheTimeIsOver() {
        clock.after(5, () -> comes(1));
        clock.after(15, () -> comes(2));
        long beganNs = clock.nowNs();
        byte[] into = new byte[4];
        assertEquals(2, connection.readBytes(into, 2));
        assertArrayEquals(new byte[] {1, 2, 0, 0}, into);
        assertEquals(15 * MS, clock.nowNs() - beganNs, MS / 2);
        assertEquals(clock.nowNs(), connection.arrivedNs());
        beganNs = clock.nowNs();
        assertEquals(0, connection.readBytes(into, 2));
        assertEquals(20 * MS, clock.nowNs() - beganNs, "no longer, and no less");
    }

    @Test
    void request_waitsForTheSilenceAfterTheLastByteAndTakesItsTime() {
        comes(1);
        connection.bytesAvailable();
        long arrivedNs = connection.arrivedNs();
        assertEquals(8, connection.writeBytes(new byte[8], 8));
        assertEquals(arrivedNs + 3_500_000, connection.sentNs());
        assertEquals(connection.sentNs() + 8 * MS, clock.nowNs());
    }

    /** Above 19200 Bd it is fixed; at 19200 Bd it is still 3.5 characters. */
    @Test
    void silentInterval_isFixedAbove19200Only() {
        assertEquals(2_005_208, PortConnection.silenceNs(new LineSettings(19200, Parity.EVEN, 1)));
        assertEquals(1_750_000, PortConnection.silenceNs(new LineSettings(19201, Parity.EVEN, 1)));
    }

    @Test
    void answer_isKnownByItsFirstByteSinceTheRequest() {
        assertEquals(-1, connection.answer().unit());
        comes(0);
        connection.bytesAvailable();
        assertEquals(0, connection.answer().unit(), "also when it is 0");
        connection.writeBytes(new byte[1], 1);
        assertEquals(-1, connection.answer().unit());
        connection.drain(MS);
        assertEquals(-1, connection.answer().unit(), "nothing came");
        comes(0xF0, 3);
        connection.drain(MS);
        comes(17);
        connection.drain(MS);
        assertEquals(0xF0, connection.answer().unit());
    }

    @Test
    void firstBytesThatEverCame_areKeptForPeople() {
        assertEquals("", connection.firstBytes());
        comes(0x24, 0x47);
        assertTrue(connection.drain(MS));
        comes(1, 2, 3, 4, 5, 6, 7, 8, 9);
        assertTrue(connection.drain(MS));
        assertEquals("24 47 01 02 03 04 05 06", connection.firstBytes());
        assertEquals(11, connection.bytesSeen());
        assertFalse(connection.drain(MS));
    }

    @Test
    void drained_takesItsTimeAndWhatCameIsGone() {
        comes(1, 2);
        connection.bytesAvailable();
        clock.after(3, () -> comes(3));
        long beganNs = clock.nowNs();
        assertTrue(connection.drain(5 * MS));
        assertEquals(5 * MS, clock.nowNs() - beganNs);
        assertEquals(0, connection.bytesAvailable());
        long arrivedNs = connection.arrivedNs();
        connection.drain(5 * MS);
        assertEquals(arrivedNs, connection.arrivedNs(), "nothing arrived since");
    }

    @Test
    void portIsLost_everyCallEndsAtOnceAndTheReasonIsKept() {
        assertTrue(connection.isOpen());
        assertNull(connection.lost());
        port.unplug();
        assertEquals(-1, connection.readBytes(new byte[4], 2));
        assertFalse(connection.isOpen());
        assertTrue(connection.lost().getMessage().startsWith("memory is gone"));
        long beganNs = clock.nowNs();
        assertEquals(-1, connection.readBytes(new byte[4], 2));
        assertFalse(connection.drain(5 * MS));
        assertEquals(beganNs, clock.nowNs());
    }

    @Test
    void portTakesNothing_written_isLost() {
        port.stopTaking();
        assertEquals(-1, connection.writeBytes(new byte[8], 8));
        assertEquals("memory took 0 of 8 bytes", connection.lost().getMessage());
    }

    /** The library asks a line for its properties; a wrong answer would be a wrong delay or a wrong message. */
    @ParameterizedTest
    @CsvSource({"NONE, 1", "ODD, 2", "EVEN, 1"})
    void library_isToldTheLineAsItIs(Parity parity, int stopBits) {
        PortConnection other = new PortConnection(port, new LineSettings(9600, parity, stopBits), clock);
        int expected = parity == Parity.NONE
                ? AbstractSerialConnection.NO_PARITY
                : parity == Parity.ODD ? AbstractSerialConnection.ODD_PARITY : AbstractSerialConnection.EVEN_PARITY;
        assertEquals(expected, other.getParity());
        assertEquals(stopBits, other.getNumStopBits());
        assertEquals(8, other.getNumDataBits());
        assertEquals("memory", other.getPortName());
        assertEquals("memory", other.getDescriptivePortName());
        assertEquals(Set.of("memory"), other.getCommPorts());
        other.setComPortTimeouts(0, 30, 40);
        assertEquals(30, other.getTimeout());
        byte[] untouched = new byte[2];
        other.readBytes(untouched, 0);
        assertEquals("[0, 0]", Arrays.toString(untouched));
    }
}
