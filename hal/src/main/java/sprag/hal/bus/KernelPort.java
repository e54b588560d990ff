package sprag.hal.bus;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Locale;
import sprag.hal.board.LinkLost;
import sprag.hal.board.Port;

/**
 * A CAN interface of the Linux kernel (SocketCAN), in the place of an adapter on a serial line: frames become lines of the same
 * protocol. The speed is set where the interface is brought up, not here. Frames and error frames are laid out as in the kernel's
 * {@code linux/can.h} and {@code linux/can/error.h}.
 */
public final class KernelPort implements Port {
    /** A port's path begins with this when it is an interface of the kernel. */
    public static final String PREFIX = "socketcan:";

    /** What carries the frames; another one stands in for the kernel's in tests. */
    interface Socket extends AutoCloseable {
        /** Takes a frame. Returns false when none is there. */
        boolean read(ByteBuffer frame) throws IOException;

        /** Hands a frame over. Returns false when there is no room for it. */
        boolean write(ByteBuffer frame) throws IOException;

        @Override
        void close() throws IOException;
    }

    /** Opens an interface. */
    interface Opener {
        Socket open(String name) throws LinkLost;
    }

    private static final int FRAME_BYTES = 16;
    private static final int EXTENDED = 0x8000_0000;
    private static final int REMOTE = 0x4000_0000;
    private static final int ERROR = 0x2000_0000;
    private static final int LENGTH_AT = 4;
    private static final int DATA_AT = 8;
    private static final int ERROR_CONTROLLER = 0x04;
    private static final int ERROR_NOT_ACKNOWLEDGED = 0x20;
    private static final int ERROR_BUS_OFF = 0x40;
    private static final int ERROR_RESTARTED = 0x100;
    private static final int PASSIVE = 0x30;
    private static final int WARNING = 0x0C;

    private final String name;
    private final Opener opener;
    private final ByteBuffer buffer = ByteBuffer.allocateDirect(FRAME_BYTES).order(ByteOrder.nativeOrder());
    private final CanFrame frame = new CanFrame();
    private final byte[] text = new byte[SlcanText.LONGEST + 1];
    private final byte[] line = new byte[SlcanText.LONGEST];
    private final StringBuilder answers = new StringBuilder();
    private int lineLength;
    private boolean joined;
    private boolean listens;
    private volatile Socket socket;

    /** An interface of this machine.
     *
     * @param name such as {@code can0}
     */
    public KernelPort(String name) {
        this(name, KernelSocket::open);
    }

    KernelPort(String name, Opener opener) {
        this.name = name;
        this.opener = opener;
    }

    @Override
    public String name() {
        return PREFIX + name;
    }

    @Override
    public void open() throws LinkLost {
        close();
        answers.setLength(0);
        lineLength = 0;
        joined = false;
        socket = opener.open(name);
    }

    @Override
    public int read(byte[] into) throws LinkLost {
        Socket open = opened();
        int length = say(into, 0);
        try {
            while (joined && answers.isEmpty() && into.length - length >= text.length && open.read(buffer.clear())) {
                length = take(into, length);
            }
        } catch (IOException e) {
            throw lost(e);
        }
        return length;
    }

    private int say(byte[] into, int at) {
        int length = Math.min(answers.length(), into.length - at);
        for (int i = 0; i < length; i++) {
            into[at + i] = (byte) answers.charAt(i);
        }
        answers.delete(0, length);
        return at + length;
    }

    private int take(byte[] into, int at) {
        int id = buffer.getInt(0);
        if ((id & ERROR) != 0) {
            report(id);
            return say(into, at);
        }
        boolean extended = (id & EXTENDED) != 0;
        int bytes = Math.min(CanFrame.MOST_BYTES, Math.max(0, buffer.get(LENGTH_AT)));
        frame.begin(id & (extended ? CanFrame.GREATEST_LONG_ID : CanFrame.GREATEST_SHORT_ID), extended, bytes);
        if ((id & REMOTE) != 0) {
            frame.asRemote();
        } else {
            buffer.get(DATA_AT, frame.data(), 0, bytes);
        }
        int length = SlcanText.write(frame, text);
        System.arraycopy(text, 0, into, at, length);
        return at + length;
    }

    /** An error frame of the kernel in the words of the serial-line protocol. */
    private void report(int id) {
        if ((id & ERROR_NOT_ACKNOWLEDGED) != 0) {
            answers.append('\u0007');
        }
        if ((id & (ERROR_BUS_OFF | ERROR_CONTROLLER | ERROR_RESTARTED)) == 0) {
            answers.append("e1\r");
            return;
        }
        int detail = buffer.get(DATA_AT + 1);
        char state = 'a';
        if ((id & ERROR_BUS_OFF) != 0) {
            state = 'b';
        } else if ((id & ERROR_CONTROLLER) != 0 && (detail & PASSIVE) != 0) {
            state = 'p';
        } else if ((id & ERROR_CONTROLLER) != 0 && (detail & WARNING) != 0) {
            state = 'w';
        }
        int sending = buffer.get(DATA_AT + 6) & 0xFF;
        int receiving = buffer.get(DATA_AT + 7) & 0xFF;
        answers.append(String.format(Locale.ROOT, "s%c%03d%03d\r", state, receiving, sending));
    }

    @Override
    public void write(byte[] bytes, int length) throws LinkLost {
        for (int i = 0; i < length; i++) {
            if (bytes[i] == '\r') {
                command();
                lineLength = 0;
            } else if (lineLength < line.length) {
                line[lineLength++] = bytes[i];
            }
        }
    }

    private void command() throws LinkLost {
        if (lineLength == 0) {
            return;
        }
        if (SlcanText.read(line, lineLength, frame)) {
            answers.append(joined && !listens && isSent() ? "z\r" : "\u0007");
            return;
        }
        switch (line[0]) {
            case 'O', 'L' -> {
                joined = true;
                listens = line[0] == 'L';
                answers.append('\r');
            }
            case 'C' -> {
                joined = false;
                answers.append('\r');
            }
            case 'V' -> answers.append("V kernel ").append(name).append('\r');
            default -> answers.append('\r');
        }
    }

    private boolean isSent() throws LinkLost {
        int id = frame.id() | (frame.extended() ? EXTENDED : 0) | (frame.remote() ? REMOTE : 0);
        buffer.clear().putInt(0, id).putInt(LENGTH_AT, 0).put(LENGTH_AT, (byte) frame.length());
        buffer.put(DATA_AT, frame.data(), 0, CanFrame.MOST_BYTES);
        Socket open = opened();
        try {
            return open.write(buffer);
        } catch (IOException e) {
            throw lost(e);
        }
    }

    private Socket opened() throws LinkLost {
        Socket open = socket;
        if (open == null) {
            throw new LinkLost(name() + " is closed");
        }
        return open;
    }

    private LinkLost lost(IOException e) {
        return new LinkLost(name() + ": " + e.getMessage() + "; bring the interface up with \"ip link set " + name
                + " up type can bitrate 500000\", with the speed of the bus in bit/s");
    }

    @Override
    public void close() {
        Socket open = socket;
        socket = null;
        if (open != null) {
            try {
                open.close();
            } catch (IOException e) {
                throw new UncheckedIOException("cannot close " + name(), e);
            }
        }
    }
}
