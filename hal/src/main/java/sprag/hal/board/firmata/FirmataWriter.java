package sprag.hal.board.firmata;

import sprag.hal.board.LinkLost;
import sprag.hal.board.Port;

/** Builds messages to a board in one buffer and sends them together. */
final class FirmataWriter {
    private static final int MAX_NORMAL_PIN = 15;
    private static final int MAX_NORMAL_VALUE = 0x3FFF;

    private final byte[] buffer = new byte[1024];
    private int length;

    void askVersion() {
        add(FirmataBytes.VERSION);
    }

    void askFirmware() {
        ask(FirmataBytes.FIRMWARE);
    }

    void askCapabilities() {
        ask(FirmataBytes.CAPABILITY_QUERY);
    }

    void askMapping() {
        ask(FirmataBytes.MAPPING_QUERY);
    }

    void askPinState(int pin) {
        add(FirmataBytes.SYSEX).add(FirmataBytes.PIN_STATE_QUERY).add(pin).add(FirmataBytes.SYSEX_END);
    }

    void pinMode(int pin, PinMode mode) {
        add(FirmataBytes.PIN_MODE).add(pin).add(mode.code);
    }

    void reportAnalogue(int channel, boolean on) {
        add(FirmataBytes.REPORT_ANALOGUE | channel).add(on ? 1 : 0);
    }

    void reportDigital(int port, boolean on) {
        add(FirmataBytes.REPORT_DIGITAL | port).add(on ? 1 : 0);
    }

    void digitalPort(int port, int bits) {
        add(FirmataBytes.DIGITAL_PORT | port).add(bits & 0x7F).add(bits >> 7 & 0x7F);
    }

    /** Pins above 15 and values above 14 bits need the extended message. */
    void analogue(int pin, long value) {
        if (pin <= MAX_NORMAL_PIN && value <= MAX_NORMAL_VALUE) {
            add(FirmataBytes.ANALOGUE | pin).add((int) value & 0x7F).add((int) (value >> 7) & 0x7F);
            return;
        }
        add(FirmataBytes.SYSEX).add(FirmataBytes.EXTENDED_ANALOGUE).add(pin);
        long left = value;
        do {
            add((int) left & 0x7F);
            left >>= 7;
        } while (left != 0);
        add(FirmataBytes.SYSEX_END);
    }

    void samplingMs(int ms) {
        add(FirmataBytes.SYSEX)
                .add(FirmataBytes.SAMPLING)
                .add(ms & 0x7F)
                .add(ms >> 7 & 0x7F)
                .add(FirmataBytes.SYSEX_END);
    }

    void sendTo(Port port) throws LinkLost {
        int sent = length;
        length = 0;
        if (sent > 0) {
            port.write(buffer, sent);
        }
    }

    private void ask(int query) {
        add(FirmataBytes.SYSEX).add(query).add(FirmataBytes.SYSEX_END);
    }

    private FirmataWriter add(int value) {
        buffer[length++] = (byte) value;
        return this;
    }
}
