package sprag.hal.bus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.hal.VirtualClock;
import sprag.hal.board.LinkLost;

/** A log of a bus that is played as if an adapter were there. */
class LogPortTest {
    private static final long MS = 1_000_000;

    @TempDir
    Path folder;

    private final VirtualClock clock = new VirtualClock();
    private Path file;

    private LogPort log(String... lines) throws IOException {
        file = folder.resolve("drive.log");
        Files.writeString(file, String.join("\n", lines) + "\n");
        return new LogPort(file, clock);
    }

    private static void command(LogPort port, String bytes) {
        byte[] all = (bytes + "?").getBytes(StandardCharsets.US_ASCII);
        port.write(all, all.length - 1);
    }

    private static String read(LogPort port, int room) throws LinkLost {
        byte[] into = new byte[room];
        return new String(into, 0, port.read(into), StandardCharsets.US_ASCII).replace('\r', '|');
    }

    /** Opened, and played from now on. */
    private LogPort playing(String... lines) throws Exception {
        LogPort port = log(lines);
        port.open();
        command(port, "L\r");
        assertEquals("|", read(port, 1), "the answer");
        return port;
    }

    @Test
    void frames_played_comeAtTheirTimesAndNotSooner() throws Exception {
        LogPort port = playing(
                "(1700000000.000000) can0 123#11",
                "(1700000000.010000) can0 123#22",
                "(1700000000.010001) can0 00000124#33");
        assertEquals("t123111|", read(port, 100), "the first comes at once");
        clock.waitUntil(clock.nowNs() + 10 * MS - 1);
        assertEquals("", read(port, 100), "the second is not due yet");
        clock.waitUntil(clock.nowNs() + 1);
        assertEquals("t123122|", read(port, 100));
        clock.waitUntil(clock.nowNs() + MS);
        assertEquals("T00000124133|", read(port, 100));
    }

    @Test
    void end_reached_isToldWithTheNumberOfTheLastLine() throws Exception {
        LogPort port = playing("(1.000000) can0 123#11", "", "(1.000000) can0 123##1112233");
        assertEquals("t123111|", read(port, 100));
        LinkLost ended = assertThrows(LinkLost.class, () -> read(port, 100));
        assertTrue(ended.getMessage().contains("drive.log has ended after line 3"), ended.getMessage());
    }

    /** Such a log must not look like a bus on which nobody speaks. */
    @Test
    void logWithoutAFrame_played_hasEnded() throws Exception {
        LogPort port = playing("", "(1.000000) can0 123##1112233");
        LinkLost ended = assertThrows(LinkLost.class, () -> read(port, 100));
        assertTrue(ended.getMessage().contains("has ended after line 2"), ended.getMessage());
    }

    @Test
    void notStarted_read_givesAnswersAndNoFrame() throws Exception {
        LogPort port = log("(1.000000) can0 123#11");
        port.open();
        assertEquals("", read(port, 100));
        command(port, "C\rVO\rS6\r");
        assertEquals("||", read(port, 2), "as many answers as there is room for");
        assertEquals("|", read(port, 100), "and the rest later");
        assertEquals("", read(port, 100), "the letter that starts it stood inside a command");
        command(port, "S6\rO\r");
        assertEquals("||t123111|", read(port, 100), "here it is a command of its own");
    }

    @Test
    void readerWithLittleRoom_getsWholeFramesOneAtATime() throws Exception {
        LogPort port = playing("(1.000000) can0 123#11", "(1.000000) can0 123#22", "(1.000000) can0 123#33");
        int longest = SlcanText.LONGEST + 1;
        assertEquals("", read(port, longest - 1), "no room for the longest frame");
        assertEquals("t123111|", read(port, longest));
        assertEquals("t123122|t123133|", read(port, longest + 8));
    }

    @Test
    void openedAgain_playsFromTheBeginningAndForgetsOldAnswers() throws Exception {
        LogPort port = playing("(1.000000) can0 123#11", "(5.000000) can0 123#22");
        assertEquals("t123111|", read(port, 100));
        command(port, "V\r");
        port.open();
        assertEquals("", read(port, 100), "nobody has joined the bus since");
        command(port, "O\r");
        assertEquals("|t123111|", read(port, 100));
        port.close();
        port.close();
        clock.waitUntil(clock.nowNs() + 10_000 * MS);
        LinkLost closed = assertThrows(LinkLost.class, () -> read(port, 100));
        assertTrue(closed.getMessage().contains("is closed"), closed.getMessage());
    }

    @Test
    void lineThatIsNone_isNamedWithItsNumber() throws Exception {
        LogPort port = playing("(1.000000) can0 123#11", "hello");
        LinkLost broken = assertThrows(LinkLost.class, () -> read(port, 100));
        assertTrue(broken.getMessage().startsWith(file + ":2: \"hello\" is no line of a log"), broken.getMessage());
    }

    @Test
    void fileThatIsNotThere_opened_isNamed() throws Exception {
        LogPort port = new LogPort(folder.resolve("none.log"), clock);
        LinkLost lost = assertThrows(LinkLost.class, port::open);
        assertTrue(lost.getMessage().contains("none.log cannot be read"), lost.getMessage());
        assertEquals(folder.resolve("none.log").toString(), port.name());
    }

    @Test
    void playedThroughALine_framesArriveAsFromAnAdapter() throws Exception {
        LogPort port = log("(1.000000) can0 123#1122", "(1.020000) can0 18FF4521#R2");
        port.open();
        SlcanLine line = new SlcanLine(port, clock);
        line.open(500, true);
        CanFrame frame = new CanFrame();
        assertTrue(line.next(frame));
        assertEquals("123#1122", frame.toString());
        assertFalse(line.next(frame));
        clock.waitUntil(clock.nowNs() + 20 * MS);
        assertTrue(line.next(frame));
        assertEquals("18FF4521#R2", frame.toString());
    }
}
