package sprag.hal.board.firmata;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.Random;
import sprag.hal.Clock;
import sprag.hal.board.MemoryPort;

/**
 * A microcontroller board as the protocol's document describes it (firmata/protocol, protocol.md), with its faults as methods.
 *
 * <p>Twenty pins: 0 and 1 belong to the line, 2 to 13 are digital with PWM on 3, 5, 6, 9, 10 and 11, 14 to 19 are digital or
 * analogue channels 0 to 5.
 */
public final class BoardSim implements MemoryPort.FarEnd {
    static final int PINS = 20;
    private static final int FIRST_ANALOGUE = 14;
    private static final int UNUSED = 0x7F;

    private final Clock clock;
    private final int[] mode = new int[PINS];
    private final long[] written = new long[PINS];
    private final boolean[] level = new boolean[PINS];
    private final int[] counts = new int[PINS];
    private final boolean[] reportsPort = new boolean[16];
    private final boolean[] reportsChannel = new boolean[16];
    private final int[] lastPort = new int[16];
    private final ByteArrayOutputStream out = new ByteArrayOutputStream();
    private final ByteArrayOutputStream in = new ByteArrayOutputStream();
    private int minorVersion = 5;
    private int analogueBits = 10;
    private long sampledNs;
    private int samplingMs = 19;
    private boolean frozen;
    private boolean deaf;
    private boolean alien;
    private double garbled;
    private double cut;
    private boolean flooding;
    private boolean portsUnanswered;
    private boolean modesIgnored;
    private Random random = new Random(1);

    public BoardSim(Clock clock) {
        this.clock = clock;
        restart(false);
    }

    // what a hand does

    /** Puts a level on a pin. */
    public BoardSim level(int pin, boolean high) {
        level[pin] = high;
        return this;
    }

    /** Puts a voltage on an analogue channel, in counts. */
    public BoardSim counts(int channel, int value) {
        counts[FIRST_ANALOGUE + channel] = value;
        return this;
    }

    /** The level of a digital output, 0 when the pin is no output. */
    public long output(int pin) {
        return mode[pin] == PinMode.OUTPUT.code || mode[pin] == PinMode.PWM.code ? written[pin] : 0;
    }

    /** The mode that a pin is in. */
    public int mode(int pin) {
        return mode[pin];
    }

    /** What the sampling interval was set to. */
    public int samplingMs() {
        return samplingMs;
    }

    // what can go wrong

    /** Fault: an older protocol. */
    public BoardSim version(int minor) {
        minorVersion = minor;
        return this;
    }

    /** Fault: another resolution. */
    public BoardSim analogueBits(int bits) {
        analogueBits = bits;
        return this;
    }

    /** Fault: the program stops; nothing comes, nothing is taken. */
    public BoardSim freeze(boolean on) {
        frozen = on;
        return this;
    }

    /** Fault: it takes nothing in, but goes on sending its analogue channels. */
    public BoardSim deafen() {
        deaf = true;
        return this;
    }

    /** Fault: it is another device, which chatters in its own language. */
    public BoardSim alien() {
        alien = true;
        return this;
    }

    /** Fault: a share of the bytes is replaced by others. */
    public BoardSim garble(double share, long seed) {
        garbled = share;
        random = new Random(seed);
        return this;
    }

    /** Fault: a share of the bytes is lost. */
    public BoardSim cut(double share, long seed) {
        cut = share;
        random = new Random(seed);
        return this;
    }

    /** Fault: a digital port is sent over and over. */
    public BoardSim flood() {
        flooding = true;
        return this;
    }

    /** Fault: ports are not reported. */
    public BoardSim ignorePorts() {
        portsUnanswered = true;
        return this;
    }

    /** Fault: pin modes are not taken. */
    public BoardSim ignoreModes() {
        modesIgnored = true;
        return this;
    }

    /** Every fault of the line and of its program ends; its pins stay as they are. */
    public BoardSim well() {
        frozen = false;
        alien = false;
        flooding = false;
        garbled = 0;
        cut = 0;
        return this;
    }

    /** Fault: its supply dips and it starts anew, with every pin as at power-on. */
    public BoardSim restart(boolean reports) {
        for (int pin = 0; pin < PINS; pin++) {
            mode[pin] = pin < 2 ? UNUSED : pin >= FIRST_ANALOGUE ? PinMode.ANALOGUE.code : PinMode.OUTPUT.code;
            written[pin] = 0;
        }
        Arrays.fill(reportsPort, false);
        Arrays.fill(reportsChannel, false);
        samplingMs = 19;
        in.reset();
        if (reports) {
            sendVersion();
            sendFirmware();
        }
        return this;
    }

    // the line

    @Override
    public void take(byte[] bytes, int length) {
        if (frozen || deaf || alien) {
            return;
        }
        for (int i = 0; i < length; i++) {
            in.write(bytes[i]);
            handle();
        }
    }

    @Override
    public int give(byte[] into) {
        if (!frozen) {
            sample();
        }
        byte[] all = out.toByteArray();
        out.reset();
        int sent = Math.min(all.length, into.length);
        out.write(all, sent, all.length - sent);
        int kept = 0;
        for (int i = 0; i < sent; i++) {
            if (cut == 0 || random.nextDouble() >= cut) {
                into[kept++] = garbled > 0 && random.nextDouble() < garbled ? (byte) random.nextInt(256) : all[i];
            }
        }
        return kept;
    }

    private void sample() {
        if (alien) {
            send('$', 'G', 'P', 0x0D, 0x0A);
            return;
        }
        if (flooding) {
            for (int i = 0; i < 200; i++) {
                send(0x92, 0x7F, 0x01);
            }
        }
        for (int port = 0; port < 3; port++) {
            if (reportsPort[port] && portBits(port) != lastPort[port]) {
                sendPort(port);
            }
        }
        if (clock.nowNs() - sampledNs >= samplingMs * 1_000_000L) {
            sampledNs = clock.nowNs();
            for (int channel = 0; channel < 6; channel++) {
                if (reportsChannel[channel] && mode[FIRST_ANALOGUE + channel] == PinMode.ANALOGUE.code) {
                    sendChannel(channel);
                }
            }
        }
    }

    /** Takes one whole message from the front of what came in, if there is one. */
    private void handle() {
        byte[] m = in.toByteArray();
        int command = m[0] & 0xFF;
        int kind = command < 0xF0 ? command & 0xF0 : command;
        boolean whole = kind == 0xF0 ? (m[m.length - 1] & 0xFF) == 0xF7 : m.length == lengthOf(kind);
        if (!whole) {
            return;
        }
        in.reset();
        if (kind == 0xF0) {
            sysex(m);
        } else {
            plain(kind, command & 0x0F, m);
        }
    }

    private static int lengthOf(int kind) {
        switch (kind) {
            case 0xC0:
            case 0xD0:
                return 2;
            case 0x90:
            case 0xE0:
            case 0xF4:
            case 0xF5:
                return 3;
            default:
                return 1;
        }
    }

    private void plain(int kind, int low, byte[] m) {
        switch (kind) {
            case 0xF9:
                sendVersion();
                break;
            case 0xFF:
                restart(false);
                break;
            case 0xC0:
                reportsChannel[low] = m[1] != 0;
                break;
            case 0xD0:
                reportsPort[low] = m[1] != 0;
                if (reportsPort[low] && !portsUnanswered) {
                    sendPort(low);
                }
                break;
            case 0xF4:
                if (!modesIgnored) {
                    mode[m[1]] = m[2];
                    written[m[1]] = 0;
                }
                break;
            case 0xF5:
                written[m[1]] = m[2];
                break;
            case 0x90:
                writePort(low, m[1] | m[2] << 7);
                break;
            default:
                write(low, m[1] | m[2] << 7);
        }
    }

    private void writePort(int port, int bits) {
        for (int pin = port * 8; pin < Math.min(PINS, port * 8 + 8); pin++) {
            if (mode[pin] == PinMode.OUTPUT.code) {
                written[pin] = bits >> pin % 8 & 1;
            }
        }
    }

    private void write(int pin, long value) {
        if (mode[pin] == PinMode.PWM.code) {
            written[pin] = value;
        }
    }

    private void sysex(byte[] m) {
        switch (m[1]) {
            case 0x79:
                sendFirmware();
                break;
            case 0x6B:
                sendCapabilities();
                break;
            case 0x69:
                out.write(0xF0);
                out.write(0x6A);
                for (int pin = 0; pin < PINS; pin++) {
                    out.write(pin >= FIRST_ANALOGUE ? pin - FIRST_ANALOGUE : 0x7F);
                }
                out.write(0xF7);
                break;
            case 0x6D:
                send(0xF0, 0x6E, m[2], mode[m[2]], (int) written[m[2]] & 0x7F, (int) written[m[2]] >> 7, 0xF7);
                break;
            case 0x6F:
                write(m[2], m[3] | m[4] << 7);
                break;
            case 0x7A:
                samplingMs = Math.max(1, m[2] | m[3] << 7);
                break;
            default:
                break;
        }
    }

    private void sendVersion() {
        send(0xF9, 2, minorVersion);
    }

    private void sendFirmware() {
        send(0xF0, 0x79, 2, minorVersion);
        for (char c : "SimFirmata".toCharArray()) {
            send(c & 0x7F, c >> 7);
        }
        send(0xF7);
    }

    private void sendCapabilities() {
        send(0xF0, 0x6C);
        for (int pin = 0; pin < PINS; pin++) {
            if (pin >= 2) {
                send(0, 1, 1, 1, 0x0B, 1);
            }
            if (pin >= FIRST_ANALOGUE) {
                send(2, analogueBits);
            }
            if (pin == 3 || pin == 5 || pin == 6 || pin >= 9 && pin <= 11) {
                send(3, 8);
            }
            send(0x7F);
        }
        send(0xF7);
    }

    private int portBits(int port) {
        int bits = 0;
        for (int pin = port * 8; pin < Math.min(PINS, port * 8 + 8); pin++) {
            boolean input = mode[pin] == PinMode.INPUT.code || mode[pin] == PinMode.PULL_UP.code;
            bits |= input && level[pin] ? 1 << pin % 8 : 0;
        }
        return bits;
    }

    private void sendPort(int port) {
        lastPort[port] = portBits(port);
        send(0x90 | port, lastPort[port] & 0x7F, lastPort[port] >> 7);
    }

    private void sendChannel(int channel) {
        int value = counts[FIRST_ANALOGUE + channel];
        send(0xE0 | channel, value & 0x7F, value >> 7);
    }

    private void send(int... bytes) {
        for (int value : bytes) {
            out.write(value);
        }
    }
}
