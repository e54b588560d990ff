package sprag.bench.docs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;
import sprag.bench.Sprag;
import sprag.bench.vehicle.Catalogue;

/** Links of the pages lead somewhere, README leads to every page, and every command that is quoted can be typed. */
class PagesTest {
    private static final Path HOME = Catalogue.installed().home();
    private static final Pattern LINK = Pattern.compile("\\]\\(([^)#:]+)(#[^)]*)?\\)");
    private static final Pattern INLINE = Pattern.compile("`(?:bench/)?sprag ([^`]+)`");
    private static final Pattern WORD = Pattern.compile("\"[^\"]*\"|\\S+");

    private static List<Path> pages() throws IOException {
        List<Path> all = new ArrayList<>(List.of(HOME.resolve("README.md"), HOME.resolve("DEVELOPERS.md")));
        try (Stream<Path> docs = Files.list(HOME.resolve("docs"))) {
            docs.filter(file -> file.toString().endsWith(".md")).sorted().forEach(all::add);
        }
        return all;
    }

    @Test
    void links_ofEveryPage_leadToAFile() throws Exception {
        List<String> dead = new ArrayList<>();
        for (Path page : pages()) {
            Matcher link = LINK.matcher(Files.readString(page));
            while (link.find()) {
                if (!Files.exists(page.resolveSibling(link.group(1)))) {
                    dead.add(page + ": " + link.group(1));
                }
            }
        }
        assertEquals(List.of(), dead);
    }

    @Test
    void tables_ofEveryPage_haveWordsInEachHead() throws Exception {
        for (Path page : pages()) {
            List<String> lines = Files.readAllLines(page);
            for (int i = 1; i < lines.size(); i++) {
                if (lines.get(i).matches("\\|[-:| ]*-{3}[-:| ]*")) {
                    String head = lines.get(i - 1);
                    assertTrue(
                            !head.matches(".*\\|\\s*\\|.*"),
                            () -> page + " has an empty head, which nobody can hear: " + head);
                }
            }
        }
    }

    @Test
    void readme_linksEveryPage() throws Exception {
        String readme = Files.readString(HOME.resolve("README.md"));
        List<String> missing = pages().stream()
                .map(page -> HOME.relativize(page).toString())
                .filter(name -> !name.equals("README.md") && !readme.contains("](" + name + ")"))
                .toList();
        assertEquals(List.of(), missing);
    }

    @Test
    void readme_tableOfCommands_isTheListOfTheProgram() throws Exception {
        String below = Files.readString(HOME.resolve("README.md")).split("## The commands")[1];
        Set<String> told = below.lines()
                .filter(line -> line.startsWith("|") || line.startsWith("    bench/sprag "))
                .flatMap(line ->
                        Pattern.compile("bench/sprag ([a-z-]+)").matcher(line).results())
                .map(found -> found.group(1))
                .collect(Collectors.toCollection(TreeSet::new));
        Set<String> known = new TreeSet<>(Sprag.commandLine().getSubcommands().keySet());
        assertEquals(
                known,
                told,
                "give each command a row in the table of README, a benchmark a line below Figures, and nothing else");
    }

    @Test
    void commands_quotedOnThePages_areUnderstood() throws Exception {
        List<String> wrong = new ArrayList<>();
        CommandLine line = Sprag.commandLine();
        int count = 0;
        for (Path page : pages()) {
            for (String command : commands(Files.readString(page))) {
                count++;
                complaint(line, command)
                        .ifPresent(text -> wrong.add(page.getFileName() + ": " + command + ": " + text));
            }
        }
        assertEquals(List.of(), wrong);
        assertTrue(count > 45, "only " + count + " commands were found");
    }

    /** Lines of code blocks that begin with the launcher, and what stands between back quotes. */
    private static List<String> commands(String page) {
        List<String> all = new ArrayList<>();
        page.lines()
                .map(String::strip)
                .filter(line -> line.startsWith("bench/sprag "))
                .map(line -> line.substring("bench/sprag ".length()).split(" {2,}")[0])
                .forEach(all::add);
        Matcher inline = INLINE.matcher(page);
        while (inline.find()) {
            all.add(inline.group(1).replaceAll("\\s+", " "));
        }
        return all;
    }

    private static Optional<String> complaint(CommandLine line, String command) {
        List<String> words = new ArrayList<>();
        Matcher word = WORD.matcher(command);
        while (word.find()) {
            words.add(word.group().replaceAll("[\"\\[\\]]|\\.\\.\\.", ""));
        }
        if (!line.getSubcommands().containsKey(words.get(0)) && !words.get(0).startsWith("-")) {
            return words.get(0).equals("COMMAND") ? Optional.empty() : Optional.of("no such command");
        }
        if (words.size() == 1) {
            return Optional.empty();
        }
        try {
            line.parseArgs(words.toArray(new String[0]));
            return unknownName(words);
        } catch (CommandLine.ParameterException e) {
            return Optional.of(e.getMessage());
        }
    }

    /** A name in small letters that follows a command is a shipped vehicle, unless it is somebody's own. */
    private static Optional<String> unknownName(List<String> words) {
        String name = words.get(1);
        boolean takesVehicle = List.of("check", "run", "panel", "prove", "campaign", "matrix", "commission")
                .contains(words.get(0));
        boolean own = !name.matches("[a-z-]+") || name.startsWith("-");
        boolean shipped =
                Files.isDirectory(HOME.resolve("config").resolve("vehicles").resolve(name));
        return !takesVehicle || own || shipped ? Optional.empty() : Optional.of("there is no vehicle " + name);
    }
}
