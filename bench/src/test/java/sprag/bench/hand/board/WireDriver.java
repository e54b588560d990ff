package sprag.bench.hand.board;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import sprag.hal.Clock;
import sprag.hal.board.BoardDriver;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSession;
import sprag.hal.board.BoardSettings;
import sprag.hal.board.LinkLost;
import sprag.hal.board.MapFault;
import sprag.hal.board.PinKind;
import sprag.hal.board.PinSink;
import sprag.hal.board.Port;
import sprag.supervisor.vocabulary.Row;

/**
 * A third protocol, made of this one file and one line in {@code META-INF/services}: every output is wired to the input of the
 * same number, and every analogue input shows what the test puts there.
 */
public final class WireDriver implements BoardDriver {
    /** The lock of every test that uses this driver, because what it shows and does is kept once for all. */
    public static final String LOCK = "WireDriver";

    static volatile long analogue;
    static volatile boolean dead;
    static volatile long everDriven;

    @Override
    public String protocol() {
        return "wire";
    }

    @Override
    public String meaning() {
        return "a piece of wire";
    }

    @Override
    public List<Row> settings() {
        return List.of();
    }

    @Override
    public int usualBits(PinKind kind) {
        return 10;
    }

    @Override
    public List<MapFault> checkPins(BoardMap map) {
        return new ArrayList<>();
    }

    @Override
    public BoardSession talk(Port port, BoardMap map, BoardSettings settings, Clock clock) {
        return new BoardSession() {
            private final long[] wire = new long[16];

            @Override
            public void connect(PinSink sink) throws LinkLost {
                turn(sink);
            }

            @Override
            public String identity() {
                return "a piece of wire";
            }

            @Override
            public void turn(PinSink sink) throws LinkLost {
                if (dead) {
                    throw new LinkLost("the wire is cut");
                }
                for (int i = 0; i < map.inputs().size(); i++) {
                    boolean number = map.inputs().get(i).kind() == PinKind.ANALOGUE;
                    sink.put(
                            i,
                            number
                                    ? analogue
                                    : wire[Integer.parseInt(map.inputs().get(i).pin())],
                            clock.nowNs());
                }
            }

            @Override
            public void arm() {}

            @Override
            public boolean drive(long[] raw) {
                boolean changed = false;
                for (int i = 0; i < raw.length; i++) {
                    int pin = Integer.parseInt(map.outputs().get(i).pin());
                    changed |= wire[pin] != raw[i];
                    wire[pin] = raw[i];
                    everDriven |= raw[i];
                }
                return changed;
            }

            @Override
            public void release() {
                Arrays.fill(wire, 0);
            }
        };
    }
}
