package sprag.hal.board.firmata;

/** Hears the messages that a board sends. */
interface FirmataListener {
    /** A version report. */
    void version(int major, int minor);

    /** The value of an analogue channel. */
    void analogue(int channel, int value);

    /** The levels of the eight pins of a digital port. */
    void digital(int port, int bits);

    /** A message of the extended set: its command and the bytes between that and the end. */
    void sysex(int command, byte[] data);
}
