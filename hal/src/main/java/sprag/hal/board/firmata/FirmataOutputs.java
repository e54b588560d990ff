package sprag.hal.board.firmata;

import java.util.List;
import sprag.hal.board.OutputPin;
import sprag.hal.board.PinKind;

/** The outputs of one board: what was last written to each, and which of them are driven at all. */
final class FirmataOutputs {
    private static final int PORTS = 16;

    private final FirmataLink link;
    private final List<OutputPin> rows;
    private final int[] pin;
    private final boolean[] driven;
    private final long[] written;
    private long refreshedNs = Long.MIN_VALUE / 2;

    FirmataOutputs(FirmataLink link, List<OutputPin> rows, FirmataPins pins) {
        this.link = link;
        this.rows = rows;
        this.pin = new int[rows.size()];
        this.driven = new boolean[rows.size()];
        this.written = new long[rows.size()];
        for (int i = 0; i < pin.length; i++) {
            pin[i] = pins.number(rows.get(i).pin());
            written[i] = rows.get(i).safeRaw();
        }
    }

    int pin(int output) {
        return pin[output];
    }

    void setDriven(int output, boolean isDriven) {
        driven[output] = isDriven;
    }

    /** Makes every pin an output and writes its safe value in the same message. */
    void makeAll() {
        for (int i = 0; i < pin.length; i++) {
            link.writer().pinMode(pin[i], PinMode.ofOutput(rows.get(i).kind()));
            driven[i] = true;
        }
        release();
    }

    /** Writes the safe value of every output that is driven. */
    void release() {
        for (int i = 0; i < written.length; i++) {
            written[i] = rows.get(i).safeRaw();
        }
        writeAll();
    }

    /** Writes what has changed, and everything from time to time; true when something changed. */
    boolean drive(long[] raw, long nowNs, long refreshNs) {
        int changedPorts = 0;
        boolean changed = false;
        for (int i = 0; i < written.length; i++) {
            if (written[i] != raw[i]) {
                written[i] = raw[i];
                changed = true;
                if (isDigital(i)) {
                    changedPorts |= 1 << pin[i] / 8;
                } else {
                    link.writer().analogue(pin[i], written[i]);
                }
            }
        }
        writePorts(changedPorts);
        if (nowNs - refreshedNs > refreshNs) {
            refreshedNs = nowNs;
            writeAll();
        }
        return changed;
    }

    private void writeAll() {
        int ports = 0;
        for (int i = 0; i < written.length; i++) {
            if (driven[i] && isDigital(i)) {
                ports |= 1 << pin[i] / 8;
            } else if (driven[i]) {
                link.writer().analogue(pin[i], written[i]);
            }
        }
        writePorts(ports);
    }

    /** All relays of a port change together, in one message. */
    private void writePorts(int ports) {
        for (int port = 0; port < PORTS; port++) {
            if ((ports >> port & 1) != 0) {
                link.writer().digitalPort(port, bitsOf(port));
            }
        }
    }

    private int bitsOf(int port) {
        int bits = 0;
        for (int i = 0; i < written.length; i++) {
            if (driven[i] && isDigital(i) && pin[i] / 8 == port) {
                bits |= (int) written[i] << pin[i] % 8;
            }
        }
        return bits;
    }

    private boolean isDigital(int output) {
        return rows.get(output).kind() == PinKind.DIGITAL;
    }
}
