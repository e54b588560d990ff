package sprag.hal.board;

import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import java.io.File;
import java.util.List;
import java.util.concurrent.locks.LockSupport;
import java.util.function.Supplier;
import sprag.hal.Clock;

/**
 * A port of this machine. Reads never wait: on Linux a read with a time-out waits in steps of 100 ms.
 *
 * <p>A write waits in the system for as long as the far end takes nothing, so a watch closes the port under a write that
 * has stuck; the write then ends with an error. That a port is gone is told by what reads and writes return: the port's
 * own "is open" stays true when a cable is pulled.
 */
final class SerialLine implements Port {
    private static final long STUCK_NS = 250_000_000;
    private static final long WATCH_EVERY_NS = 50_000_000;
    private static final long DRAIN_NS = 200_000_000;
    private static final long BRIDGE_NS = 20_000_000;
    private static final long LOOK_EVERY_NS = 1_000_000;
    private static final String CLOSED = " is closed";

    private final PortChoice choice;
    private final LineSettings line;
    private final Supplier<List<PortInfo>> attached;
    private final Clock clock;
    private int lastLength;
    private volatile String path;
    private volatile SerialPort port;
    private volatile long writingSinceNs = StuckWrite.NOT_WRITING;
    private volatile String whyClosed = CLOSED;

    SerialLine(PortChoice choice, LineSettings line, Supplier<List<PortInfo>> attached, Clock clock) {
        this.choice = choice;
        this.line = line;
        this.attached = attached;
        this.clock = clock;
        this.path = choice.toString();
    }

    @Override
    public String name() {
        return path;
    }

    @Override
    public void open() throws LinkLost {
        close();
        path = choice.find(choice.path().isEmpty() ? attached.get() : List.of());
        SerialPort found = lookUp(path);
        found.setComPortParameters(line.baud(), 8, line.stopBits(), parityOf(line.parity()));
        found.setComPortTimeouts(SerialPort.TIMEOUT_NONBLOCKING, 0, 0);
        if (!found.openPort(0)) {
            throw new LinkLost(refusalOf(found));
        }
        found.flushIOBuffers();
        writingSinceNs = StuckWrite.NOT_WRITING;
        whyClosed = CLOSED;
        port = found;
        Thread watch = new Thread(() -> watch(found), "write watch " + path);
        watch.setDaemon(true);
        watch.start();
    }

    @Override
    public int read(byte[] into) throws LinkLost {
        SerialPort open = opened();
        int waiting = open.bytesAvailable();
        int got = waiting > 0 ? open.readBytes(into, Math.min(waiting, into.length)) : waiting;
        if (got < 0) {
            throw new LinkLost(path + " is gone (a read returned " + got + "); check the cable and the board's supply");
        }
        return got;
    }

    @Override
    public void write(byte[] bytes, int length) throws LinkLost {
        SerialPort open = opened();
        writingSinceNs = System.nanoTime();
        int sent = open.writeBytes(bytes, length);
        writingSinceNs = StuckWrite.NOT_WRITING;
        lastLength = length;
        if (sent != length) {
            throw new LinkLost(path + " took " + sent + " of " + length
                    + " bytes; the far end is gone or has stopped reading: check the cable and the board");
        }
    }

    /** The bytes may still be in the driver: USB bridges send them in frames of some milliseconds. */
    @Override
    public void drain() throws LinkLost {
        SerialPort open = opened();
        long untilNs = clock.nowNs() + DRAIN_NS;
        while (open.bytesAwaitingWrite() > 0 && clock.nowNs() < untilNs) {
            clock.waitUntil(clock.nowNs() + LOOK_EVERY_NS);
        }
        long onTheLineNs = lastLength * (long) line.bitsPerCharacter() * 1_000_000_000L / line.baud();
        long endNs = clock.nowNs() + onTheLineNs + BRIDGE_NS;
        while (clock.nowNs() < endNs) { // also on a thread that is interrupted: the last bytes are a release
            clock.waitUntil(endNs);
        }
    }

    @Override
    public void close() {
        SerialPort open = port;
        port = null;
        if (open != null) {
            open.closePort();
        }
    }

    private SerialPort opened() throws LinkLost {
        SerialPort open = port;
        if (open == null) {
            throw new LinkLost(path + whyClosed);
        }
        return open;
    }

    private void watch(SerialPort watched) {
        StuckWrite write = new StuckWrite(STUCK_NS);
        while (port == watched) {
            LockSupport.parkNanos(WATCH_EVERY_NS);
            if (write.isStuck(writingSinceNs, System.nanoTime()) && port == watched) {
                whyClosed = " took no bytes for " + STUCK_NS / 1_000_000
                        + " ms; the far end is gone or has stopped reading: check the cable and the board";
                close();
            }
        }
    }

    private static SerialPort lookUp(String path) throws LinkLost {
        try {
            return SerialPort.getCommPort(path);
        } catch (SerialPortInvalidPortException e) {
            throw new LinkLost(path + " is not there, or is no serial port; plug the board in, or correct its port");
        }
    }

    private static String refusalOf(SerialPort refused) {
        String path = refused.getSystemPortPath();
        File file = new File(path);
        if (path.startsWith("/") && !file.exists()) {
            return path + " is not there; plug the board in, or correct its port";
        }
        if (path.startsWith("/") && !(file.canRead() && file.canWrite())) {
            return path + " may not be read and written by this user; add the user to the group that owns it";
        }
        return path + " cannot be opened (system error " + refused.getLastErrorCode()
                + "); is another program using it?";
    }

    private static int parityOf(LineSettings.Parity parity) {
        switch (parity) {
            case EVEN:
                return SerialPort.EVEN_PARITY;
            case ODD:
                return SerialPort.ODD_PARITY;
            default:
                return SerialPort.NO_PARITY;
        }
    }
}
