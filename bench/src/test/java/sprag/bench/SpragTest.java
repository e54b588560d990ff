package sprag.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import picocli.CommandLine;
import picocli.CommandLine.Model.ArgSpec;

/** What a person sees who asks for help. */
class SpragTest extends TypingTest {
    private static final int COLUMNS = 80;

    static Stream<String> commands() {
        return Sprag.commandLine().getSubcommands().keySet().stream();
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("commands")
    void command_isFoundByTheNameInTheList_aloneOrWithAll(String name) {
        var found = Sprag.commandLineFor(name, "--help").getSubcommands().keySet();
        assertTrue(found.contains(name), name + " is not among " + found);
        boolean needsOthers = name.equals("demo") || name.equals("key");
        assertEquals(needsOthers ? Sprag.commandLine().getSubcommands().size() : 1, found.size(), name);
    }

    @Test
    void wrongWordsBeforeACommand_haveEveryCommandToChooseFrom() {
        int all = Sprag.commandLine().getSubcommands().size();
        assertEquals(all, Sprag.commandLineFor().getSubcommands().size());
        assertEquals(all, Sprag.commandLineFor("--help").getSubcommands().size());
        assertEquals(
                all, Sprag.commandLineFor("chek", "parcel-van").getSubcommands().size());
    }

    /** The list of commands shows the first line of each description alone: it must be a sentence. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("commands")
    void listOfCommands_tellsEachInOneSentence(String name) {
        String first = Sprag.commandLine()
                .getSubcommands()
                .get(name)
                .getCommandSpec()
                .usageMessage()
                .description()[0];
        assertTrue(first.endsWith("."), name + " is introduced by half a sentence: " + first);
    }

    @ParameterizedTest(name = "{0} --help")
    @MethodSource("commands")
    void help_fitsATerminal(String name) {
        assertEquals(0, sprag(name, "--help"));
        out.toString()
                .lines()
                .forEach(line -> assertTrue(line.length() <= COLUMNS, line.length() + " columns: " + line));
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        trip yard-cart udds --cold=warm       | 'warm' is not a number
        trip yard-cart udds --regen=1.5       | '1.5' is not a whole number
        campaign yard-cart --seed=x           | 'x' is not a whole number
        panel yard-cart --port=0 --bind=      | --bind is empty
        check yard-cart --out=                | the name of a file or folder is empty
        campaign yard-cart --merge=           | the name of a file or folder is empty
        """)
    void option_nonsense_isRefusedInPlainWords(String words, String told) {
        assertEquals(2, sprag(words.split(" +")));
        assertTrue(err.toString().replaceAll("\\s+", " ").contains(told), err::toString);
    }

    static Stream<CommandLine> everyCommand() {
        return Stream.concat(Stream.of(Sprag.commandLine()), below(Sprag.commandLine()));
    }

    private static Stream<CommandLine> below(CommandLine line) {
        return line.getSubcommands().values().stream().flatMap(sub -> Stream.concat(Stream.of(sub), below(sub)));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("everyCommand")
    void optionsAndParameters_areToldInSentences(CommandLine line) {
        for (ArgSpec argument : line.getCommandSpec().args()) {
            String told = String.join(" ", argument.description());
            String where = line.getCommandSpec().qualifiedName() + " " + argument + ": " + told;
            assertTrue(told.matches("(?s)[A-Z].*"), where + ": a capital letter begins a sentence");
            assertTrue(told.endsWith("."), where + ": a full stop ends a sentence");
            assertTrue(
                    told.replaceAll("\\(default: [^)]+\\)", "").indexOf("default") < 0 || isAboutDefaults(told),
                    where + ": write (default: VALUE)");
        }
    }

    /** The questions of a new vehicle have defaults of their own. */
    private static boolean isAboutDefaults(String told) {
        return told.startsWith("Print all questions");
    }

    @Test
    void listOfCommands_isTheSameWithoutTheirOptions() {
        assertEquals(
                Sprag.commandLine().getUsageMessage(),
                Sprag.commandLineFor("--help").getUsageMessage());
    }

    @Test
    void noCommand_isWrongUsageAndShowsHowToGoOn() {
        assertEquals(2, sprag());
        assertTrue(err.toString().contains("a command is missing"), err.toString());
        assertTrue(err.toString().contains("demo"), err.toString());
    }

    @Test
    void unknownCommand_isWrongUsage() {
        assertEquals(2, sprag("fly"));
        assertTrue(err.toString().contains("fly"), err.toString());
    }
}
