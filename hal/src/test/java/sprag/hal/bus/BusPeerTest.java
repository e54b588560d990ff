package sprag.hal.bus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.hal.Clock;
import sprag.hal.board.LineSettings;
import sprag.hal.board.LinkLost;
import sprag.hal.board.Port;
import sprag.hal.board.PortChoice;
import sprag.hal.board.PseudoTerminals;
import sprag.hal.board.SerialPorts;

/** Another implementation of the serial-line protocol (python3-can of Debian) at the other end of a pseudo-terminal. */
@Tag("realtime")
class BusPeerTest {
    /** So many frames are on the way at most: the peer reads byte by byte, and a pseudo-terminal holds 4 kB. */
    private static final int CHUNK = 140;

    private static final int RECEIVED = Integer.getInteger("bus.received", 50_000);
    private static final int SENT = Integer.getInteger("bus.sent", 5_000) / CHUNK * CHUNK;
    /** What the peer says while it opens its end. */
    private static final String GREETING = "C\rS6\rO\rO\r";

    private static final String PYTHON = "/usr/bin/python3";

    /** Both ends make the same frames from the same numbers. */
    private static final String PEER = """
        import can, sys
        incoming, outgoing, chunk = (int(a) for a in sys.argv[2:])
        def frames(seed, n):
            x = seed
            for _ in range(n):
                x = (x * 6364136223846793005 + 1442695040888963407) % 2**64
                ext = (x >> 63) & 1
                ident = (x >> 20) & (0x1FFFFFFF if ext else 0x7FF)
                length = (x >> 50) % 9
                data = []
                for _ in range(length):
                    x = (x * 6364136223846793005 + 1442695040888963407) % 2**64
                    data.append((x >> 40) & 255)
                yield can.Message(arbitration_id=ident, is_extended_id=bool(ext), data=data)
        bus = can.interface.Bus(bustype='slcan', channel=sys.argv[1], bitrate=500000, sleep_after_open=0)
        print('open', flush=True)
        sys.stdin.readline()
        bus.serialPortOrig.write(b'\\r\\r\\r\\r')
        for m in frames(1, incoming):
            bus.send(m)
        wrong = got = 0
        for m in frames(2, outgoing):
            r = bus.recv(20)
            while r is None:
                r = bus.recv(20)
            got += 1
            if (r.arbitration_id, r.is_extended_id, bytes(r.data)) != (m.arbitration_id, m.is_extended_id, bytes(m.data)):
                wrong += 1
            if got % chunk == 0:
                print('at', got, flush=True)
        print('got', got, 'wrong', wrong, flush=True)
        """;

    @TempDir
    Path folder;

    private long x;

    private void next(CanFrame into) {
        x = x * 6364136223846793005L + 1442695040888963407L;
        boolean extended = x < 0;
        into.begin((int) (x >>> 20 & (extended ? 0x1FFF_FFFF : 0x7FF)), extended, (int) ((x >>> 50) % 9));
        for (int i = 0; i < into.length(); i++) {
            x = x * 6364136223846793005L + 1442695040888963407L;
            into.data()[i] = (byte) (x >>> 40);
        }
    }

    @Test
    void manyFrames_bothWays_noneLostNoneInvented() throws IOException {
        assumeTrue(Files.exists(Path.of(PYTHON)) && hasPeer(), "python3-can is not installed");
        Path script = Files.writeString(folder.resolve("peer.py"), PEER);
        try (PseudoTerminals cable = new PseudoTerminals(folder);
                Port port = SerialPorts.of(
                        PortChoice.path(cable.near()), new LineSettings(115_200, LineSettings.Parity.NONE, 1))) {
            // Open before the peer is, so that nothing that it says can come at another time.
            port.open();
            Process peer = new ProcessBuilder(
                            PYTHON, script.toString(), cable.far(), "" + RECEIVED, "" + SENT, "" + CHUNK)
                    .redirectError(ProcessBuilder.Redirect.INHERIT)
                    .start();
            try (BufferedReader said =
                    new BufferedReader(new InputStreamReader(peer.getInputStream(), StandardCharsets.US_ASCII))) {
                assertEquals("open", said.readLine());
                takeGreeting(port);
                OutputStream go = peer.getOutputStream();
                go.write('\n');
                go.flush();
                SlcanLine line = new SlcanLine(port, Clock.real());
                line.open(500, false);
                receive(line);
                x = 2;
                CanFrame frame = new CanFrame();
                for (int i = 0; i < SENT; i++) {
                    next(frame);
                    line.send(frame);
                    if ((i + 1) % CHUNK == 0) {
                        assertEquals("at " + (i + 1), said.readLine());
                    }
                }
                assertEquals("got " + SENT + " wrong 0", said.readLine());
                assertEquals(0, line.garbled());
                System.out.println(RECEIVED + " frames from python3-can and " + SENT
                        + " frames to it: none lost, none changed, none invented");
            } finally {
                peer.destroy();
            }
        }
    }

    private static void takeGreeting(Port port) {
        StringBuilder greeting = new StringBuilder();
        byte[] part = new byte[64];
        PseudoTerminals.await("the peer's commands", PseudoTerminals.WATCHDOG_NS, () -> {
            try {
                int count = Math.max(0, port.read(part));
                greeting.append(new String(part, 0, count, StandardCharsets.US_ASCII));
            } catch (LinkLost e) {
                throw new IllegalStateException("the cable failed", e);
            }
            return greeting.length() >= GREETING.length();
        });
        assertEquals(GREETING, greeting.toString());
    }

    private void receive(SlcanLine line) throws IOException {
        x = 1;
        CanFrame expected = new CanFrame();
        CanFrame received = new CanFrame();
        long untilNs = System.nanoTime() + 10 * PseudoTerminals.WATCHDOG_NS;
        for (int i = 0; i < RECEIVED; i++) {
            next(expected);
            while (!line.next(received)) {
                assertEquals(true, System.nanoTime() < untilNs, "frame " + i + " did not come");
                java.util.concurrent.locks.LockSupport.parkNanos(100_000);
            }
            assertEquals(expected.toString(), received.toString(), "frame " + i);
        }
    }

    private static boolean hasPeer() throws IOException {
        try {
            return new ProcessBuilder(PYTHON, "-c", "import can, serial")
                            .start()
                            .waitFor()
                    == 0;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return false;
        }
    }
}
