package sprag.hal.bus;

import java.util.Arrays;
import sprag.hal.Clock;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSession;
import sprag.hal.board.LinkLost;
import sprag.hal.board.PinSink;
import sprag.hal.board.Port;

/**
 * The session with a bus. Nothing is sent before it is armed. Then each message of the supervisor is sent at its period, and at once
 * when an output in it changes. A release sends each of them twice with released outputs; after that, silence.
 */
final class BusSession implements BoardSession {
    /** So many frames are taken in one turn at most, so that a flood cannot hold the thread. */
    private static final int MOST_FRAMES = 200;
    /** A changed output is sent at once, but not sooner than this after the last frame of its message. */
    private static final long LEAST_GAP_NS = 2_000_000;
    /** So many refused sends in a row mean that nobody acknowledges. */
    private static final int MOST_REFUSED = 20;

    private static final int RELEASE_FRAMES = 2;
    /** Eight bytes, 29 bits, every bit stuffed that can be. */
    private static final int LONGEST_FRAME_BITS = 160;

    private static final long MOST_LEAVE_NS = 200_000_000;
    private static final double NS_PER_MS = 1e6;

    private final BusMap map;
    private final SlcanLine line;
    private final Clock clock;
    private final BusDecoder decoder;
    private final BusEncoder encoder;
    private final CanFrame received = new CanFrame();
    private final CanFrame sending = new CanFrame();
    private final long[] safe;
    private final long[] driven;
    private final long[] sentNs;
    /** Whether a frame was sent after the last release: what it drives stands at the receivers. */
    private boolean driving;

    private boolean everSent;

    /** Until it fails; then nobody is told any more, and the failure ends the session. */
    private FrameListener listener;

    private RuntimeException listenerFailed;

    BusSession(Port port, BusMap map, Clock clock, FrameListener listener) {
        this.map = map;
        this.clock = clock;
        this.listener = listener;
        this.line = new SlcanLine(port, clock);
        this.decoder = new BusDecoder(map);
        this.encoder = new BusEncoder(map);
        BoardMap pins = map.pins();
        this.safe = new long[pins.outputs().size()];
        this.driven = new long[safe.length];
        this.sentNs = new long[map.messages().size()];
        Arrays.setAll(safe, i -> pins.outputs().get(i).safeRaw());
    }

    @Override
    public void connect(PinSink sink) throws LinkLost {
        line.open(map.bitRateKbit(), false);
        decoder.startAnew(clock.nowNs());
    }

    @Override
    public String identity() {
        return "adapter " + (line.identity().isEmpty() ? "without a version" : line.identity()) + " at "
                + map.bitRateKbit() + " kbit/s";
    }

    @Override
    public void turn(PinSink sink) throws LinkLost {
        for (int n = 0; n < MOST_FRAMES && line.next(received); n++) {
            long nowNs = clock.nowNs();
            tell(received, false, nowNs);
            if (decoder.accept(received, nowNs, sink) == BusDecoder.Verdict.OURS) {
                throw new LinkLost("another node sends " + received
                        + ", an identifier of the supervisor; take that node off the bus or change its identifier");
            }
        }
        if (listenerFailed != null) {
            throw listenerFailed;
        }
        long nowNs = clock.nowNs();
        decoder.checkAges(nowNs, sink);
        if (line.errors() == SlcanLine.Errors.BUS_OFF) {
            throw new LinkLost("the adapter has left the bus after 256 errors (bus off): " + line.errorText()
                    + "; check the two wires, the terminators and the bit rate");
        }
        if (decoder.isSilent(nowNs)) {
            throw new LinkLost("no expected message has come within its time-out; check the two wires, the bit rate ("
                    + map.bitRateKbit() + " kbit/s) and whether the others have supply");
        }
    }

    @Override
    public void arm() throws LinkLost {
        sendAll(safe, 1);
        System.arraycopy(safe, 0, driven, 0, safe.length);
    }

    @Override
    public boolean drive(long[] raw) throws LinkLost {
        long nowNs = clock.nowNs();
        boolean news = false;
        for (int m = 0; m < sentNs.length; m++) {
            BusMessage message = map.messages().get(m);
            if (message.isSent()) {
                boolean changed = changes(message, raw);
                boolean due = nowNs - sentNs[m] >= message.periodMs() * NS_PER_MS;
                if (due || changed && nowNs - sentNs[m] >= LEAST_GAP_NS) {
                    note(message, raw);
                    send(m, raw, nowNs);
                    news |= changed;
                }
            }
        }
        demandTaken();
        return news;
    }

    @Override
    public void release() throws LinkLost {
        if (driving) {
            sendAll(safe, RELEASE_FRAMES);
            System.arraycopy(safe, 0, driven, 0, safe.length);
            driving = false;
        }
    }

    /** An adapter may hold commands that nobody has acknowledged yet. It would send them when somebody is there again. */
    @Override
    public void leave() throws LinkLost {
        if (everSent) {
            long onTheBusNs =
                    (long) (RELEASE_FRAMES * sentNs.length * LONGEST_FRAME_BITS * NS_PER_MS / map.bitRateKbit());
            clock.waitUntil(
                    clock.nowNs() + Math.min(MOST_LEAVE_NS, onTheBusNs)); // the released frames are not thrown away
        }
        line.leave();
    }

    private boolean changes(BusMessage message, long[] raw) {
        for (BusField field : message.fields()) {
            if (field.pin() != BusField.NO_PIN && raw[field.pin()] != driven[field.pin()]) {
                return true;
            }
        }
        return false;
    }

    private void note(BusMessage message, long[] raw) {
        for (BusField field : message.fields()) {
            if (field.pin() != BusField.NO_PIN) {
                driven[field.pin()] = raw[field.pin()];
            }
        }
    }

    /** A message that cannot be sent does not keep back the others: each may hold a command of its own. */
    private void sendAll(long[] raw, int times) throws LinkLost {
        long nowNs = clock.nowNs();
        int count = sentNs.length;
        LinkLost lost = null;
        for (int n = 0; n < times * count; n++) {
            try {
                if (map.messages().get(n % count).isSent()) {
                    send(n % count, raw, nowNs);
                }
            } catch (LinkLost e) {
                lost = lost == null ? e : lost;
            }
        }
        if (lost != null) {
            throw lost;
        }
    }

    private void send(int message, long[] raw, long nowNs) throws LinkLost {
        driving = true;
        everSent = true;
        sentNs[message] = nowNs;
        encoder.compose(message, raw, sending);
        line.send(sending);
        tell(sending, true, nowNs);
    }

    /** Whoever listens must not keep a release back. */
    private void tell(CanFrame frame, boolean sent, long nowNs) {
        try {
            listener.frame(frame, sent, nowNs);
        } catch (RuntimeException | Error e) {
            listener = FrameListener.NOBODY;
            listenerFailed = new IllegalStateException("what records the frames failed", e);
        }
    }

    private void demandTaken() throws LinkLost {
        if (line.refusedInARow() > MOST_REFUSED) {
            throw new LinkLost("the adapter has refused " + line.refusedInARow()
                    + " frames in a row: nobody on the bus acknowledges them; check the two wires and the bit rate");
        }
    }
}
