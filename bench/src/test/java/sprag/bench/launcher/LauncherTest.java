package sprag.bench.launcher;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.vehicle.Catalogue;

/** The launcher {@code bench/sprag} on a machine that has only what each test gives it. */
class LauncherTest {
    private static final Path SHELL = Path.of("/bin/bash");
    /** A watchdog against a hang; how long the launcher takes decides nothing. */
    private static final long PATIENCE_S = 600;

    private static final List<String> TOOLS =
            List.of("bash", "env", "readlink", "dirname", "sed", "find", "touch", "mkdir", "cat", "mv", "tail", "rm");

    /** Tells its version, or what it was told to run: one argument a line. */
    private static final String JAVA = """
            #!/bin/bash
            if [ "$1" = -XshowSettings:properties ]; then
                printf '    java.home = %%s\\n    java.specification.version = %%s\\n' '%s' '%s' >&2
            else
                for word in "$@"; do
                    case $word in -XX:DumpLoadedClassList=* | -XX:SharedArchiveFile=*) made=${word#*=} ;; esac
                done
                case " $* " in *" sprag.bench.Rehearsal "* | *" -Xshare:dump "*) printf 'classes\\n' >"$made" ;; esac
                printf 'ran\\n'
                printf '%%s\\n' "$@"
            fi
            """;

    /** Builds what the launcher looks for. */
    private static final String MAVEN = """
            #!/bin/bash
            mkdir -p bench/target/classes bench/target/lib
            """;

    @TempDir
    Path temp;

    private Path root;
    private Path path;
    private Path elsewhere;

    private record Ended(int status, List<String> out, String err) {
        /** What the program was given after its class. */
        List<String> arguments() {
            int program = out.indexOf("sprag.bench.Sprag");
            assertTrue(program > 0, "the program was started: " + out + err);
            return out.subList(program + 1, out.size());
        }
    }

    @BeforeEach
    void aCopyInAFolderWithSpaces() throws IOException {
        Assumptions.assumeTrue(
                Files.isExecutable(SHELL), "no " + SHELL + " on this system: the launcher was NOT tried");
        root = temp.resolve("my old car");
        path = temp.resolve("path");
        elsewhere = temp.resolve("elsewhere");
        for (String folder : List.of("bench/src/main/java", "bench/src/release", "hal", "supervisor")) {
            Files.createDirectories(root.resolve(folder));
        }
        Files.createDirectories(path);
        Files.createDirectories(elsewhere);
        Files.writeString(root.resolve("pom.xml"), "<project/>");
        Files.copy(Catalogue.installed().home().resolve("bench/sprag"), launcher());
        executable(launcher());
        String shared = "bench/src/release/start.sh";
        Files.copy(Catalogue.installed().home().resolve(shared), root.resolve(shared));
        for (String tool : TOOLS) {
            Path real = Files.exists(Path.of("/usr/bin", tool)) ? Path.of("/usr/bin", tool) : Path.of("/bin", tool);
            program(tool, "#!" + SHELL + "\nexec " + real + " \"$@\"\n");
        }
    }

    private Path launcher() {
        return root.resolve("bench/sprag");
    }

    private static void executable(Path file) {
        assertTrue(file.toFile().setExecutable(true), file + " can be made executable");
    }

    private void program(String name, String text) throws IOException {
        executable(Files.writeString(path.resolve(name), text));
    }

    private void java(String version, boolean withCompiler) throws IOException {
        Path home = Files.createDirectories(temp.resolve("jdk/bin")).getParent();
        if (withCompiler) {
            executable(Files.writeString(home.resolve("bin/javac"), "#!/bin/bash\n"));
        }
        program("java", JAVA.formatted(home, version));
    }

    private void javaAndMaven() throws IOException {
        java("17", true);
        program("mvn", MAVEN);
    }

    private Ended run(Path start, Path from, String... arguments) throws IOException, InterruptedException {
        List<String> words = new ArrayList<>(List.of(start.toString()));
        words.addAll(List.of(arguments));
        Path out = temp.resolve("out.txt");
        Path err = temp.resolve("err.txt");
        ProcessBuilder builder = new ProcessBuilder(words).directory(from.toFile());
        builder.environment().clear();
        builder.environment().put("PATH", path.toString());
        Process process =
                builder.redirectOutput(out.toFile()).redirectError(err.toFile()).start();
        assertTrue(process.waitFor(PATIENCE_S, TimeUnit.SECONDS), "the launcher ends within " + PATIENCE_S + " s");
        return new Ended(
                process.exitValue(),
                Files.readString(out, StandardCharsets.UTF_8).lines().toList(),
                Files.readString(err, StandardCharsets.UTF_8));
    }

    private Ended run(String... arguments) throws IOException, InterruptedException {
        return run(launcher(), elsewhere, arguments);
    }

    @Test
    void noJava_isSaidWithWhatToInstall() throws Exception {
        Ended ended = run("--help");
        assertEquals(3, ended.status());
        assertEquals(
                "sprag: no Java was found. Install a JDK 17 or newer (and Maven 3.8 or newer), or set JAVA_HOME to one.\n",
                ended.err());
    }

    @Test
    void oldJava_isSaidWithItsVersion() throws Exception {
        java("11", true);
        program("mvn", MAVEN);
        Ended ended = run("--help");
        assertEquals(3, ended.status());
        assertTrue(ended.err().contains("is Java 11; sprag needs 17 or newer"), ended.err());
    }

    /** Another Java takes the place of the one that the build was made with: its version is asked for too. */
    @Test
    void oldJavaAfterTheBuild_isSaidWithItsVersion() throws Exception {
        javaAndMaven();
        assertEquals(0, run("--help").status());
        Path other = Files.createDirectories(temp.resolve("old/bin")).resolve("java");
        Files.move(path.resolve("java"), other);
        Files.writeString(other, Files.readString(other).replace("'17'", "'11'"));
        Files.createSymbolicLink(path.resolve("java"), other);
        Ended ended = run("--help");
        assertEquals(3, ended.status(), () -> ended.out().toString());
        assertTrue(ended.err().contains("is Java 11; sprag needs 17 or newer"), ended.err());
    }

    @Test
    void noJavaAfterTheBuild_isSaid() throws Exception {
        javaAndMaven();
        run("--help");
        Files.delete(path.resolve("java"));
        Ended ended = run("--help");
        assertEquals(3, ended.status());
        assertTrue(ended.err().startsWith("sprag: no Java was found."), ended.err());
    }

    @Test
    void noMaven_isSaidBeforeAnythingIsBuilt() throws Exception {
        java("17", true);
        Ended ended = run("--help");
        assertEquals(3, ended.status());
        assertTrue(ended.err().contains("Maven was not found"), ended.err());
        assertFalse(Files.exists(root.resolve("bench/target")), "nothing was made");
    }

    @Test
    void javaWithoutCompiler_isSaid() throws Exception {
        java("17", false);
        program("mvn", MAVEN);
        Ended ended = run("--help");
        assertEquals(3, ended.status());
        assertTrue(ended.err().contains("has no compiler: it is a runtime only."), ended.err());
    }

    @Test
    void firstCall_saysThatItBuilds_secondCallDoesNot() throws Exception {
        javaAndMaven();
        Ended first = run("check", "parcel-van");
        assertEquals("sprag: building, once; this takes a little while\n", first.err());
        assertEquals(List.of("check", "parcel-van"), first.arguments());
        Ended second = run("check", "parcel-van");
        assertEquals("", second.err());
        assertEquals(List.of("check", "parcel-van"), second.arguments());
    }

    /** Maven that makes the jar too, as the real one does. */
    private void withJar() throws IOException {
        javaAndMaven();
        program("mvn", MAVEN + "printf jar >bench/target/bench-1.jar\n");
    }

    private static String shared(Ended ended) {
        return String.join(
                " ",
                ended.out().stream()
                        .filter(w -> w.contains("-XX:SharedArchiveFile="))
                        .toList());
    }

    @Test
    void firstCall_makesAnArchiveOfClasses_eachStartUsesIt() throws Exception {
        withJar();
        Path archive = root.toRealPath().resolve("bench/target/start.jsa");
        for (int call = 1; call <= 2; call++) {
            Ended ended = run("--help");
            assertEquals("-XX:SharedArchiveFile=" + archive, shared(ended), "call " + call);
            assertTrue(ended.out().stream().anyMatch(w -> w.contains("/bench/target/bench-1.jar:")), "from the jar");
        }
        assertEquals("classes\n", Files.readString(archive));
        try (var left = Files.list(archive.getParent())) {
            List<String> parts = left.map(p -> p.getFileName().toString())
                    .filter(n -> n.startsWith("start.jsa."))
                    .toList();
            assertEquals(List.of(), parts, "nothing is left of the making");
        }
    }

    @Test
    void newerJar_makesTheArchiveAgain() throws Exception {
        withJar();
        run("--help");
        Path archive = Files.writeString(root.resolve("bench/target/start.jsa"), "old");
        run("--help");
        assertEquals("old", Files.readString(archive), "an archive that is newer than the jar stays");
        Path jar = root.resolve("bench/target/bench-1.jar");
        assertTrue(jar.toFile().setLastModified(archive.toFile().lastModified() + 5_000), "it can be made newer");
        run("--help");
        assertEquals("classes\n", Files.readString(archive));
    }

    @Test
    void archiveThatCannotBeMade_isLeftOutAndNotTriedAgain() throws Exception {
        withJar();
        program("java", Files.readString(path.resolve("java")).replace("printf 'classes\\n' >\"$made\"", "exit 1"));
        for (int call = 1; call <= 2; call++) {
            Ended ended = run("--help");
            assertEquals(0, ended.status(), ended.err());
            assertEquals(List.of("--help"), ended.arguments());
            assertEquals("", shared(ended), "call " + call);
            assertEquals(0, Files.size(root.resolve("bench/target/start.jsa")), "an empty file says that it was tried");
        }
    }

    @Test
    void otherJava_doesNotUseTheArchiveOfTheFirst() throws Exception {
        withJar();
        run("--help");
        Path other = Files.createDirectories(temp.resolve("other/bin"));
        executable(Files.copy(path.resolve("java"), other.resolve("java")));
        program("bash", "#!" + SHELL + "\nexport JAVA_HOME=" + other.getParent() + "\nexec " + SHELL + " \"$@\"\n");
        Ended ended = run("--help");
        assertEquals(0, ended.status(), ended.err());
        assertEquals("", shared(ended));
    }

    @Test
    void buildThatFails_showsTheEndOfItsLog() throws Exception {
        java("17", true);
        program("mvn", "#!/bin/bash\necho 'the compiler is not amused'\nexit 1\n");
        Ended ended = run("--help");
        assertEquals(3, ended.status());
        assertTrue(ended.err().contains("the compiler is not amused"), ended.err());
        assertTrue(ended.err().contains("the build failed; the whole log is in " + root), ended.err());
        assertTrue(run("--help").err().contains("building"), "it is tried again");
    }

    @Test
    void argumentsWithSpaces_arriveWhole() throws Exception {
        javaAndMaven();
        assertEquals(
                List.of("run", "my van", "", "*"), run("run", "my van", "", "*").arguments());
    }

    @Test
    void run_ofHoursOrOfEverything_hasTheFullCompiler_shortOnesTheQuickOne() throws Exception {
        javaAndMaven();
        Path shelf = Files.createDirectories(root.resolve("config/scenarios"));
        Files.writeString(shelf.resolve("stop.toml"), "[about]\nduration_s = 3600\n");
        Files.writeString(shelf.resolve("night.toml"), "[about]\nduration_s = 28800\n");
        Files.writeString(shelf.resolve("charge.toml"), "[about]\nduration_s = \"1.2 * full_s\"\n");
        Path own = Files.writeString(temp.resolve("own night.toml"), "[about]\nduration_s=30000.5\n");
        assertTrue(hasQuickCompiler("run", "car", "stop"));
        assertTrue(hasQuickCompiler("check", "car"));
        assertFalse(hasQuickCompiler("run", "car"));
        assertFalse(hasQuickCompiler("run", "--json", "car", "stop", "night"));
        assertFalse(hasQuickCompiler("run", "car", "charge"));
        assertFalse(hasQuickCompiler("run", "car", own.toString()));
        assertFalse(hasQuickCompiler("trip", "car", "stop"));
        assertTrue(hasQuickCompiler("port", "car", "--out", "x"));
        assertFalse(hasQuickCompiler("port", "car", "--compare"));
        assertTrue(hasQuickCompiler("prove", "car", "--necessity"));
        assertFalse(hasQuickCompiler("prove", "car", "--max-states", "900"));
        assertFalse(hasQuickCompiler("prove", "car", "--max-states=900"));
    }

    private boolean hasQuickCompiler(String... arguments) throws Exception {
        Ended ended = run(arguments);
        assertEquals(List.of(arguments), ended.arguments());
        return ended.out().contains("-XX:TieredStopAtLevel=1");
    }

    @Test
    void fromAnotherFolder_byASymbolicLink_findsItsHome() throws Exception {
        javaAndMaven();
        Path link = Files.createSymbolicLink(elsewhere.resolve("sprag"), launcher());
        for (Ended ended : List.of(run(link, temp, "--help"), run(Path.of("./sprag"), elsewhere, "--help"))) {
            assertEquals(0, ended.status(), ended.err());
            assertTrue(ended.out().contains("-Dsprag.home=" + root.toRealPath()), "home: " + ended.out());
        }
    }

    @Test
    void newerSource_buildsAgain() throws Exception {
        javaAndMaven();
        run("--help");
        Path source = Files.writeString(root.resolve("bench/src/main/java/A.java"), "class A {}");
        assertTrue(source.toFile().setLastModified(System.currentTimeMillis() + 5_000), "it can be made newer");
        assertTrue(run("--help").err().contains("building"), "built again");
    }
}
