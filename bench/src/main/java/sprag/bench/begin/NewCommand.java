package sprag.bench.begin;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.InputFile;
import sprag.bench.cli.Numbers;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.Terminal;
import sprag.bench.cli.Wrap;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
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
            description = "where the vehicle is written; its last part is the vehicle's name")
    private Path folder;

    @Option(names = "--answers", paramLabel = "FILE", description = "answers in a file, one name = value a line")
    private Path answersFile;

    @Option(
            names = "--set",
            paramLabel = "NAME=VALUE",
            description = "one answer, e.g. --set cells=30; as often as needed")
    private Map<String, String> given = new LinkedHashMap<>();

    @Option(
            names = "--questions",
            description = "print all questions with their defaults as a file of answers, and end")
    private boolean questions;

    @Option(names = "--refresh", description = "compute again what follows from answers.toml; what you wrote stays")
    private boolean refresh;

    @Override
    public Integer call() throws Exception {
        PrintWriter out = spec.commandLine().getOut();
        Answers answers = new Answers();
        if (questions) {
            out.print(answers.asFile());
            out.flush();
            return ExitCode.WELL;
        }
        Path file = folder.resolve(Catalogue.VEHICLE_FILE);
        Path kept = folder.resolve(ANSWERS);
        if (refresh) {
            answers.read(kept);
        } else if (InputFile.isThere(file)) {
            throw refused(
                    file, "is there already", "Take another folder, or use --refresh, which keeps what you wrote.");
        }
        if (answersFile != null) {
            answers.read(answersFile);
        }
        answers.set(given);
        if (!refresh && answersFile == null && given.isEmpty() && Terminal.interactive()) {
            ask(answers, out);
        }
        requireEmf(answers, kept);
        requireSpeed(answers, kept);
        String name = String.valueOf(folder.toAbsolutePath().normalize().getFileName());
        Map<Row, Suggestion> values = FirstVehicle.suggestions(name, answers);
        if (refresh) {
            refreshed(file, values, out);
        } else {
            OutFolder.make(folder);
            OutFolder.write(file, VehicleText.of(name, FirstVehicle.signals(answers), values));
            out.println("Written: " + file + ", with " + values.size() + " values that follow from the answers.");
        }
        OutFolder.write(kept, answers.asFile());
        // What a person wrote may contradict the new answers: then the errors are told, and the exit status says so.
        VehicleReader.read(folder);
        advise(kept, out);
        return ExitCode.WELL;
    }

    private static BadInput refused(Path file, String what, String remedy) {
        Problems problems = new Problems();
        problems.add(file, what, remedy);
        return new BadInput(problems.list());
    }

    private static void refreshed(Path file, Map<Row, Suggestion> values, PrintWriter out) throws BadInput {
        try {
            String before = new String(InputFile.bytes(file, MOST_BYTES), StandardCharsets.UTF_8);
            VehicleText.Refreshed done = VehicleText.refresh(before, values);
            OutFolder.write(file, done.text());
            out.println(file + ": " + done.changed().size() + " values changed, "
                    + done.kept().size() + " of yours kept although they would be computed otherwise.");
            done.changed().forEach(line -> out.println("  changed  " + line));
            done.kept().forEach(line -> out.println("  kept     " + line));
        } catch (InputFile.Refused e) {
            throw refused(file, e.getMessage(), e.remedy());
        }
    }

    private void advise(Path kept, PrintWriter out) {
        out.println("The answers stand in " + kept + ".");
        out.println();
        Wrap.lines(
                        "Nothing in it has been measured. Replace what data sheets and measurements tell, above all the"
                                + " pedal's voltages, the bus capacitance and the ratings in the sections design.*; then:",
                        COLUMNS)
                .forEach(out::println);
        out.println("  sprag check " + quoted(folder));
        out.println("  sprag run " + quoted(folder) + " drive-and-stop");
        out.flush();
    }

    /** Asks on the terminal. An empty line takes the default; the end of the input takes all that are left. */
    private static void ask(Answers answers, PrintWriter out) throws IOException {
        BufferedReader in = new BufferedReader(new InputStreamReader(System.in, Charset.defaultCharset()));
        out.println("An empty line takes the answer in brackets. " + Question.values().length + " questions.");
        for (Question question : Question.values()) {
            List<String> lines = new ArrayList<>(Wrap.lines(question.question, COLUMNS));
            lines.addAll(Wrap.hanging("  ", "  ", "why: " + question.why, COLUMNS));
            out.println();
            lines.forEach(out::println);
            boolean isAnswered = false;
            while (!isAnswered) {
                out.print(
                        "  " + allowed(question) + " [" + answers.text(question).replace("\"", "") + "]: ");
                out.flush();
                String typed = in.readLine();
                if (typed == null) {
                    out.println();
                    return;
                }
                isAnswered = (typed.isBlank() || taken(answers, question, typed.strip(), out))
                        && isSound(answers, question, out);
            }
        }
        out.println();
    }

    /** A motor with magnets makes voltage: none would be an unknown that looks good. */
    private static boolean isSound(Answers answers, Question question, PrintWriter out) {
        if (question == Question.MOTOR_EMF_V_PER_KRPM && answers.lacksEmf()) {
            out.println("  A motor with magnets makes voltage when it turns: it must be more than 0.");
            return false;
        }
        if (question == Question.MAX_KPH && answers.isTooFast()) {
            out.println("  The motor would turn too fast: with this gear at most "
                    + Numbers.text(answers.mostKph(), "km/h") + ", with the margin for downhill.");
            return false;
        }
        return true;
    }

    private static void requireEmf(Answers answers, Path from) throws BadInput {
        if (answers.lacksEmf()) {
            throw refused(
                    from,
                    "motor_emf_v_per_krpm is 0, and a permanent-magnet motor makes voltage whenever it turns",
                    "Give the voltage for 1000 turns a minute, e.g. --set motor_emf_v_per_krpm=36.");
        }
    }

    private static void requireSpeed(Answers answers, Path from) throws BadInput {
        if (answers.isTooFast()) {
            double kph = answers.get(Question.MAX_KPH);
            double most = answers.mostKph();
            throw refused(
                    from,
                    "max_kph = " + Numbers.text(kph) + " turns the motor faster than motor_max_rpm = "
                            + Numbers.text(answers.get(Question.MOTOR_MAX_RPM)) + " with gear_ratio = "
                            + Numbers.text(answers.get(Question.GEAR_RATIO)) + " and wheel_radius_m = "
                            + Numbers.text(answers.get(Question.WHEEL_RADIUS_M)),
                    "Give max_kph at most " + Numbers.text(most) + ", or gear_ratio at most "
                            + Numbers.text(Math.floor(answers.get(Question.GEAR_RATIO) * most / kph * 100) / 100)
                            + ", or a motor that turns faster.");
        }
    }

    private static boolean taken(Answers answers, Question question, String typed, PrintWriter out) {
        try {
            answers.set(Map.of(question.key(), typed.replace(',', '.')));
            return true;
        } catch (BadInput e) {
            out.println("  " + typed + " is not possible: it must be " + allowed(question) + ".");
            return false;
        }
    }

    private static String allowed(Question question) {
        return question.choices().isEmpty()
                ? Numbers.text(question.min()) + " to " + Numbers.text(question.max(), Numbers.symbol(question.unit()))
                : String.join(" or ", question.choices());
    }

    /** As it must be typed in a shell. */
    private static String quoted(Path folder) {
        String text = folder.toString();
        return text.matches("[\\w./:\\\\-]+") ? text : '"' + text + '"';
    }
}
