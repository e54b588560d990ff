package sprag.bench.lesson;

import java.io.PrintWriter;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import sprag.bench.car.FaultSpec;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.Terminal;
import sprag.bench.cli.Within;
import sprag.bench.cli.Wrap;
import sprag.bench.loop.FrameColumns;
import sprag.bench.loop.measure.Measure;
import sprag.bench.loop.trace.Channel;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Vehicle;

/** {@code lesson exam}: a fault to be found. */
@Command(
        name = "exam",
        mixinStandardHelpOptions = true,
        description = {
            "Hides a fault in a short drive: find it from the symptoms and with a meter.",
            "",
            "At the prompt, a question to the run as for \"sprag value\" is one measurement.",
            "\"is FAULT\" is your answer, \"faults WORD\" lists names with that word,",
            "\"interlocks\" reads the supervisor's memory, \"quit\" ends.",
            "",
            "The same seed is the same fault, so that a class can compare."
        },
        footer = {"", "Exit status: 0 found, 1 not.", "", "Example: sprag lesson exam --seed 7"})
final class LessonExamCommand implements Callable<Integer> {
    private static final int COLUMNS = 79;
    private static final int MOST_NAMES = 60;

    @Option(
            names = "--vehicle",
            paramLabel = "VEHICLE",
            defaultValue = "parcel-van",
            description = "Name of a shipped vehicle (default: ${DEFAULT-VALUE}).")
    private String vehicleName;

    @Option(
            names = "--seed",
            paramLabel = "N",
            defaultValue = "1",
            description = "Which case (default: ${DEFAULT-VALUE}).")
    private int seed;

    @Option(names = "--teacher", description = "Print the fault and end.")
    private boolean teacher;

    @Spec
    private CommandSpec spec;

    private Exam exam;
    private Dialogue dialogue;
    private int measured;
    private int guessed;

    @Override
    public Integer call() throws BadInput {
        Within.check(spec, "--seed", seed, 0, Integer.MAX_VALUE);
        PrintWriter out = spec.commandLine().getOut();
        Vehicle vehicle = new Sandbox().vehicle(vehicleName, java.util.Map.of());
        Exam hidden = Exam.of(vehicle, seed);
        if (teacher) {
            out.println("Case " + seed + " on " + vehicle.name() + ": " + hidden.answer());
            return ExitCode.WELL;
        }
        boolean found = ask(vehicle, hidden, new Dialogue(System.in, out, !Terminal.interactive()));
        dialogue.say((found ? "Found" : "Not found") + " after " + count(measured, "measurement") + " and "
                + count(guessed, "answer") + ".");
        out.flush();
        return found ? ExitCode.WELL : ExitCode.FINDING;
    }

    private static String count(int n, String what) {
        return n + " " + what + (n == 1 ? "" : "s");
    }

    /** Shows the case and answers until the fault is found, or whoever looks for it goes away. Returns whether it was found. */
    boolean ask(Vehicle vehicle, Exam hidden, Dialogue with) throws BadInput {
        exam = hidden;
        dialogue = with;
        dialogue.heading("Case " + seed + " on " + vehicle.name());
        dialogue.say("One thing is broken in this car. The driver did what is usual, and saw:");
        exam.symptoms().forEach(line -> dialogue.line("  " + line));
        dialogue.line("");
        dialogue.say(
                "CAUTION. In a real car nobody looks for a fault on live traction parts: isolate, lock, wait, verify. Here the"
                        + " meter costs nothing but a count.");
        dialogue.say("Ask the run (pedal_a_v at 5, most bus_voltage_v, state at end), or type: is FAULT, faults WORD,"
                + " columns WORD (what can be measured), interlocks, quit.");
        while (true) {
            String typed = dialogue.ask("measure, or is FAULT");
            if (typed == null || typed.equals("quit") || typed.equals("q")) {
                return false;
            }
            if (typed.startsWith("is ")) {
                if (isFound(typed.substring(3).strip())) {
                    return true;
                }
            } else {
                other(typed, vehicle);
            }
        }
    }

    private void other(String typed, Vehicle vehicle) {
        if (typed.startsWith("faults")) {
            String word = typed.substring("faults".length()).strip();
            names(FaultSpec.all(vehicle).stream().map(FaultSpec::name), word, "fault", "faults pedal_a_v");
        } else if (typed.startsWith("columns")) {
            Stream<String> columns = FrameColumns.CHANNELS.all().stream()
                    .filter(Exam::isMeasurable)
                    .map(Channel::column);
            names(columns, typed.substring("columns".length()).strip(), "column", "columns bus");
        } else if (typed.equals("interlocks")) {
            measured++;
            Memory.of(exam.track()).forEach(line -> dialogue.line("  " + line));
            dialogue.line("");
        } else {
            measure(typed);
        }
    }

    private void names(Stream<String> all, String word, String what, String example) {
        List<String> names = all.filter(name -> name.contains(word)).toList();
        if (word.isEmpty() || names.isEmpty() || names.size() > MOST_NAMES) {
            dialogue.say((names.isEmpty()
                            ? "No " + what + " has that word in its name."
                            : names.size() + " " + what + "s are too many.")
                    + " Add a word, for example: " + example + ".");
            return;
        }
        Wrap.hanging("  ", "  ", String.join(" ", names), COLUMNS).forEach(dialogue::line);
        dialogue.line("");
    }

    private void measure(String question) {
        List<String> hidden = Exam.hiddenColumns(question, FrameColumns.CHANNELS);
        if (!hidden.isEmpty()) {
            dialogue.say("No meter shows " + String.join(", ", hidden)
                    + ". Measure a voltage, a current, a signal or an output.");
            return;
        }
        try {
            Measure measure = Measure.of(question, FrameColumns.CHANNELS);
            measured++;
            dialogue.say(measure.in(exam.track()).words());
        } catch (IllegalArgumentException e) {
            dialogue.say("That is no question. " + e.getMessage() + " Type columns and a word, such as columns bus, for"
                    + " what can be measured.");
        }
    }

    private boolean isFound(String name) throws BadInput {
        try {
            boolean right = exam.explains(name);
            guessed++;
            if (right) {
                dialogue.say("Right: " + exam.answer() + "."
                        + (exam.isHidden(name) ? "" : " Nothing that can be measured tells it from " + name + "."));
                return true;
            }
            List<String> other = exam.symptomsOf(name);
            if (other.equals(exam.symptoms())) {
                dialogue.say("No. The driver would have seen the same with that fault. The meter tells the two apart.");
                return false;
            }
            dialogue.say("No. With that fault, from the same moment on, the driver would have seen:");
            other.forEach(line -> dialogue.line("  " + line));
            dialogue.line("");
        } catch (IllegalArgumentException e) {
            dialogue.say("There is no such fault. " + e.getMessage());
        }
        return false;
    }
}
