package sprag.hal.bus;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import sprag.hal.Clock;
import sprag.hal.board.LinkLost;
import sprag.hal.board.Port;

/**
 * An adapter between a serial line and the bus. Bytes that are no line of the protocol are counted and left out: half a frame is
 * never taken for a whole one.
 */
public final class SlcanLine {
    /** The speeds that the protocol has a command for, in kbit/s: S0 to S8. */
    public static final List<Integer> SPEEDS_KBIT = List.of(10, 20, 50, 100, 125, 250, 500, 800, 1000);

    /** What the adapter says about the errors on the bus, in the words of ISO 11898-1. */
    public enum Errors {
        /** It takes part, or it does not say. */
        ACTIVE,
        /** 96 errors or more are counted. */
        WARNING,
        /** 128 errors or more: it only listens to errors of others. */
        PASSIVE,
        /** 256 errors: it has left the bus. */
        BUS_OFF
    }

    private static final String ERROR_LETTERS = "awpb";
    private static final int STATE_LENGTH = 8;
    private static final long ANSWER_NS = 500_000_000;
    private static final long NS_PER_MS = 1_000_000;
    /** So many bytes without a frame are looked at in one go at most, so that noise without end cannot hold the thread. */
    private static final int MOST_BYTES = 16_384;

    private static final byte BELL = 7;
    private static final byte RETURN = '\r';

    private final Port port;
    private final Clock clock;
    private final byte[] chunk = new byte[512];
    private final byte[] line = new byte[SlcanText.LONGEST];
    private final byte[] out = new byte[SlcanText.LONGEST + 1];
    private int chunkLength;
    private int chunkAt;
    private int lineLength;
    private boolean tooLong;
    private boolean answered;
    private boolean refused;
    private String identity = "";
    private Errors errors = Errors.ACTIVE;
    private int receiveErrors;
    private int transmitErrors;
    private long garbled;
    private long refusals;
    private int refusedInARow;
    private long errorReports;

    /** A line that is not open yet.
     *
     * @param port where the adapter is; opened and closed by the caller
     * @param clock the time for answers
     */
    public SlcanLine(Port port, Clock clock) {
        this.port = port;
        this.clock = clock;
    }

    /** Sets the speed and joins the bus.
     *
     * @param kbit speed of the bus in kbit/s
     * @param listenOnly whether to listen only: nothing is sent, and no frame of others is acknowledged
     * @throws LinkLost when the adapter does not answer or refuses
     */
    public void open(int kbit, boolean listenOnly) throws LinkLost {
        chunkLength = 0;
        chunkAt = 0;
        lineLength = 0;
        errors = Errors.ACTIVE;
        ask("\rC", false);
        ask("V", false);
        int speed = SPEEDS_KBIT.indexOf(kbit);
        if (speed < 0) {
            throw new LinkLost(kbit + " kbit/s is no speed that the adapter knows; it is one of " + SPEEDS_KBIT);
        }
        ask("S" + speed, true);
        ask(listenOnly ? "L" : "O", true);
        refusedInARow = 0;
    }

    /** Leaves the bus.
     *
     * @throws LinkLost when the port is gone
     */
    public void leave() throws LinkLost {
        write("C");
    }

    /** What answered.
     *
     * @return the adapter's version, empty when it does not say
     */
    public String identity() {
        return identity;
    }

    /** Takes the next frame that has arrived; never waits.
     *
     * @param into the frame
     * @return false when none is there, or when nothing but noise came for a long time
     * @throws LinkLost when the port is gone
     */
    public boolean next(CanFrame into) throws LinkLost {
        for (int looked = 0; looked < MOST_BYTES && hasByte(); looked++) {
            if (takes(chunk[chunkAt++], into)) {
                return true;
            }
        }
        return false;
    }

    private boolean hasByte() throws LinkLost {
        if (chunkAt == chunkLength) {
            chunkAt = 0;
            chunkLength = Math.max(0, port.read(chunk));
        }
        return chunkAt < chunkLength;
    }

    /** Hands a frame to the adapter.
     *
     * @param frame which one
     * @throws LinkLost when it could not be handed over
     */
    public void send(CanFrame frame) throws LinkLost {
        port.write(out, SlcanText.write(frame, out));
    }

    /** What the adapter last said about the errors on the bus.
     *
     * @return {@link Errors#ACTIVE} also when it never says
     */
    public Errors errors() {
        return errors;
    }

    /** The adapter's counters in words.
     *
     * @return one clause
     */
    public String errorText() {
        return "error state " + errors.name().toLowerCase(java.util.Locale.ROOT).replace('_', ' ')
                + ", receive errors " + receiveErrors + ", transmit errors " + transmitErrors + ", error reports "
                + errorReports + ", refused sends " + refusals + ", unreadable lines " + garbled;
    }

    /** How many lines were no line of the protocol.
     *
     * @return a count since the beginning
     */
    public long garbled() {
        return garbled;
    }

    /** How many sends or commands the adapter has refused.
     *
     * @return a count since the beginning
     */
    public long refusals() {
        return refusals;
    }

    /** How many sends the adapter has refused since it last took one. The answers may come in bunches.
     *
     * @return 0 after a send that was taken
     */
    public int refusedInARow() {
        return refusedInARow;
    }

    /** True when a whole line was a frame. */
    private boolean takes(byte next, CanFrame into) {
        if (next == BELL) {
            refused = true;
            refusals++;
            refusedInARow++;
            lineLength = 0;
            return false;
        }
        if (next != RETURN) {
            if (lineLength == line.length) {
                tooLong = true;
            } else {
                line[lineLength++] = next;
            }
            return false;
        }
        int length = lineLength;
        boolean whole = !tooLong;
        lineLength = 0;
        tooLong = false;
        return whole ? isFrame(length, into) : countGarbled();
    }

    private boolean isFrame(int length, CanFrame into) {
        if (length == 0 || length == 1 && (line[0] == 'z' || line[0] == 'Z')) {
            answered = true;
            refusedInARow = 0;
            return false;
        }
        if (SlcanText.read(line, length, into)) {
            return true;
        }
        if (line[0] == 'V' || line[0] == 'v' || line[0] == 'N') {
            answered = true;
            identity = new String(line, 0, length, StandardCharsets.US_ASCII).replaceAll("[^ -~]", "?");
            return false;
        }
        if (line[0] == 'e') {
            errorReports++;
            return false;
        }
        return line[0] == 's' ? isState(length) : line[0] != 'F' && countGarbled();
    }

    /** {@code s}, a letter for the state, three decimal digits each for receive and transmit errors. */
    private boolean isState(int length) {
        int state = length == STATE_LENGTH ? ERROR_LETTERS.indexOf(line[1]) : -1;
        if (state < 0) {
            return countGarbled();
        }
        for (int i = 2; i < STATE_LENGTH; i++) {
            if (line[i] < '0' || line[i] > '9') {
                return countGarbled();
            }
        }
        errors = Errors.values()[state];
        receiveErrors = decimal(2);
        transmitErrors = decimal(5);
        return false;
    }

    private int decimal(int from) {
        return (line[from] - '0') * 100 + (line[from + 1] - '0') * 10 + line[from + 2] - '0';
    }

    private boolean countGarbled() {
        garbled++;
        return false;
    }

    private void ask(String command, boolean must) throws LinkLost {
        answered = false;
        refused = false;
        write(command);
        CanFrame early = new CanFrame();
        long untilNs = clock.nowNs() + ANSWER_NS;
        while (!answered && !refused && clock.nowNs() < untilNs) {
            clock.waitUntil(clock.nowNs() + NS_PER_MS);
            for (int looked = 0; looked < MOST_BYTES && !answered && !refused && hasByte(); looked++) {
                takes(chunk[chunkAt++], early); // a frame before the answer belongs to an earlier session
            }
        }
        if (must && refused) {
            throw new LinkLost(port.name() + ": the adapter refuses the command " + command
                    + "; does it know this speed, and is it closed by other programs?");
        }
        if (must && !answered) {
            throw new LinkLost(
                    port.name() + ": no answer to the command " + command + " within " + ANSWER_NS / NS_PER_MS
                            + " ms; is it an adapter that speaks the serial-line protocol, and at this baud rate?");
        }
    }

    private void write(String command) throws LinkLost {
        byte[] bytes = Arrays.copyOf(command.getBytes(StandardCharsets.US_ASCII), command.length() + 1);
        bytes[command.length()] = RETURN;
        port.write(bytes, bytes.length);
    }
}
