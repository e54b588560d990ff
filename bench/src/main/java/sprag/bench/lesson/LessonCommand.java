package sprag.bench.lesson;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.Terminal;
import sprag.bench.cli.Within;
import sprag.bench.vehicle.BadInput;

/** {@code lesson}: the course. */
@Command(
        name = "lesson",
        mixinStandardHelpOptions = true,
        subcommands = {LessonCheckCommand.class, LessonExamCommand.class},
        description = {
            "Teaches interlocks in lessons with checked answers.",
            "",
            "A lesson asks what will happen, runs the simulated car,",
            "explains with the figures of that run, and checks your answers.",
            "",
            "Without a number: lists the lessons and what is done of them."
        },
        footer = {
            "",
            "Exit status: 0 every exercise of the lesson is done, 1 not yet.",
            "",
            "Examples: sprag lesson 1",
            "          sprag lesson 4 --exercise 2 --answer 5"
        })
public final class LessonCommand implements Callable<Integer> {
    private static final int HIGHEST_PORT = 65_535;

    @Parameters(index = "0", arity = "0..1", paramLabel = "N", description = "The number of a lesson.")
    private Integer number;

    @Option(
            names = "--progress",
            paramLabel = "FILE",
            defaultValue = Progress.FILE,
            description = "What was done before and is handed in (default: ${DEFAULT-VALUE}).")
    private Path progressFile;

    @Option(
            names = "--name",
            paramLabel = "NAME",
            description = "Who does the lessons, for the file that is handed in.")
    private String pupil;

    @Option(names = "--answer", paramLabel = "ANSWER", description = "Check this answer to an exercise, and end.")
    private String answer;

    @Option(
            names = "--exercise",
            paramLabel = "K",
            defaultValue = "1",
            description = "The exercise that --answer is for (default: ${DEFAULT-VALUE}).")
    private int exercise;

    @Option(names = "--show", description = "Print the whole lesson without questions, for reading or printing.")
    private boolean show;

    @Option(names = "--teacher", description = "Print it with the answers, and what usually goes wrong.")
    private boolean teacher;

    @Option(names = "--panel", description = "Give the lesson in a browser, beside the simulated car.")
    private boolean panel;

    @Option(
            names = "--port",
            paramLabel = "P",
            defaultValue = "8640",
            description = "Port for --panel, 0 for any free one (default: ${DEFAULT-VALUE}).")
    private int port;

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() throws BadInput {
        PrintWriter out = spec.commandLine().getOut();
        Progress progress = Progress.of(progressFile, pupil);
        if (number == null) {
            list(out, progress);
            return ExitCode.WELL;
        }
        Within.check(spec, "lesson", number, 1, Lessons.NAMES.size());
        Given given = new Given(Lessons.of(number));
        if (panel) {
            Within.check(spec, "--port", port, 0, HIGHEST_PORT);
            LessonPanel.serve(
                    new LessonBeside(given, progress, progressFile), given.firstCar(), given.shelf(), port, out);
            return ExitCode.WELL;
        }
        Dialogue dialogue = new Dialogue(System.in, out, !Terminal.interactive());
        if (show || teacher) {
            new Sheet(given, dialogue).print(teacher);
            return ExitCode.WELL;
        }
        Session session = new Session(given, dialogue, progress, progressFile);
        boolean done = answer == null ? session.give() : answered(given.lesson(), session);
        out.flush();
        return done ? ExitCode.WELL : ExitCode.FINDING;
    }

    private boolean answered(Lesson lesson, Session session) throws BadInput {
        Within.check(spec, "--exercise", exercise, 1, lesson.exercises().size());
        return session.answered(lesson.exercises().get(exercise - 1), exercise, answer.strip(), 0);
    }

    private static void list(PrintWriter out, Progress progress) {
        out.println("Lessons on interlocks. Each figure in them comes from a run on your machine.");
        out.println();
        int minutes = 0;
        for (Lesson lesson : Lessons.all()) {
            long done = progress.done(lesson.name());
            int all = lesson.exercises().size();
            minutes += lesson.minutes();
            String state = done == all ? "done" : done == 0 ? "" : done + " of " + all + " done";
            String line = String.format(
                    "  %2d  %-44s %2d min   %s", lesson.number(), lesson.title(), lesson.minutes(), state);
            out.println(line.stripTrailing());
        }
        out.println();
        out.println("Together " + minutes + " minutes. Begin with: sprag lesson 1");
        out.flush();
    }
}
