package sprag.bench.hand.emulated;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import sprag.hal.Clock;
import sprag.hal.board.LineSettings;
import sprag.hal.board.LinkLost;
import sprag.hal.board.Port;
import sprag.hal.board.PortChoice;
import sprag.hal.board.PseudoTerminals;
import sprag.hal.board.SerialPorts;

/** An emulated board at the far end of a real serial port, in real time. */
final class EmulatedBoard implements AutoCloseable {
    static final int KEY = 2;
    static final int CONTACTOR = 10;

    private static final long STEP_NS = 500_000;
    /** A stall of the machine that is longer stops the board's clock too. */
    private static final long MOST_BEHIND_NS = 5_000_000;

    final Microcontroller chip = new Microcontroller(Microcontroller.Kind.SMALL_2_5);
    private final Clock clock = Clock.real();
    private final PseudoTerminals cable;
    private final Thread pump;
    private final Path folder;
    private volatile boolean pumping = true;

    EmulatedBoard(Path folder) throws IOException {
        this.folder = folder;
        chip.keepRunning(); // the far end of a pseudo-terminal cannot see that the port was opened
        cable = new PseudoTerminals(folder);
        Port far = SerialPorts.of(PortChoice.path(cable.far()), new LineSettings(57600, LineSettings.Parity.NONE, 1));
        far.open();
        chip.line().open();
        pump = new Thread(() -> pump(far), "far end");
        pump.start();
    }

    /** Whether the contactor's pin is high. */
    boolean isDriven() {
        return chip.drivesHigh(CONTACTOR);
    }

    /** Writes the board's file: the key and a contactor. */
    Path map() throws IOException {
        return Files.writeString(folder.resolve("board.toml"), """
                [board]
                name = "desk"
                protocol = "firmata"
                port = "%s"
                baud = 57600
                retry_ms = 100
                silence_ms = 2000
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

    @Override
    public void close() {
        pumping = false;
        try {
            pump.join();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        cable.close();
        chip.close();
    }
}
