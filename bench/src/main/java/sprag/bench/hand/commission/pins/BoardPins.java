package sprag.bench.hand.commission.pins;

import java.util.List;
import sprag.bench.cli.Trouble;
import sprag.hal.Clock;
import sprag.hal.Device;
import sprag.hal.Health;
import sprag.hal.board.Board;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSetting;
import sprag.hal.board.BoardState;

/** A board on a port of this machine. */
public final class BoardPins implements Pins {
    private static final long ARM_MS = 2000;
    private static final long GRACE_NS = 3_000_000_000L;
    private static final long LOOK_NS = 5_000_000;

    private final Board board;
    private final Clock clock;

    private BoardPins(Board board, Clock clock) {
        this.board = board;
        this.clock = clock;
    }

    /** Starts a board and waits until it answers.
     *
     * @throws Trouble when it does not
     */
    public static BoardPins connect(Board board, Clock clock) {
        Health unanswered = board.health();
        board.start();
        long untilNs = clock.nowNs() + board.spec().settings().ns(BoardSetting.CONNECT_MS) + GRACE_NS;
        while (board.state() == BoardState.SEARCHING && board.health() == unanswered && clock.nowNs() < untilNs) {
            clock.waitUntil(clock.nowNs() + LOOK_NS);
        }
        if (board.state() == BoardState.SEARCHING) {
            String reason = board.health().reason();
            board.close();
            throw new Trouble(reason);
        }
        return new BoardPins(board, clock);
    }

    @Override
    public Device device() {
        return board;
    }

    @Override
    public Clock clock() {
        return clock;
    }

    @Override
    public String identity() {
        return board.name() + ", " + board.identity();
    }

    @Override
    public Health arm() {
        return board.arm(ARM_MS);
    }

    @Override
    public void disarm() {
        board.disarm();
    }

    @Override
    public boolean isConnected() {
        return board.state() != BoardState.SEARCHING;
    }

    @Override
    public BoardMap map() {
        return board.spec().map();
    }

    @Override
    public List<String> figures() {
        return List.of(
                "from the loop's command to the bytes handed to the port: "
                        + board.handOver().summary(),
                "from the arrival of a changed switch to the next changed output but the heartbeat,"
                        + " within 100 ms: "
                        + board.reaction().summary());
    }

    @Override
    public void close() {
        board.close();
    }
}
