package sprag.bench.panel;

import sprag.bench.panel.session.BoardLink;
import sprag.hal.Device;
import sprag.hal.Health;
import sprag.hal.board.Board;

/** A board on a port of this machine. */
final class RealBoard implements BoardLink {
    private final Board board;

    /** Starts to look for it. */
    RealBoard(Board board) {
        this.board = board.start();
    }

    @Override
    public Device device() {
        return board;
    }

    @Override
    public Stage stage() {
        return switch (board.state()) {
            case SEARCHING -> Stage.SEARCHING;
            case READY -> Stage.READY;
            case ARMED -> Stage.ARMED;
        };
    }

    @Override
    public String identity() {
        return board.identity();
    }

    @Override
    public String figures() {
        return "arrival of a changed switch to port " + board.reaction().summary() + "; hand-over "
                + board.handOver().summary();
    }

    @Override
    public Health arm() {
        return board.requestArm();
    }

    @Override
    public void disarm() {
        board.disarm();
    }
}
