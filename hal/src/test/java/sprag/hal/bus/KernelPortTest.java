package sprag.hal.bus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.List;
import java.util.Queue;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.hal.VirtualClock;
import sprag.hal.board.LinkLost;

/** Frames of the kernel's layout: struct can_frame of linux/can.h, error classes of linux/can/error.h (Linux, uapi). */
class KernelPortTest {
    /** The kernel's side: 16 bytes a frame. */
    private static final class KernelSim implements KernelPort.Socket {
        final Queue<byte[]> coming = new ArrayDeque<>();
        final List<byte[]> sent = new ArrayList<>();
        boolean full;
        boolean down;
        boolean closed;

        void comes(int id, int... data) {
            ByteBuffer one = ByteBuffer.allocate(16).order(ByteOrder.nativeOrder());
            one.putInt(id).put((byte) data.length).position(8);
            for (int each : data) {
                one.put((byte) each);
            }
            coming.add(one.array());
        }

        @Override
        public boolean read(ByteBuffer frame) throws IOException {
            demandUp();
            if (coming.isEmpty()) {
                return false;
            }
            frame.put(coming.remove());
            return true;
        }

        @Override
        public boolean write(ByteBuffer frame) throws IOException {
            demandUp();
            byte[] bytes = new byte[frame.remaining()];
            frame.get(bytes);
            sent.add(bytes);
            return !full;
        }

        private void demandUp() throws IOException {
            if (down) {
                throw new IOException("Network is down");
            }
        }

        @Override
        public void close() {
            coming.clear();
            closed = true;
        }
    }

    private final KernelSim kernel = new KernelSim();
    private final KernelPort port = new KernelPort("can0", name -> kernel);
    private final SlcanLine line = new SlcanLine(port, new VirtualClock());
    private final CanFrame frame = new CanFrame();

    @BeforeEach
    void join() throws LinkLost {
        port.open();
        line.open(500, false);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        0x123      | 123#1122     | 11 bits
        0x98FF4521 | 18FF4521#1122| 29 bits: the highest bit says so
        0x80000123 | 00000123#1122| the same number is another identifier
        """)
    void frameOfTheKernel_read_isTheFrame(String id, String expected, String because) throws LinkLost {
        kernel.comes((int) (long) Long.decode(id), 0x11, 0x22);
        assertTrue(line.next(frame), because);
        assertEquals(expected, frame.toString(), because);
        assertEquals(0, line.garbled());
    }

    @Test
    void thousandFrames_handedOver_comeBackTheSame() throws LinkLost {
        java.util.Random random = new java.util.Random(7);
        for (int i = 0; i < 1000; i++) {
            boolean extended = random.nextBoolean();
            frame.begin(random.nextInt(extended ? 1 << 29 : 1 << 11), extended, random.nextInt(9));
            for (int b = 0; b < frame.length(); b++) {
                frame.data()[b] = (byte) random.nextInt();
            }
            line.send(frame);
            kernel.coming.add(kernel.sent.get(i));
            CanFrame back = new CanFrame();
            assertTrue(line.next(back));
            assertEquals(frame.toString(), back.toString());
        }
        assertEquals(0, line.refusals());
    }

    @ParameterizedTest(name = "{3}")
    @CsvSource(delimiter = '|', textBlock = """
        0x20000040 | 0x00 | BUS_OFF | bus off
        0x20000004 | 0x20 | PASSIVE | too many errors while sending
        0x20000004 | 0x04 | WARNING | some errors while receiving
        0x20000004 | 0x40 | ACTIVE  | back among the others
        """)
    void errorFrameOfTheKernel_read_isTheState(String id, String detail, SlcanLine.Errors state, String because)
            throws LinkLost {
        kernel.comes(Integer.decode(id), 0, Integer.decode(detail), 0, 0, 0, 0, 130, 7);
        assertTrue(!line.next(frame), because);
        line.next(frame);
        assertEquals(state, line.errors(), because);
        assertTrue(line.errorText().contains("receive errors 7, transmit errors 130"), line.errorText());
    }

    @Test
    void nobodyAcknowledges_orTheQueueIsFull_countsAsRefused() throws LinkLost {
        kernel.comes(0x2000_0020, 0, 0, 0, 0, 0, 0, 0, 0);
        line.next(frame);
        assertEquals(1, line.refusals());
        kernel.full = true;
        line.send(frame.begin(1, false, 0));
        line.next(frame);
        assertEquals(2, line.refusals());
    }

    @Test
    void listening_sent_goesNowhere() throws LinkLost {
        line.open(500, true);
        line.send(frame.begin(1, false, 0));
        assertEquals(List.of(), kernel.sent);
    }

    /** Only an error of the controller tells its state; nobody's acknowledgement missing says nothing of it. */
    @ParameterizedTest(name = "{4}")
    @CsvSource(delimiter = '|', textBlock = """
        0x20000020 | 0x00 | PASSIVE | 1 | a send without an acknowledgement
        0x20000008 | 0x00 | PASSIVE | 0 | a violation of the protocol
        0x20000100 | 0x20 | ACTIVE  | 0 | restarted: the detail belongs to another class
        0x20000100 | 0x04 | ACTIVE  | 0 | the same
        0x20000040 | 0x00 | BUS_OFF | 0 | bus off is no refused send
        """)
    void errorFrame_afterThePassiveState(
            String id, String detail, SlcanLine.Errors state, long refusals, String because) throws LinkLost {
        kernel.comes(0x2000_0004, 0, 0x20, 0, 0, 0, 0, 130, 7);
        line.next(frame);
        kernel.comes(Integer.decode(id), 0, Integer.decode(detail), 0, 0, 0, 0, 0, 0);
        line.next(frame);
        line.next(frame);
        assertEquals(state, line.errors(), because);
        assertEquals(refusals, line.refusals(), because);
    }

    @Test
    void openedAgain_theFormerSocketIsClosedAndOldAnswersAreForgotten() throws LinkLost {
        port.write(new byte[] {'V', '\r'}, 2);
        port.open();
        assertTrue(kernel.closed);
        assertEquals(0, port.read(new byte[100]));
    }

    @Test
    void closed_usedAfterwards_saysSoAndNothingOfTheInterface() throws LinkLost {
        port.close();
        assertTrue(kernel.closed);
        byte[] send = {'t', '1', '2', '3', '0', '\r'};
        assertEquals(
                "socketcan:can0 is closed",
                assertThrows(LinkLost.class, () -> port.write(send, send.length))
                        .getMessage());
        assertEquals(
                "socketcan:can0 is closed",
                assertThrows(LinkLost.class, () -> port.read(send)).getMessage());
    }

    @Test
    void readerWithLittleRoom_getsWholeFramesAndTheRestLater() throws LinkLost {
        kernel.comes(0x123, 1);
        kernel.comes(0x124, 2);
        byte[] into = new byte[SlcanText.LONGEST + 1];
        assertEquals(8, port.read(into));
        assertEquals(8, port.read(into));
        kernel.comes(0x125, 3);
        kernel.comes(0x126, 4);
        assertEquals(16, port.read(new byte[into.length + 8]));
        kernel.comes(0x127, 5);
        assertEquals(0, port.read(new byte[into.length - 1]), "no room for the longest frame");
        port.write(new byte[] {'V', '\r'}, 2);
        assertEquals(4, port.read(new byte[4]), "an answer may come in parts");
        assertEquals(10, port.read(into), "the rest of it");
        assertEquals(8, port.read(into), "and then frames again");
    }

    @Test
    void lineThatIsTooLong_written_isNoFrameAndBreaksNothing() throws LinkLost {
        byte[] noise = new byte[100];
        java.util.Arrays.fill(noise, (byte) 't');
        noise[99] = '\r';
        port.write(noise, noise.length);
        line.send(frame.begin(0x123, false, 0));
        assertEquals(1, kernel.sent.size());
    }

    @Test
    void interfaceGoesDown_saysHowToBringItUp() {
        kernel.down = true;
        LinkLost lost = assertThrows(LinkLost.class, () -> line.next(frame));
        assertTrue(lost.getMessage().contains("socketcan:can0: Network is down"), lost.getMessage());
        assertTrue(lost.getMessage().contains("ip link set can0 up"), lost.getMessage());
    }

    @Test
    void interfaceThatIsNotThere_opened_isNamedWithoutAStackTrace() {
        LinkLost lost = assertThrows(LinkLost.class, new KernelPort("nocan7")::open);
        assertTrue(lost.getMessage().startsWith("socketcan:nocan7"), lost.getMessage());
        boolean couldTry = System.getProperty("os.name").equals("Linux");
        assertTrue(!couldTry || lost.getMessage().contains("cannot be"), lost.getMessage());
    }
}
