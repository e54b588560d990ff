package sprag.bench.loop.record;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.LongSupplier;
import java.util.zip.CRC32;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.VehicleReader;
import sprag.hal.bus.CanFrame;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;

/** Frames of a data bus in a recording come back as they were, up to the last whole block, and damage among them is noticed. */
class RecordedFramesTest {
    private static final int TICKS = 730;
    private static final int MOST_FRAMES_A_TICK = 30;
    private static final long ZERO_NS = 7_777_777_777L;

    @TempDir
    Path folder;

    private Settings settings;
    private final List<String> written = new ArrayList<>();

    @BeforeEach
    void vehicle() throws Exception {
        settings = VehicleReader.read(Catalogue.installed().vehicle("coupe")).settings();
    }

    private static String text(CanFrame frame, boolean sent, long timeNs) {
        return timeNs + (sent ? " sent " : " heard ") + frame;
    }

    private Path record(int framesATick) throws IOException {
        return record(framesATick, () -> 0);
    }

    private Path record(int framesATick, LongSupplier wallNs) throws IOException {
        Path file = folder.resolve("recording.sprag");
        Random random = new Random(5);
        Supervisor supervisor = new Supervisor(settings);
        Readings in = new Readings();
        Commands out = new Commands();
        CanFrame frame = new CanFrame();
        Heading heading = Heading.of("coupe", "frames", settings, supervisor.without());
        try (Recorder recorder =
                new Recorder(file, heading, supervisor, Recorder.Pace.SIMULATED, wallNs).startingAt(ZERO_NS)) {
            for (int tick = 0; tick < TICKS; tick++) {
                for (int n = framesATick == 0 ? 0 : random.nextInt(framesATick); n > 0; n--) {
                    boolean extended = random.nextBoolean();
                    frame.begin(random.nextInt(extended ? 1 << 29 : 1 << 11), extended, random.nextInt(9));
                    for (int i = 0; i < frame.length(); i++) {
                        frame.data()[i] = (byte) random.nextInt();
                    }
                    if (random.nextInt(20) == 0) {
                        frame.begin(frame.id(), extended, frame.length()).asRemote();
                    }
                    boolean sent = random.nextBoolean();
                    long nowNs = tick * 10_000_000L + random.nextInt(10_000_000);
                    written.add(text(frame, sent, nowNs));
                    recorder.frame(frame, sent, ZERO_NS + nowNs);
                }
                supervisor.step(tick, in, out);
                recorder.ticked(tick, in, out);
            }
        }
        return file;
    }

    private record Read(List<String> frames, long ticks, String missing) {}

    private static Read read(byte[] bytes) throws IOException {
        List<String> frames = new ArrayList<>();
        try (Recording recording = new Recording(new ByteArrayInputStream(bytes))) {
            recording.listen((frame, sent, timeNs) -> frames.add(text(frame, sent, timeNs)));
            recording.readToEnd();
            assertEquals(frames.size(), recording.frames());
            return new Read(frames, recording.tick() + 1, recording.missing());
        }
    }

    @Test
    void framesAndTicks_readAgain_areTheSame() throws Exception {
        Read read = read(Files.readAllBytes(record(MOST_FRAMES_A_TICK)));
        assertTrue(written.size() > 8000, "more than one hand-over: " + written.size());
        assertEquals(written, read.frames);
        assertEquals(TICKS, read.ticks);
        assertEquals("", read.missing);
    }

    /** How fast the machine was must not show in what was simulated. */
    @Test
    void sameRun_onASlowMachineOrAFast_leavesTheSameBytes() throws Exception {
        byte[] fast = Files.readAllBytes(record(MOST_FRAMES_A_TICK, () -> 0));
        AtomicLong slow = new AtomicLong();
        assertArrayEquals(fast, Files.readAllBytes(record(MOST_FRAMES_A_TICK, () -> slow.addAndGet(1_000_000_000))));
        AtomicLong now = new AtomicLong();
        LongSupplier uneven = () -> now.addAndGet(now.get() % 3 == 0 ? 250_000_001 : 1);
        assertArrayEquals(fast, Files.readAllBytes(record(MOST_FRAMES_A_TICK, uneven)));
    }

    @Test
    void cutAnywhere_saysSoAndGivesThoseBefore() throws Exception {
        byte[] whole = Files.readAllBytes(record(MOST_FRAMES_A_TICK));
        for (int length = beforeBlocks(whole); length < whole.length; length += 4999) {
            Read read = read(Arrays.copyOf(whole, length));
            assertTrue(read.missing.startsWith("The recording was cut off after "), "cut at " + length);
            assertEquals(written.subList(0, read.frames.size()), read.frames);
        }
    }

    @Test
    void anyBitOfABlock_flipped_isNoticed() throws Exception {
        byte[] whole = Files.readAllBytes(record(MOST_FRAMES_A_TICK));
        int first = beforeBlocks(whole);
        Random random = new Random(3);
        for (int at = first; at < whole.length; at += at < first + 40 ? 1 : 3989) {
            byte[] flipped = whole.clone();
            flipped[at] ^= 1 << random.nextInt(8);
            Read read = read(flipped);
            assertFalse(read.missing.isEmpty(), "byte " + at);
            assertEquals(written.subList(0, read.frames.size()), read.frames, "byte " + at);
        }
    }

    private static int beforeBlocks(byte[] whole) {
        return Layout.MAGIC.length + 8 + ByteBuffer.wrap(whole).getInt(Layout.MAGIC.length);
    }

    @Test
    void framesLost_isDamage() throws Exception {
        byte[] whole = Files.readAllBytes(record(MOST_FRAMES_A_TICK));
        int first = beforeBlocks(whole);
        assertEquals(Layout.FRAMES_MARK, ByteBuffer.wrap(whole).getInt(first), "frames stand before their ticks");
        int length =
                Integer.BYTES + Layout.BLOCK_HEAD_BYTES + ByteBuffer.wrap(whole).getInt(first + Integer.BYTES);
        byte[] lost = Arrays.copyOf(whole, whole.length - length);
        System.arraycopy(whole, first + length, lost, first, lost.length - first);
        Read read = read(lost);
        assertTrue(read.missing.contains("the next block begins with frame 100 of the data bus"), read.missing);
    }

    /** Format 3 knew no frames, and is otherwise the same. */
    @Test
    void recordingOfTheFormatBefore_isRead() throws Exception {
        byte[] old = Files.readAllBytes(record(0));
        byte[] magic = "sprag recording 3\n".getBytes(StandardCharsets.US_ASCII);
        System.arraycopy(magic, 0, old, 0, magic.length);
        CRC32 crc = new CRC32();
        crc.update(old, 0, old.length - Integer.BYTES);
        ByteBuffer.wrap(old).putInt(old.length - Integer.BYTES, (int) crc.getValue());
        Read read = read(old);
        assertEquals(TICKS, read.ticks);
        assertEquals("", read.missing);
        assertEquals(List.of(), read.frames);
    }

    @Test
    void framesAfterTheEnd_areNoLoss() throws Exception {
        Path file = folder.resolve("ended.sprag");
        Recorder recorder =
                new Recorder(file, "coupe", "ended", settings, new Supervisor(settings), Recorder.Pace.REAL_TIME);
        recorder.ticked(0, new Readings(), new Commands());
        recorder.close();
        recorder.frame(new CanFrame(), true, 0);
        assertEquals("", recorder.trouble());
        assertEquals("", read(Files.readAllBytes(file)).missing);
    }

    @Test
    void replayWithFrames_noneInIt_saysSo() throws Exception {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        int status = new CommandLine(new ReplayCommand())
                .setOut(new PrintWriter(out, true))
                .setErr(new PrintWriter(err, true))
                .execute(record(0).toString(), "--frames");
        assertEquals(0, status);
        assertEquals("", out.toString());
        assertTrue(err.toString().contains("It holds no frame"), err.toString());
    }
}
