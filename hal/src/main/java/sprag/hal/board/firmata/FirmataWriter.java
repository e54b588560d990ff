package sprag.hal.board.firmata;

import sprag.hal.board.LinkLost;
import sprag.hal.board.Port;

/** Builds messages to a board in one buffer and sends them together. */
final class FirmataWriter {
    private static final int MAX_NORMAL_PIN = 15;
    private static final int MAX_NORMAL_VALUE = 0x3FFF;

    private final byte[] buffer = new byte[1024];
    private int length;

    FirmataWriter askVersion() {
        return add(FirmataBytes.VERSION);
    }

    FirmataWriter askFirmware() {
        return ask(FirmataBytes.FIRMWARE);
    }

    FirmataWriter askCapabilities() {
        return ask(FirmataBytes.CAPABILITY_QUERY);
    }

    FirmataWriter askMapping() {
        return ask(FirmataBytes.MAPPING_QUERY);
    }

    FirmataWriter askPinState(int pin) {
        return add(FirmataBytes.SYSEX)
                .add(FirmataBytes.PIN_STATE_QUERY)
                .add(pin)
                .add(FirmataBytes.SYSEX_END);
    }

    FirmataWriter pinMode(int pin, PinMode mode) {
        return add(FirmataBytes.PIN_MODE).add(pin).add(mode.code);
    }

    FirmataWriter reportAnalogue(int channel, boolean on) {
        return add(FirmataBytes.REPORT_ANALOGUE | channel).add(on ? 1 : 0);
    }

    FirmataWriter reportDigital(int port, boolean on) {
        return add(FirmataBytes.REPORT_DIGITAL | port).add(on ? 1 : 0);
    }

    FirmataWriter digitalPort(int port, int bits) {
        return add(FirmataBytes.DIGITAL_PORT | port).add(bits & 0x7F).add(bits >> 7 & 0x7F);
    }

    /** Pins above 15 and values above 14 bits need the extended message. */
    FirmataWriter analogue(int pin, long value) {
        if (pin <= MAX_NORMAL_PIN && value <= MAX_NORMAL_VALUE) {
            return add(FirmataBytes.ANALOGUE | pin).add((int) value & 0x7F).add((int) (value >> 7) & 0x7F);
        }
        add(FirmataBytes.SYSEX).add(FirmataBytes.EXTENDED_ANALOGUE).add(pin);
        long left = value;
        do {
            add((int) left & 0x7F);
            left >>= 7;
        } while (left != 0);
        return add(FirmataBytes.SYSEX_END);
    }

    FirmataWriter samplingMs(int ms) {
        return add(FirmataBytes.SYSEX)
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

    private FirmataWriter ask(int query) {
        return add(FirmataBytes.SYSEX).add(query).add(FirmataBytes.SYSEX_END);
    }

    private FirmataWriter add(int value) {
        buffer[length++] = (byte) value;
        return this;
    }
}
