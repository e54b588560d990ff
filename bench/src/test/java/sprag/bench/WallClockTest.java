package sprag.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
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

/** No test of the default build reads the machine's clock or sleeps, but for the few that are named here. */
class WallClockTest {
    /** Ways to the clock on the wall. A call with a time limit is a watchdog and is none of them. */
    private static final Pattern CLOCK =
            Pattern.compile("Thread\\.sleep|\\bnanoTime\\(|\\bcurrentTimeMillis\\(|parkNanos"
                    + "|TimeUnit\\.\\w+\\.sleep|Instant\\.now\\(|Clock\\.system|assertTimeout\\(");

    private static final Pattern ELSEWHERE = Pattern.compile("@Tag\\(\"(realtime|manual)\"\\)");

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
