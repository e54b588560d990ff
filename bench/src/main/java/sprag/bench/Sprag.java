package sprag.bench;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.OutputStream;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import picocli.CommandLine.TypeConversionException;
import sprag.bench.begin.NewCommand;
import sprag.bench.book.BookCommand;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.FullOutput;
import sprag.bench.cli.Terminal;
import sprag.bench.cli.TerminalWatch;
import sprag.bench.cli.Trouble;
import sprag.bench.cli.Version;
import sprag.bench.cli.Wrap;
import sprag.bench.drawing.DraftCommand;
import sprag.bench.drawing.DrawCommand;
import sprag.bench.drawing.LiveCommand;
import sprag.bench.evidence.campaign.CampaignCommand;
import sprag.bench.evidence.margin.MarginCommand;
import sprag.bench.evidence.matrix.MatrixCommand;
import sprag.bench.evidence.prove.ProveBenchmark;
import sprag.bench.evidence.prove.ProveCommand;
import sprag.bench.evidence.prove.toy.ExploreBenchmark;
import sprag.bench.explain.KeyCommand;
import sprag.bench.explain.ProblemText;
import sprag.bench.hand.board.PortsCommand;
import sprag.bench.hand.board.ProbeCommand;
import sprag.bench.hand.bus.BusCommand;
import sprag.bench.hand.commission.CommissionCommand;
import sprag.bench.lesson.LessonCommand;
import sprag.bench.loop.record.ReplayCommand;
import sprag.bench.panel.PanelCommand;
import sprag.bench.port.PortCommand;
import sprag.bench.port.VectorsCommand;
import sprag.bench.review.CheckCommand;
import sprag.bench.run.DemoCommand;
import sprag.bench.run.RunCommand;
import sprag.bench.run.ValueCommand;
import sprag.bench.speed.SpeedCommand;
import sprag.bench.trip.TripCommand;
import sprag.bench.vehicle.BadInput;

/** The command line. Exit status 0: all well; 1: a finding; 2: wrong usage or input; 3: disk, folder or board failed. */
@Command(
        name = "sprag",
        mixinStandardHelpOptions = true,
        versionProvider = Version.class,
        synopsisSubcommandLabel = "COMMAND",
        description = {
            "Runs, breaks and proves a vehicle supervisor on a simulated car.",
            "",
            "Nothing here is certified and none of it is meant to drive a car on a road."
        },
        exitCodeListHeading = "%nExit status:%n",
        exitCodeList = {
            " 0:all well",
            " 1:a finding, a failed expectation, a broken promise",
            " 2:wrong usage, or a file that cannot be read",
            " 3:the disk is full, a folder cannot be written, the board is lost, or a program is missing"
        },
        footer = {"", "\"sprag COMMAND --help\" says more. Start with: sprag demo"})
public final class Sprag implements Runnable {
    /** Every command with its name, in the order of the help. One line each. */
    private static final List<Named> COMMANDS = List.of(
            new Named("demo", DemoCommand.class),
            new Named("new", NewCommand.class),
            new Named("check", CheckCommand.class),
            new Named("draft", DraftCommand.class),
            new Named("draw", DrawCommand.class),
            new Named("live", LiveCommand.class),
            new Named("book", BookCommand.class),
            new Named("run", RunCommand.class),
            new Named("value", ValueCommand.class),
            new Named("trip", TripCommand.class),
            new Named("panel", PanelCommand.class),
            new Named("lesson", LessonCommand.class),
            new Named("prove", ProveCommand.class),
            new Named("campaign", CampaignCommand.class),
            new Named("margin", MarginCommand.class),
            new Named("speed", SpeedCommand.class),
            new Named("matrix", MatrixCommand.class),
            new Named("key", KeyCommand.class),
            new Named("replay", ReplayCommand.class),
            new Named("ports", PortsCommand.class),
            new Named("probe", ProbeCommand.class),
            new Named("bus", BusCommand.class),
            new Named("commission", CommissionCommand.class),
            new Named("port", PortCommand.class),
            new Named("vectors", VectorsCommand.class),
            new Named("prove-benchmark", ProveBenchmark.class),
            new Named("explore-benchmark", ExploreBenchmark.class));

    private static final Set<String> NEED_OTHERS = Set.of("demo", "key");

    private record Named(String name, Class<?> type) {
        /** What the list of commands says of it, without its options. */
        CommandSpec introduced() {
            Command told = type.getAnnotation(Command.class);
            CommandSpec introduced = CommandSpec.create();
            introduced.usageMessage().description(told.description()).hidden(told.hidden());
            return introduced;
        }
    }

    @Spec
    private CommandSpec spec;

    @Override
    public void run() {
        throw new ParameterException(spec.commandLine(), "a command is missing");
    }

    /** The whole command line. */
    public static CommandLine commandLine() {
        return commandLine(COMMANDS);
    }

    /**
     * The command line that some words need. Reading what each command accepts takes most of the time of a short command,
     * so the others are left out when the first word names one. {@code demo} calls others, and {@code key} explains all.
     * The list of commands needs their first sentences only.
     */
    public static CommandLine commandLineFor(String... words) {
        if (words.length == 1 && words[0].startsWith("-")) {
            CommandLine line = commandLine(List.of());
            COMMANDS.forEach(command -> line.addSubcommand(command.name(), command.introduced()));
            return line;
        }
        List<Named> named = words.length == 0 || NEED_OTHERS.contains(words[0])
                ? List.of()
                : COMMANDS.stream().filter(c -> c.name().equals(words[0])).toList();
        return commandLine(named.isEmpty() ? COMMANDS : named);
    }

    private static CommandLine commandLine(List<Named> commands) {
        CommandLine line = new CommandLine(new Sprag());
        commands.forEach(command -> line.addSubcommand(command.type()));
        line.registerConverter(Path.class, Sprag::named);
        numbers(line);
        line.setCaseInsensitiveEnumValuesAllowed(true);
        line.setUsageHelpAutoWidth(false);
        line.setUsageHelpWidth(80);
        line.setParameterExceptionHandler((wrong, args) -> explainUse(wrong));
        line.setExecutionExceptionHandler((failure, where, parsed) -> explain(failure, where));
        line.setColorScheme(CommandLine.Help.defaultColorScheme(
                Terminal.colour() ? CommandLine.Help.Ansi.ON : CommandLine.Help.Ansi.OFF));
        return line;
    }

    /** A file or folder of the command line. An empty name would be the current folder, which nobody means. */
    private static Path named(String text) {
        if (text.isBlank()) {
            throw new TypeConversionException("the name of a file or folder is empty");
        }
        try {
            return Path.of(text);
        } catch (InvalidPathException e) {
            throw new TypeConversionException("'" + text + "' cannot be the name of a file or folder");
        }
    }

    /** Wrong use of a command: what is wrong, and where its use is told; the list of commands only when none was named. */
    private static int explainUse(ParameterException wrong) {
        CommandLine where = wrong.getCommandLine();
        PrintWriter err = where.getErr();
        ("sprag: " + wrong.getMessage())
                .lines()
                .flatMap(line -> Wrap.lines(line, Wrap.TERMINAL_COLUMNS).stream())
                .forEach(err::println);
        CommandLine.UnmatchedArgumentException.printSuggestions(wrong, err);
        if (where.getParent() == null) {
            where.usage(err);
        } else {
            err.println("\"" + where.getCommandSpec().qualifiedName() + " --help\" tells how it is used.");
        }
        return ExitCode.USAGE;
    }

    /** What is no number is told by the everyday name of the kind. */
    private static void numbers(CommandLine line) {
        ITypeConverter<Integer> ints = text -> number(text, Integer::valueOf, "a whole number");
        ITypeConverter<Long> longs = text -> number(text, Long::valueOf, "a whole number");
        ITypeConverter<Double> doubles = text -> number(text, Double::valueOf, "a number");
        line.registerConverter(Integer.class, ints).registerConverter(int.class, ints);
        line.registerConverter(Long.class, longs).registerConverter(long.class, longs);
        line.registerConverter(Double.class, doubles).registerConverter(double.class, doubles);
    }

    private static <T> T number(String text, Function<String, T> read, String kind) {
        try {
            return read.apply(text);
        } catch (NumberFormatException e) {
            throw new TypeConversionException("'" + text + "' is not " + kind);
        }
    }

    /** What a person is told when a command could not do its work. */
    private static int explain(Exception failure, CommandLine where) {
        PrintWriter err = where.getErr();
        if (failure instanceof BadInput bad) {
            int count = bad.problems().size();
            boolean whole = "all".equals(System.getenv("SPRAG_PROBLEMS"));
            ProblemText.lines(bad.problems(), whole).forEach(err::println);
            err.println("sprag: " + count + (count == 1 ? " problem" : " problems") + "; nothing was run");
            return ExitCode.USAGE;
        }
        if (failure instanceof Trouble) {
            err.println("sprag: " + failure.getMessage());
            return ExitCode.TROUBLE;
        }
        err.println("sprag: this should not have happened; it is a mistake in the program, not yours:");
        failure.printStackTrace(err);
        return ExitCode.TROUBLE;
    }

    /** Runs a command. */
    public static void main(String[] args) {
        TerminalWatch.isProgram();
        System.exit(run(commandLineFor(args), System.out, new FileOutputStream(FileDescriptor.out), args));
    }

    /**
     * Runs a command and tells when what it printed is lost.
     *
     * @param printed where the command prints
     * @param below the stream below
     * @return the exit status
     */
    static int run(CommandLine line, PrintStream printed, OutputStream below, String... args) {
        line.setOut(new PrintWriter(printed, true));
        int status = execute(line, args);
        line.getOut().flush();
        return FullOutput.told(printed, below, line.getErr()) ? ExitCode.TROUBLE : status;
    }

    private static int execute(CommandLine line, String[] args) {
        try {
            return line.execute(args);
        } catch (OutOfMemoryError e) {
            line.getErr().println("sprag: the memory is used up; give Java more with JAVA_TOOL_OPTIONS=-Xmx2g");
            return ExitCode.TROUBLE;
        }
    }
}
