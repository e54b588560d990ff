package sprag.bench.docs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import picocli.CommandLine.ParameterException;
import sprag.bench.Sprag;
import sprag.bench.vehicle.Catalogue;

/**
 * Each block of code in the README and in docs/ is one of these, and nothing else:
 *
 * <ul>
 *   <li>commands; each command of this program is one that it takes. A line that begins with {@code >} is printed by the command above it
 *   <li>below {@code <!-- printed by: bench/sprag ... -->}: lines that this command prints
 *   <li>below {@code <!-- written to FILE by: bench/sprag ... -->}: lines of a file that this command writes
 *   <li>below {@code <!-- compared by XyzTest -->}: that test names the page and compares
 *   <li>below {@code <!-- a file -->} or {@code <!-- a drawing -->}, or fenced as a language of such a file: nothing that a program prints
 *   <li>below {@code <!-- measured -->}: figures of one machine, on a page of {@link #MEASURED}
 * </ul>
 *
 * <p>Lines stand in the order of the output and follow each other there, except where a line says {@code ...}.
 */
class QuotedOutputTest {
    /** Blocks that no test compares: page, and why. */
    private static final Map<String, String> MEASURED =
            Map.of("speed.md", "times and rates of the machine that the page names; another machine shows others");

    private static final Set<String> SHOWN = Set.of("a file", "a drawing");
    private static final Set<String> LANGUAGES_OF_FILES = Set.of("toml", "java", "yaml", "sh");
    private static final Pattern PRINTED = Pattern.compile("printed by: (bench/sprag .*)");
    private static final Pattern WRITTEN = Pattern.compile("written to (\\S+) by: (bench/sprag .*)");
    private static final Pattern COMPARED = Pattern.compile("compared by (\\w+Test)");
    private static final Pattern OTHER_COMMAND = Pattern.compile("(mvn|cc|gcc|spin|\\./pan) .*");
    private static final String GOES_ON = " ".repeat(20);
    private static final String QUOTE = "> ";
    private static final String LEFT_OUT = "...";

    private static List<CodeBlock> blocks() throws IOException {
        Path home = Catalogue.installed().home();
        List<Path> pages = new ArrayList<>(List.of(home.resolve("README.md")));
        try (Stream<Path> docs = Files.list(home.resolve("docs"))) {
            docs.filter(page -> page.toString().endsWith(".md")).sorted().forEach(pages::add);
        }
        List<CodeBlock> blocks = new ArrayList<>();
        for (Path page : pages) {
            blocks.addAll(CodeBlock.of(page));
        }
        return blocks;
    }

    @Test
    void block_ofEveryPage_isCommandsOrComparedOrSaysWhyNot() throws Exception {
        List<String> wrong = new ArrayList<>();
        for (CodeBlock block : blocks()) {
            wrong(block).ifPresent(why -> wrong.add(block.where() + ": " + why));
        }
        assertTrue(wrong.isEmpty(), String.join("\n", wrong));
    }

    @Test
    void blocks_measured_areOnThePagesThatTheListNames() throws Exception {
        assertEquals(
                MEASURED.keySet(),
                blocks().stream()
                        .filter(block -> block.mark().equals("measured"))
                        .map(CodeBlock::page)
                        .collect(Collectors.toSet()));
    }

    @Test
    void block_thatIsNeitherCommandNorMarked_isFound() throws Exception {
        assertEquals(
                Optional.of("no command prints it, and no comment above says what it is"), wrong(block("", "8 of 8")));
        assertTrue(wrong(block("because", "8 of 8")).isPresent());
        assertTrue(wrong(block("measured", "8 of 8")).isPresent(), "any.md is not in the list");
        assertTrue(wrong(block("compared by QuotedOutputTest", "8 of 8")).isPresent(), "it does not name the page");
        assertTrue(wrong(block("", "> 8 of 8")).isPresent(), "a quote without a command");
        assertTrue(
                wrong(block("", "bench/sprag run parcel-van --no-such-option")).isPresent());
        assertEquals(Optional.empty(), wrong(block("a file", "8 of 8")));
        assertEquals(Optional.empty(), wrong(block("", "bench/sprag run parcel-van    plays all")));
    }

    @Test
    void quote_thatDiffers_isFound() {
        List<String> printed = List.of("one", "two", "three", "two", "four");
        assertEquals(Optional.empty(), differs(List.of("two", "three"), printed));
        assertEquals(Optional.empty(), differs(List.of("one", "...", "three", "...", "four"), printed));
        assertEquals(Optional.empty(), differs(List.of("two", "four"), printed), "the second \"two\" is the one");
        assertTrue(differs(List.of("one", "three"), printed).isPresent(), "what is left out is not marked");
        assertTrue(differs(List.of("four", "...", "one"), printed).isPresent(), "the order");
        assertTrue(differs(List.of("on"), printed).isPresent(), "a part of a line");
        assertTrue(differs(List.of("..."), printed).isPresent(), "nothing is quoted");
    }

    private static CodeBlock block(String mark, String... lines) {
        return new CodeBlock("any.md", 1, "", mark, List.of(lines));
    }

    private static Optional<String> wrong(CodeBlock block) throws IOException {
        String mark = block.mark();
        Matcher printed = PRINTED.matcher(mark);
        if (printed.matches()) {
            return differs(block.lines(), Printed.of(printed.group(1)).lines());
        }
        Matcher written = WRITTEN.matcher(mark);
        if (written.matches()) {
            Path folder = Printed.of(written.group(2)).folder();
            return differs(block.lines(), Files.readAllLines(folder.resolve(written.group(1))));
        }
        Matcher compared = COMPARED.matcher(mark);
        if (compared.matches()) {
            return names(compared.group(1), block.page())
                    ? Optional.empty()
                    : Optional.of("no test " + compared.group(1) + " names docs/" + block.page());
        }
        if (mark.equals("measured") && MEASURED.containsKey(block.page())
                || SHOWN.contains(mark)
                || LANGUAGES_OF_FILES.contains(block.language())) {
            return Optional.empty();
        }
        return mark.isEmpty()
                ? commands(block)
                : Optional.of("a comment above says \"" + mark + "\", which means nothing");
    }

    /** Whether a test of that name has the name of the page in its source. */
    private static boolean names(String test, String page) throws IOException {
        try (Stream<Path> files = Files.walk(Path.of("src", "test", "java"))) {
            for (Path file : files.filter(f -> f.endsWith(test + ".java")).toList()) {
                if (Files.readString(file).contains("docs/" + page)) {
                    return true;
                }
            }
        }
        return false;
    }

    private static Optional<String> commands(CodeBlock block) {
        Map<String, List<String>> quotes = new TreeMap<>();
        String command = "";
        for (String line : block.lines()) {
            if (line.startsWith("bench/sprag ")) {
                command = line.split(" {2,}")[0];
                Optional<String> refused = refused(command);
                if (refused.isPresent()) {
                    return refused;
                }
            } else if (line.startsWith(QUOTE) && !command.isEmpty()) {
                quotes.computeIfAbsent(command, c -> new ArrayList<>()).add(line.substring(QUOTE.length()));
            } else if (OTHER_COMMAND.matcher(line).matches()) {
                command = "";
            } else if (!line.isEmpty() && !line.startsWith(GOES_ON)) {
                return Optional.of("no command prints it, and no comment above says what it is");
            }
        }
        return quotes.entrySet().stream()
                .flatMap(e -> differs(e.getValue(), Printed.of(e.getKey()).lines()).stream())
                .findFirst();
    }

    /** Why the program does not take a command, if so. Nothing is run. */
    private static Optional<String> refused(String command) {
        try {
            String[] words = Printed.words(command).toArray(new String[0]);
            Sprag.commandLineFor(words).parseArgs(words);
            return Optional.empty();
        } catch (ParameterException e) {
            return Optional.of(command + ": " + e.getMessage());
        }
    }

    /** What of a quote the output does not have, if so. */
    private static Optional<String> differs(List<String> quote, List<String> printed) {
        int from = 0;
        int compared = 0;
        List<String> piece = new ArrayList<>();
        for (int i = 0; i <= quote.size(); i++) {
            if (i < quote.size() && !quote.get(i).equals(LEFT_OUT)) {
                piece.add(quote.get(i));
            } else if (!piece.isEmpty()) {
                int at = Collections.indexOfSubList(printed.subList(from, printed.size()), piece);
                if (at < 0) {
                    return Optional.of("is not printed, or not there:\n    " + String.join("\n    ", piece));
                }
                from += at + piece.size();
                compared += piece.size();
                piece.clear();
            }
        }
        return compared == 0 ? Optional.of("nothing is quoted") : Optional.empty();
    }
}
