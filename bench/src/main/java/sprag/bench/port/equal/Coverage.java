package sprag.bench.port.equal;

import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.Trouble;
import sprag.bench.port.tool.Tool;
import sprag.bench.port.translate.Translation;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;

/** Counts the branches of Logic that vectors take: in C, where the compiler counts them. */
public final class Coverage {
    private static final Pattern TAKEN =
            Pattern.compile("File 'logic\\.c'.*?Taken at least once:([0-9.]+)% of (\\d+)", Pattern.DOTALL);

    private Coverage() {}

    /** What was counted, or why nothing could be.
     *
     * @param folder where to compile
     */
    public static String words(Vehicle vehicle, Vectors vectors, Path folder) throws IOException, BadInput {
        if (Tool.GCC.find().isEmpty() || Tool.GCOV.find().isEmpty()) {
            return "branches of Logic are not counted: that needs gcc and gcov (Debian: gcc)";
        }
        OutFolder.make(folder);
        compile(vehicle, folder);
        try (HostProgram program = HostProgram.start(folder)) {
            for (LogicWalk.Row row : vectors.logic()) {
                long[] answer = program.logic(new long[] {row.before()}, row.facts(), 1);
                if (answer[0] != row.after() || answer[1] != row.permitted()) {
                    throw new Trouble("Java and C differ in a vector of Logic: packed state " + row.before());
                }
            }
            program.end();
        }
        Matcher taken = TAKEN.matcher(
                Tool.GCOV.run(folder, List.of("-b", "-n", "logic.c")).out());
        if (!taken.find()) {
            throw new Trouble("gcov told nothing about logic.c in " + folder);
        }
        long all = Long.parseLong(taken.group(2));
        long count = Math.round(Double.parseDouble(taken.group(1)) / 100 * all);
        return count + " of " + all + " branches of logic.c; claims that never fail are among the others";
    }

    private static void compile(Vehicle vehicle, Path folder) throws BadInput {
        Translation translation = new Translation(Catalogue.installed().home(), false);
        Map<String, String> files = new LinkedHashMap<>(translation.code());
        files.put("vehicle.c", translation.data(vehicle.settings()));
        files.putAll(translation.fieldFiles(vehicle.settings()));
        HostProgram.compile(folder, files);
        HostProgram.count(folder, "logic.c", files);
    }
}
