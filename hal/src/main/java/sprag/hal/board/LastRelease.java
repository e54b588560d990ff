package sprag.hal.board;

import com.fazecast.jSerialComm.SerialPort;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Closes, and so releases, every board that is still open when the program ends by Ctrl-C or a termination signal.
 *
 * <p>The serial library closes all ports in a hook of its own, and the hooks of a program run in no order: without this the
 * ports would often be gone before a release could be sent. The library runs this one before it ends itself.
 */
final class LastRelease {
    private static final Set<Board> OPEN = ConcurrentHashMap.newKeySet();

    static {
        SerialPort.addShutdownHook(new Thread(LastRelease::closeAll, "last release"));
    }

    private LastRelease() {}

    /** From now on a board is closed at the end, whoever forgets it. */
    static void watch(Board board) {
        OPEN.add(board);
    }

    /** A board was closed. */
    static void forget(Board board) {
        OPEN.remove(board);
    }

    /** All at once: one that hangs must not hold the others up. */
    private static void closeAll() {
        OPEN.forEach(Board::end);
        OPEN.forEach(Board::close);
    }
}
