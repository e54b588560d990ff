package sprag.hal.board.firmata;

import java.util.Arrays;

/**
 * Finds the messages in a stream of bytes that may start or end in the middle of a message and may hold faulty bytes.
 *
 * <p>The protocol has no check sum. All that can be told is that a byte stands where none may stand; such bytes are counted,
 * so that a line that garbles is noticed by them.
 */
final class FirmataParser {
    /** Room for the longest message: a capability response of 128 pins with 15 modes each. */
    private static final int MAX_SYSEX = 4096;

    private final FirmataListener listener;
    private final byte[] sysex = new byte[MAX_SYSEX];
    private int sysexLength;
    private boolean inSysex;
    private int command;
    private int first = -1;
    private long strayBytes;

    FirmataParser(FirmataListener listener) {
        this.listener = listener;
    }

    /** How many bytes so far belonged to no complete message. */
    long strayBytes() {
        return strayBytes;
    }

    void feed(byte[] bytes, int length) {
        for (int i = 0; i < length; i++) {
            feed(bytes[i] & 0xFF);
        }
    }

    private void feed(int value) {
        if (value < 0x80) {
            data(value);
        } else if (inSysex && value == FirmataBytes.SYSEX_END) {
            endSysex();
        } else {
            begin(value);
        }
    }

    private void begin(int value) {
        breakOff();
        int kind = value < 0xF0 ? value & 0xF0 : value;
        if (kind == FirmataBytes.SYSEX) {
            inSysex = true;
        } else if (kind == FirmataBytes.ANALOGUE || kind == FirmataBytes.DIGITAL_PORT || kind == FirmataBytes.VERSION) {
            command = value;
        } else {
            strayBytes++;
        }
    }

    /** What was begun will not be ended. */
    private void breakOff() {
        if (inSysex) {
            strayBytes += 1 + sysexLength;
        } else if (command != 0) {
            strayBytes += first < 0 ? 1 : 2;
        }
        inSysex = false;
        sysexLength = 0;
        command = 0;
        first = -1;
    }

    private void data(int value) {
        if (inSysex) {
            sysexData(value);
        } else if (command == 0) {
            strayBytes++;
        } else if (first < 0) {
            first = value;
        } else {
            int low = first;
            int whole = command;
            command = 0;
            first = -1;
            message(whole, low, value);
        }
    }

    private void sysexData(int value) {
        if (sysexLength == MAX_SYSEX) {
            breakOff();
            strayBytes++;
        } else {
            sysex[sysexLength++] = (byte) value;
        }
    }

    private void endSysex() {
        int length = sysexLength;
        inSysex = false;
        sysexLength = 0;
        if (length == 0) {
            strayBytes += 2;
            return;
        }
        listener.sysex(sysex[0], Arrays.copyOfRange(sysex, 1, length));
    }

    private void message(int whole, int low, int high) {
        if (whole == FirmataBytes.VERSION) {
            listener.version(low, high);
        } else if ((whole & 0xF0) == FirmataBytes.ANALOGUE) {
            listener.analogue(whole & 0x0F, low | high << 7);
        } else {
            listener.digital(whole & 0x0F, (low | high << 7) & 0xFF);
        }
    }
}
