package sprag.hal.board;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import sprag.hal.Clock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Signal;

/** A driver, its sessions and its port in one, which note what is called and fail when a test says so. */
class FakeBoard implements BoardDriver, BoardSession, Port {
    static final BoardMap MAP = new BoardMap(
            List.of(BoardBench.switchOn(Signal.KEY_ON, "D2"), BoardBench.volts(Signal.PEDAL_A_V, "A0")),
            List.of(
                    BoardBench.relay(Output.POSITIVE_CONTACTOR, "D8"),
                    BoardBench.relay(Output.HEARTBEAT, "D9"),
                    BoardBench.relay(Output.COOLANT_PUMP, "D10")));

    /** Something that a session does, which may fail. */
    interface Act {
        void act(PinSink sink) throws LinkLost;
    }

    /** Every call but those of {@link #turn} and of {@link #drive} without news. */
    final List<String> calls = Collections.synchronizedList(new ArrayList<>());

    volatile Act onOpen = sink -> {};
    volatile Act onConnect = sink -> {};
    volatile Act onTurn = sink -> {};
    volatile Act onArm = sink -> {};
    volatile Act onClose = sink -> {};
    private long[] driven = new long[MAP.outputs().size()];

    BoardSpec spec(Map<Row, Double> settings) {
        return new BoardSpec("bench", this, PortChoice.path("fake"), new BoardSettings(settings), MAP);
    }

    // the session

    @Override
    public void connect(PinSink sink) throws LinkLost {
        onConnect.act(sink);
        calls.add("connect");
    }

    @Override
    public String identity() {
        return "fake 1.0";
    }

    @Override
    public void turn(PinSink sink) throws LinkLost {
        onTurn.act(sink);
    }

    @Override
    public void arm() throws LinkLost {
        onArm.act(null);
        driven = new long[driven.length];
        calls.add("arm");
    }

    @Override
    public boolean drive(long[] raw) {
        boolean news = !Arrays.equals(driven, raw);
        if (news) {
            driven = raw.clone();
            calls.add("drive " + Arrays.toString(raw));
        }
        return news;
    }

    @Override
    public void release() {
        driven = new long[driven.length];
        calls.add("release");
    }

    @Override
    public void leave() {
        calls.add("leave");
    }

    // the port

    @Override
    public String name() {
        return "fake port";
    }

    @Override
    public void open() throws LinkLost {
        onOpen.act(null);
        calls.add("open");
    }

    @Override
    public int read(byte[] into) {
        return 0;
    }

    @Override
    public void write(byte[] bytes, int length) {}

    @Override
    public void drain() {
        calls.add("drain");
    }

    @Override
    public void close() {
        calls.add("close");
        try {
            onClose.act(null);
        } catch (LinkLost e) {
            throw new AssertionError(e);
        }
    }

    // the driver

    @Override
    public String protocol() {
        return "fake";
    }

    @Override
    public String meaning() {
        return "notes what is called";
    }

    @Override
    public List<Row> settings() {
        return List.of();
    }

    @Override
    public int usualBits(PinKind kind) {
        return 1;
    }

    @Override
    public List<MapFault> checkPins(BoardMap map) {
        return List.of();
    }

    @Override
    public BoardSession talk(Port port, BoardMap map, BoardSettings settings, Clock clock) {
        return this;
    }
}
