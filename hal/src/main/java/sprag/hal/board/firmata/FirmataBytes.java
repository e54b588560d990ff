package sprag.hal.board.firmata;

/** The command bytes of the protocol that are used here. */
final class FirmataBytes {
    static final int DIGITAL_PORT = 0x90;
    static final int REPORT_ANALOGUE = 0xC0;
    static final int REPORT_DIGITAL = 0xD0;
    static final int ANALOGUE = 0xE0;
    static final int SYSEX = 0xF0;
    static final int PIN_MODE = 0xF4;
    static final int SYSEX_END = 0xF7;
    static final int VERSION = 0xF9;

    static final int MAPPING_QUERY = 0x69;
    static final int MAPPING = 0x6A;
    static final int CAPABILITY_QUERY = 0x6B;
    static final int CAPABILITY = 0x6C;
    static final int PIN_STATE_QUERY = 0x6D;
    static final int PIN_STATE = 0x6E;
    static final int EXTENDED_ANALOGUE = 0x6F;
    static final int TEXT = 0x71;
    static final int FIRMWARE = 0x79;
    static final int SAMPLING = 0x7A;

    /** Ends a pin in the capability response; in the mapping response, a pin without an analogue channel. */
    static final int NONE = 0x7F;

    private FirmataBytes() {}
}
