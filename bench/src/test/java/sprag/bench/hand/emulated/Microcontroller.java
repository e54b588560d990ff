package sprag.bench.hand.emulated;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import sprag.hal.board.LinkLost;
import sprag.hal.board.Port;

/**
 * A board's own ready-made firmware, run instruction by instruction on an emulated microcontroller, with a serial line that can be
 * pulled. It runs only while {@link #advanceTo} is called. Needs gcc, libsimavr-dev and the firmware (see DEVELOPERS.md); without
 * them its tests are skipped.
 */
public final class Microcontroller implements AutoCloseable {
    /** Where the build looks for firmware. */
    private static final Path SHELF = Path.of("target", "firmware");
    /** How long the boot loader of such a board waits for new firmware (us): 0.5 to 2 s, common practice. */
    private static final long BOOT_US = 500_000;

    private static final long NS_PER_US = 1000;

    /** Boards and firmware that were made by others. */
    public enum Kind {
        /** Standard firmware, Firmata 2.4. */
        SMALL_2_4("atmega328p", "small-2.4.hex", "DDDDDDDDBBBBBB", "01234567012345"),
        /** Firmware with additions of its own, Firmata 2.5. */
        SMALL_2_5("atmega328p", "small-2.5.hex", "DDDDDDDDBBBBBB", "01234567012345"),
        /** Standard firmware, Firmata 2.3. */
        LARGE_2_3("atmega2560", "large-2.3.hex", LARGE_PORTS, LARGE_BITS),
        /** Firmware with additions of its own, Firmata 2.5. */
        LARGE_2_5("atmega2560", "large-2.5.hex", LARGE_PORTS, LARGE_BITS);

        private final String chip;
        private final String firmware;
        private final String ports;
        private final String bits;

        Kind(String chip, String firmware, String ports, String bits) {
            this.chip = chip;
            this.firmware = firmware;
            this.ports = ports;
            this.bits = bits;
        }
    }

    /** Port and bit of each pin of the large board, D0 to D37. */
    private static final String LARGE_PORTS = "EEEEGEHHHHBBBBJJHHDDDDAAAAAAAACCCCCCCC";

    private static final String LARGE_BITS = "01455334564567101032100123456776543210";

    private final Kind kind;
    private final Line line = new Line();
    private long handle;
    private long atUs = -1;
    private boolean frozen;
    private boolean pulled;
    private boolean opened;
    private boolean startsOnOpening = true;

    public Microcontroller(Kind kind) {
        this.kind = kind;
        Path firmware = SHELF.resolve(kind.firmware);
        assumeTrue(Files.exists(firmware), firmware + " is not there: no emulated board is tried");
        Emulator.load();
        handle = Emulator.create(kind.chip, firmware.toString());
        if (handle == 0) {
            throw new IllegalStateException("no " + kind.chip + " could be made with " + firmware);
        }
    }

    /** Runs as many cycles as belong to the time since the last call; the first call only sets the board's clock. */
    public synchronized void advanceTo(long nowNs) {
        long nowUs = nowNs / NS_PER_US;
        if (atUs >= 0 && !frozen && handle != 0 && !Emulator.advance(handle, nowUs - atUs)) {
            throw new IllegalStateException("the firmware of " + kind + " has crashed");
        }
        atUs = nowUs;
    }

    /** The port that the board's line is on. As a real board does, it starts anew whenever the port is opened. */
    public Port line() {
        return line;
    }

    /** Pulls the cable: the port is gone. */
    public synchronized void pull() {
        pulled = true;
        opened = false;
    }

    /** Plugs the cable in again: the board starts anew. */
    public synchronized void plug() {
        pulled = false;
        restart();
    }

    /** Presses the reset button. */
    public synchronized void restart() {
        Emulator.restart(handle, BOOT_US);
    }

    /** Stops the board's own clock; what is sent to the board meanwhile is lost. */
    public synchronized void freeze() {
        frozen = true;
    }

    /** Lets the board's own clock run again. */
    public synchronized void thaw() {
        frozen = false;
    }

    /** From now on the board does not start anew when its port is opened. */
    public synchronized void keepRunning() {
        startsOnOpening = false;
    }

    /** Joins a pin to ground or to the supply. */
    public synchronized void wire(int pin, boolean high) {
        Emulator.wire(handle, port(pin), bit(pin), high ? 1 : 0);
    }

    /** Puts a voltage on an analogue channel. */
    public synchronized void volts(int channel, double volts) {
        Emulator.volts(handle, channel, (int) Math.round(volts * 1000));
    }

    /** Whether a pin is an output, and high. */
    public synchronized boolean drivesHigh(int pin) {
        return Emulator.isOutput(handle, port(pin), bit(pin)) && Emulator.isHigh(handle, port(pin), bit(pin));
    }

    /** How long after the last change from outside a pin changed (us of the board's own clock), -1 when it has not. */
    public synchronized long sinceUs(int pin) {
        return Emulator.sinceUs(handle, port(pin), bit(pin));
    }

    private int port(int pin) {
        return kind.ports.charAt(pin) - 'A';
    }

    private int bit(int pin) {
        return kind.bits.charAt(pin) - '0';
    }

    @Override
    public synchronized void close() {
        if (handle != 0) {
            Emulator.destroy(handle);
            handle = 0;
        }
        opened = false;
    }

    /** The computer's end of the line. */
    private final class Line implements Port {
        @Override
        public String name() {
            return "emulated line";
        }

        @Override
        public void open() throws LinkLost {
            synchronized (Microcontroller.this) {
                if (pulled || handle == 0) {
                    throw new LinkLost(name() + " is not there; plug the board in, or correct its port");
                }
                if (startsOnOpening && !opened) {
                    restart();
                }
                Emulator.take(handle, new byte[1 << 16]);
                opened = true;
            }
        }

        @Override
        public int read(byte[] into) throws LinkLost {
            synchronized (Microcontroller.this) {
                demandOpen();
                return Emulator.take(handle, into);
            }
        }

        @Override
        public void write(byte[] bytes, int length) throws LinkLost {
            synchronized (Microcontroller.this) {
                demandOpen();
                int taken = frozen ? length : Emulator.give(handle, bytes, length);
                if (taken != length) {
                    throw new LinkLost(name() + " took " + taken + " of " + length + " bytes");
                }
            }
        }

        private void demandOpen() throws LinkLost {
            if (!opened) {
                throw new LinkLost(name() + " is gone; check the cable and the board's supply");
            }
        }

        @Override
        public void close() {
            synchronized (Microcontroller.this) {
                opened = false;
            }
        }
    }
}
