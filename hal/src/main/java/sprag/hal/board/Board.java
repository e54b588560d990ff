package sprag.hal.board;

import java.util.Arrays;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import sprag.hal.Clock;
import sprag.hal.Health;
import sprag.hal.LatencyMeter;
import sprag.hal.PinnedDevice;
import sprag.hal.Samples;
import sprag.supervisor.vocabulary.Commands;

/**
 * A board on a serial port. It talks to the board on a thread of its own; the calls of the loop only hand numbers over.
 *
 * <pre>
 *  SEARCHING --answers, map fits--&gt; READY --arm()--&gt; ARMED
 *      ^                             |                |
 *      +------- link lost -----------+----------------+   outputs released; ARMED is never entered again by itself
 * </pre>
 *
 * <p>Only an armed board drives its outputs, and only while commands keep coming. The link is lost when the port fails, an
 * input falls silent, the board starts anew or talks nonsense, or commands stop: see {@link #health()}.
 */
public final class Board extends PinnedDevice {
    private static final Logger LOG = LoggerFactory.getLogger(Board.class);
    private static final long CLOSE_WITHIN_MS = 1000;
    private static final long NS_PER_MS = 1_000_000;

    private final BoardSpec spec;
    private final Clock clock;
    private final PinBank bank;
    private final BoardTalk talk;
    private final long[] lastPutNs;
    private final Thread thread;
    private final boolean hasRealPort;
    private final LastRelease.Entry atExit = new LastRelease.Entry(this::end, this::close);

    /** Makes a board on a port of this machine.
     *
     * @param spec all about it
     * @param clock the loop's clock
     */
    public Board(BoardSpec spec, Clock clock) {
        this(spec, SerialPorts.of(spec.port(), spec.settings().line()), clock, true);
    }

    /** Makes a board on any port.
     *
     * @param spec all about it
     * @param port where it answers
     * @param clock the loop's clock
     */
    public Board(BoardSpec spec, Port port, Clock clock) {
        this(spec, port, clock, false);
    }

    /** Makes a board on a port of this machine that is opened in another way.
     *
     * @param spec all about it
     * @param port where it answers
     * @param clock the loop's clock
     * @return a board that is released when the program ends
     */
    public static Board onMachine(BoardSpec spec, Port port, Clock clock) {
        return new Board(spec, port, clock, true);
    }

    private Board(BoardSpec spec, Port port, Clock clock, boolean hasRealPort) {
        super(spec.name(), spec.map().signals(), spec.map().driven());
        this.hasRealPort = hasRealPort;
        this.spec = spec;
        this.clock = clock;
        this.bank = new PinBank(spec.map().inputs());
        this.talk = new BoardTalk(spec, port, clock, bank);
        this.lastPutNs = new long[spec.map().inputs().size()];
        Arrays.fill(lastPutNs, PinBank.NEVER);
        this.thread = new Thread(talk, "board " + spec.name());
        thread.setDaemon(true);
    }

    /** Starts looking for the board. It is closed, and so released, at the latest when the program ends by a signal.
     *
     * @return this
     */
    public Board start() {
        if (hasRealPort) {
            LastRelease.watch(atExit);
        }
        thread.start();
        return this;
    }

    /** All about it.
     *
     * @return what it was made from
     */
    public BoardSpec spec() {
        return spec;
    }

    /** What it is doing.
     *
     * @return the state now
     */
    public BoardState state() {
        return talk.state();
    }

    /** Whether an attempt to reach it has failed, or the link was lost, since {@link #start}.
     *
     * @return false while the first attempt still goes on, and after it as long as the board answers
     */
    public boolean hasFailed() {
        return talk.hasFailed();
    }

    /** What answered.
     *
     * @return name and version, empty before anything did
     */
    public String identity() {
        return talk.identity();
    }

    /** Asks for the outputs to be driven from now on. The caller must have shown the map and the cautions to a person first.
     *
     * <p>Returns at once; {@link #state()} says when it is done.
     *
     * @return {@link Health#OK} when asked, or why it cannot be
     */
    public Health requestArm() {
        return talk.requestArm();
    }

    /** Arms and waits for it.
     *
     * @param withinMs how long to wait
     * @return {@link Health#OK} when the outputs follow commands, or why they do not
     */
    public Health arm(long withinMs) {
        Health asked = requestArm();
        long deadlineNs = clock.nowNs() + withinMs * NS_PER_MS;
        while (asked.isWell() && state() != BoardState.ARMED) {
            if (clock.nowNs() > deadlineNs || state() == BoardState.SEARCHING) {
                return health().isWell()
                        ? Health.lost(name() + " did not confirm within " + withinMs + " ms")
                        : health();
            }
            clock.waitUntil(clock.nowNs() + NS_PER_MS);
        }
        return asked;
    }

    /** Releases every output and stops driving until armed again. */
    public void disarm() {
        talk.disarm();
    }

    /** The counts of an input as they arrived.
     *
     * @param input which one, in the order of the map
     * @return counts without sign, or 0 and 1 for a switch
     */
    public long raw(int input) {
        return bank.raw(input);
    }

    /** The value of an input in its signal's unit.
     *
     * @param input which one, in the order of the map
     * @return the value, NaN before there was one
     */
    public double value(int input) {
        return bank.arrivedNs(input) == PinBank.NEVER ? Double.NaN : bank.value(input);
    }

    /** The age of an input's reading.
     *
     * @param input which one, in the order of the map
     * @return nanoseconds; {@link Long#MAX_VALUE} before there was one
     */
    public long ageNs(int input) {
        long arrivedNs = bank.arrivedNs(input);
        return arrivedNs == PinBank.NEVER ? Long.MAX_VALUE : clock.nowNs() - arrivedNs;
    }

    /** The time from the loop's command until its bytes are handed to the port.
     *
     * @return the meter, still running
     */
    public LatencyMeter handOver() {
        return talk.handOver();
    }

    /** From the arrival of a changed switch to the next changed output, other than the heartbeat, handed to the port; what comes
     * more than 100 ms later is no answer to it.
     *
     * @return the meter, still running
     */
    public LatencyMeter reaction() {
        return talk.reaction();
    }

    @Override
    public void sample(Samples into, long nowNs) {
        for (int i = 0; i < lastPutNs.length; i++) {
            long arrivedNs = bank.arrivedNs(i);
            if (arrivedNs != PinBank.NEVER && arrivedNs != lastPutNs[i]) {
                lastPutNs[i] = arrivedNs;
                into.put(spec.map().inputs().get(i).signal(), bank.value(i), arrivedNs);
            }
        }
    }

    @Override
    public void command(Commands commands, long nowNs) {
        talk.command(commands, nowNs);
    }

    @Override
    public void release() {
        talk.release();
    }

    @Override
    public Health health() {
        return talk.health();
    }

    /** Asks the board's thread to release every output and to end; does not wait for it. */
    void end() {
        talk.close();
    }

    @Override
    public void close() {
        end();
        long untilNs = clock.nowNs() + CLOSE_WITHIN_MS * NS_PER_MS;
        while (thread.isAlive()
                && clock.nowNs() < untilNs
                && !Thread.currentThread().isInterrupted()) {
            clock.waitUntil(clock.nowNs() + NS_PER_MS);
        }
        if (thread.isAlive()) {
            LOG.warn("{} did not end within {} ms; its port is closed under it", name(), CLOSE_WITHIN_MS);
            talk.closePort();
        }
        if (hasRealPort) {
            LastRelease.forget(atExit);
        }
    }

    /** What the board's thread runs, for a test that runs it on its own thread.
     *
     * @return the body of the board's thread
     */
    Runnable talk() {
        return talk;
    }
}
