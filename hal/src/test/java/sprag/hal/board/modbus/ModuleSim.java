package sprag.hal.board.modbus;

import java.io.ByteArrayOutputStream;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;
import sprag.hal.Clock;
import sprag.hal.board.MemoryPort;

/**
 * An I/O module as the protocol describes it, with its faults as methods: 64 of each kind of coil, input and register.
 *
 * <p>Frames: unit, function, data, check sum with the low byte first (polynomial A001, start FFFF).
 */
public final class ModuleSim implements MemoryPort.FarEnd {
    private static final int SIZE = 64;

    private record Reply(byte[] bytes, long atNs) {}

    private final Clock clock;
    private final int unit;
    private final boolean[] coils = new boolean[SIZE];
    private final boolean[] discretes = new boolean[SIZE];
    private final int[] inputs = new int[SIZE];
    private final int[] holdings = new int[SIZE];
    private final ByteArrayOutputStream in = new ByteArrayOutputStream();
    private final Deque<Reply> replies = new ArrayDeque<>();
    private long delayMs = 1;
    private int exception;
    private int answersAs;
    private int lacks;
    private boolean silent;
    private boolean wrongSum;
    private boolean half;
    private boolean readOnly;
    private int dropped;
    private int requests;

    public ModuleSim(Clock clock, int unit) {
        this.clock = clock;
        this.unit = unit;
        this.answersAs = unit;
    }

    public ModuleSim discrete(int n, boolean on) {
        discretes[n] = on;
        return this;
    }

    public ModuleSim input(int n, int value) {
        inputs[n] = value;
        return this;
    }

    public ModuleSim holding(int n, int value) {
        holdings[n] = value;
        return this;
    }

    public ModuleSim coil(int n, boolean on) {
        coils[n] = on;
        return this;
    }

    public boolean coil(int n) {
        return coils[n];
    }

    public int holding(int n) {
        return holdings[n];
    }

    public int requests() {
        return requests;
    }

    /** Fault: nothing is answered. */
    public ModuleSim silent(boolean on) {
        silent = on;
        return this;
    }

    /** Fault: every request is answered with an exception; 0 ends it. */
    public ModuleSim exception(int code) {
        exception = code;
        return this;
    }

    /** Fault: it has another address than it should. */
    public ModuleSim answersAs(int other) {
        answersAs = other;
        return this;
    }

    /** Property: it does not know a function. */
    public ModuleSim lacks(int function) {
        lacks = function;
        return this;
    }

    /** Fault: check sums are wrong. */
    public ModuleSim wrongSum(boolean on) {
        wrongSum = on;
        return this;
    }

    /** Fault: replies break off. */
    public ModuleSim half(boolean on) {
        half = on;
        return this;
    }

    /** Fault: what is written is confirmed but not kept. */
    public ModuleSim readOnly() {
        readOnly = true;
        return this;
    }

    /** Fault: replies are late. */
    public ModuleSim delayMs(long ms) {
        delayMs = ms;
        return this;
    }

    /** Fault: the next requests are lost. */
    public ModuleSim drop(int count) {
        dropped = count;
        return this;
    }

    /** Every fault ends; its coils and registers stay as they are. */
    public ModuleSim well() {
        silent = false;
        wrongSum = false;
        half = false;
        exception = 0;
        answersAs = unit;
        delayMs = 1;
        return this;
    }

    @Override
    public void take(byte[] bytes, int length) {
        in.write(bytes, 0, length);
        byte[] m = in.toByteArray();
        int whole = wholeLength(m);
        if (whole < 0 || m.length < whole) {
            return;
        }
        in.reset();
        requests++;
        boolean good = sum(m, whole - 2) == ((m[whole - 2] & 0xFF) | (m[whole - 1] & 0xFF) << 8);
        if (good && m[0] == unit && !silent && dropped-- <= 0) {
            reply(m);
        }
        dropped = Math.max(0, dropped);
    }

    @Override
    public int give(byte[] into) {
        Reply next = replies.peek();
        if (next == null || next.atNs > clock.nowNs()) {
            return 0;
        }
        replies.poll();
        System.arraycopy(next.bytes, 0, into, 0, next.bytes.length);
        return next.bytes.length;
    }

    private static int wholeLength(byte[] m) {
        if (m.length < 7) {
            return -1;
        }
        return m[1] == 0x0F || m[1] == 0x10 ? 9 + m[6] : 8;
    }

    private void reply(byte[] m) {
        int function = m[1];
        int from = word(m, 2);
        int count = word(m, 4);
        if (exception != 0) {
            send(function | 0x80, exception);
        } else if (function == lacks) {
            send(function | 0x80, 1);
        } else if (from + (function == 5 || function == 6 ? 1 : count) > SIZE) {
            send(function | 0x80, 2);
        } else {
            answer(m, function, from, count);
        }
    }

    private void answer(byte[] m, int function, int from, int count) {
        switch (function) {
            case 1:
                sendBits(1, coils, from, count);
                break;
            case 2:
                sendBits(2, discretes, from, count);
                break;
            case 3:
                sendWords(3, holdings, from, count);
                break;
            case 4:
                sendWords(4, inputs, from, count);
                break;
            case 5:
                keepCoil(from, count == 0xFF00);
                send(5, m[2], m[3], m[4], m[5]);
                break;
            case 6:
                keepHolding(from, count);
                send(6, m[2], m[3], m[4], m[5]);
                break;
            case 15:
                for (int i = 0; i < count; i++) {
                    keepCoil(from + i, (m[7 + i / 8] >> i % 8 & 1) != 0);
                }
                send(15, m[2], m[3], m[4], m[5]);
                break;
            case 16:
                for (int i = 0; i < count; i++) {
                    keepHolding(from + i, word(m, 7 + 2 * i));
                }
                send(16, m[2], m[3], m[4], m[5]);
                break;
            default:
                send(function | 0x80, 1);
        }
    }

    private void keepCoil(int n, boolean on) {
        coils[n] = readOnly ? coils[n] : on;
    }

    private void keepHolding(int n, int value) {
        holdings[n] = readOnly ? holdings[n] : value;
    }

    private void sendBits(int function, boolean[] bits, int from, int count) {
        int[] frame = new int[2 + (count + 7) / 8];
        frame[0] = function;
        frame[1] = frame.length - 2;
        for (int i = 0; i < count; i++) {
            frame[2 + i / 8] |= bits[from + i] ? 1 << i % 8 : 0;
        }
        send(frame);
    }

    private void sendWords(int function, int[] words, int from, int count) {
        int[] frame = new int[2 + 2 * count];
        frame[0] = function;
        frame[1] = 2 * count;
        for (int i = 0; i < count; i++) {
            frame[2 + 2 * i] = words[from + i] >> 8;
            frame[3 + 2 * i] = words[from + i];
        }
        send(frame);
    }

    private void send(int... frame) {
        byte[] whole = new byte[frame.length + 3];
        whole[0] = (byte) answersAs;
        for (int i = 0; i < frame.length; i++) {
            whole[1 + i] = (byte) frame[i];
        }
        int sum = sum(whole, whole.length - 2) ^ (wrongSum ? 1 : 0);
        whole[whole.length - 2] = (byte) sum;
        whole[whole.length - 1] = (byte) (sum >> 8);
        byte[] sent = half ? Arrays.copyOf(whole, whole.length / 2) : whole;
        replies.add(new Reply(sent, clock.nowNs() + delayMs * 1_000_000));
    }

    private static int word(byte[] m, int at) {
        return (m[at] & 0xFF) << 8 | m[at + 1] & 0xFF;
    }

    static int sum(byte[] bytes, int length) {
        int sum = 0xFFFF;
        for (int i = 0; i < length; i++) {
            sum ^= bytes[i] & 0xFF;
            for (int bit = 0; bit < 8; bit++) {
                sum = (sum & 1) != 0 ? sum >> 1 ^ 0xA001 : sum >> 1;
            }
        }
        return sum;
    }
}
