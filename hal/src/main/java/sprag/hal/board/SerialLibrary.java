package sprag.hal.board;

import com.fazecast.jSerialComm.SerialPort;
import com.sun.jna.Function;
import com.sun.jna.Memory;
import com.sun.jna.NativeLibrary;
import com.sun.jna.Platform;
import com.sun.jna.Pointer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Loads the serial library without losing the hang-up signal.
 *
 * <p>When its native part is loaded, the library tells the system to ignore SIGHUP for the whole program, which is the signal
 * of a closed terminal and of a lost remote line. Java then cannot take the signal back: it refuses to handle one that is
 * ignored. So the program would go on, and its outputs with it, with nobody there. Here the handling of SIGHUP is noted
 * before the library is loaded, and put back afterwards: a program that was started to survive a hang-up still does.
 */
final class SerialLibrary {
    private static final Logger LOG = LoggerFactory.getLogger(SerialLibrary.class);
    /** The number of SIGHUP on every Unix. */
    private static final int HANG_UP = 1;
    /** More than the structure {@code sigaction} takes on any system: 152 bytes on Linux, 16 on macOS. */
    private static final int STRUCTURE_BYTES = 512;

    private static boolean loaded;

    private SerialLibrary() {}

    /** Loads the library, once. */
    static synchronized void load() {
        if (!loaded) {
            loaded = true;
            if (Platform.isWindows()) {
                SerialPort.getVersion();
            } else {
                loadAndPutBack();
            }
        }
    }

    private static void loadAndPutBack() {
        try (Memory before = new Memory(STRUCTURE_BYTES)) {
            before.clear();
            Function sigaction = NativeLibrary.getProcess().getFunction("sigaction");
            boolean noted = sigaction.invokeInt(new Object[] {HANG_UP, Pointer.NULL, before}) == 0;
            SerialPort.getVersion(); // its first use loads the native part
            boolean back = noted && sigaction.invokeInt(new Object[] {HANG_UP, before, Pointer.NULL}) == 0;
            if (!back) {
                warn("the system refused");
            }
        } catch (UnsatisfiedLinkError e) {
            warn(e.getMessage());
        }
    }

    private static void warn(String why) {
        LOG.warn(
                "the signal of a closed terminal could not be kept ({}): end the program before you close its terminal",
                why);
    }
}
