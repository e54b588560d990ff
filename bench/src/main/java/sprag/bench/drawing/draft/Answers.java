package sprag.bench.drawing.draft;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import sprag.bench.cli.InputFile;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Problems;
import sprag.bench.vehicle.Section;
import sprag.bench.vehicle.TomlFile;

/**
 * What only the builder knows, in {@code draft.toml} beside the drafted schedule. A question has a default, which is printed and
 * never taken in silence.
 *
 * @param distances the way between two places, along the loom (m)
 * @param heaterW what the heater takes (W)
 * @param open the questions that nobody has answered, with the default that was taken
 */
public record Answers(Map<String, Double> distances, double heaterW, Map<String, Double> open) {
    /** The file's name. */
    public static final String FILE = "draft.toml";

    private static final String HEATER = "heater_w";
    private static final double HEATER_W = 1500;
    private static final double MOST_HEATER_W = 20_000;
    private static final double LEAST_M = 0.1;
    private static final double MOST_M = 30;

    /** Reads the answers of a folder; every question is open when there is no file. */
    public static Answers read(Path folder) throws BadInput {
        Path file = folder.resolve(FILE);
        Problems problems = new Problems();
        Section root = InputFile.isThere(file) ? TomlFile.read(file, problems) : TomlFile.parse(file, "", problems);
        Section places = root.section("places");
        Section choices = root.section("choices");
        Map<String, Double> distances = new LinkedHashMap<>();
        Map<String, Double> open = new LinkedHashMap<>();
        for (Place a : Place.values()) {
            for (Place b : Place.values()) {
                if (a.compareTo(b) < 0) {
                    String key = a.key(b);
                    distances.put(key, places.number(key, Place.DEFAULT_M, LEAST_M, MOST_M, "be no way within a car"));
                    if (!places.has(key)) {
                        open.put("places." + key, Place.DEFAULT_M);
                    }
                }
            }
        }
        double heaterW = choices.number(HEATER, HEATER_W, 1, MOST_HEATER_W, "be no heater of a car");
        if (!choices.has(HEATER)) {
            open.put("choices." + HEATER, HEATER_W);
        }
        root.end();
        problems.throwIfAny();
        return new Answers(distances, heaterW, open);
    }

    /** The file to fill in: every question with the default that was taken. */
    public static String template() {
        StringBuilder text = new StringBuilder(
                "# What only the builder knows. Remove the # before a line and write what you measured.\n"
                        + "# Places: where the pack, the motor with the 12 V battery, the cabin, the inlet and the rear"
                        + " lamps are.\n\n"
                        + "[places]\n");
        for (Place a : Place.values()) {
            for (Place b : Place.values()) {
                if (a.compareTo(b) < 0) {
                    text.append("# ")
                            .append(a.key(b))
                            .append(" = ")
                            .append(Place.DEFAULT_M)
                            .append('\n');
                }
            }
        }
        return text.append("\n[choices]\n# ")
                .append(HEATER)
                .append(" = ")
                .append(Sizes.text(HEATER_W))
                .append('\n')
                .toString();
    }
}
