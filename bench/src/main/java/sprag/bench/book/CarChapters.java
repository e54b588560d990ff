package sprag.bench.book;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.book.print.Block;
import sprag.bench.book.print.Chapter;
import sprag.bench.cli.Numbers;
import sprag.bench.drawing.sheet.Listing;
import sprag.bench.drawing.sheet.OneLine;
import sprag.bench.drawing.sheet.Sheet;
import sprag.bench.review.wiring.schedule.Part;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.Unit;

/** What the car is, how it is wired, and the tables of that. */
final class CarChapters {
    private record Figure(String words, Parameter row) {}

    private static final List<Figure> FIGURES = List.of(
            new Figure("pack, nominal", Parameter.PACK_NOMINAL_V),
            new Figure("pack, at most", Parameter.PACK_MAX_V),
            new Figure("pack, at least", Parameter.PACK_MIN_V),
            new Figure("capacity", Parameter.PACK_CAPACITY_AH),
            new Figure("cells in series", Parameter.PACK_CELLS),
            new Figure("chemistry", Parameter.PACK_CHEMISTRY),
            new Figure("current out of the pack, at most", Parameter.PACK_DISCHARGE_MAX_A),
            new Figure("current into the pack, at most", Parameter.PACK_CHARGE_MAX_A),
            new Figure("capacitors of the bus", Parameter.BUS_CAPACITANCE_UF),
            new Figure("precharge resistor", Parameter.PRECHARGE_RESISTANCE_OHM),
            new Figure("motor", Parameter.MOTOR_KIND),
            new Figure("power, at most", Parameter.DRIVE_POWER_W),
            new Figure("torque, at most", Parameter.DRIVE_TORQUE_NM),
            new Figure("speed, at most", Parameter.DRIVE_MAX_KPH),
            new Figure("mass that the supervisor reckons with", Parameter.DRIVE_MASS_KG),
            new Figure("gearbox", Parameter.DRIVE_GEARBOX),
            new Figure("inlet", Parameter.INLET_KIND),
            new Figure("chargers", Parameter.CHARGER_COUNT),
            new Figure("the chargers are on the", Parameter.CHARGER_SIDE),
            new Figure("the 12 V converter is on the", Parameter.DCDC_SIDE),
            new Figure("mains at the inlet", Parameter.INLET_SUPPLY_V));

    /** Not told of a car whose pack is taken out to be charged. */
    private static final List<Parameter> OF_CHARGERS =
            List.of(Parameter.CHARGER_COUNT, Parameter.CHARGER_SIDE, Parameter.INLET_SUPPLY_V);

    private static final String UNKNOWN = "?";

    private final Material material;

    CarChapters(Material material) {
        this.material = material;
    }

    List<Chapter> all() {
        List<Chapter> chapters = new ArrayList<>(List.of(car(), sheets()));
        for (Listing listing : material.drawing().listings()) {
            if (List.of("terminals", "fuses", "grounds").contains(listing.file())) {
                chapters.add(table(listing));
            }
        }
        return chapters;
    }

    private Chapter car() {
        String description = material.vehicle().description();
        Chapter chapter = Chapter.of("What the car is");
        chapter.words(description.isEmpty() ? "The vehicle's file has no description." : description + ".");
        double kwh = material.get(Parameter.PACK_NOMINAL_V) * material.get(Parameter.PACK_CAPACITY_AH) / 1000;
        List<List<String>> rows = new ArrayList<>();
        rows.add(List.of("energy in the pack, nominal", Numbers.text(kwh, "kWh"), "pack.nominal_v, pack.capacity_ah"));
        FIGURES.forEach(figure -> rows.add(
                List.of(figure.words(), value(figure.row()), figure.row().key())));
        chapter.table(List.of("figure", "value", "key in vehicle.toml"), rows);
        chapter.heading("What the supervisor can see");
        chapter.words("Every car has the signals that no car can do without. This one has these optional ones as well: "
                + fitted(true) + ".");
        chapter.words("It does not have: " + fitted(false)
                + ". The chapter on what cannot be detected says what that costs.");
        chapter.heading("Parts");
        chapter.words("A question mark is something that the list of parts leaves open: read it from the data sheet.");
        chapter.table(
                List.of("part", "kind", "rated (V)", "rated (A)", "breaks (A)", "remark of the list"),
                material.schedule().parts().values().stream()
                        .map(CarChapters::part)
                        .toList());
        return chapter;
    }

    private String value(Parameter row) {
        double value = material.get(row);
        return row.unit() == Unit.CHOICE ? row.choices().get((int) value) : Numbers.show(value, row.unit());
    }

    private String fitted(boolean present) {
        List<String> names = new ArrayList<>();
        for (Signal signal : Signal.values()) {
            if (signal.optional && material.vehicle().fitted().contains(signal) == present) {
                names.add(signal.key());
            }
        }
        return names.isEmpty() ? "none" : String.join(", ", names);
    }

    private static List<String> part(Part part) {
        return List.of(
                part.name(),
                part.kind().word(),
                number(part.ratedV()),
                number(part.ratedA()),
                number(part.breaksA()),
                part.remark());
    }

    private static String number(double value) {
        return Double.isNaN(value) ? UNKNOWN : Numbers.text(value);
    }

    private Chapter sheets() {
        Chapter chapter = Chapter.of("Diagram and sheets");
        chapter.words(
                "The one-line diagram shows the power side at a glance. The sheets show every wire: its number and, below"
                        + " the line, its size in mm² and its colour by IEC 60757. A double line carries pack voltage, a broken double line"
                        + " mains, a thick line 12 V, dashes and dots ground and protective earth. Lines that cross are not joined."
                        + " An eight-sided sign is a stop of the design review, a triangle a caution; its number stands in the chapter"
                        + " on the review.");
        chapter.caution(
                "A sheet shows what the schedule says, not what was built. A line that should be dead is live until a"
                        + " meter rated for it has shown otherwise, proved before and after.");
        OneLine.of(material.schedule()).forEach(sheet -> chapter.add(picture(sheet)));
        material.drawing().sheets().forEach(sheet -> chapter.add(picture(sheet)));
        return chapter;
    }

    private Block picture(Sheet sheet) {
        return new Block.Picture(
                sheet.heading(),
                Sheet.WIDTH_MM,
                sheet.heightMm(),
                ink -> material.drawing().draw(sheet, ink),
                material.drawing().svg(sheet).inPage());
    }

    private static Chapter table(Listing listing) {
        Chapter chapter = Chapter.of(listing.title());
        if (!listing.hint().isEmpty()) {
            chapter.words(listing.hint());
        }
        return listing.rows().isEmpty()
                ? chapter.verdict(false, "The schedule has none.")
                : chapter.table(listing.heads(), listing.rows());
    }
}
