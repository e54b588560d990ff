package sprag.hal.board;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;

/**
 * Which port a board is on: a path, or an USB identity that finds it wherever it is plugged in.
 *
 * @param path the path, empty to look by identity
 * @param usbVendor four hex digits, empty for any
 * @param usbProduct four hex digits, empty for any
 * @param usbSerial the serial number, empty for any
 */
public record PortChoice(String path, String usbVendor, String usbProduct, String usbSerial) {
    /** Takes the texts as they are given; the two USB identities are put into lower case.
     *
     * @param path the path
     * @param usbVendor the maker's identity
     * @param usbProduct the product's identity
     * @param usbSerial the serial number
     */
    public PortChoice {
        Objects.requireNonNull(path, "path");
        usbVendor = usbVendor.toLowerCase(Locale.ROOT);
        usbProduct = usbProduct.toLowerCase(Locale.ROOT);
    }

    /** A port by its path.
     *
     * @param path e.g. {@code /dev/ttyACM0}
     * @return the choice
     */
    public static PortChoice path(String path) {
        return new PortChoice(path, "", "", "");
    }

    /** Whether a port suits.
     *
     * @param port an attached port
     * @return true when every text that was given is the same
     */
    public boolean suits(PortInfo port) {
        if (!path.isEmpty()) {
            return path.equals(port.path());
        }
        return port.isUsb()
                && (usbVendor.isEmpty() || usbVendor.equals(port.usbVendor()))
                && (usbProduct.isEmpty() || usbProduct.equals(port.usbProduct()))
                && (usbSerial.isEmpty() || usbSerial.equals(port.usbSerial()));
    }

    /** Finds the path among what is attached. A path is used as it is, because the system does not list every port.
     *
     * @param attached what is attached now
     * @return the path to open
     * @throws LinkLost when none suits, or more than one
     */
    public String find(List<PortInfo> attached) throws LinkLost {
        if (!path.isEmpty()) {
            return path;
        }
        List<String> found = new ArrayList<>();
        for (PortInfo port : attached) {
            if (suits(port)) {
                found.add(port.path());
            }
        }
        if (found.size() != 1) {
            String seen = found.isEmpty() ? "none of the " + attached.size() + " ports" : String.join(" and ", found);
            throw new LinkLost(this + " should be one port but is " + seen
                    + "; plug it in, or list what is attached and give its serial number or its path");
        }
        return found.get(0);
    }

    @Override
    public String toString() {
        if (!path.isEmpty()) {
            return path;
        }
        String ids =
                "usb " + (usbVendor.isEmpty() ? "any" : usbVendor) + ":" + (usbProduct.isEmpty() ? "any" : usbProduct);
        return usbSerial.isEmpty() ? ids : ids + " serial " + usbSerial;
    }
}
