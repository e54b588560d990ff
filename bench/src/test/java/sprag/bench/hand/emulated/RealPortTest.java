package sprag.bench.hand.emulated;

import static org.junit.jupiter.api.Assertions.assertTrue;
import static sprag.hal.board.PseudoTerminals.await;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.Sprag;
import sprag.hal.Clock;
import sprag.hal.board.LineSettings;
import sprag.hal.board.LinkLost;
import sprag.hal.board.Port;
import sprag.hal.board.PortChoice;
import sprag.hal.board.PseudoTerminals;
import sprag.hal.board.SerialPorts;

/** The whole program on a real serial port, in real time: firmware that others made answers at the far end of a pseudo-terminal. */
@Tag("realtime")
class RealPortTest {
    private static final int CONTACTOR = 10;
    private static final int ENDINGS = 4;
    private static final long SOON_NS = 30_000_000_000L;
    private static final long STEP_NS = 500_000;
    /** A stall of the machine that is longer stops the board's clock too. */
    private static final long MOST_BEHIND_NS = 5_000_000;

    @TempDir
    Path folder;

    private final Clock clock = Clock.real();
    private PseudoTerminals cable;
    private Microcontroller chip;
    private Thread pump;
    private volatile boolean pumping = true;

    @BeforeEach
    void connect() throws Exception {
        chip = new Microcontroller(Microcontroller.Kind.SMALL_2_5);
        chip.keepRunning(); // the far end of a pseudo-terminal cannot see that the port was opened
        cable = new PseudoTerminals(folder);
        Port far = SerialPorts.of(PortChoice.path(cable.far()), new LineSettings(57600, LineSettings.Parity.NONE, 1));
        far.open();
        chip.line().open();
        pump = new Thread(() -> pump(far), "far end");
        pump.start();
    }

    @AfterEach
    void disconnect() throws InterruptedException {
        pumping = false;
        if (pump != null) {
            pump.join();
        }
        if (cable != null) {
            cable.close();
        }
        if (chip != null) {
            chip.close();
        }
    }

    /** The serial library closes its ports in a hook of its own, in no order with others: once is not enough. */
    @Test
    void programEndedByASignalWhileDriving_released() throws Exception {
        Path file = Files.writeString(folder.resolve("board.toml"), """
                [board]
                name = "desk"
                protocol = "firmata"
                port = "%s"
                baud = 57600
                retry_ms = 100
                [[input]]
                signal = "key_on"
                pin = "D2"
                kind = "pull-up"
                invert = true
                [[output]]
                output = "positive_contactor"
                pin = "D10"
                kind = "digital"
                """.formatted(cable.near()));
        for (int i = 0; i < ENDINGS; i++) {
            Process probe = pulse(file);
            try {
                await("the contactor", SOON_NS, () -> chip.drivesHigh(CONTACTOR));
                probe.destroy();
                assertTrue(probe.waitFor(SOON_NS, TimeUnit.NANOSECONDS), "it ends");
                await("the release of ending " + i, SOON_NS, () -> !chip.drivesHigh(CONTACTOR));
            } finally {
                probe.destroyForcibly();
            }
        }
    }

    private static Process pulse(Path file) throws Exception {
        return new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-cp",
                        System.getProperty("java.class.path"),
                        "-Dsprag.home=" + Path.of("..").toRealPath(),
                        Sprag.class.getName(),
                        "probe",
                        "--board",
                        file.toString(),
                        "--pulse",
                        "positive_contactor",
                        "--confirm",
                        "positive_contactor",
                        "--ms",
                        "5000")
                .redirectErrorStream(true)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .start();
    }

    private void pump(Port far) {
        byte[] buffer = new byte[4096];
        long boardNs = 0;
        long seenNs = clock.nowNs();
        chip.advanceTo(boardNs);
        try {
            while (pumping) {
                clock.waitUntil(seenNs + STEP_NS);
                long nowNs = clock.nowNs();
                boardNs += Math.min(MOST_BEHIND_NS, nowNs - seenNs);
                seenNs = nowNs;
                chip.advanceTo(boardNs);
                exchange(far, chip.line(), buffer);
                exchange(chip.line(), far, buffer);
            }
        } catch (LinkLost e) {
            throw new IllegalStateException("the far end of the cable failed", e);
        } finally {
            far.close();
        }
    }

    private static void exchange(Port from, Port to, byte[] buffer) throws LinkLost {
        int count = from.read(buffer);
        if (count > 0) {
            to.write(buffer, count);
        }
    }
}
