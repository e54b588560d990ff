package sprag.hal.board;

import java.util.List;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import sprag.hal.Clock;
import sprag.hal.Health;
import sprag.hal.LatencyMeter;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;

/** The board's own thread. It opens the port, reads inputs, arms, drives outputs, and starts again after a lost link. */
final class BoardTalk implements Runnable {
    private static final Logger LOG = LoggerFactory.getLogger(BoardTalk.class);
    private static final long NS_PER_MS = 1_000_000;
    private static final long TURN_EVERY_NS = 500_000;
    /** An output that changes later than this after a switch is not counted as a reaction to it. */
    private static final long UNANSWERED_NS = 100_000_000;

    private static final long STUCK_NS = 1_000_000_000;
    /**
     * Two turns further apart than this mean that the program or the computer stood still. A sound turn takes at most a second:
     * the longest that a driver repeats a request.
     */
    private static final long STOPPED_NS = 1_500_000_000;

    private final BoardSpec spec;
    private final Port port;
    private final Clock clock;
    private final PinBank bank;
    private final List<OutputPin> outputs;
    private final Handover requests;
    private final long[] wanted;
    private final long[] safe;
    /** Which output is the heartbeat, -1 when there is none: it changes in every tick, so it is never counted as a reaction. */
    private final int beat;

    private final LatencyMeter handOver = new LatencyMeter();
    private final LatencyMeter reaction = new LatencyMeter();

    private volatile BoardState state = BoardState.SEARCHING;
    private volatile boolean failed;
    private volatile Health health;
    private volatile String identity = "";
    private volatile boolean armAsked;
    private volatile boolean disarmAsked;
    private volatile boolean closing;
    private volatile long releasedAtNs = PinBank.NEVER;
    private volatile long turnedAtNs;
    private volatile long armedAtNs = PinBank.NEVER;
    private volatile long commandGapNs;
    private long turnedOutsideNs;
    private long lastCommandNs = PinBank.NEVER;
    private long lastCommandOutsideNs;
    private boolean connected;
    private String lostWhileArmed = "";
    private long releaseDoneNs = PinBank.NEVER;
    private long commandedAtNs = PinBank.NEVER;

    BoardTalk(BoardSpec spec, Port port, Clock clock, PinBank bank) {
        this.spec = spec;
        this.port = port;
        this.clock = clock;
        this.bank = bank;
        this.outputs = spec.map().outputs();
        this.requests = new Handover(outputs.size() + 1);
        this.wanted = new long[outputs.size()];
        this.safe = new long[outputs.size()];
        int heartbeat = -1;
        for (int i = 0; i < safe.length; i++) {
            safe[i] = outputs.get(i).safeRaw();
            heartbeat = outputs.get(i).output() == Output.HEARTBEAT ? i : heartbeat;
        }
        this.beat = heartbeat;
        this.health = Health.lost(spec.name() + " on " + spec.port() + " has not answered yet");
    }

    // what the loop's thread and others call

    BoardState state() {
        return state;
    }

    boolean hasFailed() {
        return failed;
    }

    String identity() {
        return identity;
    }

    LatencyMeter handOver() {
        return handOver;
    }

    LatencyMeter reaction() {
        return reaction;
    }

    Health health() {
        if (state != BoardState.SEARCHING && clock.nowNs() - turnedAtNs > STUCK_NS) {
            return Health.lost(spec.name() + ": nothing was read from or written to " + port.name() + " for a second");
        }
        return health;
    }

    Health requestArm() {
        if (state == BoardState.SEARCHING) {
            return health().isWell() ? Health.lost(spec.name() + " is not connected") : health();
        }
        armAsked = true;
        return Health.OK;
    }

    void disarm() {
        disarmAsked = true;
        release();
    }

    void release() {
        releasedAtNs = clock.nowNs();
    }

    /** In this order: once a release is seen, nothing is driven any more. */
    void close() {
        closing = true;
        release();
    }

    void closePort() {
        port.close();
    }

    void command(Commands commands, long nowNs) {
        noteGap(nowNs);
        long[] row = requests.rowToWrite();
        for (int i = 0; i < wanted.length; i++) {
            OutputPin pin = outputs.get(i);
            row[i] = pin.raw(commands.get(pin.output()));
        }
        row[wanted.length] = nowNs;
        requests.publish();
    }

    /**
     * Between two commands the earlier one stayed in force at the pins. When the whole program stood still, the loop may come
     * back before the board's thread and give it a fresh command, so the time is taken here, where it cannot be missed.
     */
    private void noteGap(long nowNs) {
        long outsideNs = clock.outsideNs();
        boolean inForce = lastCommandNs != PinBank.NEVER
                && state == BoardState.ARMED
                && lastCommandNs > armedAtNs
                && (releasedAtNs == PinBank.NEVER || lastCommandNs > releasedAtNs);
        long gapNs = Math.max(nowNs - lastCommandNs, outsideNs - lastCommandOutsideNs);
        if (inForce && gapNs > spec.settings().ns(BoardSetting.COMMAND_MS)) {
            commandGapNs = gapNs;
        }
        lastCommandNs = nowNs;
        lastCommandOutsideNs = outsideNs;
    }

    // the board's thread

    @Override
    public void run() {
        while (!closing) {
            BoardSession session = spec.driver().talk(port, spec.map(), spec.settings(), clock);
            try {
                port.open();
                session.connect(bank);
                ready(session);
                while (!closing) {
                    turn(session);
                    clock.waitUntil(clock.nowNs() + TURN_EVERY_NS);
                }
                letGo(session);
                health = Health.lost(spec.name() + " was closed");
            } catch (LinkLost e) {
                lose(session, e.getMessage());
            } catch (RuntimeException | Error e) { // out of memory, too: the outputs must not stay driven
                lose(session, "the driver for " + spec.driver().protocol() + " failed: " + e);
                LOG.error(
                        "{}: the driver for {} failed",
                        spec.name(),
                        spec.driver().protocol(),
                        e);
            }
            waitBeforeNextAttempt();
        }
    }

    private void ready(BoardSession session) {
        identity = session.identity();
        armAsked = false;
        commandedAtNs = PinBank.NEVER;
        turnedAtNs = clock.nowNs();
        turnedOutsideNs = clock.outsideNs();
        health = lostWhileArmed.isEmpty()
                ? Health.OK
                : Health.lost(spec.name() + " is back, but its outputs stay released until it is armed again; before: "
                        + lostWhileArmed);
        state = BoardState.READY;
        connected = true;
        LOG.info("{}: {} on {}", spec.name(), identity, port.name());
    }

    private void turn(BoardSession session) throws LinkLost {
        session.turn(bank);
        demandNoGap(session);
        if (disarmAsked) {
            disarmAsked = false;
            disarmNow(session);
        } else if (armAsked) {
            armAsked = false;
            armNow(session);
        }
        if (state == BoardState.ARMED) {
            follow(session);
        }
        forgetUnanswered();
    }

    /** A program that was stopped, or a computer that slept, must not go on driving when it comes back. */
    private void demandNoGap(BoardSession session) throws LinkLost {
        long nowNs = clock.nowNs();
        long outsideNs = clock.outsideNs();
        long stoodNs = Math.max(nowNs - turnedAtNs, outsideNs - turnedOutsideNs);
        turnedAtNs = nowNs;
        turnedOutsideNs = outsideNs;
        long gapNs = stoodNs > STOPPED_NS ? stoodNs : commandGapNs;
        if (gapNs > 0 && state == BoardState.ARMED) {
            armAsked = false;
            stopDriving(
                    session,
                    "the program or the computer stood still for " + gapNs / NS_PER_MS
                            + " ms, or the computer's date was changed");
        }
        commandGapNs = 0;
    }

    private void armNow(BoardSession session) throws LinkLost {
        session.arm();
        turnedAtNs = clock.nowNs();
        turnedOutsideNs = clock.outsideNs();
        armedAtNs = turnedAtNs;
        commandGapNs = 0;
        commandedAtNs = PinBank.NEVER;
        releaseDoneNs = releasedAtNs;
        requests.take(); // what was asked before arming is not meant
        lostWhileArmed = "";
        health = Health.OK;
        state = BoardState.ARMED;
        LOG.info("{}: armed", spec.name());
    }

    private void disarmNow(BoardSession session) throws LinkLost {
        if (state == BoardState.ARMED) {
            state = BoardState.READY;
            session.release();
            LOG.info("{}: disarmed, outputs released", spec.name());
        }
    }

    private void follow(BoardSession session) throws LinkLost {
        boolean news = requests.take();
        long[] row = requests.rowTaken();
        long askedNs = row[wanted.length];
        if (releasedAtNs != releaseDoneNs) {
            releaseDoneNs = releasedAtNs;
            commandedAtNs = PinBank.NEVER;
            session.release();
        }
        boolean answer = false;
        if (news && (releaseDoneNs == PinBank.NEVER || askedNs > releaseDoneNs)) {
            answer = differs(row);
            System.arraycopy(row, 0, wanted, 0, wanted.length);
            commandedAtNs = askedNs;
        }
        if (commandedAtNs == PinBank.NEVER) {
            System.arraycopy(safe, 0, wanted, 0, wanted.length);
        } else {
            demandCommands(session);
        }
        // The loop may go on with its commands after the end was asked for; they must not follow the release.
        if (!closing && state == BoardState.ARMED && session.drive(wanted)) {
            measure(commandedAtNs, answer);
        }
    }

    private boolean differs(long[] row) {
        boolean differs = false;
        for (int i = 0; i < wanted.length; i++) {
            differs |= i != beat && row[i] != wanted[i];
        }
        return differs;
    }

    /** When the loop has stopped, its last command must not stay in force. */
    private void demandCommands(BoardSession session) throws LinkLost {
        long silentNs = clock.nowNs() - commandedAtNs;
        if (silentNs > spec.settings().ns(BoardSetting.COMMAND_MS)) {
            stopDriving(
                    session,
                    "no command came for " + silentNs / NS_PER_MS + " ms (limit "
                            + spec.settings().whole(BoardSetting.COMMAND_MS) + " ms)");
        }
    }

    private void stopDriving(BoardSession session, String why) throws LinkLost {
        lostWhileArmed = why; // first: the release itself may find the link lost
        disarmNow(session);
        health = Health.lost(
                spec.name() + ": " + why + ", so the outputs were released; they stay so until it is armed again");
        LOG.warn("{}", health.reason());
    }

    private void measure(long askedNs, boolean answer) {
        long nowNs = clock.nowNs();
        if (askedNs != PinBank.NEVER) {
            handOver.record(nowNs - askedNs);
        }
        if (answer && bank.changedAtNs() != PinBank.NEVER) {
            reaction.record(nowNs - bank.changedAtNs());
            bank.answered();
        }
    }

    private void forgetUnanswered() {
        if (bank.changedAtNs() != PinBank.NEVER && clock.nowNs() - bank.changedAtNs() > UNANSWERED_NS) {
            bank.answered();
        }
    }

    private void lose(BoardSession session, String words) {
        boolean wasArmed = state == BoardState.ARMED;
        String reason = spec.name() + ": " + words;
        boolean news = !reason.equals(health.reason());
        health = Health.lost(reason);
        failed = true;
        state = BoardState.SEARCHING;
        if (wasArmed) {
            lostWhileArmed = words;
        }
        letGo(session);
        bank.startAnew();
        // The warning comes last: when nobody reads the log, writing to it may wait for ever.
        if (news) { // a board that is searched for again and again says the same each time
            LOG.warn("{}{}", reason, wasArmed ? "; outputs released" : "");
        }
    }

    private void letGo(BoardSession session) {
        try {
            if (connected) {
                session.release();
                port.drain();
                session.leave();
            }
        } catch (LinkLost | RuntimeException e) {
            LOG.info(
                    "{}: the release could not be sent ({}); the board's own watchdog or its pull-downs must act",
                    spec.name(),
                    e.getMessage());
        }
        connected = false;
        state = BoardState.SEARCHING;
        port.close();
    }

    private void waitBeforeNextAttempt() {
        long untilNs = clock.nowNs() + spec.settings().ns(BoardSetting.RETRY_MS);
        while (!closing && clock.nowNs() < untilNs) {
            clock.waitUntil(Math.min(untilNs, clock.nowNs() + 20_000_000));
        }
    }
}
