package sprag.bench.drawing.draft;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import sprag.bench.cli.Numbers;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.VoltageClass;
import sprag.bench.review.wiring.schedule.Wire;
import sprag.bench.vehicle.Vehicle;

/**
 * What goes through each passage, and whether it fits.
 *
 * @param rows one for each passage, for a table with {@link #HEADS}
 * @param problems what does not fit, or should not lie together, a sentence each
 * @param unplaced wires whose way is not known, because the place of a part is not
 * @param ways by number of the wire: the places and passages on its way
 */
public record PassageReport(
        List<List<String>> rows, List<String> problems, List<String> unplaced, Map<String, String> ways) {
    /** The headings of the rows. */
    public static final List<String> HEADS = List.of(
            "passage",
            "kind",
            "between",
            "opening (mm)",
            "wires",
            "bundle (mm)",
            "filled (%)",
            "at most (%)",
            "least bend radius (mm)",
            "gland",
            "wires that go through");

    /** Where the limits come from. */
    public static final String SOURCE =
            "Filled at most: NEC chapter 9 table 1 (53 % for one, 31 % for two, 40 % for more), a guide"
                    + " for tunnels and grommets. At most four right angles between pulling points: NEC 358.26. Bundle as if its wires fill"
                    + " three quarters of it, least bend radius five outer diameters, glands by usual clamping ranges: common practice.";

    /** Where the outer diameters come from that nobody has given. */
    public static final String DIAMETERS = CableDiameter.SOURCE;

    private static final double PACKED = 0.75;
    private static final double BEND = 5;
    private static final int MOST_BENDS = 4;
    private static final double[] GLAND_MM = {6.5, 10, 12, 18, 25, 32, 38, 44};
    private static final String[] GLANDS = {"M12", "M16", "M20", "M25", "M32", "M40", "M50", "M63"};

    /** Judges the passages.
     *
     * @param schedule the drafted schedule, with what was written by hand
     */
    public static PassageReport of(Vehicle vehicle, Answers answers, Schedule schedule) {
        Map<String, Place> places = Drafter.places(vehicle, answers);
        Ways ways = new Ways(answers);
        Map<Passage, List<Wire>> through = new LinkedHashMap<>();
        answers.passages().forEach(p -> through.put(p, new ArrayList<>()));
        List<String> unplaced = new ArrayList<>();
        Map<String, String> words = new LinkedHashMap<>();
        for (Wire wire : schedule.wires()) {
            Place from = places.get(Wire.partOf(wire.from()));
            Place to = places.get(Wire.partOf(wire.to()));
            boolean ground = wire.voltageClass() == VoltageClass.EARTH;
            if ((from == null || to == null) && !ground) {
                unplaced.add(wire.id());
            } else if (from != to && !ground) {
                Ways.Way way = ways.between(from, to, wire.voltageClass());
                way.passages().forEach(p -> through.get(p).add(wire));
                words.put(wire.id(), words(way));
            }
        }
        List<List<String>> rows = new ArrayList<>();
        List<String> problems = new ArrayList<>();
        through.forEach((passage, wires) -> rows.add(row(passage, wires, answers, problems)));
        return new PassageReport(rows, problems, unplaced, words);
    }

    private static String words(Ways.Way way) {
        String places = way.places().stream().map(Place::word).collect(Collectors.joining(" - "));
        String passages = way.passages().stream().map(Passage::name).collect(Collectors.joining(", "));
        return places + (passages.isEmpty() ? "" : ", through " + passages);
    }

    private static List<String> row(Passage p, List<Wire> wires, Answers answers, List<String> problems) {
        double squares = 0;
        double widestMm = 0;
        List<String> unknown = new ArrayList<>();
        for (Wire wire : wires) {
            double outerMm = CableDiameter.outerMm(wire.sizeMm2(), wire.voltageClass(), answers.outerMm());
            if (Double.isNaN(outerMm)) {
                unknown.add(wire.id());
            } else {
                squares += outerMm * outerMm;
                widestMm = Math.max(widestMm, outerMm);
            }
        }
        double bundleMm = wires.size() == 1 ? widestMm : Math.sqrt(squares / PACKED);
        double filled = 100 * Math.PI / 4 * squares / p.areaMm2();
        double most = wires.size() == 1 ? 53 : wires.size() == 2 ? 31 : 40;
        judge(p, wires, filled, most, problems);
        if (bundleMm > p.clearMm() && !wires.isEmpty() && filled <= most) {
            problems.add(String.format(
                    Locale.ROOT,
                    "%s: the bundle is %.0f mm thick, the opening %.0f mm at its narrowest.",
                    p.name(),
                    bundleMm,
                    p.clearMm()));
        }
        if (!unknown.isEmpty()) {
            problems.add(p.name() + ": the thickness of " + String.join(" ", unknown)
                    + " is not known, so the figures are too small. Give outer_mm.");
        }
        return List.of(
                p.name(),
                p.kind().name().toLowerCase(Locale.ROOT),
                p.from().word() + " and " + p.to().word(),
                opening(p),
                String.valueOf(wires.size()),
                tenths(bundleMm),
                tenths(filled),
                Numbers.text(most),
                tenths(BEND * widestMm),
                p.kind() == Passage.Kind.GLAND ? gland(widestMm) : "",
                wires.stream().map(Wire::id).collect(Collectors.joining(" ")));
    }

    private static void judge(Passage p, List<Wire> wires, double filled, double most, List<String> problems) {
        if (filled > most) {
            problems.add(String.format(
                    Locale.ROOT,
                    "%s: %d wires fill %.0f %% of it; at most %.0f %%. Take a wider one, or lead some another way.",
                    p.name(),
                    wires.size(),
                    filled,
                    most));
        }
        if (p.bends() > MOST_BENDS) {
            problems.add(p.name() + ": " + p.bends() + " right angles; a cable is pulled through " + MOST_BENDS
                    + " at most. Add an opening between.");
        }
        if (p.kind() == Passage.Kind.GLAND && wires.size() > 1) {
            problems.add(p.name() + ": a gland seals one round cable, and " + wires.size()
                    + " go through. Take one gland each, or a seal with as many holes.");
        }
        String traction = ids(wires, VoltageClass.TRACTION);
        String signals = ids(wires, VoltageClass.SIGNAL);
        if (!traction.isEmpty() && !signals.isEmpty()) {
            problems.add(p.name() + ": traction wires " + traction + " share it with signal wires " + signals
                    + ". Lead them apart (takes = [\"traction\"]), or screen and cross at right angles.");
        }
    }

    private static String ids(List<Wire> wires, VoltageClass voltageClass) {
        return wires.stream()
                .filter(w -> w.voltageClass() == voltageClass)
                .map(Wire::id)
                .collect(Collectors.joining(" "));
    }

    private static String opening(Passage p) {
        return Double.isNaN(p.heightMm())
                ? Numbers.text(p.widthMm()) + " round"
                : Numbers.text(p.widthMm()) + " × " + Numbers.text(p.heightMm());
    }

    /** The smallest gland that a cable of a diameter goes into. */
    static String gland(double outerMm) {
        if (outerMm == 0) {
            return "";
        }
        for (int i = 0; i < GLANDS.length; i++) {
            if (outerMm <= GLAND_MM[i]) {
                return GLANDS[i];
            }
        }
        return "larger than M63";
    }

    private static String tenths(double value) {
        return String.format(Locale.ROOT, "%.1f", value);
    }
}
