package sprag.bench.begin;

import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sprag.bench.cli.CommandText;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.InputFile;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.Terminal;
import sprag.bench.cli.Wrap;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Problem;
import sprag.bench.vehicle.Problems;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Row;

/** Writes a first vehicle file from a few answers. */
@Command(
        name = "new",
        mixinStandardHelpOptions = true,
        description = {
            "Writes a first vehicle file from a few answers. Every key stands in it with its meaning and range.",
            "",
            "On a terminal it asks; otherwise, and with --answers or --set, it takes the defaults for the rest and never waits."
        })
public final class NewCommand implements Callable<Integer> {
    private static final String ANSWERS = "answers.toml";
    private static final int MOST_BYTES = 1_000_000;
    private static final int COLUMNS = 79;

    @Spec
    private CommandSpec spec;

    @Parameters(
            paramLabel = "FOLDER",
            arity = "0..1",
            description = "Where the vehicle is written; its last part is the vehicle's name. --questions needs none.")
    private Path folder;

    @Option(names = "--answers", paramLabel = "FILE", description = "Answers in a file, one name = value a line.")
    private Path answersFile;

    @Option(
            names = "--set",
            paramLabel = "NAME=VALUE",
            description = "One answer, e.g. --set cells=30; as often as needed.")
    private Map<String, String> given = new LinkedHashMap<>();

    @Option(
            names = "--questions",
            description =
                    "Print all questions as a file of answers, with the defaults or what --answers and --set give.")
    private boolean questions;

    @Option(names = "--refresh", description = "Compute again what follows from answers.toml; what you wrote stays.")
    private boolean refresh;

    @Override
    public Integer call() throws Exception {
        PrintWriter out = spec.commandLine().getOut();
        Answers answers = new Answers();
        if (questions) {
            print(answers, out);
            return ExitCode.WELL;
        }
        if (folder == null) {
            throw new ParameterException(
                    spec.commandLine(), "a folder is missing, for example: sprag new my-car; --questions needs none");
        }
        Path file = folder.resolve(Catalogue.VEHICLE_FILE);
        Path kept = folder.resolve(ANSWERS);
        if (refresh) {
            answers.read(kept);
        } else if (InputFile.isThere(file)) {
            throw BadInput.of(
                    file, 1, "is there already", "Take another folder, or use --refresh, which keeps what you wrote.");
        }
        if (answersFile != null) {
            answers.read(answersFile);
        }
        answers.set(given);
        if (!refresh && answersFile == null && given.isEmpty() && Terminal.interactive()) {
            BufferedReader typed = new BufferedReader(new InputStreamReader(System.in, Charset.defaultCharset()));
            if (!new Interview(typed, out).ask(answers)) {
                return ExitCode.USAGE;
            }
        }
        requireSound(answers, refresh ? kept : answersFile != null ? answersFile : Path.of("--set"));
        Map<Row, Suggestion> values = FirstVehicle.suggestions(file, answers);
        if (refresh) {
            refreshed(file, answers, values, out);
        } else {
            OutFolder.make(folder);
            OutFolder.write(file, VehicleText.of(FirstVehicle.name(file), answers, values));
            out.println("Written: " + file + ", with " + values.size() + " values that follow from the answers.");
        }
        OutFolder.write(kept, answers.asFile());
        // What a person wrote may contradict the new answers: then the errors are told, and the exit status says so.
        VehicleReader.read(folder);
        kinds(answers, out);
        advise(kept, out);
        return ExitCode.WELL;
    }

    private void print(Answers answers, PrintWriter out) throws BadInput {
        if (refresh) {
            throw new ParameterException(
                    spec.commandLine(), "--questions only prints, and --refresh writes; ask for one thing at a time");
        }
        if (answersFile != null) {
            answers.read(answersFile);
        }
        answers.set(given);
        requireSound(answers, answersFile != null ? answersFile : Path.of("--set"));
        out.print(answers.asFile());
        out.flush();
    }

    /** What is otherwise with such a car; nothing for the usual one. */
    private static void kinds(Answers answers, PrintWriter out) {
        for (Kind kind : Kind.of(answers)) {
            out.println();
            Wrap.lines(kind.text(), COLUMNS).forEach(out::println);
        }
    }

    private static void refreshed(Path file, Answers answers, Map<Row, Suggestion> values, PrintWriter out)
            throws BadInput {
        try {
            String before = new String(InputFile.bytes(file, MOST_BYTES), StandardCharsets.UTF_8);
            VehicleText.Refreshed done = VehicleText.refresh(before, answers, values);
            OutFolder.write(file, done.text());
            out.println(file + ": " + done.changed().size() + " values changed, "
                    + done.kept().size() + " of yours kept although they would be computed otherwise.");
            done.changed().forEach(line -> out.println("  changed  " + line));
            done.kept().forEach(line -> out.println("  kept     " + line));
        } catch (InputFile.Refused e) {
            throw BadInput.of(file, 1, e.getMessage(), e.remedy());
        }
    }

    private void advise(Path kept, PrintWriter out) {
        out.println();
        out.println("The answers stand in " + kept + ".");
        out.println();
        Wrap.lines(
                        "Nothing in it has been measured. Replace what data sheets and measurements tell, above all the"
                                + " pedal's voltages, the bus capacitance and the ratings in the sections design.*; then:",
                        COLUMNS)
                .forEach(out::println);
        out.println("  sprag check " + CommandText.quoted(folder));
        out.println("  sprag run " + CommandText.quoted(folder) + " drive-and-stop");
        out.println("  sprag draft " + CommandText.quoted(folder) + "     (a wiring schedule to begin with)");
        out.flush();
    }

    private static void requireSound(Answers answers, Path from) throws BadInput {
        Problems problems = new Problems();
        Contradiction.of(answers)
                .forEach(c ->
                        problems.add(new Problem(from, answers.line(c.at()), 1, "", c.what(), "", "", c.remedy())));
        problems.throwIfAny();
    }
}
