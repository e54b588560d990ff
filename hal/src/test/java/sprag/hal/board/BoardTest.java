package sprag.hal.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;
import sprag.hal.Clock;
import sprag.hal.Health;
import sprag.hal.VirtualClock;

/** A board whose thread is its own: arming it, closing it, and what happens when it hangs. */
class BoardTest {
    private static final long MS = 1_000_000;

    private final FakeBoard fake = new FakeBoard();

    /** Time for several threads: it moves on whenever one of them waits. */
    private static final class SharedClock implements Clock {
        private final AtomicLong now = new AtomicLong(1_000_000_000);

        @Override
        public long nowNs() {
            return now.get();
        }

        @Override
        public void waitUntil(long deadlineNs) {
            now.accumulateAndGet(deadlineNs, Math::max);
            Thread.yield();
        }
    }

    private static void await(Board board, BoardState state) {
        PseudoTerminals.await("state " + state, PseudoTerminals.WATCHDOG_NS, () -> board.state() == state);
    }

    @Test
    void armed_waitsUntilTheOutputsFollow() {
        Board board = new Board(fake.spec(Map.of()), fake, new SharedClock());
        assertFalse(board.arm(10).isWell(), "nobody has answered yet");
        assertEquals(board, board.start());
        await(board, BoardState.READY);
        assertEquals(Health.OK, board.arm(1_000_000_000));
        assertEquals(BoardState.ARMED, board.state());
        board.disarm();
        await(board, BoardState.READY);
        board.close();
        PseudoTerminals.await("the end", PseudoTerminals.WATCHDOG_NS, () -> fake.calls.contains("close"));
        assertTrue(fake.calls.contains("arm"));
        assertTrue(fake.calls.contains("leave"), fake.calls::toString);
    }

    @Test
    void armed_boardIsLostMeanwhile_tellsWhy() {
        fake.onArm = sink -> {
            fake.onOpen = again -> {
                throw new LinkLost("pulled");
            };
            throw new LinkLost("pulled");
        };
        Board board = new Board(fake.spec(Map.of()), fake, new SharedClock()).start();
        await(board, BoardState.READY);
        assertEquals("bench: pulled", board.arm(1_000_000_000).reason());
        board.close();
    }

    /** Here the board's thread is the one that waits, so it cannot confirm. */
    @Test
    void armed_boardDoesNotConfirm_saysSoWhenTheTimeIsOver() {
        VirtualClock clock = new VirtualClock();
        Board board = new Board(fake.spec(Map.of()), fake, clock);
        clock.after(10, () -> {
            long beganNs = clock.nowNs();
            Health health = board.arm(100);
            assertEquals("bench did not confirm within 100 ms", health.reason());
            assertTrue(clock.nowNs() > beganNs + 100 * MS, "all of its time was waited for");
            assertTrue(clock.nowNs() <= beganNs + 101 * MS, "and no more");
        });
        clock.after(200, board::close);
        board.talk().run();
        clock.demandChecks();
    }

    /** The board's thread hangs in its port. Closing the port is what ends such a call. */
    @Test
    void closed_boardHangs_itsPortIsClosedUnderItAfterASecond() throws InterruptedException {
        VirtualClock clock = new VirtualClock();
        Board board = hanging(clock);
        long beganNs = clock.nowNs();
        long[] closedNs = new long[1];
        CountDownLatch ended = whenPortCloses(() -> closedNs[0] = clock.nowNs());
        board.close();
        ended.await();
        assertEquals(1000 * MS, closedNs[0] - beganNs);
    }

    /** Who is interrupted must not wait: the program ends. */
    @Test
    void closed_byAThreadThatIsInterrupted_doesNotWait() throws InterruptedException {
        VirtualClock clock = new VirtualClock();
        Board board = hanging(clock);
        long beganNs = clock.nowNs();
        long[] closedNs = new long[1];
        CountDownLatch ended = whenPortCloses(() -> closedNs[0] = clock.nowNs());
        Thread.currentThread().interrupt();
        board.close();
        assertTrue(Thread.interrupted(), "still to be seen by others");
        ended.await();
        assertEquals(beganNs, closedNs[0]);
    }

    private final CountDownLatch portClosed = new CountDownLatch(1);
    private volatile boolean onADaemon;

    private Board hanging(Clock clock) throws InterruptedException {
        CountDownLatch hangs = new CountDownLatch(1);
        fake.onTurn = sink -> {
            onADaemon = Thread.currentThread().isDaemon();
            hangs.countDown();
            try {
                portClosed.await();
            } catch (InterruptedException e) {
                throw new AssertionError(e);
            }
            throw new LinkLost("closed under it");
        };
        Board board = new Board(fake.spec(Map.of()), fake, clock).start();
        hangs.await();
        assertTrue(onADaemon, "a board that hangs does not keep the program from ending");
        return board;
    }

    /** Lets the hanging call end; counts down when the board's thread closes the port itself at its end. */
    private CountDownLatch whenPortCloses(Runnable first) {
        CountDownLatch ended = new CountDownLatch(1);
        fake.onClose = sink -> {
            if (portClosed.getCount() > 0) {
                first.run();
                portClosed.countDown();
            } else {
                ended.countDown();
            }
        };
        return ended;
    }

    @Test
    void programEnds_boardOnARealPortIsReleasedByTheHook() {
        Board board =
                Board.onMachine(fake.spec(Map.of()), fake, new SharedClock()).start();
        await(board, BoardState.READY);
        LastRelease.closeAll();
        PseudoTerminals.await("the end", PseudoTerminals.WATCHDOG_NS, () -> fake.calls.contains("close"));
        assertTrue(fake.calls.containsAll(List.of("release", "leave")), fake.calls::toString);
    }

    @Test
    void programEnds_boardOnAnotherPortIsLeftToItsUser() {
        Board board = new Board(fake.spec(Map.of()), fake, new SharedClock()).start();
        await(board, BoardState.READY);
        LastRelease.closeAll();
        assertEquals(BoardState.READY, board.state());
        board.close();
    }
}
