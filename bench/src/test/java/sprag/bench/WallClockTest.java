package sprag.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** No test of the default build reads the machine's clock or sleeps, but for the few that are named here. */
class WallClockTest {
    /** Ways to the clock on the wall. A call with a time limit is a watchdog and is none of them. */
    private static final Pattern CLOCK =
            Pattern.compile("Thread(\\.|::)sleep|\\b(nanoTime|currentTimeMillis)\\b(?!\")|parkNanos|new Date\\(\\)"
                    + "|\\b(TimeUnit|[A-Z]+SECONDS)\\.(\\w+\\.)?sleep"
                    + "|\\b(Instant|(Local|Zoned|Offset)?(Date|Time|DateTime))(\\.|::)now\\b"
                    + "|Clock(\\.|::)(system|tick)|assertTimeout\\(");

    /** A class with such a tag: it stands at the margin. A method with it speaks for no other method. */
    private static final Pattern ELSEWHERE = Pattern.compile("(?m)^@Tag\\(\"(realtime|manual)\"\\)");

    /** The files that may, and why. */
    private static final Set<String> NAMED = Set.of(
            "TranslationTest.java", // a line of Java that it must refuse
            "WallClockTest.java", // names the calls that it looks for
            "LauncherTest.java", // makes a file newer than another
            "PanelServerTest.java", // waits for a socket; the limit is a watchdog
            "TomlFileTest.java", // the limit is a watchdog against a quadratic reader
            "PseudoTerminals.java", // waits for the end of a cable, for tests that are tagged themselves
            "RealPair.java", // the same, with two ports
            "PanelDriver.java"); // the same, with a panel

    @Test
    void testOfTheDefaultBuild_readsNoWallClock() throws IOException {
        Set<String> readers = new TreeSet<>();
        List<Path> all = testSources();
        assertTrue(all.size() > 300, all.size() + " test sources seen");
        for (Path file : all) {
            String text = Files.readString(file);
            if (CLOCK.matcher(text).find() && !ELSEWHERE.matcher(text).find()) {
                readers.add(file.getFileName().toString());
            }
        }
        assertEquals(
                new TreeSet<>(NAMED),
                readers,
                "let a VirtualClock or a LockstepClock move the time, or tag the test \"realtime\"; see DEVELOPERS.md, Time in tests");
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        System.nanoTime()                     | true
        measure(System::nanoTime)             | true
        System.currentTimeMillis()            | true
        Thread.sleep(10)                      | true
        MILLISECONDS.sleep(10)                | true
        TimeUnit.SECONDS.sleep(1)             | true
        Instant.now()                         | true
        LocalDateTime.now()                   | true
        asked(LocalDate::now)                 | true
        new Date()                            | true
        Clock.systemUTC()                     | true
        assertTimeout(limit, () -> read())    | true
        assertTimeoutPreemptively(limit, run) | false
        clock.nanos()                         | false
        guidance().now()                      | false
        new Date(0)                           | false
        """)
    void lineOfATest_thatReadsTheWallClock_isSeen(String line, boolean seen) {
        assertEquals(seen, CLOCK.matcher(line).find());
    }

    @Test
    void tag_ofTheClass_excuses_thatOfAMethodDoesNot() {
        assertTrue(ELSEWHERE
                .matcher("@Tag(\"realtime\")\n@Timeout(9)\nfinal class PortTest {\n")
                .find());
        assertFalse(ELSEWHERE
                .matcher("class PortTest {\n    @Test\n    @Tag(\"realtime\")\n")
                .find());
    }

    private static List<Path> testSources() throws IOException {
        List<Path> all = new ArrayList<>();
        for (String module : List.of("supervisor", "hal", "bench")) {
            try (Stream<Path> files = Files.walk(Path.of("..", module, "src", "test", "java"))) {
                files.filter(file -> file.toString().endsWith(".java")).forEach(all::add);
            }
        }
        return all;
    }
}
