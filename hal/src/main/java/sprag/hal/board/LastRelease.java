package sprag.hal.board;

import com.fazecast.jSerialComm.SerialPort;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Closes, and so releases, every board and bus that is still open when the program ends by Ctrl-C or a termination signal.
 *
 * <p>The serial library closes all ports in a hook of its own, and the hooks of a program run in no order: without this the
 * ports would often be closed before a release could be sent. The library runs this hook before it closes the ports.
 */
public final class LastRelease {
    private static final Set<Entry> OPEN = ConcurrentHashMap.newKeySet();

    static {
        SerialLibrary.load();
        SerialPort.addShutdownHook(new Thread(LastRelease::closeAll, "last release"));
    }

    /**
     * A board or a bus that is open.
     *
     * @param end asks it to release its outputs and to end; does not wait
     * @param close waits until it has ended
     */
    public record Entry(Runnable end, Runnable close) {}

    private LastRelease() {}

    /** From now on the board is closed when the program ends, also when nobody else closes it.
     *
     * @param board how
     */
    public static void watch(Entry board) {
        OPEN.add(board);
    }

    /** The board has been closed.
     *
     * @param board as it was given to {@link #watch}
     */
    public static void forget(Entry board) {
        OPEN.remove(board);
    }

    /** All boards are asked first: one that hangs must not delay the release of the others. */
    static void closeAll() {
        OPEN.forEach(board -> board.end().run());
        OPEN.forEach(board -> board.close().run());
    }
}
