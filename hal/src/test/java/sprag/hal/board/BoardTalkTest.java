package sprag.hal.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.hal.Health;
import sprag.hal.VirtualClock;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** The order in which a board's session is used, and the times that are kept, whatever protocol it speaks. */
class BoardTalkTest {
    private static final long MS = 1_000_000;
    private static final int KEY = 0;
    private static final int PEDAL = 1;

    private final VirtualClock clock = new VirtualClock();
    private final FakeBoard fake = new FakeBoard();
    private final Board board = new Board(fake.spec(Map.of(BoardSetting.RETRY_MS, 500.0)), fake, clock);
    private final Commands commands = new Commands();
    private final long beganNs = clock.nowNs();

    private void runMs(long ms) {
        clock.after(ms, board::close);
        board.talk().run();
        clock.demandChecks();
    }

    private void commandEach10Ms(long fromMs, long toMs) {
        for (long ms = fromMs; ms <= toMs; ms += 10) {
            clock.after(ms, this::command);
        }
    }

    private void command() {
        board.command(commands, clock.nowNs());
    }

    private List<String> callsSince(int from) {
        return List.copyOf(fake.calls.subList(from, fake.calls.size()));
    }

    @Test
    void closed_releasesWaitsForTheBytesLeavesAndClosesInThatOrder() {
        runMs(10);
        assertEquals(List.of("open", "connect", "release", "drain", "leave", "close"), fake.calls);
        assertEquals("bench was closed", board.health().reason());
        assertEquals(BoardState.SEARCHING, board.state());
    }

    @Test
    void neverReached_nothingIsReleasedButThePortIsClosed() {
        fake.onConnect = sink -> {
            throw new LinkLost("nobody answers");
        };
        clock.after(5, () -> assertTrue(board.hasFailed()));
        clock.after(
                5, () -> assertEquals("bench: nobody answers", board.health().reason()));
        assertFalse(board.hasFailed());
        assertEquals("", board.identity());
        runMs(10);
        assertEquals(List.of("open", "close"), fake.calls);
    }

    @Test
    void reached_tellsWhoAnswersAndHasNotFailed() {
        clock.after(5, () -> {
            assertEquals("fake 1.0", board.identity());
            assertEquals(BoardState.READY, board.state());
            assertFalse(board.hasFailed());
        });
        runMs(10);
        assertFalse(board.hasFailed(), "to be closed is no failure");
    }

    @Test
    void lost_isTriedAgainAfterItsTimeAndKnownToHaveFailed() {
        List<Long> openedMs = new ArrayList<>();
        fake.onOpen = sink -> {
            openedMs.add((clock.nowNs() - beganNs) / MS);
            if (openedMs.size() < 3) {
                throw new LinkLost("not there");
            }
        };
        runMs(1200);
        assertEquals(List.of(0L, 500L, 1000L), openedMs);
        assertTrue(board.hasFailed());
    }

    @Test
    void lost_readingsFromBeforeAreUnknown() {
        fake.onTurn = sink -> sink.put(KEY, 1, clock.nowNs());
        clock.after(5, () -> assertEquals(1, board.value(KEY)));
        clock.after(6, () -> assertEquals(1, board.raw(KEY)));
        clock.after(
                10,
                () -> fake.onTurn = sink -> {
                    throw new LinkLost("gone");
                });
        clock.after(20, () -> assertEquals(Double.NaN, board.value(KEY)));
        clock.after(20, () -> assertEquals(Long.MAX_VALUE, board.ageNs(KEY)));
        runMs(30);
    }

    /** A mistake in a driver, or no memory: the outputs must not stay driven. */
    @Test
    void driverFails_outputsAreReleasedAndItIsTriedAgain() {
        List<String> said = new ArrayList<>();
        commands.set(Output.POSITIVE_CONTACTOR, true);
        clock.after(5, board::requestArm);
        commandEach10Ms(10, 40);
        clock.after(
                20,
                () -> fake.onTurn = sink -> {
                    fake.onTurn = later -> {};
                    throw new OutOfMemoryError("no room");
                });
        clock.after(30, () -> said.add(board.health().reason()));
        clock.after(600, () -> assertEquals(BoardState.READY, board.state(), "not armed by itself"));
        runMs(700);
        assertEquals(List.of("bench: the driver for fake failed: java.lang.OutOfMemoryError: no room"), said);
        assertEquals(
                List.of("drive [1, 0, 0]", "release", "drain", "leave", "close", "open", "connect"),
                fake.calls.subList(3, 10));
    }

    @Test
    void reading_getsOlderUntilTheNextOne() {
        fake.onConnect = sink -> sink.put(PEDAL, 1023, clock.nowNs());
        clock.after(5, () -> assertEquals(5 * MS, board.ageNs(PEDAL)));
        clock.after(5, () -> assertEquals(5, board.value(PEDAL), 1e-9));
        clock.after(5, () -> assertEquals(Double.NaN, board.value(KEY), "that one has never come"));
        runMs(10);
    }

    @Test
    void arming_askedBeforeTheBoardAnswers_isRefusedWithTheReason() {
        Health before = board.requestArm();
        assertFalse(before.isWell());
        assertEquals("bench on fake has not answered yet", before.reason());
        Health[] asked = new Health[1];
        clock.after(5, () -> asked[0] = board.requestArm());
        runMs(10);
        assertEquals(Health.OK, asked[0]);
        assertTrue(fake.calls.contains("arm"));
    }

    @ParameterizedTest(name = "{0} ms")
    @CsvSource({"1000, true", "1001, false"})
    void readingHangs_isUnwellAfterASecondWithoutATurn(long ms, boolean well) {
        boolean[] seen = new boolean[1];
        clock.after(
                5,
                () -> fake.onTurn = sink -> {
                    fake.onTurn = later -> {};
                    long turnedNs = clock.nowNs() - MS / 2; // the turn before this one
                    clock.waitUntil(turnedNs + ms * MS);
                    seen[0] = board.health().isWell();
                });
        runMs(3000);
        assertEquals(well, seen[0]);
    }

    @Test
    void release_asked_isSentAtOnceAndOnlyALaterCommandDrivesAgain() {
        commands.set(Output.POSITIVE_CONTACTOR, true);
        clock.after(5, board::requestArm);
        commandEach10Ms(10, 30);
        int[] from = new int[1];
        clock.after(35, () -> {
            from[0] = fake.calls.size();
            board.release();
            command();
        });
        clock.after(40, () -> assertEquals(List.of("release"), callsSince(from[0]), "a command of the same moment"));
        clock.after(41, this::command);
        clock.after(45, () -> assertEquals(List.of("release", "drive [1, 0, 0]"), callsSince(from[0])));
        runMs(50);
    }

    @Test
    void disarmed_isReleasedAndCommandsDriveNothing() {
        commands.set(Output.POSITIVE_CONTACTOR, true);
        clock.after(5, board::requestArm);
        commandEach10Ms(10, 100);
        int[] from = new int[1];
        clock.after(55, () -> {
            from[0] = fake.calls.size();
            board.disarm();
        });
        clock.after(99, () -> {
            assertEquals(List.of("release"), callsSince(from[0]));
            assertEquals(BoardState.READY, board.state());
            assertTrue(board.health().isWell(), "that was meant");
        });
        runMs(110);
    }

    /** The limit counts from command to command: a gap of it is allowed, on either thread. */
    @ParameterizedTest(name = "{0} ms")
    @CsvSource({"250, ARMED", "251, READY"})
    void commandsPause_bothSidesOfTheLimit(long gapMs, BoardState after) {
        clock.after(5, board::requestArm);
        commandEach10Ms(10, 100);
        clock.after(100 + gapMs, this::command);
        clock.after(101 + gapMs, () -> {
            assertEquals(after, board.state());
            assertEquals(after == BoardState.ARMED, board.health().isWell());
        });
        runMs(400);
    }

    @Test
    void commandsStop_theReasonNamesTheTimeAndTheLimit() {
        List<String> said = new ArrayList<>();
        clock.after(5, board::requestArm);
        commandEach10Ms(10, 100);
        clock.after(400, () -> said.add(board.health().reason()));
        runMs(500);
        assertEquals(
                List.of("bench: no command came for 250 ms (limit 250 ms), so the outputs were released; they stay so"
                        + " until it is armed again"),
                said);
    }

    /** Both are longer than a command may stay in force; only the longer one is a standstill of the whole program. */
    @ParameterizedTest(name = "{0} ms")
    @CsvSource({"1499, no command came for 1499 ms", "1500, the program or the computer stood still for 1500 ms"})
    void turnsFarApart_theReasonNamesTheTime(long ms, String reason) {
        List<String> said = new ArrayList<>();
        clock.after(5, board::requestArm);
        commandEach10Ms(10, 100);
        clock.after(100, () -> clock.standStillMs(ms));
        clock.after(101 + ms, () -> said.add(board.health().reason()));
        runMs(3000);
        assertTrue(said.get(0).startsWith("bench: " + reason), said::toString);
    }

    @Test
    void switchChanges_reactionIsTheTimeToTheNextChangedOutput() {
        driving();
        clock.after(50, () -> put(1));
        clock.after(53, () -> {
            commands.set(Output.COOLANT_PUMP, true);
            command();
        });
        clock.after(60, () -> {
            assertEquals(1, board.reaction().count());
            assertEquals(3 * MS, board.reaction().maxNs(), MS);
        });
        clock.after(70, () -> {
            commands.set(Output.COOLANT_PUMP, false);
            command();
        });
        runMs(80);
        assertEquals(1, board.reaction().count(), "that change answers nothing");
    }

    @ParameterizedTest(name = "{0} ms later")
    @CsvSource({"99, 1", "101, 0"})
    void outputChangesLate_isNoReaction(long laterMs, long counted) {
        driving();
        clock.after(50, () -> put(1));
        clock.after(50 + laterMs, () -> {
            commands.set(Output.COOLANT_PUMP, true);
            command();
        });
        runMs(200);
        assertEquals(counted, board.reaction().count());
    }

    @Test
    void heartbeatChanges_isNoReaction() {
        driving();
        clock.after(50, () -> put(1));
        clock.after(53, () -> {
            commands.set(Output.HEARTBEAT, true);
            command();
        });
        runMs(80);
        assertTrue(fake.calls.contains("drive [0, 1, 0]"), fake.calls::toString);
        assertEquals(0, board.reaction().count());
    }

    @Test
    void commandDriven_handOverIsTheTimeFromTheLoop() {
        clock.after(5, board::requestArm);
        clock.after(50, () -> {
            commands.set(Output.COOLANT_PUMP, true);
            board.command(commands, clock.nowNs() - 2 * MS);
        });
        clock.after(60, board::release);
        runMs(80);
        assertEquals(1, board.handOver().count(), "a release is no command");
        assertEquals(2 * MS, board.handOver().maxNs(), MS);
    }

    @Test
    void spec_isWhatTheBoardWasMadeFrom() {
        assertEquals("bench", board.spec().name());
        assertEquals(Set.of(Signal.KEY_ON, Signal.PEDAL_A_V), board.samples());
        assertEquals(Set.of(Output.POSITIVE_CONTACTOR, Output.HEARTBEAT, Output.COOLANT_PUMP), board.drives());
    }

    private void driving() {
        clock.after(4, () -> put(0));
        clock.after(5, board::requestArm);
        commandEach10Ms(10, 200);
    }

    /** The key switch is seen in the next turn. */
    private void put(long level) {
        fake.onTurn = sink -> {
            sink.put(KEY, level, clock.nowNs());
            fake.onTurn = later -> {};
        };
    }
}
