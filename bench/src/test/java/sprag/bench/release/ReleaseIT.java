package sprag.bench.release;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.spi.ToolProvider;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Unpacks the two archives of {@code mvn -Prelease verify} and runs them where there is neither Maven nor a compiler. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class ReleaseIT {
    private static final long PATIENCE_S = 300;
    private static final String VERSION = System.getProperty("release.version");
    private static final Path FOLDER = Path.of(System.getProperty("release.folder"));
    private static final Path PLAIN = FOLDER.resolve("sprag-" + VERSION + ".zip");
    private static final Path WITH_RUNTIME =
            FOLDER.resolve("sprag-" + VERSION + "-" + System.getProperty("release.platform") + ".zip");
    private static final List<String> TOOLS = List.of("sh", "readlink", "dirname", "sed");

    /** What a library uses only when it is there: SQL dates, beans and windows of desktop programs, pools of database connections. */
    private static final Set<String> OPTIONAL = Set.of(
            "com.fasterxml.jackson.databind -> java.desktop",
            "com.fasterxml.jackson.databind -> java.sql",
            "jna -> java.desktop",
            "org.eclipse.jetty.util -> java.desktop",
            "org.eclipse.jetty.util -> java.sql");

    private Path temp;
    private Path path;
    private Path elsewhere;
    private Path plain;
    private Path whole;

    private record Ended(int status, String out, String err) {}

    @BeforeAll
    void unpackBothWithoutTheRightToWrite(@TempDir Path folder) throws IOException {
        temp = folder;
        path = Files.createDirectories(temp.resolve("path"));
        for (String tool : TOOLS) {
            Path real = Files.exists(Path.of("/usr/bin", tool)) ? Path.of("/usr/bin", tool) : Path.of("/bin", tool);
            Files.createSymbolicLink(path.resolve(tool), real);
        }
        elsewhere = Files.createDirectories(temp.resolve("some where else"));
        plain = unpack(PLAIN, temp.resolve("plain copy"));
        whole = unpack(WITH_RUNTIME, temp.resolve("copy with runtime"));
    }

    @Test
    void documents_standInTheArchiveAsASite() throws IOException {
        Path site = plain.resolve("site");
        String index = Files.readString(site.resolve("index.html"));
        assertTrue(index.contains("<title>Sprag</title>"), index.substring(0, 300));
        for (String file : List.of("site.css", "search.js", "sections.js", "words.html", "traction-circuit.svg")) {
            assertTrue(Files.size(site.resolve(file)) > 0, file);
        }
    }

    @AfterAll
    void allowRemoval() throws IOException {
        for (Path top : List.of(plain, whole)) {
            try (Stream<Path> all = Files.walk(top)) {
                for (Path folder : all.filter(Files::isDirectory).toList()) {
                    Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwxr-xr-x"));
                }
            }
        }
    }

    /** Unpacks as {@code unzip} does, with the permissions in the archive, less every right to write. */
    private static Path unpack(Path archive, Path target) throws IOException {
        try (FileSystem zip =
                FileSystems.newFileSystem(archive, Map.<String, Object>of("enablePosixFileAttributes", true))) {
            List<Path> all;
            try (Stream<Path> walk = Files.walk(zip.getPath("/"))) {
                all = walk.toList();
            }
            for (Path from : all) {
                Path to = target.resolve(zip.getPath("/").relativize(from).toString());
                if (Files.isDirectory(from)) {
                    Files.createDirectories(to);
                } else {
                    Files.copy(from, to);
                    var rights = new TreeSet<>(Files.getPosixFilePermissions(from));
                    rights.removeIf(right -> right.name().endsWith("_WRITE"));
                    Files.setPosixFilePermissions(to, rights);
                }
            }
        }
        Path top = target.resolve("sprag-" + VERSION);
        assertTrue(Files.isDirectory(top), archive + " holds one folder, " + top.getFileName());
        try (Stream<Path> walk = Files.walk(top)) {
            for (Path folder : walk.filter(Files::isDirectory).toList()) {
                Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("r-xr-xr-x"));
            }
        }
        return top;
    }

    private Ended run(Path top, String javaHome, String... arguments) throws IOException, InterruptedException {
        List<String> words = new ArrayList<>(List.of(top.resolve("bench/sprag").toString()));
        words.addAll(List.of(arguments));
        ProcessBuilder builder = new ProcessBuilder(words).directory(elsewhere.toFile());
        builder.environment().clear();
        builder.environment().put("PATH", path.toString());
        if (!javaHome.isEmpty()) {
            builder.environment().put("JAVA_HOME", javaHome);
        }
        Path out = temp.resolve("out.txt");
        Path err = temp.resolve("err.txt");
        Process process =
                builder.redirectOutput(out.toFile()).redirectError(err.toFile()).start();
        assertTrue(process.waitFor(PATIENCE_S, TimeUnit.SECONDS), words + " ends within " + PATIENCE_S + " s");
        return new Ended(process.exitValue(), Files.readString(out), Files.readString(err));
    }

    /** The plain archive on a runtime without compiler (that of the other archive), and the archive with its own. */
    private Stream<Arguments> archives() {
        return Stream.of(
                arguments("plain", plain, whole.resolve("runtime").toString()), arguments("with runtime", whole, ""));
    }

    private static List<String> contents(Path top) throws IOException {
        try (Stream<Path> walk = Files.walk(top)) {
            return walk.map(Path::toString).sorted().toList();
        }
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("archives")
    void readOnlyCopy_runFromAnotherFolder_doesItsWorkAndPassesItsStatusOn(String which, Path top, String java)
            throws Exception {
        List<String> before = contents(top);
        Ended help = run(top, java, "--help");
        assertEquals(0, help.status(), help.err());
        assertTrue(help.out().contains("sprag COMMAND --help"), help.out());
        assertEquals("sprag " + VERSION, run(top, java, "--version").out().strip());
        Ended check = run(top, java, "check", "parcel-van");
        assertEquals(0, check.status(), check.out() + check.err());
        assertEquals(2, run(top, java, "check", "no-such-vehicle").status());
        assertEquals(2, run(top, java, "no-such-command").status());
        Path report = elsewhere.resolve("a tour " + which);
        Ended demo = run(top, java, "demo", "--out", report.toString());
        assertEquals(0, demo.status(), demo.out() + demo.err());
        assertTrue(Files.size(report.resolve("index.html")) > 0, "the report was written");
        assertEquals(3, run(top, java, "demo", "--out", "/dev/null/x").status(), "a folder that cannot be written");
        assertEquals(before, contents(top), "nothing was written beside the program");
    }

    @Test
    void plainArchive_withoutAnyJava_saysWhatToInstall() throws Exception {
        Ended ended = run(plain, "", "--help");
        assertEquals(3, ended.status());
        assertEquals(
                "sprag: no Java was found. Install a Java runtime, version 17 or newer, or set JAVA_HOME to one.\n",
                ended.err());
    }

    @Test
    void runtime_holdsEveryModuleThatTheJarsNeed() throws Exception {
        List<String> words = new ArrayList<>(List.of("--multi-release", "17", "--ignore-missing-deps", "-summary"));
        words.addAll(jars());
        StringWriter found = new StringWriter();
        int status = ToolProvider.findFirst("jdeps")
                .orElseThrow()
                .run(new PrintWriter(found), new PrintWriter(found), words.toArray(String[]::new));
        assertEquals(0, status, found::toString);
        Matcher listed =
                Pattern.compile("MODULES=\"(.*)\"").matcher(Files.readString(whole.resolve("runtime/release")));
        assertTrue(listed.find(), "runtime/release lists the modules of the runtime");
        Set<String> present = Set.of(listed.group(1).split(" "));
        List<String> needs = found.toString()
                .lines()
                .map(line -> line.strip().replaceAll("-[0-9.]+\\.jar ", " "))
                .filter(line -> line.matches(".* -> (java|jdk)\\..*"))
                .toList();
        assertTrue(needs.size() > jars().size() / 2, () -> "jdeps told little: " + found);
        List<String> missing = needs.stream()
                .filter(line -> !OPTIONAL.contains(line))
                .filter(line -> !present.contains(line.replaceAll(".* -> ", "")))
                .toList();
        assertEquals(List.of(), missing, "add these modules to release.modules in bench/pom.xml");
    }

    private List<String> jars() throws IOException {
        try (Stream<Path> all = Files.list(plain.resolve("bench/lib"))) {
            return all.map(Path::toString).sorted().toList();
        }
    }

    @Test
    void licences_nameEveryLibraryThatIsShipped() throws Exception {
        String list = Files.readString(plain.resolve("THIRD-PARTY.txt"));
        Set<String> listed = new TreeSet<>();
        Matcher rows = Pattern.compile("(?m)^[^ :]+:([^ :]+):([^ :]+)$").matcher(list);
        while (rows.find()) {
            listed.add(rows.group(1) + "-" + rows.group(2));
        }
        Set<String> own = Set.of("supervisor", "hal", "bench");
        Set<String> shipped = new TreeSet<>();
        for (String jar : jars()) {
            String name = Path.of(jar).getFileName().toString().replaceAll("\\.jar$", "");
            if (!own.contains(name.replaceAll("-\\d.*", ""))) {
                // one library may have a jar for each kind of processor, which ends its name
                shipped.add(listed.stream()
                        .filter(library -> name.startsWith(library + "-"))
                        .findAny()
                        .orElse(name));
            }
        }
        assertEquals(shipped, listed, "libraries in bench/lib, and those in THIRD-PARTY.txt with their versions");
        assertEquals(
                listed.size(),
                list.lines().filter(line -> line.startsWith("    ")).count(),
                list);
        for (String file : List.of("LICENSE", "licences/README.txt", "licences/EPL-2.0.txt", "README.md")) {
            assertTrue(Files.size(plain.resolve(file)) > 0, file);
        }
        assertTrue(Files.exists(plain.resolve("supervisor/src/main/java/sprag/supervisor/Supervisor.java")));
        assertTrue(Files.exists(plain.resolve("docs/boards.md")));
    }

    /** What two builds of one commit must have in common: no time but that of the POM, a fixed order, fixed rights. */
    @Test
    void entries_haveTheTimeOfThePomAndRightsThatDoNotDependOnTheMachine() throws IOException {
        var expected = Instant.parse(System.getProperty("release.timestamp"))
                .atOffset(ZoneOffset.UTC)
                .toLocalDateTime();
        for (Path archive : List.of(PLAIN, WITH_RUNTIME)) {
            try (ZipFile zip = new ZipFile(archive.toFile())) {
                for (ZipEntry entry : zip.stream().toList()) {
                    assertEquals(expected, entry.getTimeLocal(), entry.getName());
                }
            }
            try (FileSystem zip =
                    FileSystems.newFileSystem(archive, Map.<String, Object>of("enablePosixFileAttributes", true))) {
                try (Stream<Path> walk = Files.walk(zip.getPath("/sprag-" + VERSION))) {
                    for (Path entry : walk.toList()) {
                        boolean runs = Files.isDirectory(entry)
                                || entry.endsWith("bench/sprag")
                                || entry.toString().contains("/runtime/bin/")
                                || entry.toString().matches(".*/runtime/lib/(jexec|jspawnhelper)");
                        String rights = PosixFilePermissions.toString(Files.getPosixFilePermissions(entry));
                        assertEquals(runs ? "rwxr-xr-x" : "rw-r--r--", rights, entry.toString());
                    }
                }
            }
        }
    }

    /** There is no Windows here: these are rules about its text. Nobody has run it in this test. */
    @Test
    void windowsLauncher_isReadByRules() throws IOException {
        byte[] bytes;
        try (InputStream in = Files.newInputStream(plain.resolve("bench/sprag.bat"))) {
            bytes = in.readAllBytes();
        }
        String text = new String(bytes, StandardCharsets.US_ASCII);
        assertEquals(text.lines().count(), text.split("\r\n", -1).length - 1, "every line ends as Windows wants it");
        List<String> lines = text.lines().toList();
        assertEquals("@echo off", lines.get(0));
        assertEquals("exit /b %ERRORLEVEL%", lines.get(lines.size() - 1), "the status is passed on");
        String start = lines.get(lines.size() - 2);
        assertTrue(start.startsWith("\"%java%\" %speed% ") && start.endsWith(" sprag.bench.Sprag %*"), start);
        assertTrue(start.contains("\"-Dsprag.home=%root%\" -cp \"%root%\\bench\\lib\\*\""), start);
        for (String line : lines) {
            assertEquals(0, line.chars().filter(c -> c == '"').count() % 2, "quotes come in pairs: " + line);
            if (line.contains("goto ")) {
                String label = line.replaceAll(".*goto ", "");
                assertTrue(lines.contains(":" + label), "goto leads somewhere: " + line);
            }
        }
        String shared = Files.readString(plain.resolve("bench/start.sh"));
        for (String word : List.of("--enable-native-access=ALL-UNNAMED", "-Djava.awt.headless=true")) {
            assertTrue(text.contains(word) && shared.contains(word), word + " stands in both launchers");
        }
    }

    @Test
    void libraries_haveSourcesAndJavadocBesideThem() throws IOException {
        for (String library : List.of("supervisor", "hal")) {
            Path target = FOLDER.resolve("../../" + library + "/target").normalize();
            assertHolds(target.resolve(library + "-" + VERSION + "-sources.jar"), "sprag/", ".java");
            assertHolds(target.resolve(library + "-" + VERSION + "-javadoc.jar"), "", "index.html");
        }
    }

    private static void assertHolds(Path jar, String prefix, String suffix) throws IOException {
        try (ZipFile zip = new ZipFile(jar.toFile())) {
            assertTrue(
                    zip.stream()
                            .map(ZipEntry::getName)
                            .sorted(Comparator.naturalOrder())
                            .anyMatch(name -> name.startsWith(prefix) && name.endsWith(suffix)),
                    jar + " holds " + suffix);
        }
    }
}
