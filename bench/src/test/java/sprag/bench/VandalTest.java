package sprag.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.concurrent.Callable;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;
import sprag.bench.hand.board.BoardReader;
import sprag.bench.loop.FrameColumns;
import sprag.bench.scenario.ScenarioReader;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.VehicleReader;

/**
 * Damaged files and wrong numbers, some of them by chance. Whatever is given: an answer in time, in words of the user, with the place
 * of the mistake, and never the inside of the program. {@code -Dvandal.files=1000 -Dvandal.seed=7} tries more.
 */
class VandalTest {
    private static final int FILES = Integer.getInteger("vandal.files", 30);
    private static final long SEED = Long.getLong("vandal.seed", 1);
    private static final Duration WATCHDOG = Duration.ofSeconds(60);
    private static final Path SHIPPED = Path.of("..", "config").toAbsolutePath().normalize();
    private static final Pattern INSIDE = Pattern.compile("Exception|\\bat"
            + " sprag\\.|\\bjava\\.|\\borg\\.|(?<!/dev/)\\bnull\\b|@[0-9a-f]{6,}|NaN|Infinity|9223372036854775|this"
            + " should not have");
    /** File, line, what was found, and a sentence that helps. */
    private static final Pattern MESSAGE = Pattern.compile("\\S+\\.(toml|csv):[1-9]\\d*: .{5,1200}[.?]");

    private static final List<String> CELLS = List.of(
            "",
            "0",
            "-1",
            "1e9",
            "600000",
            "nan",
            "x",
            "a.b",
            "a.b.c",
            "\"",
            "\"\"",
            "mains",
            "supervisor.ground",
            "1,5",
            "#",
            "\t",
            "ä",
            "12v",
            "\u0000",
            "x".repeat(5000));

    @TempDir
    Path folder;

    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();

    @BeforeEach
    void copyVan() throws IOException {
        for (Path file : List.of(SHIPPED.resolve("vehicles/parcel-van"), SHIPPED.resolve("boards"))) {
            try (Stream<Path> all = Files.list(file)) {
                for (Path each : all.toList()) {
                    Files.copy(each, folder.resolve(each.getFileName()));
                }
            }
        }
        Files.copy(SHIPPED.resolve("scenarios/coast.toml"), folder.resolve("coast.toml"));
        Files.writeString(
                folder.resolve("accepted.toml"),
                "[[accepted]]\nfinding = \"traction-not-orange\"\nwhere = \"T001\"\n"
                        + "reason = \"runs inside the closed steel box of the pack\"\ndate = 2026-03-31\n");
    }

    private int sprag(String... args) {
        out.getBuffer().setLength(0);
        err.getBuffer().setLength(0);
        CommandLine line =
                Sprag.commandLineFor(args).setOut(new PrintWriter(out, true)).setErr(new PrintWriter(err, true));
        return assertTimeoutPreemptively(WATCHDOG, () -> line.execute(args), () -> String.join(" ", args));
    }

    /** Reads a file to its end and does no more than that. */
    private int read(Path file) {
        String name = file.getFileName().toString();
        if (name.equals("usb-bench.toml")) {
            return refusal(() -> BoardReader.read(file));
        }
        if (name.equals("coast.toml")) {
            return refusal(() -> ScenarioReader.read(
                    file, FrameColumns.VOCABULARY, VehicleReader.read(SHIPPED.resolve("vehicles/parcel-van"))));
        }
        return sprag(
                "check",
                folder.toString(),
                "--all",
                "--out",
                folder.resolve("o").toString());
    }

    private int refusal(Callable<?> reading) {
        out.getBuffer().setLength(0);
        err.getBuffer().setLength(0);
        return assertTimeoutPreemptively(WATCHDOG, () -> {
            try {
                reading.call();
                return 0;
            } catch (BadInput e) {
                err.append(e.getMessage());
                return 2;
            }
        });
    }

    private void answers(int status, String how) {
        String said = out.toString() + err;
        String context = how + "\n" + said.lines().limit(20).collect(Collectors.joining("\n"));
        assertFalse(INSIDE.matcher(said.replaceAll("(?m)^Page: .*$", "")).find(), context);
        assertTrue(status >= 0 && status <= 2, context);
        if (status == 2) {
            List<String> lines = err.toString().lines().toList();
            assertFalse(lines.isEmpty(), context);
            for (String line : lines) {
                boolean summary = line.startsWith("sprag: ") || line.startsWith("... and ") || line.startsWith("  ");
                assertTrue(summary || MESSAGE.matcher(line).matches(), line + "\n" + how);
            }
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"vehicle.toml", "wiring.csv", "parts.csv", "accepted.toml", "usb-bench.toml", "coast.toml"})
    void damagedFile_isAnsweredInWordsOfTheUser(String name) throws IOException {
        Path file = folder.resolve(name);
        String sound = Files.readString(file);
        Random chance = new Random(SEED * 31 + name.hashCode());
        for (int i = 0; i < FILES; i++) {
            boolean toml = name.endsWith(".toml");
            byte[] damaged = toml ? damagedToml(sound, chance) : damagedCsv(sound, chance);
            Files.write(file, damaged);
            answers(read(file), name + " number " + i + " of seed " + SEED);
        }
    }

    private static byte[] damagedToml(String sound, Random chance) {
        String[] lines = sound.split("\n", -1);
        int at = chance.nextInt(lines.length);
        while (!lines[at].contains("=")) {
            at = chance.nextInt(lines.length);
        }
        String key = lines[at].substring(0, lines[at].indexOf('=')).strip();
        switch (chance.nextInt(8)) {
            case 0, 1, 2 -> lines[at] = key + " = " + WrongValues.TOML.get(chance.nextInt(WrongValues.TOML.size()));
            case 3 -> lines[at] = lines[at].replace(key, key + key.charAt(0));
            case 4 -> lines[at] = "";
            case 5 -> lines[at] += "\n" + lines[chance.nextInt(lines.length)];
            default -> {
                return spoilt(sound, chance);
            }
        }
        return String.join("\n", lines).getBytes(StandardCharsets.UTF_8);
    }

    private static byte[] damagedCsv(String sound, Random chance) {
        String[] lines = sound.split("\n", -1);
        int at = chance.nextInt(lines.length - 1);
        String[] cells = lines[at].split(",", -1);
        int cell = chance.nextInt(cells.length);
        switch (chance.nextInt(7)) {
            case 0, 1, 2 -> {
                cells[cell] = CELLS.get(chance.nextInt(CELLS.size()));
                lines[at] = String.join(",", cells);
            }
            case 3 -> {
                cells[cell] = lines[chance.nextInt(lines.length - 1)].split(",", -1)[0];
                lines[at] = String.join(",", cells);
            }
            case 4 -> lines[at] = "";
            case 5 -> lines[at] += "\n" + lines[at];
            default -> {
                return spoilt(sound, chance);
            }
        }
        return String.join("\n", lines).getBytes(StandardCharsets.UTF_8);
    }

    /** Damage that knows nothing of the format: another byte, a piece lost, the end lost, another encoding. */
    private static byte[] spoilt(String sound, Random chance) {
        byte[] bytes = sound.getBytes(StandardCharsets.UTF_8);
        int at = chance.nextInt(bytes.length);
        switch (chance.nextInt(4)) {
            case 0 -> bytes[at] = (byte) chance.nextInt(256);
            case 1 -> bytes = Arrays.copyOf(bytes, at);
            case 2 -> {
                int from = Math.min(bytes.length, at + 1 + chance.nextInt(50));
                byte[] less = Arrays.copyOf(bytes, bytes.length - (from - at));
                System.arraycopy(bytes, from, less, at, bytes.length - from);
                bytes = less;
            }
            default ->
                bytes = sound.getBytes(chance.nextBoolean() ? StandardCharsets.UTF_16 : StandardCharsets.UTF_16LE);
        }
        return bytes;
    }

    /** A word where a number belongs, and a number far outside, never pass, and the message names the key and what is allowed. */
    @ParameterizedTest
    @ValueSource(strings = {"\"much\"", "1e30", "-1e30", "nan", "inf"})
    void wrongValue_isRefusedWithKeyAndRange(String wrong) throws IOException {
        Path file = folder.resolve("vehicle.toml");
        String[] sound = Files.readString(file).split("\n", -1);
        int tried = 0;
        for (int at = 0; at < sound.length; at++) {
            Matcher number = Pattern.compile("^(\\w+) = -?[0-9.]+\\b").matcher(sound[at]);
            if (!number.find() || new Random(SEED + at).nextInt(5) > 0) {
                continue;
            }
            String[] lines = sound.clone();
            lines[at] = number.group(1) + " = " + wrong;
            Files.writeString(file, String.join("\n", lines));
            int status = refusal(() -> VehicleReader.read(folder));
            String said = err.toString();
            assertEquals(2, status, lines[at]);
            answers(status, lines[at]);
            assertTrue(said.contains(":" + (at + 1) + ": ") && said.contains("." + number.group(1)), said);
            assertTrue(said.contains("Use a number within "), said);
            tried++;
        }
        assertTrue(tried > 10, tried + " values tried");
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        panel parcel-van --port 99999           | --port 99999 is outside 0..65535
        panel parcel-van --port -1              | --port -1 is outside 0..65535
        panel parcel-van --port x               | --port
        prove parcel-van --max-states -5        | --max-states -5 is outside 1..2000000000
        prove parcel-van --max-states 0         | --max-states 0 is outside 1..2000000000
        prove parcel-van --without plug-presnt  | plug-present
        prove parcel-van --gate --export x      | --export and --gate do not go together
        campaign parcel-van --shard 3/2         | I/N
        campaign parcel-van --shard 0/2         | I/N
        campaign parcel-van --shard 1/99999999999 | I/N
        probe --board usb-bench --pulse ready_lamp --value 1 --ms 9 | --ms 9 is outside 10..5000
        probe --board usb-bench --seconds -1    | --seconds -1 is outside
        probe --board usb-bench --seconds NaN   | --seconds unknown is outside
        replay nosuch                           | cannot replay nosuch: it does not exist
        replay /dev/zero                        | is a device or a pipe
        replay /tmp                             | is a folder
        run parcel-van /dev/zero                | is a device or a pipe
        check /dev/null                         | is neither the name of a shipped vehicle
        campaign parcel-van --compare /dev/zero | is a device or a pipe
        """)
    void wrongArgument_isWrongUsageAndSaysWhatIsAllowed(String args, String says) {
        int status = sprag(args.split("\\s+"));
        String said = out.toString() + err;
        assertEquals(2, status, said);
        assertTrue(said.contains(says), said);
        assertFalse(INSIDE.matcher(said).find(), said);
    }

    @Test
    void byteOrderMark_isNoMistake() throws IOException {
        Path file = folder.resolve("vehicle.toml");
        Files.writeString(file, "\uFEFF" + Files.readString(file));
        assertEquals(0, read(file), err::toString);
    }

    @ParameterizedTest
    @ValueSource(strings = {"vehicle.toml", "wiring.csv", "parts.csv", "accepted.toml"})
    void endlessDevice_isRefusedAtOnce(String name) throws IOException {
        Path file = folder.resolve(name);
        Files.delete(file);
        Files.createSymbolicLink(file, Path.of("/dev/zero"));
        int status = read(file);
        assertEquals(2, status);
        answers(status, name);
        assertTrue(err.toString().contains("is a device or a pipe"), err::toString);
    }

    @Test
    void whatIsTooLargeOrTooMuch_isToldShortly() throws IOException {
        Path file = folder.resolve("vehicle.toml");
        String sound = Files.readString(file);
        for (String more : List.of(
                "a".repeat(900_000) + " = 1",
                IntStream.range(0, 60_000).mapToObj(i -> "k" + i + " = 1").collect(Collectors.joining("\n")),
                "q = " + "[".repeat(5000) + "]".repeat(5000),
                "q = \"" + "x".repeat(2_000_000) + "\"")) {
            Files.writeString(file, sound + "\n" + more + "\n");
            answers(read(file), more.substring(0, 20));
            assertTrue(err.toString().length() < 6000, () -> err.toString().length() + " letters");
        }
        Path scenario = folder.resolve("coast.toml");
        Files.writeString(scenario, "[about]\ntitle = \"t\"\n" + "[[do]]\nat_s = 1\nset = { key = 1 }\n".repeat(1001));
        assertEquals(2, read(scenario));
        assertTrue(
                err.toString().contains("do stands there 1001 times"),
                err.toString().substring(0, 300));
    }
}
