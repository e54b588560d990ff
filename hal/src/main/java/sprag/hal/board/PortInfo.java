package sprag.hal.board;

import java.util.Locale;

/**
 * A serial port that the machine has, in enough detail to choose it.
 *
 * @param path what to open, e.g. {@code /dev/ttyACM0}
 * @param description what the system calls it
 * @param maker who made it, empty when it does not say
 * @param usbVendor four hex digits, empty when it is not on USB
 * @param usbProduct four hex digits, empty when it is not on USB
 * @param usbSerial its serial number, empty when it has none
 * @param location where it is plugged in, e.g. {@code 1-2.3}
 */
public record PortInfo(
        String path,
        String description,
        String maker,
        String usbVendor,
        String usbProduct,
        String usbSerial,
        String location) {

    /** Whether it is a USB device.
     *
     * @return true when it gave its USB identity
     */
    public boolean isUsb() {
        return !usbVendor.isEmpty();
    }

    /** One line for people.
     *
     * @return path, identity and description
     */
    public String line() {
        String usb = isUsb() ? "usb " + usbVendor + ":" + usbProduct : "no usb";
        String serial = usbSerial.isEmpty() ? "" : " serial " + usbSerial;
        return String.format(Locale.ROOT, "%s  %s%s  at %s  %s", path, usb, serial, location, description);
    }
}
