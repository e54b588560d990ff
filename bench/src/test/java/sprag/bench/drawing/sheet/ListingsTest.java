package sprag.bench.drawing.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.VoltageClass;
import sprag.bench.review.wiring.schedule.Wire;

/** What stands in the tables is what the rows of the schedule say, cell by cell, worked out again here from the rows alone. */
class ListingsTest {
    private final Map<String, Wire> wires = new HashMap<>();
    private final Map<String, List<List<String>>> tables = new HashMap<>();
    private Schedule schedule;

    @BeforeEach
    void list() throws Exception {
        schedule = SheetPlanTest.schedule("parcel-van");
        schedule.wires().forEach(w -> wires.put(w.id(), w));
        Listings.of(schedule, SheetPlan.of(schedule, Marks.NONE)).forEach(l -> tables.put(l.file(), l.rows()));
    }

    @Test
    void terminals_eachEndOfEachWire_standsOnce_withWhereItGoes() {
        Set<List<String>> wanted = new TreeSet<>(java.util.Comparator.comparing(List::toString));
        for (Wire w : schedule.wires()) {
            wanted.add(List.of(w.from(), w.id(), w.to(), w.net()));
            wanted.add(List.of(w.to(), w.id(), w.from(), w.net()));
        }
        List<List<String>> listed = tables.get("terminals").stream()
                .map(r -> List.of(r.get(0) + "." + r.get(1), r.get(2), r.get(4), r.get(5)))
                .toList();
        assertEquals(2 * schedule.wires().size(), listed.size());
        Set<List<String>> seen = new TreeSet<>(java.util.Comparator.comparing(List::toString));
        seen.addAll(listed);
        assertEquals(wanted, seen);
    }

    @Test
    void labels_sleeveAtEachEnd_namesWhatItLandsOn() {
        Set<String> wanted = new TreeSet<>();
        for (Wire w : schedule.wires()) {
            wanted.add(w.id() + " from " + w.from() + " " + w.to() + " " + w.voltageClass().word);
            wanted.add(w.id() + " to " + w.to() + " " + w.from() + " " + w.voltageClass().word);
        }
        assertEquals(
                wanted,
                tables.get("labels").stream()
                        .map(r -> String.join(" ", r))
                        .collect(Collectors.toCollection(TreeSet::new)));
    }

    @Test
    void cutList_hasSizeColourLengthAndEnds() {
        for (List<String> row : tables.get("cut-list")) {
            Wire w = wires.get(row.get(0));
            assertEquals(w.sizeMm2(), Double.parseDouble(row.get(1)), 1e-9, w.id());
            assertEquals(w.colour(), row.get(2), w.id());
            assertEquals(w.lengthM() * 1.05 + 0.1, Double.parseDouble(row.get(3)), 0.0501, w.id());
            assertEquals(w.from() + " " + w.to(), row.get(4) + " " + row.get(6));
            assertTrue(row.get(5).contains(row.get(1) + " mm²") && row.get(7).contains(row.get(1) + " mm²"), row + "");
        }
        assertEquals(schedule.wires().size(), tables.get("cut-list").size());
    }

    @Test
    void fuses_haveTheirRating_whatFeedsThem_andWhatLiesBehind() {
        Set<String> fuses = new TreeSet<>();
        for (List<String> row : tables.get("fuses")) {
            Part fuse = schedule.parts().get(row.get(0));
            fuses.add(fuse.name());
            assertEquals(fuse.ratedA(), Double.parseDouble(row.get(1)), fuse.name());
            assertEquals(fuse.ratedV(), Double.parseDouble(row.get(2)), fuse.name());
            assertEquals(fuse.breaksA(), Double.parseDouble(row.get(3)), fuse.name());
            for (Wire w : schedule.wires()) {
                boolean feeds = w.from().equals(fuse.name() + ".in") || w.to().equals(fuse.name() + ".in");
                boolean behind = w.from().equals(fuse.name() + ".out") || w.to().equals(fuse.name() + ".out");
                assertEquals(feeds, row.get(4).matches(".*\\b" + w.id() + " from .*"), fuse.name() + " " + w.id());
                assertTrue(!behind || List.of(row.get(5).split(" ")).contains(w.id()), fuse.name() + " " + w.id());
                assertTrue(!feeds || !List.of(row.get(5).split(" ")).contains(w.id()), fuse.name() + " " + w.id());
            }
        }
        assertEquals(
                schedule.parts().values().stream()
                        .filter(p -> p.kind() == PartKind.FUSE)
                        .map(Part::name)
                        .collect(Collectors.toCollection(TreeSet::new)),
                fuses);
    }

    @Test
    void grounds_areTheWiresOfClassEarth() {
        Set<String> listed = new TreeSet<>();
        for (List<String> row : tables.get("grounds")) {
            Wire w = wires.get(row.get(0));
            listed.add(w.id());
            assertEquals(w.from() + " " + w.to() + " " + w.net(), row.get(1) + " " + row.get(2) + " " + row.get(4));
            assertEquals(w.sizeMm2(), Double.parseDouble(row.get(3).split(" ")[0]), w.id());
        }
        assertEquals(
                schedule.wires().stream()
                        .filter(w -> w.voltageClass() == VoltageClass.EARTH)
                        .map(Wire::id)
                        .collect(Collectors.toCollection(TreeSet::new)),
                listed);
    }

    @Test
    void metresToBuy_areTheSumOfTheCutList() {
        Map<String, Double> sums = new TreeMap<>();
        schedule.wires()
                .forEach(w -> sums.merge(
                        w.voltageClass().word + " " + w.sizeMm2() + " " + w.colour(),
                        w.lengthM() * 1.05 + 0.1,
                        Double::sum));
        for (List<String> row : tables.get("wire-to-buy")) {
            String key = row.get(0) + " " + Double.parseDouble(row.get(1)) + " " + row.get(2);
            assertEquals(sums.remove(key), Double.parseDouble(row.get(3)), 0.1001, key);
        }
        assertEquals(Map.of(), sums);
    }

    @Test
    void partsToBuy_haveTheRatingsOfTheParts_andEveryEndIsCrimpedOnce() {
        int ends = 0;
        Set<String> parts = new TreeSet<>();
        for (List<String> row : tables.get("parts-to-buy")) {
            if (row.get(2).equals("terminal")) {
                ends += Integer.parseInt(row.get(1).split(" ")[0]);
                continue;
            }
            Part part = schedule.parts().get(row.get(1));
            parts.add(part.name());
            assertEquals(part.ratedV(), number(row.get(3)), part.name());
            assertEquals(part.ratedA(), number(row.get(4)), part.name());
        }
        assertEquals(2 * schedule.wires().size(), ends);
        Set<String> wanted = new TreeSet<>(schedule.parts().keySet());
        wanted.removeIf(p -> schedule.parts().get(p).kind() == PartKind.CHASSIS);
        assertEquals(wanted, parts);
    }

    private static double number(String cell) {
        return cell.equals("?") ? Double.NaN : Double.parseDouble(cell);
    }
}
