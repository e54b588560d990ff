package sprag.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.FileOutputStream;
import java.io.OutputStream;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;

/** What is printed or written and does not arrive: a full disk behind the standard output, a pipe that nobody reads. */
class LostOutputTest {
    private static final Path FULL = Path.of("/dev/full");
    private static final Path PIPE_MAKER = Path.of("/usr/bin/mkfifo");
    private static final Duration WATCHDOG = Duration.ofSeconds(60);

    /** A command that does its own work in little time; every other one prints its help. OUT is an empty folder. */
    private static final Map<String, String> WORK = Map.of(
            "check", "parcel-van --out OUT",
            "matrix", "parcel-van",
            "key", "pack.max_v",
            "ports", "--json",
            "run", "yard-cart --list",
            "draft", "yard-cart --out OUT");

    @TempDir
    Path folder;

    private final StringWriter err = new StringWriter();

    static Stream<String> commands() {
        return names("", Sprag.commandLine());
    }

    private static Stream<String> names(String before, CommandLine line) {
        return line.getSubcommands().entrySet().stream().flatMap(each -> {
            String name = (before + " " + each.getKey()).strip();
            return Stream.concat(Stream.of(name), names(name, each.getValue()));
        });
    }

    private int printing(OutputStream below, String... args) {
        CommandLine line = Sprag.commandLineFor(args);
        line.setErr(new PrintWriter(err, true));
        PrintStream printed = new PrintStream(below, false, StandardCharsets.UTF_8);
        return assertTimeoutPreemptively(WATCHDOG, () -> Sprag.run(line, printed, below, args));
    }

    private String[] words(String words) {
        return words.replace("OUT", folder.resolve("out").toString()).split(" ");
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("commands")
    void command_standardOutputIsFull_trouble(String name) throws Exception {
        assumeTrue(Files.exists(FULL), "this system has no device that is always full");
        try (FileOutputStream full = new FileOutputStream(FULL.toFile())) {
            assertEquals(3, printing(full, words(name + " " + WORK.getOrDefault(name, "--help"))), err.toString());
        }
        assertTrue(err.toString().contains("sprag: the output could not be written: "), err.toString());
    }

    @Test
    void command_standardOutputTakesAll_noTrouble() {
        assertEquals(0, printing(OutputStream.nullOutputStream(), "matrix", "parcel-van"), err.toString());
        assertEquals("", err.toString());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "check parcel-van --sarif PIPE --out OUT",
                "check parcel-van --out PIPE",
                "run yard-cart coast --junit PIPE --out OUT",
                "prove yard-cart --max-states 500 --junit PIPE"
            })
    void fileToWrite_isAPipeThatNobodyReads_refusedInTime(String words) throws Exception {
        assumeTrue(Files.isExecutable(PIPE_MAKER), "this system makes no pipes");
        Path pipe = folder.resolve("pipe");
        assertEquals(
                0,
                new ProcessBuilder(PIPE_MAKER.toString(), pipe.toString())
                        .start()
                        .waitFor());
        String[] args = words(words.replace("PIPE", pipe.toString()));
        assertEquals(3, printing(OutputStream.nullOutputStream(), args), err.toString());
        assertTrue(err.toString().contains(pipe.toString()), err.toString());
    }
}
