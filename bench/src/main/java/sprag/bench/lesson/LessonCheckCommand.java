package sprag.bench.lesson;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sprag.bench.cli.ExitCode;
import sprag.bench.lesson.Progress.Entry;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Problem;

/** {@code lesson check}: what a class has handed in. */
@Command(
        name = "check",
        mixinStandardHelpOptions = true,
        description = {
            "For the teacher: reads the files that pupils hand in and marks every answer again.",
            "",
            "A line for each pupil: exercises done, answers given, hints taken,",
            "and whether the file was changed by hand.",
            "Then the exercises that went wrong most."
        },
        footer = {"", "Example: sprag lesson check class/*.toml"})
final class LessonCheckCommand implements Callable<Integer> {
    @Parameters(arity = "1..*", paramLabel = "FILE", description = "What pupils handed in.")
    private List<Path> files;

    @Spec
    private CommandSpec spec;

    private final Map<String, Given> given = new HashMap<>();
    private final Map<String, int[]> tries = new java.util.TreeMap<>();

    @Override
    public Integer call() throws BadInput {
        Map<Path, Progress> all = new LinkedHashMap<>();
        List<Problem> unreadable = new ArrayList<>();
        for (Path file : files) {
            try {
                all.put(file, Progress.handedIn(file));
            } catch (BadInput bad) {
                unreadable.addAll(bad.problems());
            }
        }
        if (all.isEmpty()) {
            throw new BadInput(unreadable);
        }
        PrintWriter out = spec.commandLine().getOut();
        int exercises =
                Lessons.all().stream().mapToInt(each -> each.exercises().size()).sum();
        out.printf("%-28s %9s %8s %6s  %s%n", "pupil", "right", "answers", "hints", "remarks");
        boolean well = true;
        for (Map.Entry<Path, Progress> each : all.entrySet()) {
            well &= pupil(out, each.getKey(), each.getValue(), exercises);
        }
        hardest(out);
        if (!unreadable.isEmpty()) {
            out.println();
            out.println("Not marked, because the file cannot be read:");
            unreadable.forEach(problem -> out.println("  " + problem.message()));
        }
        out.flush();
        return well && unreadable.isEmpty() ? ExitCode.WELL : ExitCode.FINDING;
    }

    /** One line; true when there is nothing to look at. */
    private boolean pupil(PrintWriter out, Path file, Progress progress, int exercises) throws BadInput {
        int right = 0;
        int answers = 0;
        int hints = 0;
        List<String> remarks = new ArrayList<>();
        for (Entry entry : progress.entries()) {
            if (entry.number() > 0) {
                boolean again = entry.tries() > 0 && isRight(entry);
                right += again ? 1 : 0;
                answers += entry.tries();
                hints += entry.hints();
                count(entry);
                if (entry.right() && !again) {
                    remarks.add(entry.lesson() + " " + entry.number() + " is called right and is not");
                }
            }
        }
        if (!progress.isSound()) {
            remarks.add(0, "changed by hand");
        }
        String who = progress.name().isEmpty() ? String.valueOf(file.getFileName()) : progress.name();
        String safe = sprag.bench.cli.Wrap.brief(who, 28);
        out.printf(
                "%-28s %9s %8d %6d  %s%n",
                safe, right + " of " + exercises, answers, hints, String.join("; ", remarks));
        return remarks.isEmpty();
    }

    private boolean isRight(Entry entry) throws BadInput {
        Given lesson = given.get(entry.lesson());
        if (lesson == null) {
            lesson = new Given(Lessons.of(Lessons.NAMES.indexOf(entry.lesson()) + 1));
            given.put(entry.lesson(), lesson);
        }
        List<Exercise> exercises = lesson.lesson().exercises();
        return entry.number() <= exercises.size()
                && new Grader(lesson)
                        .mark(exercises.get(entry.number() - 1), entry.answer())
                        .right();
    }

    private void count(Entry entry) {
        int[] sums = tries.computeIfAbsent(entry.lesson() + ", exercise " + entry.number(), key -> new int[2]);
        sums[0] += entry.tries();
        sums[1]++;
    }

    private void hardest(PrintWriter out) {
        List<Map.Entry<String, int[]>> hard = tries.entrySet().stream()
                .filter(each -> each.getValue()[0] > each.getValue()[1])
                .sorted((a, b) -> Double.compare(mean(b.getValue()), mean(a.getValue())))
                .limit(5)
                .toList();
        if (!hard.isEmpty()) {
            out.println();
            out.println("Most answers before the right one:");
            hard.forEach(each -> out.printf(
                    java.util.Locale.ROOT, "  %-36s %.1f answers a pupil%n", each.getKey(), mean(each.getValue())));
        }
    }

    private static double mean(int[] sums) {
        return (double) sums[0] / sums[1];
    }
}
