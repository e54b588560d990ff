package sprag.bench.port.equal;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.Trouble;
import sprag.bench.port.tool.Tool;
import sprag.bench.port.translate.Translation;
import sprag.bench.vehicle.Vehicle;

/** Counts the branches of Logic that vectors take: in C, where the compiler counts them. */
public final class Coverage {
    private static final String FILE = "logic.c";
    private static final Pattern LINE = Pattern.compile("^\\s*[-#=\\d]+\\*?:\\s*(\\d+):(.*)$");
    private static final Pattern BRANCH = Pattern.compile("^branch\\s+\\d+ (?:never executed|taken (\\d+)).*$");

    private Coverage() {}

    /** A branch that was not taken: which of its line, the line, and what stands there. */
    private record Missed(int branch, int line, String text) {
        String why() {
            if (text.contains("without[")) {
                return "only with an interlock taken out, which no vehicle has";
            }
            if (text.contains("SPRAG_ASSERT") || text.startsWith("switch (")) {
                return "only with a damaged memory";
            }
            return "no state that this vehicle reaches: each was tried with all facts";
        }
    }

    private record Counted(int all, Set<Missed> missed) {}

    /** What was counted, or why nothing could be.
     *
     * @param folder where to compile
     */
    public static List<String> words(Translation translation, Vehicle vehicle, Vectors vectors, Path folder)
            throws IOException {
        return words(translation, vehicle, vectors, folder, Compiled.NOTHING);
    }

    /** The same with what is compiled already. */
    static List<String> words(Translation translation, Vehicle vehicle, Vectors vectors, Path folder, Compiled before)
            throws IOException {
        if (Tool.GCC.find().isEmpty() || Tool.GCOV.find().isEmpty()) {
            return List.of("branches of Logic are not counted: that needs gcc and gcov (Debian: gcc)");
        }
        OutFolder.make(folder);
        Twin twin = Twin.compile(translation, vehicle.settings(), folder, before);
        HostProgram.count(folder, FILE, twin.files());
        try (HostProgram program = HostProgram.start(folder)) {
            VectorPlay.logic(vectors, program);
            program.end();
        }
        Counted chosen = count(folder);
        try (HostProgram program = HostProgram.start(folder)) {
            new WholeLogic(program, vehicle.settings()).differs().ifPresent(difference -> {
                throw new Trouble("Java and C differ: " + difference);
            });
            program.end();
        }
        return words(chosen, count(folder));
    }

    private static List<String> words(Counted chosen, Counted whole) {
        List<String> words = new ArrayList<>();
        int taken = chosen.all - chosen.missed.size();
        words.add(
                taken + " of " + chosen.all + " branches of " + FILE + (chosen.missed.isEmpty() ? "" : "; the rest:"));
        for (Missed missed : chosen.missed) {
            String why = whole.missed.contains(missed) ? missed.why() : "NOT CROSSED, although a state reaches it";
            words.add("  line " + missed.line + ": " + missed.text);
            words.add("    " + why);
        }
        return words;
    }

    private static Counted count(Path folder) throws IOException {
        Tool.Ended ended = Tool.GCOV.run(folder, List.of("-b", "-c", FILE));
        Path counts = folder.resolve(FILE + ".gcov");
        if (!Files.isReadable(counts)) {
            throw new Trouble("gcov told nothing about " + FILE + " in " + folder + ": " + ended.out());
        }
        int all = 0;
        int line = 0;
        int branch = 0;
        String text = "";
        Set<Missed> missed = new LinkedHashSet<>();
        for (String row : Files.readAllLines(counts)) {
            Matcher source = LINE.matcher(row);
            Matcher count = BRANCH.matcher(row);
            if (source.matches()) {
                line = Integer.parseInt(source.group(1));
                text = source.group(2).strip();
                branch = 0;
            } else if (count.matches()) {
                all++;
                branch++;
                if (count.group(1) == null || count.group(1).equals("0")) {
                    missed.add(new Missed(branch, line, text));
                }
            }
        }
        return new Counted(all, missed);
    }
}
