package sprag.hal.bus;

import java.util.Arrays;
import java.util.List;
import sprag.hal.board.InputPin;
import sprag.hal.board.PinSink;

/**
 * Turns received frames into inputs. A frame counts only with the right length, the right check sum and a counter that has moved
 * on; what a message carries is unknown when no such frame came within its time-out, or when it comes far too often.
 */
public final class BusDecoder {
    /** What became of a frame. One row each. */
    public enum Verdict {
        /** Its values were taken. */
        TAKEN("taken"),
        /** No message of the file has this identifier. */
        FOREIGN("not in the file"),
        /** Somebody else sends what only the supervisor may send. */
        OURS("sent under an identifier of the supervisor, by it or by another node"),
        /** The file says another number of bytes, or it is a remote frame. */
        WRONG_LENGTH("wrong number of bytes"),
        /** Its bytes were changed on the way, or it is another message. */
        WRONG_SUM("wrong check sum"),
        /** The counter has not moved: the sender repeats old values. */
        STUCK_COUNTER("the counter has not moved"),
        /** Two nodes send it, or one that has gone wrong. */
        TOO_OFTEN("comes more than one and a half times as often as its period says");

        /** For people. */
        public final String words;

        Verdict(String words) {
            this.words = words;
        }
    }

    /** How often a message comes is judged over so many periods. */
    private static final int WINDOW_PERIODS = 10;
    /** So many frames in that window are too many: between the right number and twice as many. */
    private static final int TOO_MANY = 15;

    private static final long NEVER = Long.MIN_VALUE;
    private static final double NS_PER_MS = 1e6;

    private final List<BusMessage> messages;
    private final List<InputPin> inputs;
    private final long[] keys;
    private final int[] order;
    private final long[] goodNs;
    private final long[] counter;
    private final long[] windowNs;
    private final int[] inWindow;
    private final boolean[] tooOften;
    private final boolean[] unknown;
    private final long[][] tally;
    private final long[] missed;
    private long beganNs;

    /** Knows the messages and has seen no frame.
     *
     * @param map which messages there are
     */
    public BusDecoder(BusMap map) {
        messages = map.messages();
        inputs = map.pins().inputs();
        int count = messages.size();
        keys = new long[count];
        order = new int[count];
        Integer[] byKey = new Integer[count];
        Arrays.setAll(byKey, i -> i);
        Arrays.sort(
                byKey,
                (a, b) -> Long.compare(messages.get(a).key(), messages.get(b).key()));
        for (int i = 0; i < count; i++) {
            order[i] = byKey[i];
            keys[i] = messages.get(byKey[i]).key();
        }
        goodNs = new long[count];
        counter = new long[count];
        windowNs = new long[count];
        inWindow = new int[count];
        tooOften = new boolean[count];
        unknown = new boolean[count];
        tally = new long[count][Verdict.values().length];
        missed = new long[count];
        startAnew(0);
    }

    /** Forgets what was received, not how often.
     *
     * @param nowNs the time now
     */
    public void startAnew(long nowNs) {
        beganNs = nowNs;
        Arrays.fill(goodNs, NEVER);
        Arrays.fill(counter, -1);
        Arrays.fill(windowNs, nowNs);
        Arrays.fill(inWindow, 0);
        Arrays.fill(tooOften, false);
        Arrays.fill(unknown, false);
    }

    /** Takes a frame.
     *
     * @param frame what was received
     * @param nowNs when
     * @param sink where its inputs go
     * @return what became of it
     */
    public Verdict accept(CanFrame frame, long nowNs, PinSink sink) {
        int m = indexOf(frame.key());
        if (m < 0) {
            return Verdict.FOREIGN;
        }
        Verdict verdict = judge(m, frame, nowNs);
        tally[m][verdict.ordinal()]++;
        if (verdict == Verdict.TAKEN) {
            goodNs[m] = nowNs;
            unknown[m] = false;
            for (BusField field : messages.get(m).fields()) {
                put(field, frame.data(), nowNs, sink);
            }
        } else if (verdict == Verdict.TOO_OFTEN && !unknown[m]) {
            forget(m, nowNs, sink);
        }
        return verdict;
    }

    /** Makes the inputs of each message unknown that has been away for longer than its time-out.
     *
     * @param nowNs the time now
     * @param sink where the inputs go
     */
    public void checkAges(long nowNs, PinSink sink) {
        for (int m = 0; m < goodNs.length; m++) {
            if (goodNs[m] != NEVER && !unknown[m] && isLate(m, nowNs)) {
                forget(m, nowNs, sink);
            }
        }
    }

    /** Whether every message that should be received is late: the wire is cut, or nobody is there.
     *
     * @param nowNs the time now
     * @return false when one of them is in time, or when none is expected
     */
    public boolean isSilent(long nowNs) {
        boolean expected = false;
        for (int m = 0; m < goodNs.length; m++) {
            if (!messages.get(m).isSent()) {
                expected = true;
                if (!isLate(m, nowNs)) {
                    return false;
                }
            }
        }
        return expected;
    }

    /** The index of the message with a key.
     *
     * @param key see {@link CanFrame#key()}
     * @return its place in the file, negative when there is none
     */
    public int indexOf(long key) {
        int found = Arrays.binarySearch(keys, key);
        return found < 0 ? -1 : order[found];
    }

    /** How many frames of a message met a verdict.
     *
     * @param message its place in the file
     * @param verdict which one
     * @return a count since the beginning
     */
    public long count(int message, Verdict verdict) {
        return tally[message][verdict.ordinal()];
    }

    /** How many frames of a message are missing by its counter.
     *
     * @param message its place in the file
     * @return a count since the beginning, 0 when it does not count
     */
    public long missed(int message) {
        return missed[message];
    }

    /** Whether a message has been away for longer than its time-out.
     *
     * @param message its place in the file
     * @param nowNs the time now
     * @return true when late, or when it never came within the time-out
     */
    public boolean isLate(int message, long nowNs) {
        long sinceNs = goodNs[message] == NEVER ? beganNs : goodNs[message];
        return nowNs - sinceNs > messages.get(message).timeoutMs() * NS_PER_MS;
    }

    private Verdict judge(int m, CanFrame frame, long nowNs) {
        BusMessage message = messages.get(m);
        if (message.isSent()) {
            return Verdict.OURS;
        }
        countIn(m, nowNs);
        if (tooOften[m]) {
            return Verdict.TOO_OFTEN;
        }
        if (frame.remote() || frame.length() != message.length()) {
            return Verdict.WRONG_LENGTH;
        }
        if (message.sum() != CheckSum.NONE
                && message.sum().of(frame.data(), frame.length(), message.sumByte())
                        != (frame.data()[message.sumByte()] & 0xFF)) {
            return Verdict.WRONG_SUM;
        }
        return message.counter() == null || hasMoved(m, message.counter(), frame)
                ? Verdict.TAKEN
                : Verdict.STUCK_COUNTER;
    }

    private boolean hasMoved(int m, BitField place, CanFrame frame) {
        long now = place.raw(frame.data());
        long before = counter[m];
        counter[m] = now;
        if (before < 0) {
            return true;
        }
        long step = now - before & place.allOnes();
        missed[m] += Math.max(0, step - 1);
        return step != 0;
    }

    /** Adapters deliver in bunches, so that two frames close together say nothing; many in a window do. */
    private void countIn(int m, long nowNs) {
        long windowLengthNs = Math.round(messages.get(m).periodMs() * NS_PER_MS * WINDOW_PERIODS);
        if (nowNs - windowNs[m] >= windowLengthNs) {
            tooOften[m] = inWindow[m] > TOO_MANY;
            windowNs[m] = nowNs;
            inWindow[m] = 0;
        }
        inWindow[m]++;
        tooOften[m] |= inWindow[m] > TOO_MANY;
    }

    private void forget(int m, long nowNs, PinSink sink) {
        unknown[m] = true;
        for (BusField field : messages.get(m).fields()) {
            if (field.pin() != BusField.NO_PIN) {
                sink.putUnknown(field.pin(), nowNs);
            }
        }
    }

    private void put(BusField field, byte[] data, long nowNs, PinSink sink) {
        if (field.pin() == BusField.NO_PIN) {
            return;
        }
        long raw = field.place().raw(data);
        Codes codes = field.codes();
        boolean isSwitch = inputs.get(field.pin()).kind().twoState;
        boolean isOn = isSwitch && codes.on().contains(raw);
        if (codes.isUnknown(raw) || isSwitch && !isOn && !codes.off().contains(raw)) {
            sink.putUnknown(field.pin(), nowNs);
        } else {
            sink.put(field.pin(), isSwitch ? isOn ? 1 : 0 : raw, nowNs);
        }
    }
}
