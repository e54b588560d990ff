package sprag.bench.hand.commission.pins;

import java.util.ArrayList;
import java.util.List;
import sprag.hal.Clock;
import sprag.hal.Device;
import sprag.hal.DeviceGroup;
import sprag.hal.Health;
import sprag.hal.board.BoardMap;

/** The pins of a board and the messages of a data bus, commissioned together. */
public final class JoinedPins implements Pins {
    private final Pins board;
    private final Pins bus;
    private final BoardMap map;
    private final Device device;

    /** Joins both.
     *
     * @param map the inputs and outputs of both
     */
    public JoinedPins(Pins board, Pins bus, BoardMap map) {
        this.board = board;
        this.bus = bus;
        this.map = map;
        this.device = new DeviceGroup(List.of(board.device(), bus.device()));
    }

    @Override
    public Device device() {
        return device;
    }

    @Override
    public Clock clock() {
        return board.clock();
    }

    @Override
    public String identity() {
        return board.identity() + "; " + bus.identity();
    }

    @Override
    public Health arm() {
        Health first = board.arm();
        Health both = first.isWell() ? bus.arm() : first;
        if (!both.isWell()) {
            disarm();
        }
        return both;
    }

    @Override
    public void disarm() {
        board.disarm();
        bus.disarm();
    }

    @Override
    public boolean isConnected() {
        return board.isConnected() && bus.isConnected();
    }

    @Override
    public BoardMap map() {
        return map;
    }

    @Override
    public List<String> figures() {
        List<String> all = new ArrayList<>();
        board.figures().forEach(line -> all.add("board: " + line));
        bus.figures().forEach(line -> all.add("bus: " + line));
        return all;
    }

    @Override
    public void close() {
        device.release(); // both first: one that hangs must not delay the release of the other
        try {
            board.close();
        } finally {
            bus.close();
        }
    }
}
