package sprag.bench.bus;

import java.nio.file.Files;
import java.nio.file.Path;
import sprag.hal.Clock;
import sprag.hal.board.Board;
import sprag.hal.board.BoardSpec;
import sprag.hal.board.Port;
import sprag.hal.board.SerialPorts;
import sprag.hal.bus.BusDriver;
import sprag.hal.bus.FrameListener;
import sprag.hal.bus.KernelPort;
import sprag.hal.bus.LogPort;

/** Opens the port that a bus file names: an adapter on a serial line, an interface of the kernel, or a log to replay. */
public final class BusPorts {
    private static final String LOG = ".log";

    private BusPorts() {}

    /**
     * The port of a bus.
     *
     * @param spec the bus
     * @param clock the time, for a log
     */
    public static Port port(BoardSpec spec, Clock clock) {
        if (isLog(spec)) {
            return new LogPort(Path.of(spec.port().path()), clock);
        }
        String path = spec.port().path();
        if (path.startsWith(KernelPort.PREFIX)) {
            return new KernelPort(path.substring(KernelPort.PREFIX.length()));
        }
        return SerialPorts.of(spec.port(), spec.settings().line());
    }

    /**
     * Tells somebody of every frame on a bus from now on, on the thread of its port.
     *
     * @param spec a bus that {@link BusReader} has read
     * @param who in the place of whoever was told before
     */
    public static void listen(BoardSpec spec, FrameListener who) {
        ((BusDriver) spec.driver()).listen(who);
    }

    /** Whether a log stands in for the adapter of a bus. */
    public static boolean isLog(BoardSpec spec) {
        String path = spec.port().path();
        return path.endsWith(LOG) && Files.isRegularFile(Path.of(path));
    }

    /**
     * A bus to use like a board.
     *
     * @param spec the bus
     * @param clock the loop's clock
     */
    public static Board board(BoardSpec spec, Clock clock) {
        return Board.onMachine(spec, port(spec, clock), clock);
    }
}
