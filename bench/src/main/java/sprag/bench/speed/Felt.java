package sprag.bench.speed;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.Trouble;

/**
 * How long a person waits for a command, from the launcher's start to its end.
 *
 * @param start what starts the program
 * @param folder where results go
 */
record Felt(List<String> start, Path folder) {
    private static final double NS_PER_S = 1e9;

    /** A command and how long it should take. */
    record Wait(String words, double aimS, boolean writes) {}

    /** Those that people wait for. */
    static final List<Wait> WAITS = List.of(
            new Wait("--help", 0.2, false),
            new Wait("matrix parcel-van", 0.25, false),
            new Wait("check parcel-van", 0.3, true),
            new Wait("demo", 1, true),
            new Wait("prove coupe", 0.8, false),
            new Wait("prove coupe --necessity", 1, false),
            new Wait("run parcel-van charge-night", 2.2, true),
            new Wait("run parcel-van", 5, true),
            new Wait("margin parcel-van", 3, true),
            new Wait("campaign parcel-van", 5, true));

    /**
     * Measures one.
     *
     * @param rounds the best of so many counts
     */
    Figure of(Wait wait, int rounds, double plainS) {
        double bestS = Double.POSITIVE_INFINITY;
        for (int round = 0; round < rounds; round++) {
            List<String> words = new ArrayList<>(start);
            words.addAll(List.of(wait.words().split(" ")));
            if (wait.writes()) {
                words.addAll(List.of(
                        "--out",
                        folder.resolve(round + "-" + words.get(start.size())).toString()));
            }
            long beganNs = System.nanoTime();
            int status = ended(words);
            bestS = Math.min(bestS, (System.nanoTime() - beganNs) / NS_PER_S);
            if (status != ExitCode.WELL && status != ExitCode.FINDING) {
                return new Figure(wait.words(), Double.NaN, wait.aimS(), "s", Double.NaN, "failed with " + status);
            }
        }
        return new Figure(wait.words(), bestS, wait.aimS(), "s", plainS, "java -version");
    }

    /** How long a Java takes that does nothing. */
    static double plainS(int rounds) {
        String java = Path.of(System.getProperty("java.home"), "bin", "java").toString();
        double bestS = Double.POSITIVE_INFINITY;
        for (int round = 0; round < rounds; round++) {
            long beganNs = System.nanoTime();
            ended(List.of(java, "-version"));
            bestS = Math.min(bestS, (System.nanoTime() - beganNs) / NS_PER_S);
        }
        return bestS;
    }

    private static int ended(List<String> words) {
        ProcessBuilder builder = new ProcessBuilder(words)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .redirectError(ProcessBuilder.Redirect.DISCARD);
        Process process;
        try {
            process = builder.start();
        } catch (IOException e) {
            throw new Trouble("cannot start " + words.get(0) + ": " + e.getMessage());
        }
        try {
            return process.waitFor();
        } catch (InterruptedException e) {
            process.destroy();
            Thread.currentThread().interrupt();
            throw new Trouble("interrupted while " + String.join(" ", words) + " was measured");
        }
    }
}
