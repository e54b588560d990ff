package sprag.bench.lesson;

import java.io.PrintWriter;
import java.util.List;
import java.util.concurrent.Callable;
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
            description = "name of a shipped vehicle (default: ${DEFAULT-VALUE})")
    private String vehicleName;

    @Option(
            names = "--seed",
            paramLabel = "N",
            defaultValue = "1",
            description = "which case (default: ${DEFAULT-VALUE})")
    private int seed;

    @Option(names = "--teacher", description = "print the fault and end")
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
        exam = Exam.of(vehicle, seed);
        dialogue = new Dialogue(System.in, out, !Terminal.interactive());
        if (teacher) {
            out.println("Case " + seed + " on " + vehicle.name() + ": " + exam.answer());
            return ExitCode.WELL;
        }
        boolean found = ask(vehicle);
        dialogue.say((found ? "Found" : "Not found") + " after " + count(measured, "measurement") + " and "
                + count(guessed, "answer") + ".");
        out.flush();
        return found ? ExitCode.WELL : ExitCode.FINDING;
    }

    private static String count(int n, String what) {
        return n + " " + what + (n == 1 ? "" : "s");
    }

    private boolean ask(Vehicle vehicle) throws BadInput {
        dialogue.heading("Case " + seed + " on " + vehicle.name());
        dialogue.say("One thing is broken in this car. The driver did what is usual, and saw:");
        exam.symptoms().forEach(line -> dialogue.line("  " + line));
        dialogue.line("");
        dialogue.say(
                "CAUTION. In a real car nobody looks for a fault on live traction parts: isolate, lock, wait, verify. Here the"
                        + " meter costs nothing but a count.");
        dialogue.say("Ask the run (pedal_a_v at 5, most bus_voltage_v, state at end), or type: is FAULT, faults WORD,"
                + " interlocks, quit.");
        while (true) {
            String typed = dialogue.ask("measure, or is FAULT");
            if (typed == null || typed.equals("quit") || typed.equals("q")) {
                return false;
            }
            if (typed.startsWith("is ")) {
                guessed++;
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
            names(typed.substring("faults".length()).strip(), vehicle);
        } else if (typed.equals("interlocks")) {
            measured++;
            Memory.of(exam.track()).forEach(line -> dialogue.line("  " + line));
            dialogue.line("");
        } else {
            measure(typed);
        }
    }

    private void names(String word, Vehicle vehicle) {
        List<String> names = FaultSpec.all(vehicle).stream()
                .map(FaultSpec::name)
                .filter(name -> name.contains(word))
                .toList();
        if (word.isEmpty() || names.isEmpty() || names.size() > MOST_NAMES) {
            dialogue.say(
                    (names.isEmpty() ? "No fault has that word in its name." : names.size() + " faults are too many.")
                            + " Add a word, for example: faults pedal_a_v.");
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
            dialogue.say("That is no question. " + e.getMessage());
        }
    }

    private boolean isFound(String name) throws BadInput {
        try {
            if (exam.explains(name)) {
                dialogue.say("Right: " + exam.answer() + ".");
                return true;
            }
            dialogue.say("No. With that fault, from the same moment on, the driver would have seen:");
            exam.symptomsOf(name).forEach(line -> dialogue.line("  " + line));
            dialogue.line("");
        } catch (IllegalArgumentException e) {
            dialogue.say("There is no such fault. " + e.getMessage());
        }
        return false;
    }
}
