package sprag.bench.drawing.draft;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import sprag.bench.review.wiring.schedule.VoltageClass;
import sprag.bench.vehicle.Section;

/**
 * Something that wires go through on their way between two places.
 *
 * @param widthMm clear width, or the inner diameter of a round one
 * @param heightMm clear height; NaN for a round one
 * @param lengthM the way through it from place to place; NaN when only the distance of the places is known
 * @param bends how many right angles a cable is pulled around in it
 * @param takes what may go through it
 */
record Passage(
        String name,
        Kind kind,
        Place from,
        Place to,
        double widthMm,
        double heightMm,
        double lengthM,
        int bends,
        List<VoltageClass> takes) {
    /** What it is. */
    enum Kind {
        /** A pipe or conduit. */
        TUBE,
        /** A channel of any section. */
        TUNNEL,
        /** A hole in a wall, with a rubber edge. */
        GROMMET,
        /** A fitting that seals around one cable. */
        GLAND;

        static final List<String> WORDS =
                Stream.of(values()).map(k -> k.name().toLowerCase(Locale.ROOT)).toList();

        /** Whether it stands in the way whatever else lies beside it; tubes and tunnels are chosen from. */
        boolean isWall() {
            return this == GROMMET || this == GLAND;
        }
    }

    private static final double LEAST_MM = 3;
    private static final double MOST_MM = 500;
    private static final double MOST_M = 30;
    private static final int MOST_BENDS = 20;
    private static final String RISK = "be no hole of a car";

    /** Reads the list {@code [[passages]]}. */
    static List<Passage> read(Section root) {
        Map<String, Passage> read = new TreeMap<>();
        List<Passage> all = new ArrayList<>();
        for (Section entry : root.list("passages")) {
            Passage passage = one(entry);
            if (read.putIfAbsent(passage.name(), passage) != null) {
                entry.problem("name", "a name of its own", "be told from no other", "Give each passage another name.");
            }
            all.add(passage);
        }
        return all;
    }

    private static Passage one(Section entry) {
        String name = entry.text("name", null);
        Kind kind = Kind.values()[Math.max(0, entry.choice("kind", -1, Kind.WORDS))];
        Place from = Place.values()[Math.max(0, entry.choice("from", -1, Place.WORDS))];
        Place to = Place.values()[Math.max(0, entry.choice("to", -1, Place.WORDS))];
        if (from == to && entry.has("from") && entry.has("to")) {
            entry.problem("to", "another place than from", "lead nowhere", "Name the place at its other end.");
        }
        double[] opening = opening(entry);
        double length = entry.has("length_m")
                ? entry.number("length_m", Double.NaN, 0, MOST_M, "be no way within a car")
                : Double.NaN;
        int bends = (int) entry.number("bends", 0, 0, MOST_BENDS, "let no cable through");
        return new Passage(
                name == null ? "" : name, kind, from, to, opening[0], opening[1], length, bends, takes(entry));
    }

    /** Width and height; the height of a round one is not a number. */
    private static double[] opening(Section entry) {
        if (entry.has("inner_mm")) {
            return new double[] {entry.number("inner_mm", Double.NaN, LEAST_MM, MOST_MM, RISK), Double.NaN};
        }
        if (entry.has("width_mm") && entry.has("height_mm")) {
            return new double[] {
                entry.number("width_mm", Double.NaN, LEAST_MM, MOST_MM, RISK),
                entry.number("height_mm", Double.NaN, LEAST_MM, MOST_MM, RISK)
            };
        }
        entry.problem(
                "inner_mm",
                "inner_mm, or width_mm and height_mm",
                "have no size",
                "Measure the clear opening and write it.");
        return new double[] {Double.NaN, Double.NaN};
    }

    private static List<VoltageClass> takes(Section entry) {
        if (!entry.has("takes")) {
            return List.of(VoltageClass.values());
        }
        List<VoltageClass> takes = new ArrayList<>();
        for (String word : entry.texts("takes")) {
            VoltageClass each = VoltageClass.of(word);
            if (each == null) {
                entry.problem(
                        "takes",
                        "words of " + String.join(", ", VoltageClass.WORDS),
                        "",
                        "Write the classes of the wires that may go through.");
            } else {
                takes.add(each);
            }
        }
        return takes;
    }

    boolean joins(Place a, Place b) {
        return from == a && to == b || from == b && to == a;
    }

    /** The clear opening (mm²). */
    double areaMm2() {
        return Double.isNaN(heightMm) ? Math.PI / 4 * widthMm * widthMm : widthMm * heightMm;
    }

    /** The largest round thing that fits (mm). */
    double clearMm() {
        return Double.isNaN(heightMm) ? widthMm : Math.min(widthMm, heightMm);
    }
}
