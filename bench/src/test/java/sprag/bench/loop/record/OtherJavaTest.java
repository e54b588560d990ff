package sprag.bench.loop.record;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeFalse;

import java.io.File;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import sprag.bench.Sprag;

/** What one Java release has recorded, another decides the same, to the last bit. */
@Tag("long")
class OtherJavaTest {
    private static final long WATCHDOG_S = 120;

    @TempDir
    Path folder;

    /** A Java of another release that is installed here; the test is skipped without one. */
    private static Path otherJava() throws IOException {
        Path all = Path.of("/usr/lib/jvm");
        List<Path> others = new ArrayList<>();
        if (Files.isDirectory(all)) {
            try (Stream<Path> homes = Files.list(all)) {
                homes.filter(home -> Files.isExecutable(home.resolve("bin/java")) && feature(home) >= 17)
                        .filter(home -> feature(home) != Runtime.version().feature())
                        .forEach(others::add);
            }
        }
        assumeFalse(others.isEmpty(), "no Java of another release in " + all);
        return others.get(0).resolve("bin/java");
    }

    private static int feature(Path home) {
        try (Stream<String> lines = Files.lines(home.resolve("release"))) {
            return lines.filter(line -> line.startsWith("JAVA_VERSION="))
                    .map(line -> line.replaceAll("\\D+(\\d+).*", "$1"))
                    .mapToInt(Integer::parseInt)
                    .findFirst()
                    .orElse(0);
        } catch (IOException e) {
            return 0; // a folder without this file is no Java
        }
    }

    private static String classPath() {
        if (Sprag.class.getClassLoader() instanceof URLClassLoader loader) {
            return Stream.of(loader.getURLs()).map(URL::getPath).collect(Collectors.joining(File.pathSeparator));
        }
        return System.getProperty("java.class.path");
    }

    private static void sprag(Path java, String... args) throws Exception {
        List<String> command = new ArrayList<>(List.of(
                java.toString(),
                "-XX:TieredStopAtLevel=1",
                "-Dsprag.home=" + Path.of("..").toAbsolutePath(),
                "-cp",
                classPath(),
                Sprag.class.getName()));
        command.addAll(List.of(args));
        Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
        String said = new String(process.getInputStream().readAllBytes());
        assertTrue(process.waitFor(WATCHDOG_S, TimeUnit.SECONDS), "the other Java did not end");
        assertEquals(0, process.exitValue(), said);
    }

    private static void run(String vehicle, String scenario, Path out) {
        CommandLine line = Sprag.commandLineFor("run").setOut(new PrintWriter(new StringWriter()));
        assertEquals(0, line.execute("run", vehicle, scenario, "--out", out.toString()));
    }

    @Test
    void recording_ofThisJava_otherDecidesTheSame() throws Exception {
        Path other = otherJava();
        run("coupe", "one-pedal-stop", folder);

        sprag(other, "replay", folder.resolve("one-pedal-stop/recording.sprag").toString());
    }

    @Test
    void recording_ofOtherJava_thisDecidesTheSame() throws Exception {
        sprag(otherJava(), "run", "yard-cart", "hill-start", "--out", folder.toString());

        CommandLine replay = Sprag.commandLineFor("replay");
        assertEquals(
                0,
                replay.execute(
                        "replay", folder.resolve("hill-start/recording.sprag").toString()));
    }

    @Test
    void sameRun_onBothJavas_leavesTheSameTrace() throws Exception {
        Path other = otherJava();
        Path here = folder.resolve("here");
        Path there = folder.resolve("there");
        run("parcel-van", "hill-start", here);
        sprag(other, "run", "parcel-van", "hill-start", "--out", there.toString());

        Path trace = Path.of("hill-start/trace.csv");
        assertEquals(-1, Files.mismatch(here.resolve(trace), there.resolve(trace)), "the car, too, is the same");
    }
}
