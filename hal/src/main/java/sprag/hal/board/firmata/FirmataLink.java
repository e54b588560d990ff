package sprag.hal.board.firmata;

import java.util.Arrays;
import java.util.function.BooleanSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import sprag.hal.Clock;
import sprag.hal.board.LinkLost;
import sprag.hal.board.Port;

/** The line to one board: what it has reported about itself, and the stream of its readings. */
final class FirmataLink implements FirmataListener {
    /** Where readings go once the board is set up. */
    interface Readings {
        /** The value of an analogue channel. */
        void analogue(int channel, int value);

        /** The levels of the eight pins of a port. */
        void digital(int port, int bits);
    }

    private static final Logger LOG = LoggerFactory.getLogger(FirmataLink.class);
    private static final long LOOK_EVERY_NS = 1_000_000;
    private static final int MAX_READS_A_TURN = 16;
    private static final int SHOWN_BYTES = 8;

    private final Port port;
    private final Clock clock;
    private final FirmataParser parser = new FirmataParser(this);
    private final FirmataWriter writer = new FirmataWriter();
    private final byte[] buffer = new byte[1024];
    private final byte[] firstBytes = new byte[SHOWN_BYTES];
    private final int[] modeOfPin = new int[128];
    private Readings readings;
    private long bytesSeen;
    private long arrivedNs;
    private int versionReports;
    private int major = -1;
    private int minor;
    private String firmware;
    private String said = "";
    private byte[] capability;
    private byte[] mapping;

    FirmataLink(Port port, Clock clock) {
        this.port = port;
        this.clock = clock;
        Arrays.fill(modeOfPin, -1);
    }

    /** Messages for the board; sent by {@link #send()}. */
    FirmataWriter writer() {
        return writer;
    }

    void send() throws LinkLost {
        writer.sendTo(port);
    }

    /** Reads what has arrived, up to a limit for each call. */
    void read() throws LinkLost {
        for (int i = 0; i < MAX_READS_A_TURN; i++) {
            int got = port.read(buffer);
            if (got == 0) {
                return;
            }
            for (int b = 0; b < got && bytesSeen + b < SHOWN_BYTES; b++) {
                firstBytes[(int) bytesSeen + b] = buffer[b];
            }
            bytesSeen += got;
            arrivedNs = clock.nowNs();
            parser.feed(buffer, got);
        }
    }

    /** Reads until something is true; false when it is not within the time. */
    boolean await(BooleanSupplier done, long withinNs) throws LinkLost {
        long untilNs = clock.nowNs() + withinNs;
        read();
        while (!done.getAsBoolean()) {
            if (clock.nowNs() >= untilNs) {
                return false;
            }
            clock.waitUntil(clock.nowNs() + LOOK_EVERY_NS);
            read();
        }
        return true;
    }

    /** From now on readings go there. */
    void listen(Readings listener) {
        readings = listener;
    }

    /** When the bytes now being told of arrived. */
    long arrivedNs() {
        return arrivedNs;
    }

    long strayBytes() {
        return parser.strayBytes();
    }

    long bytesSeen() {
        return bytesSeen;
    }

    /** The first bytes that came, for people. */
    String firstBytes() {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < Math.min(SHOWN_BYTES, bytesSeen); i++) {
            text.append(String.format("%02X ", firstBytes[i]));
        }
        return text.toString().trim();
    }

    /** How many version reports came. A report that nobody asked for means that the board has restarted. */
    int versionReports() {
        return versionReports;
    }

    int major() {
        return major;
    }

    int minor() {
        return minor;
    }

    /** Name and version of the firmware, null before the report. */
    String firmware() {
        return firmware;
    }

    /** The last text that the board sent, empty when it sent none. */
    String said() {
        return said;
    }

    byte[] capability() {
        return capability;
    }

    byte[] mapping() {
        return mapping;
    }

    /** The mode that the board last reported for a pin, -1 when it has not reported one. */
    int modeOf(int pin) {
        return modeOfPin[pin];
    }

    void forgetMode(int pin) {
        modeOfPin[pin] = -1;
    }

    String portName() {
        return port.name();
    }

    @Override
    public void version(int newMajor, int newMinor) {
        versionReports++;
        major = newMajor;
        minor = newMinor;
    }

    @Override
    public void analogue(int channel, int value) {
        if (readings != null) {
            readings.analogue(channel, value);
        }
    }

    @Override
    public void digital(int portNumber, int bits) {
        if (readings != null) {
            readings.digital(portNumber, bits);
        }
    }

    @Override
    public void sysex(int command, byte[] data) {
        switch (command) {
            case FirmataBytes.FIRMWARE:
                if (data.length >= 2) {
                    firmware = text(data, 2) + " " + data[0] + "." + data[1];
                }
                break;
            case FirmataBytes.CAPABILITY:
                capability = data;
                break;
            case FirmataBytes.MAPPING:
                mapping = data;
                break;
            case FirmataBytes.PIN_STATE:
                if (data.length >= 2) {
                    modeOfPin[data[0]] = data[1];
                }
                break;
            case FirmataBytes.TEXT:
                said = text(data, 0);
                LOG.info("{} says: {}", port.name(), said);
                break;
            default:
                break; // a feature that is not used here
        }
    }

    /** Two bytes a character, the lower seven bits first; what cannot be printed becomes a dot. */
    private static String text(byte[] data, int from) {
        StringBuilder text = new StringBuilder();
        for (int i = from; i + 1 < data.length; i += 2) {
            int character = data[i] | data[i + 1] << 7;
            text.append(character >= ' ' && character < 0x7F ? (char) character : '.');
        }
        return text.toString();
    }
}
