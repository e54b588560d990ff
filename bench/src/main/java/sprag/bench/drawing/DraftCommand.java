package sprag.bench.drawing;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.InputFile;
import sprag.bench.cli.Numbers;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.Wrap;
import sprag.bench.drawing.draft.Answers;
import sprag.bench.drawing.draft.Drafter;
import sprag.bench.drawing.draft.PassageReport;
import sprag.bench.drawing.sheet.Listing;
import sprag.bench.review.wiring.schedule.Csv;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.ScheduleFiles;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Problem;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleArgument;

/** The command {@code draft}: a wiring schedule to begin with. */
@Command(
        name = "draft",
        mixinStandardHelpOptions = true,
        description = {
            "Drafts wiring.csv and parts.csv from a vehicle's file: every part that it names, every signal and output"
                    + " at a terminal, sizes by the calculations. Drafting again keeps the numbers, edits and remarks of"
                    + " wires that are there."
        })
public final class DraftCommand implements Callable<Integer> {
    /** The table of passages in the output folder. */
    static final String PASSAGES = "passages.csv";

    @Spec
    private CommandSpec spec;

    @Mixin
    private VehicleArgument vehicle;

    @Option(
            names = "--out",
            paramLabel = "DIR",
            description =
                    "Folder for the files (default: the vehicle's folder, where the other commands look for them)."
                            + " A draft that is there is continued.")
    private Path out;

    @Option(names = "--join", description = "Also add to a schedule that was written by hand.")
    private boolean join;

    @Override
    public Integer call() throws BadInput {
        Vehicle read = vehicle.read();
        Path folder = OutFolder.open(out == null ? read.folder() : out);
        // A schedule with mistakes is refused with all of them before anything is written.
        ScheduleFiles.read(folder);
        Path wires = folder.resolve(Schedule.WIRES_FILE);
        byte[] oldWires = bytes(wires);
        byte[] oldParts = bytes(folder.resolve(Schedule.PARTS_FILE));
        boolean byHand = oldWires.length > 0 ? Drafter.isHandMade(oldWires) : oldParts.length > 0;
        if (byHand && !join) {
            throw new BadInput(List.of(new Problem(
                    oldWires.length > 0 ? wires : folder.resolve(Schedule.PARTS_FILE),
                    1,
                    1,
                    "",
                    "was written by hand",
                    "",
                    "",
                    "Use --join to add what is missing, or name another folder with --out.")));
        }
        Path answered = answered(read.folder(), folder);
        Answers answers = Answers.read(answered.getParent());
        Drafter.Result result = Drafter.draft(read, answers, oldWires, oldParts);
        OutFolder.write(wires, result.wires());
        OutFolder.write(folder.resolve(Schedule.PARTS_FILE), result.parts());
        if (!InputFile.isThere(answered)) {
            OutFolder.write(answered, Answers.template());
        }
        passages(read, folder, answers);
        print(result, Drafter.unguarded(read));
        defaults(answered, Drafter.asked(read, answers));
        next(read.folder(), folder);
        return ExitCode.WELL;
    }

    /** The answers beside the schedule, or else those beside the vehicle's file. */
    private static Path answered(Path home, Path folder) {
        Path here = folder.resolve(Answers.FILE);
        Path there = home.resolve(Answers.FILE);
        return InputFile.isThere(here) || !InputFile.isThere(there) ? here : there;
    }

    private void passages(Vehicle read, Path folder, Answers answers) throws BadInput {
        if (!answers.hasPassages()) {
            return;
        }
        Schedule schedule = ScheduleFiles.read(folder).orElseThrow();
        PassageReport report = PassageReport.of(read, answers, schedule);
        OutFolder.write(
                folder.resolve(PASSAGES),
                new Listing("Passages", "passages", "", PassageReport.HEADS, report.rows()).csv());
        PrintWriter print = spec.commandLine().getOut();
        print.println("Passages (" + folder.resolve(PASSAGES) + "):");
        report.rows()
                .forEach(row -> hanging(
                        print,
                        row.get(0) + ": " + row.get(4) + " wires, bundle " + row.get(5) + " mm, filled " + row.get(6)
                                + " of at most " + row.get(7) + " %, least bend radius " + row.get(8) + " mm"
                                + (row.get(9).isEmpty() ? "" : ", gland " + row.get(9))));
        report.problems().forEach(problem -> hanging(print, "! " + problem));
        if (!report.unplaced().isEmpty()) {
            hanging(
                    print,
                    "Without a way, because [where] does not say where a part is: "
                            + String.join(" ", report.unplaced()));
        }
        wrapped(print, PassageReport.SOURCE + " Outer diameters " + PassageReport.DIAMETERS + ".");
        print.println();
    }

    private static void hanging(PrintWriter print, String text) {
        Wrap.hanging("  ", "    ", text, Wrap.TERMINAL_COLUMNS).forEach(print::println);
    }

    private static byte[] bytes(Path file) throws BadInput {
        if (!InputFile.isThere(file)) {
            return new byte[0];
        }
        try {
            return InputFile.bytes(file, Csv.MOST_BYTES);
        } catch (InputFile.Refused e) {
            throw BadInput.of(file, 1, e.getMessage(), e.remedy());
        }
    }

    private void print(Drafter.Result result, String unguarded) {
        PrintWriter print = spec.commandLine().getOut();
        String unneeded = result.unneeded().isEmpty()
                ? ""
                : " Nothing needs " + String.join(", ", result.unneeded()) + " any more: they are marked.";
        wrapped(print, result.added().size() + " wires added, " + result.kept() + " kept as they were." + unneeded);
        if (!unguarded.isEmpty()) {
            wrapped(print, unguarded);
        }
    }

    private void defaults(Path answered, Map<String, Double> asked) {
        PrintWriter print = spec.commandLine().getOut();
        if (!asked.isEmpty()) {
            wrapped(print, "Taken because nobody has answered (" + answered + "):");
            asked.forEach((key, taken) -> print.println("  " + key + " = " + Numbers.text(taken)));
        }
    }

    /** The other commands read the schedule where the vehicle's file is. */
    private void next(Path home, Path folder) {
        PrintWriter print = spec.commandLine().getOut();
        boolean isThere =
                folder.toAbsolutePath().normalize().equals(home.toAbsolutePath().normalize());
        String first =
                isThere ? "Then" : "Copy the files into " + home + ", where the other commands look for them, then";
        wrapped(
                print,
                "A draft is where a drawing begins. Compare each terminal and each rating with the data sheets of your"
                        + " parts before anything is crimped. " + first
                        + ": sprag check, sprag live, sprag draw, sprag book.");
        print.println("Written: " + folder);
        print.flush();
    }

    private static void wrapped(PrintWriter print, String text) {
        Wrap.lines(text, Wrap.TERMINAL_COLUMNS).forEach(print::println);
    }
}
