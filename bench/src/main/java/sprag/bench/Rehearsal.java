package sprag.bench;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import picocli.CommandLine;

/**
 * Plays the commands that people use most, and shows nothing of it. The launcher starts it once, so that Java can note which
 * classes they load and keep these in an archive, from which it starts in half the time.
 */
final class Rehearsal {
    private static final List<List<String>> COMMANDS = List.of(
            List.of("--help"),
            List.of("check", "--help"),
            List.of("chek"),
            List.of("key", "precharge"),
            List.of("matrix", "parcel-van"),
            List.of("check", "parcel-van"),
            List.of("prove", "yard-cart"),
            List.of("demo"));

    private Rehearsal() {}

    /** Plays them; what they write goes to a folder that is removed at the end. */
    public static void main(String[] args) throws IOException {
        Path folder = Files.createTempDirectory("sprag-rehearsal");
        try {
            for (List<String> words : COMMANDS) {
                String[] all = words.contains("demo")
                        ? new String[] {"demo", "--out", folder.toString()}
                        : words.toArray(String[]::new);
                CommandLine line = Sprag.commandLineFor(all);
                PrintWriter nowhere = new PrintWriter(Writer.nullWriter());
                line.setOut(nowhere).setErr(nowhere).execute(all);
            }
        } finally {
            remove(folder);
        }
    }

    private static void remove(Path folder) throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path each : all.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(each);
            }
        }
    }
}
