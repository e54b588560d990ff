package sprag.bench.docs;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import sprag.bench.Sprag;

/**
 * What a command prints. Each command runs once for all tests that ask for it.
 *
 * @param status its exit status
 * @param lines what it printed
 * @param folder where it wrote: a folder that an option names stands in there
 */
public record Printed(int status, List<String> lines, Path folder) {
    private static final Map<String, Printed> KNOWN = new ConcurrentHashMap<>();
    private static final Pattern WORD = Pattern.compile("\"([^\"]*)\"|'([^']*)'|(\\S+)");
    private static final Set<String> NAMES_A_FOLDER = Set.of("--out", "--export");
    private static final Path FOLDER = Path.of("target", "printed");

    static {
        Runtime.getRuntime().addShutdownHook(new Thread(Printed::clear));
    }

    /** Runs it, if nobody has yet.
     *
     * @param command as a page shows it, with or without {@code bench/sprag}
     */
    public static Printed of(String command) {
        return KNOWN.computeIfAbsent(command.replaceFirst("^bench/sprag ", ""), Printed::run);
    }

    /** The words of a command, as a shell would part them. */
    static List<String> words(String command) {
        List<String> words = new ArrayList<>();
        Matcher word = WORD.matcher(command.replaceFirst("^bench/sprag ", ""));
        while (word.find()) {
            words.add(word.group().replaceAll("^[\"']|[\"']$", ""));
        }
        return words;
    }

    private static Printed run(String command) {
        try {
            Path folder = Files.createTempDirectory(Files.createDirectories(FOLDER), "of");
            List<String> words = words(command);
            for (int i = 1; i < words.size(); i++) {
                if (NAMES_A_FOLDER.contains(words.get(i - 1))) {
                    words.set(i, folder.resolve(words.get(i)).toString());
                }
            }
            if (words.get(0).equals("run") && !words.contains("--out")) {
                words.addAll(List.of("--out", folder.toString()));
            }
            StringWriter out = new StringWriter();
            String[] args = words.toArray(new String[0]);
            int status = Sprag.commandLineFor(args)
                    .setOut(new PrintWriter(out, true))
                    .setErr(new PrintWriter(new StringWriter()))
                    .execute(args);
            return new Printed(
                    status, out.toString().lines().map(String::stripTrailing).toList(), folder);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** What the commands wrote goes when the tests end. */
    private static void clear() {
        for (Printed printed : KNOWN.values()) {
            try (Stream<Path> files = Files.walk(printed.folder)) {
                for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
                    Files.delete(file);
                }
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }

    /** All that it printed. */
    public String text() {
        return String.join("\n", lines);
    }
}
