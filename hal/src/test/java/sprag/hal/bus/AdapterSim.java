package sprag.hal.bus;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import sprag.hal.Clock;
import sprag.hal.board.MemoryPort;

/** An adapter and the bus behind it, as they look from the serial line. */
public final class AdapterSim implements MemoryPort.FarEnd {
    /** A frame that was sent to it, with the time. */
    public record Sent(long atMs, String frame, boolean joined) {}

    public final List<String> commands = new ArrayList<>();
    public final List<Sent> sent = new ArrayList<>();
    private final Clock clock;
    private final ByteArrayOutputStream toHost = new ByteArrayOutputStream();
    private final StringBuilder line = new StringBuilder();
    private final byte[] text = new byte[40];
    private boolean joined;
    private boolean answers = true;
    private boolean acknowledged = true;

    public AdapterSim(Clock clock) {
        this.clock = clock;
    }

    /** Fault: it takes everything and says nothing. */
    void fallMute() {
        answers = false;
    }

    /** Fault: nobody on the bus acknowledges. */
    public void loseOthers() {
        acknowledged = false;
    }

    /** A frame of another node. */
    public void receive(CanFrame frame) {
        if (joined) {
            say(new String(text, 0, SlcanText.write(frame, text), StandardCharsets.US_ASCII));
        }
    }

    /** Any bytes. */
    public void say(String bytes) {
        if (answers) {
            toHost.writeBytes(bytes.getBytes(StandardCharsets.ISO_8859_1));
        }
    }

    public List<Sent> sentAfter(long ms) {
        return sent.stream().filter(s -> s.atMs >= ms).toList();
    }

    @Override
    public void take(byte[] bytes, int length) {
        for (int i = 0; i < length; i++) {
            if (bytes[i] == '\r') {
                command(line.toString());
                line.setLength(0);
            } else {
                line.append((char) bytes[i]);
            }
        }
    }

    private void command(String text) {
        CanFrame frame = new CanFrame();
        byte[] bytes = text.getBytes(StandardCharsets.US_ASCII);
        if (SlcanText.read(bytes, bytes.length, frame)) {
            sent.add(new Sent((clock.nowNs() - 1_000_000_000L) / 1_000_000, frame.toString(), joined));
            say(acknowledged ? "z\r" : "\u0007");
            return;
        }
        if (text.isEmpty()) {
            return;
        }
        commands.add(text);
        joined = text.charAt(0) == 'O' || text.charAt(0) == 'L' || joined && text.charAt(0) != 'C';
        say(text.equals("V") ? "V1013\r" : text.equals("S9") ? "\u0007" : "\r");
    }

    @Override
    public int give(byte[] into) {
        return new MemoryPort.Speaker(toHost).give(into);
    }
}
