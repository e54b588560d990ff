package sprag.bench.evidence.prove.toy;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** SPIN, where it is installed; and the same toy machine in it, depth first on one core, compiled as SPIN likes it best: the named baseline. */
public final class Spin {
    private static final Pattern STORED = Pattern.compile("(\\d+) states, stored");
    private static final Pattern TRANSITIONS = Pattern.compile("(\\d+) transitions \\(= stored\\+matched\\)");
    private static final Pattern ELAPSED = Pattern.compile("elapsed time ([0-9.]+) seconds");
    private static final Pattern VECTOR =
            Pattern.compile("state-vector as stored = (\\d+) byte \\+ (\\d+) byte overhead");

    private final Path folder;

    /**
     * What one run said.
     *
     * @param seconds SPIN's own figure, start-up not counted
     * @param bytesPerState as stored, with SPIN's overhead, its hash table and search stack not counted
     */
    record Count(long states, long transitions, double seconds, double bytesPerState) {
        double statesPerS() {
            return states / seconds;
        }
    }

    private Spin(Path folder) {
        this.folder = folder;
    }

    /** SPIN, if it and a C compiler are installed. Returns ready to run, or nothing. */
    static Optional<Spin> forLimit(int limit) throws IOException, InterruptedException {
        if (!installed()) {
            return Optional.empty();
        }
        Path folder = Files.createTempDirectory("toy-spin");
        try (InputStream model = Spin.class.getResourceAsStream("toy.pml")) {
            Files.copy(model, folder.resolve("toy.pml"));
        }
        run(folder, List.of("spin", "-a", "-DL=" + limit, "toy.pml"));
        run(folder, List.of("gcc", "-O2", "-w", "-DSAFETY", "-DNOFAIR", "-o", "pan", "pan.c"));
        return Optional.of(new Spin(folder));
    }

    /** Whether SPIN and a C compiler are installed. */
    public static boolean installed() throws InterruptedException {
        return installed("spin", "-V") && installed("gcc", "--version");
    }

    private static boolean installed(String program, String ask) throws InterruptedException {
        try {
            Process process = new ProcessBuilder(program, ask)
                    .redirectErrorStream(true)
                    .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                    .start();
            return process.waitFor() == 0;
        } catch (IOException e) {
            return false; // the one way to learn that a program is not there
        }
    }

    /** Runs a program to its end. Returns what it said; another end than a good one is an error. */
    public static String run(Path folder, List<String> command) throws IOException, InterruptedException {
        Process process = new ProcessBuilder(command)
                .directory(folder.toFile())
                .redirectErrorStream(true)
                .start();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        int status = process.waitFor();
        if (status != 0) {
            throw new IOException(String.join(" ", command) + " ended with status " + status + ": " + said);
        }
        return said;
    }

    /** Explores once. */
    Count explore() throws IOException, InterruptedException {
        String said = run(folder, List.of("./pan", "-m20000000", "-w24"));
        double bytes = number(VECTOR, 1, said) + number(VECTOR, 2, said);
        return new Count(
                (long) number(STORED, 1, said), (long) number(TRANSITIONS, 1, said), number(ELAPSED, 1, said), bytes);
    }

    private static double number(Pattern pattern, int group, String text) throws IOException {
        Matcher matcher = pattern.matcher(text);
        if (!matcher.find()) {
            throw new IOException("SPIN did not say \"" + pattern + "\" but: " + text);
        }
        return Double.parseDouble(matcher.group(group));
    }

    /** Removes what was made. */
    void delete() throws IOException {
        try (var files = Files.list(folder)) {
            for (Path file : files.toList()) {
                Files.delete(file);
            }
        }
        Files.delete(folder);
    }
}
