package sprag.bench.hand.commission.pins;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import sprag.hal.Clock;
import sprag.hal.Device;
import sprag.hal.Health;
import sprag.hal.Samples;
import sprag.hal.board.BoardMap;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** Hazard H14: a board and a bus are driven together or not at all. */
class JoinedPinsTest {
    private final List<String> done = new ArrayList<>();

    /** Notes what is asked of it. */
    private final class Noted implements Pins, Device {
        private final String name;
        private Health arming = Health.OK;
        private boolean connected = true;
        private boolean closeFails;

        Noted(String name) {
            this.name = name;
        }

        @Override
        public Device device() {
            return this;
        }

        @Override
        public String name() {
            return name;
        }

        @Override
        public Set<Signal> samples() {
            return Set.of();
        }

        @Override
        public Set<Output> drives() {
            return Set.of();
        }

        @Override
        public void sample(Samples into, long nowNs) {}

        @Override
        public void command(Commands commands, long nowNs) {
            done.add(name + " commanded");
        }

        @Override
        public void release() {
            done.add(name + " released");
        }

        @Override
        public Health health() {
            return Health.OK;
        }

        @Override
        public Clock clock() {
            return Clock.real();
        }

        @Override
        public String identity() {
            return name;
        }

        @Override
        public Health arm() {
            done.add(name + " armed");
            return arming;
        }

        @Override
        public void disarm() {
            done.add(name + " disarmed");
        }

        @Override
        public boolean isConnected() {
            return connected;
        }

        @Override
        public BoardMap map() {
            return new BoardMap(List.of(), List.of());
        }

        @Override
        public List<String> figures() {
            return List.of();
        }

        @Override
        public void close() {
            done.add(name + " closed");
            if (closeFails) {
                throw new IllegalStateException("the port is gone");
            }
        }
    }

    private final Noted board = new Noted("board");
    private final Noted bus = new Noted("bus");
    private final JoinedPins both = new JoinedPins(board, bus, board.map());

    @Test
    void armed_bothWell_areArmed() {
        assertTrue(both.arm().isWell());
        assertEquals(List.of("board armed", "bus armed"), done);
    }

    @Test
    void armed_busRefuses_boardIsDisarmedAgain() {
        bus.arming = Health.lost("nobody acknowledges");
        assertEquals("nobody acknowledges", both.arm().reason());
        assertEquals(List.of("board armed", "bus armed", "board disarmed", "bus disarmed"), done);
    }

    @Test
    void armed_boardRefuses_busIsNotArmed() {
        board.arming = Health.lost("no answer");
        assertEquals("no answer", both.arm().reason());
        assertEquals(List.of("board armed", "board disarmed", "bus disarmed"), done);
    }

    @Test
    void disarmed_bothAre() {
        both.disarm();
        assertEquals(List.of("board disarmed", "bus disarmed"), done);
    }

    @Test
    void closed_bothAreReleasedBeforeEitherIsWaitedFor() {
        both.close();
        assertEquals(List.of("board released", "bus released", "board closed", "bus closed"), done);
    }

    @Test
    void closed_boardFails_busIsClosedTooAndTheFailureIsSeen() {
        board.closeFails = true;
        assertThrows(IllegalStateException.class, both::close);
        assertEquals(List.of("board released", "bus released", "board closed", "bus closed"), done);
    }

    @Test
    void connected_onlyWhenBothAre() {
        assertTrue(both.isConnected());
        bus.connected = false;
        assertFalse(both.isConnected());
        bus.connected = true;
        board.connected = false;
        assertFalse(both.isConnected());
    }
}
