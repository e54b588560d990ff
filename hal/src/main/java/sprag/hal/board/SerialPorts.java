package sprag.hal.board;

import com.fazecast.jSerialComm.SerialPort;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import sprag.hal.Clock;

/** The serial ports of this machine. */
public final class SerialPorts {
    static {
        SerialLibrary.load();
    }

    private SerialPorts() {}

    /** Lists what is attached now.
     *
     * @return one entry a port, sorted by path
     */
    public static List<PortInfo> attached() {
        List<PortInfo> found = new ArrayList<>();
        for (SerialPort port : SerialPort.getCommPorts()) {
            found.add(new PortInfo(
                    port.getSystemPortPath(),
                    known(port.getDescriptivePortName()),
                    known(port.getManufacturer()),
                    hex(port.getVendorID()),
                    hex(port.getProductID()),
                    known(port.getSerialNumber()),
                    known(port.getPortLocation())));
        }
        found.sort((a, b) -> a.path().compareTo(b.path()));
        return found;
    }

    /** A port that is searched for each time it is opened, so that a board may come back under another path.
     *
     * @param choice which one
     * @param line how it runs
     * @return the port, not yet open
     */
    public static Port of(PortChoice choice, LineSettings line) {
        return new SerialLine(choice, line, SerialPorts::attached, Clock.real());
    }

    private static String known(String text) {
        return text == null || "Unknown".equals(text) ? "" : text.trim();
    }

    private static String hex(int id) {
        return id < 0 ? "" : String.format(Locale.ROOT, "%04x", id);
    }
}
