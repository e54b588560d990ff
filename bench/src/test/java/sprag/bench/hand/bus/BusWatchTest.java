package sprag.bench.hand.bus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import picocli.CommandLine;
import sprag.bench.Sprag;
import sprag.bench.vehicle.Catalogue;
import sprag.hal.Clock;
import sprag.hal.board.Port;
import sprag.hal.bus.CanFrame;
import sprag.hal.bus.CandumpText;
import sprag.hal.bus.LogPort;

class BusWatchTest {
    private static final long START_NS = 1_700_000_000_000_000_000L;

    @TempDir
    Path folder;

    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();

    /** Time that passes when somebody waits. */
    private static final class StepClock implements Clock {
        private long nowNs = 5_000_000_000L;

        @Override
        public long nowNs() {
            return nowNs;
        }

        @Override
        public void waitUntil(long deadlineNs) {
            nowNs = Math.max(nowNs, deadlineNs);
        }
    }

    private int run(CommandLine line, String... args) {
        line.setOut(new PrintWriter(out)).setErr(new PrintWriter(err));
        return line.execute(args);
    }

    private int run(String... args) {
        return run(Sprag.commandLineFor(args), args);
    }

    private Path log(List<String> lines) throws IOException {
        return Files.write(folder.resolve("some.log"), lines);
    }

    private static String at(double ms, int id, int... data) {
        CanFrame frame = new CanFrame().begin(id, false, data.length);
        for (int i = 0; i < data.length; i++) {
            frame.data()[i] = (byte) data[i];
        }
        return CandumpText.write(START_NS + Math.round(ms * 1e6), "can0", frame);
    }

    @Test
    void log_watched_showsRateJitterBytesAndLoad() throws IOException {
        List<String> lines = new ArrayList<>();
        for (int i = 0; i <= 100; i++) {
            lines.add(at(10 * i + i % 2, 0x321, 0x11, i));
        }
        assertEquals(0, run("bus", "watch", "--kbit", "500", "--log", log(lines).toString()), err::toString);
        String row = out.toString()
                .lines()
                .filter(l -> l.startsWith("321"))
                .findFirst()
                .orElseThrow();
        assertTrue(row.matches("321 +100 +2 +11 64\\*.*"), row);
        assertTrue(out.toString().contains("1 identifiers, 101 frames"), out::toString);
        // 101 frames of 65 to 69 bits in 1 s at 500 kbit/s
        assertTrue(out.toString().matches("(?s).*load 1\\.[34]\\d* %.*"), out::toString);
    }

    @Test
    void log_withBrokenLine_isRefusedWithItsLine() throws IOException {
        assertEquals(
                3,
                run(
                        "bus",
                        "watch",
                        "--log",
                        log(List.of(at(0, 1, 2), "half a li")).toString()));
        assertTrue(err.toString().contains("some.log:2"), err::toString);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        --log LOG --kbit 0                        | --kbit 0 is none of      | no such speed
        --log LOG --kbit 501                      | --kbit 501 is none of    | no adapter has it
        --log LOG --bus van-pair --kbit 500       | beside --bus             | two speeds
        --log LOG --seconds -1                    | --seconds -1.0 is outside | no time
        --log LOG --seconds NaN                   | --seconds NaN is outside | no number
        --log LOG --learn brake                   | --log reads a file       | nobody can press a brake in a file
        --log LOG --record other.log              | --log reads a file       | nothing is heard
        --port none --kbit 500 --learn x --json   | --learn lasts            | it speaks to a person
        """)
    void optionThatCannotBeMeant_given_isRefused(String options, String words, String because) throws IOException {
        String path = log(List.of(at(0, 1, 2))).toString();
        List<String> args = new ArrayList<>(List.of("bus", "watch"));
        args.addAll(List.of(options.replace("LOG", path).split(" +")));
        assertEquals(2, run(args.toArray(String[]::new)), because);
        assertTrue(err.toString().contains(words), err::toString);
    }

    @Test
    void log_watchedForSomeSeconds_endsThere() throws IOException {
        String path = log(List.of(at(0, 1, 2), at(900, 1, 3), at(1100, 1, 4))).toString();
        assertEquals(0, run("bus", "watch", "--log", path, "--seconds", "1"), err::toString);
        assertTrue(out.toString().contains(", 2 frames"), out::toString);
    }

    @Test
    void logThatIsMissing_isWrongInput_notALostAdapter() {
        assertEquals(2, run("bus", "watch", "--log", folder.resolve("none.log").toString()));
        assertTrue(err.toString().contains("none.log") && err.toString().contains("does not exist"), err::toString);
    }

    @Test
    void logAsThePortOfABus_watched_isReadToItsEnd() throws Exception {
        List<String> lines = new ArrayList<>();
        for (int i = 0; i < 50; i++) {
            lines.add(at(20.0 * i, 0x11, i));
        }
        Path bus = Files.writeString(
                folder.resolve("own.toml"),
                Files.readString(Catalogue.installed().bus("van-pair"))
                        .replaceAll("(?m)^port = .*$", "port = \"" + log(lines) + "\""));
        int status = run("bus", "watch", "--bus", bus.toString());
        assertEquals(1, status, "the van's messages are missing: a finding, and no lost adapter: " + err);
        assertTrue(out.toString().contains("50 frames"), out::toString);
        assertEquals("", err.toString());
    }

    @Test
    void shippedBus_watchedOnALogWithoutTheMonitor_namesWhatIsLate() throws IOException {
        List<String> lines = new ArrayList<>();
        for (int i = 0; i < 40; i++) {
            lines.add(at(50 * i, 0x120, 2, i << 4 & 0xF0));
        }
        assertEquals(
                1, run("bus", "watch", "--bus", "van-pair", "--log", log(lines).toString()));
        assertTrue(out.toString().contains("dash_switches: regen_level 2, heater_request 0"), out::toString);
        assertTrue(out.toString().contains("late: monitor_pack of battery_monitor, never heard"), out::toString);
        assertFalse(out.toString().contains("late: dash_switches"), out::toString);
    }

    @Test
    void log_playedAsAPort_isHeardInItsOwnTimeAndRecordedAgain() throws IOException {
        List<String> lines = new ArrayList<>();
        for (int i = 0; i < 300; i++) {
            lines.add(at(10 * i, 0x222, i & 0xFF, i >> 8));
        }
        Path log = log(lines);
        Path record = folder.resolve("again.log");
        BusWatchCommand command = new BusWatchCommand(
                (spec, clock) -> new LogPort(log, clock), new ByteArrayInputStream(new byte[0]), new StepClock());
        int status = run(
                new CommandLine(command),
                "--port",
                "log",
                "--kbit",
                "500",
                "--seconds",
                "2.5",
                "--record",
                record.toString());
        assertEquals(0, status, err::toString);
        List<String> again = Files.readAllLines(record);
        assertEquals(251, again.size(), "one each 10 ms for 2.5 s");
        for (int i = 0; i < again.size(); i++) {
            assertTrue(again.get(i).endsWith(lines.get(i).substring(lines.get(i).lastIndexOf(' '))), again.get(i));
        }
    }

    @Test
    void switchPressedThreeTimes_learnt_isFoundAndTheRestlessByteIsNot() throws IOException {
        List<String> lines = new ArrayList<>();
        for (int ms = 0; ms < 29_000; ms += 20) {
            boolean pressed = ms > 9000 && ms < 15_000 && ms / 1000 % 2 == 0;
            lines.add(at(ms, 0x111, 7, ms / 20 & 0xFF, pressed ? 0x10 : 0));
        }
        Path log = log(lines);
        BusWatchCommand command = new BusWatchCommand(
                (spec, clock) -> new LogPort(log, clock), new ByteArrayInputStream(new byte[0]), new StepClock());
        assertEquals(0, run(new CommandLine(command), "--port", "log", "--kbit", "500", "--learn", "press the brake"));
        List<String> found =
                out.toString().lines().filter(l -> l.startsWith("111")).toList();
        assertEquals(1, found.size(), out::toString);
        assertTrue(found.get(0).startsWith("111 bit 20  sure: away from rest 3 times"), found.get(0));
    }

    @Test
    void nothingMoves_learnt_saysSo() throws IOException {
        List<String> lines = new ArrayList<>();
        for (int ms = 0; ms < 29_000; ms += 100) {
            lines.add(at(ms, 0x111, 7));
        }
        Path log = log(lines);
        BusWatchCommand command = new BusWatchCommand(
                (spec, clock) -> new LogPort(log, clock), new ByteArrayInputStream(new byte[0]), new StepClock());
        assertEquals(1, run(new CommandLine(command), "--port", "log", "--kbit", "500", "--learn", "press the brake"));
        assertTrue(out.toString().contains("No bit followed"), out::toString);
    }

    /** An adapter that keeps what is sent. */
    private static final class Sink implements Port {
        final StringBuilder sent = new StringBuilder();
        private int answers;

        @Override
        public String name() {
            return "sink";
        }

        @Override
        public void open() {
            answers = 0;
        }

        @Override
        public int read(byte[] into) {
            int length = answers;
            java.util.Arrays.fill(into, 0, length, (byte) '\r');
            answers = 0;
            return length;
        }

        @Override
        public void write(byte[] bytes, int length) {
            sent.append(new String(bytes, 0, length, StandardCharsets.US_ASCII).replace('\r', '\n'));
            answers++;
        }

        @Override
        public void close() {
            answers = 0;
        }
    }

    @Test
    void message_sentToABench_endsReleased() {
        Sink sink = new Sink();
        BusSendCommand command = new BusSendCommand(
                (spec, clock) -> sink,
                new ByteArrayInputStream("charger_1_command\n".getBytes(StandardCharsets.US_ASCII)),
                new StepClock());
        int status = run(
                new CommandLine(command),
                "--bus",
                "van-pair",
                "charger_1_command",
                "enable=1",
                "limit=5",
                "--seconds",
                "0.2");
        assertEquals(0, status, err::toString);
        List<String> frames =
                sink.sent.toString().lines().filter(l -> l.startsWith("t")).toList();
        assertEquals(
                List.of(
                        "t0C080132000000000033",
                        "t0C080132000000000134",
                        "t0C080132000000000235",
                        "t0C080132000000000336",
                        "t0C080132000000000437",
                        "t0C080000000000000505",
                        "t0C080000000000000606"),
                frames);
        assertTrue(out.toString().contains("lethal direct current"), out::toString);
    }

    /** What is off in a message need not be 0: released means the count that the file gives for off. */
    @Test
    void message_switchWithItsOwnCounts_isSentAndReleasedByThem() throws IOException {
        Path file = bench(text ->
                text.replaceFirst("output = \"charger_enable\"", "output = \"charger_enable\"\non = [2]\noff = [1]"));
        Sink sink = new Sink();
        assertEquals(0, send(sink, file, "enable=1", "limit=5"), err::toString);
        List<String> frames =
                sink.sent.toString().lines().filter(l -> l.startsWith("t")).toList();
        assertEquals("t0C0802320000000000", frames.get(0).substring(0, 19));
        assertEquals("t0C0801000000000", frames.get(frames.size() - 2).substring(0, 16));
        assertEquals("t0C0801000000000", frames.get(frames.size() - 1).substring(0, 16));
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        enable=2     | is a switch: 1 is on, 0 is off | a switch has no half
        limit=NaN    | outside 0..                    | no number
        limit=1e300  | outside 0..                    | does not fit
        limit=-0.1   | outside 0..                    | less than nothing
        """)
    void message_valueThatDoesNotFit_isRefusedAndNothingIsSent(String value, String words, String because)
            throws IOException {
        Sink sink = new Sink();
        assertEquals(2, send(sink, bench(text -> text), value), because);
        assertTrue(err.toString().contains(words), err::toString);
        assertEquals("", sink.sent.toString());
    }

    private Path bench(UnaryOperator<String> change) throws IOException {
        String shipped = Files.readString(Path.of("..", "config", "buses", "van-pair.toml"));
        return Files.writeString(folder.resolve("bench.toml"), change.apply(shipped));
    }

    private int send(Sink sink, Path file, String... values) {
        String name = "charger_1_command";
        BusSendCommand command =
                new BusSendCommand((spec, clock) -> sink, new ByteArrayInputStream(new byte[0]), new StepClock());
        List<String> words = new ArrayList<>(List.of("--bus", file.toString(), "--confirm", name, name));
        words.addAll(List.of(values));
        return run(new CommandLine(command), words.toArray(new String[0]));
    }

    @Test
    void message_nameNotTyped_sendsNothing() {
        Sink sink = new Sink();
        BusSendCommand command =
                new BusSendCommand((spec, clock) -> sink, new ByteArrayInputStream(new byte[0]), new StepClock());
        assertEquals(1, run(new CommandLine(command), "--bus", "van-pair", "charger_1_command", "enable=1"));
        assertEquals("", sink.sent.toString());
    }

    @Test
    void bus_notDeclaredABench_isRefused() throws IOException {
        Path file = folder.resolve("bus.toml");
        String text = Files.readString(Path.of("../config/buses/van-pair.toml"));
        Files.writeString(file, text.replaceFirst("bench = true", "bench = false"));
        assertEquals(
                2, run("bus", "send", "--bus", file.toString(), "charger_1_command", "--confirm", "charger_1_command"));
        assertTrue(err.toString().contains("bus.bench is not true"), err::toString);
    }
}
