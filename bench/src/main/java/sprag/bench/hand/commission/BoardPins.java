package sprag.bench.hand.commission;

import java.util.List;
import sprag.hal.Clock;
import sprag.hal.Device;
import sprag.hal.Health;
import sprag.hal.board.Board;
import sprag.hal.board.BoardMap;

/** A board on a port of this machine. */
final class BoardPins implements Pins {
    private static final long ARM_MS = 2000;

    private final Board board;
    private final Clock clock;

    BoardPins(Board board, Clock clock) {
        this.board = board;
        this.clock = clock;
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
        return board.state() != Board.State.SEARCHING;
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
