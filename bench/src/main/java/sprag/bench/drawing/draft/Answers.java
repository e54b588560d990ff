package sprag.bench.drawing.draft;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
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
 * @param packBoxes in how many boxes the pack sits: 1, or 2 with the second one in the rear
 * @param motors how many motors there are, each with its inverter
 * @param bleedResistors how many resistors discharge the bus from outside the inverter: none or 1
 * @param passages what wires go through between places
 * @param outerMm outer diameters of wires that were measured (mm), by their size (mm²)
 * @param where places of parts that the draft does not know
 * @param open the questions that nobody has answered, with the default that was taken
 */
public record Answers(
        Map<String, Double> distances,
        double heaterW,
        int packBoxes,
        int motors,
        int bleedResistors,
        List<Passage> passages,
        Map<Double, Double> outerMm,
        Map<String, Place> where,
        Map<String, Double> open) {
    /** The file's name. */
    public static final String FILE = "draft.toml";

    private static final String BOXES = "pack_boxes";
    private static final String MOTORS = "motors";
    private static final String BLEED = "bleed_resistors";
    private static final String HEATER = "heater_w";
    /** The question for the heater's power, among those that are open. */
    static final String HEATER_KEY = "choices." + HEATER;

    private static final double HEATER_W = 1500;
    private static final double MOST_HEATER_W = 20_000;
    private static final double LEAST_OUTER_MM = 0.8;
    private static final double MOST_OUTER_MM = 60;
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
            open.put(HEATER_KEY, HEATER_W);
        }
        int boxes = count(choices, BOXES, 1, "Write 1, or 2 when a second box sits in the rear.", open);
        int motors = count(choices, MOTORS, 1, "Write 1, or 2 when each of two motors has its inverter.", open);
        int bleeds = count(choices, BLEED, 0, "Write 1 when a resistor beside the inverter discharges the bus.", open);
        List<Passage> passages = Passage.read(root);
        Map<Double, Double> outerMm = outer(root.section("outer_mm"));
        Map<String, Place> where = where(root.section("where"));
        root.end();
        problems.throwIfAny();
        return new Answers(distances, heaterW, boxes, motors, bleeds, passages, outerMm, where, open);
    }

    /** The least count, which is the default, or one more. */
    private static int count(Section choices, String key, int least, String remedy, Map<String, Double> open) {
        double given = choices.number(key, least, least, least + 1, "be more than a draft knows");
        if (given != Math.rint(given)) {
            choices.problem(key, least + " or " + (least + 1), "", remedy);
        }
        if (!choices.has(key)) {
            open.put("choices." + key, (double) least);
        }
        return (int) given;
    }

    private static Map<Double, Double> outer(Section section) {
        Map<Double, Double> outer = new LinkedHashMap<>();
        for (String key : section.keys()) {
            double mm = section.number(key, Double.NaN, LEAST_OUTER_MM, MOST_OUTER_MM, "be no wire of a car");
            if (key.matches("\\d{1,4}(\\.\\d{1,2})?")) {
                outer.put(Double.parseDouble(key), mm);
            } else {
                section.problem(key, "a size in mm² between quotes", "", "Write for example \"95\" = 18.");
            }
        }
        return outer;
    }

    private static Map<String, Place> where(Section section) {
        Map<String, Place> where = new LinkedHashMap<>();
        for (String part : section.keys()) {
            where.put(part, Place.values()[Math.max(0, section.choice(part, -1, Place.WORDS))]);
        }
        return where;
    }

    /** Whether wires have anything to go through that somebody has described. */
    public boolean hasPassages() {
        return !passages.isEmpty();
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
                .append("\n# 2 when half of the pack sits in the rear, with its own fuse and service switch\n# ")
                .append(BOXES)
                .append(" = 1\n# 2 when there are two motors, each with its inverter\n# ")
                .append(MOTORS)
                .append(" = 1\n# 1 when a resistor beside the inverter discharges the bus; most inverters hold one\n# ")
                .append(BLEED)
                .append(" = 0")
                .append(
                        "\n\n# What wires go through. kind: tube, tunnel, grommet, gland. inner_mm, or width_mm and height_mm.\n"
                                + "# takes: the classes of wires that may go through; all when it is left out.\n"
                                + "# [[passages]]\n# name = \"sill_tube\"\n# kind = \"tube\"\n# from = \"pack\"\n# to = \"motor\"\n"
                                + "# inner_mm = 50\n# length_m = 1.8\n# bends = 2\n# takes = [\"traction\"]\n\n"
                                + "# Measured outer diameters by size, and places of parts that you wrote by hand.\n"
                                + "# [outer_mm]\n# \"95\" = 18\n\n# [where]\n# my_part = \"cabin\"\n")
                .toString();
    }
}
