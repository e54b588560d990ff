package sprag.hal.bus;

import java.util.List;
import sprag.hal.Clock;
import sprag.hal.board.BoardDriver;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSession;
import sprag.hal.board.BoardSettings;
import sprag.hal.board.MapFault;
import sprag.hal.board.PinKind;
import sprag.hal.board.Port;
import sprag.supervisor.vocabulary.Row;

/** A bus with its messages, in the place of a board's protocol. A bus file makes it; no board file can name it. */
public final class BusDriver implements BoardDriver {
    private final BusMap map;
    private volatile FrameListener listener = FrameListener.NOBODY;

    /** Speaks these messages.
     *
     * @param map which
     */
    public BusDriver(BusMap map) {
        this.map = map;
    }

    /** The messages.
     *
     * @return as given
     */
    public BusMap map() {
        return map;
    }

    /** Tells somebody of every frame from now on, on the thread of the port.
     *
     * @param who in the place of whoever was told before
     */
    public void listen(FrameListener who) {
        listener = who;
    }

    @Override
    public String protocol() {
        return "bus";
    }

    @Override
    public String meaning() {
        return "a data bus (CAN, ISO 11898); pins are fields of messages";
    }

    @Override
    public List<Row> settings() {
        return List.of();
    }

    @Override
    public int usualBits(PinKind kind) {
        return kind.twoState ? 1 : 16;
    }

    @Override
    public List<MapFault> checkPins(BoardMap pins) {
        return List.of();
    }

    @Override
    public BoardSession talk(Port port, BoardMap pins, BoardSettings settings, Clock clock) {
        return new BusSession(port, map, clock, (frame, sent, nowNs) -> listener.frame(frame, sent, nowNs));
    }
}
