package sprag.hal.bus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mockito.ArgumentMatchers.any;
import static org.mockito.Mockito.mock;
import static org.mockito.Mockito.verify;
import static org.mockito.Mockito.when;

import java.io.IOException;
import java.nio.ByteBuffer;
import org.junit.jupiter.api.Test;
import tel.schich.javacan.RawCanChannel;
import tel.schich.javacan.platform.linux.LinuxNativeOperationException;

/** What the kernel's answers mean; error numbers as in asm-generic/errno-base.h and errno.h (Linux, uapi). */
class KernelSocketTest {
    private static final int AGAIN = 11;
    private static final int NO_BUFFERS = 105;
    private static final int NETWORK_DOWN = 100;

    private final RawCanChannel channel = mock(RawCanChannel.class);
    private final KernelSocket socket = new KernelSocket(channel);
    private final ByteBuffer frame = ByteBuffer.allocateDirect(16);

    private static LinuxNativeOperationException error(int number) {
        return new LinuxNativeOperationException("call", number, "error " + number);
    }

    @Test
    void frameIsThere_read_isTakenAndNothingIsNone() throws IOException {
        when(channel.readUnsafe(frame)).thenReturn(16L, 0L);
        assertTrue(socket.read(frame));
        assertFalse(socket.read(frame));
    }

    @Test
    void nothingIsThere_read_isNoneAndNoError() throws IOException {
        when(channel.readUnsafe(frame)).thenThrow(error(AGAIN));
        assertFalse(socket.read(frame));
    }

    @Test
    void interfaceIsDown_readAndWritten_isAnError() throws IOException {
        when(channel.readUnsafe(any())).thenThrow(error(NETWORK_DOWN));
        when(channel.writeUnsafe(any())).thenThrow(error(NETWORK_DOWN));
        assertThrows(IOException.class, () -> socket.read(frame));
        assertThrows(IOException.class, () -> socket.write(frame));
    }

    @Test
    void roomInTheQueue_written_isTaken() throws IOException {
        when(channel.writeUnsafe(frame)).thenReturn(16L, 0L);
        assertTrue(socket.write(frame));
        assertFalse(socket.write(frame));
    }

    /** A full queue means that nobody acknowledges: it counts as refused, and the interface is still there. */
    @Test
    void queueIsFull_written_isRefusedAndNoError() throws IOException {
        when(channel.writeUnsafe(frame)).thenThrow(error(NO_BUFFERS)).thenThrow(error(AGAIN));
        assertFalse(socket.write(frame));
        assertFalse(socket.write(frame));
    }

    @Test
    void closed_channelIsClosed() throws IOException {
        socket.close();
        verify(channel).close();
        assertEquals(0, frame.position());
    }
}
