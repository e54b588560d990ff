package sprag.bench.review.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.report.CheckReport;
import sprag.bench.review.report.Checker;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Parameter;

/** The one-line diagram is joined where it looks joined, and its marks can be told apart, with the branches on either side. */
class OneLineTest {
    private static final int WIDTH = 1000;
    private static final int HEIGHT = 610;
    /** A symbol reaches so far from its middle; its leads end there at the latest. */
    private static final double REACH = 30;

    private static final Pattern WIRE = Pattern.compile("class=\"wire\" d=\"M(-?\\d+) (-?\\d+) L(-?\\d+) (-?\\d+)\"");
    private static final Pattern JOINT =
            Pattern.compile("<circle class=\"joint\" cx=\"(-?\\d+)\" cy=\"(-?\\d+)\" r=\"4\"");
    private static final Pattern SYMBOL = Pattern.compile("<g transform=\"translate\\((-?\\d+) (-?\\d+)\\)\">");
    private static final Pattern LABEL = Pattern.compile("class=\"label\" x=\"(-?\\d+)\" y=\"(-?\\d+)\">([^<]*)<");
    private static final Pattern MARK = Pattern.compile(
            "<a href=\"#f(\\d+)\"><g class=\"mark (\\w+)\" transform=\"translate\\((-?\\d+) (-?\\d+)\\)\">");

    private record Point(double x, double y) {
        double from(Point other) {
            return Math.hypot(x - other.x, y - other.y);
        }
    }

    private record Line(Point a, Point b) {
        boolean touches(Point p) {
            return Math.abs(a.from(p) + p.from(b) - a.from(b)) < 1e-9;
        }

        boolean endsAt(Point p) {
            return a.equals(p) || b.equals(p);
        }
    }

    private static CheckReport report(String name, int dcdcOnBus, int chargerOnBus) throws Exception {
        CheckReport as = Checker.check(Catalogue.installed().vehicle(name));
        Vehicle vehicle = VehicleReader.read(Catalogue.installed().vehicle(name))
                .with(Parameter.DCDC_SIDE, dcdcOnBus)
                .with(Parameter.CHARGER_SIDE, chargerOnBus);
        return new CheckReport(vehicle, as.findings(), as.calculations(), as.lostCover(), as.schedule());
    }

    private static List<Point> points(Pattern pattern, String svg, int x) {
        return pattern.matcher(svg)
                .results()
                .map(m -> new Point(number(m, x), number(m, x + 1)))
                .toList();
    }

    private static double number(MatchResult match, int group) {
        return Double.parseDouble(match.group(group));
    }

    private static List<Line> wires(String svg) {
        return WIRE.matcher(svg)
                .results()
                .map(m -> new Line(new Point(number(m, 1), number(m, 2)), new Point(number(m, 3), number(m, 4))))
                .toList();
    }

    @ParameterizedTest(name = "{0}, converter on the bus {1}, chargers on the bus {2}")
    @CsvSource({
        "parcel-van, 0, 0", "parcel-van, 0, 1", "parcel-van, 1, 0", "parcel-van, 1, 1",
        "yard-cart, 0, 0", "yard-cart, 0, 1", "yard-cart, 1, 0", "yard-cart, 1, 1"
    })
    void wires_endAtASymbolOrAnotherWire_andEachBranchingHasAJoint(String name, int dcdcOnBus, int chargerOnBus)
            throws Exception {
        String svg = OneLine.of(report(name, dcdcOnBus, chargerOnBus), Map.of());
        List<Line> wires = wires(svg);
        List<Point> joints = points(JOINT, svg, 1);
        List<Point> symbols = points(SYMBOL, svg, 1);
        assertTrue(wires.size() > 15 && symbols.size() > 14 && joints.size() > 4, svg);
        for (Line wire : wires) {
            for (Point end : List.of(wire.a, wire.b)) {
                boolean atSymbol = symbols.stream()
                        .anyMatch(s -> Math.abs(s.x - end.x) <= REACH && Math.abs(s.y - end.y) <= REACH);
                boolean atWire = wires.stream().anyMatch(w -> w != wire && w.touches(end));
                assertTrue(atSymbol || atWire, "loose end at " + end);
                boolean branches = wires.stream().anyMatch(w -> w != wire && w.touches(end) && !w.endsAt(end));
                boolean leaves = branches && wires.stream().noneMatch(w -> w != wire && w.endsAt(end));
                assertTrue(!leaves || joints.contains(end), "no joint at " + end);
            }
        }
        for (Point joint : joints) {
            assertTrue(wires.stream().anyMatch(w -> w.touches(joint)), "a joint beside every wire: " + joint);
        }
    }

    @ParameterizedTest(name = "{0}, converter on the bus {1}, chargers on the bus {2}")
    @CsvSource({"parcel-van, 0, 0", "parcel-van, 0, 1", "parcel-van, 1, 0", "parcel-van, 1, 1"})
    void branches_hangOnTheirSide_apartFromEachOther_insideTheDrawing(String name, int dcdcOnBus, int chargerOnBus)
            throws Exception {
        String svg = OneLine.of(report(name, dcdcOnBus, chargerOnBus), Map.of());
        List<Point> symbols = points(SYMBOL, svg, 1);
        for (Point symbol : symbols) {
            assertTrue(
                    symbol.x >= REACH && symbol.x <= WIDTH - REACH && symbol.y >= REACH && symbol.y <= HEIGHT - REACH,
                    symbol + " is outside");
            for (Point other : symbols) {
                assertTrue(other.equals(symbol) || other.from(symbol) > 28, symbol + " over " + other);
            }
        }
        Map<String, Point> labels = new java.util.HashMap<>();
        LABEL.matcher(svg).results().forEach(m -> labels.put(m.group(3), new Point(number(m, 1), number(m, 2))));
        for (Spot spot : List.of(Spot.DCDC, Spot.CHARGER, Spot.INLET, Spot.LOW_VOLTAGE, Spot.HEATER, Spot.PACK)) {
            assertTrue(labels.containsKey(spot.label), spot.label);
        }
        double middle = labels.get(Spot.NEGATIVE.label).x;
        assertEquals(dcdcOnBus == 1, labels.get(Spot.DCDC.label).x > middle, "the side of the converter");
        assertEquals(chargerOnBus == 1, labels.get(Spot.CHARGER.label).x > middle, "the side of the chargers");
        assertTrue(labels.get(Spot.HEATER.label).x > middle, "the heater is behind the contactors");
        List<Point> places = new ArrayList<>(labels.values());
        for (Point label : places) {
            for (Point other : places) {
                boolean apart = Math.abs(label.y - other.y) >= 14 || Math.abs(label.x - other.x) >= 60;
                assertTrue(other == label || apart, "words over each other at " + label + " and " + other);
            }
        }
    }

    private static Finding finding(Weight weight) {
        return new Finding("id", weight, "where", new Finding.Place("f", 1), "A sentence.", "", Map.of(), "source");
    }

    private static String marked(Spot spot, int count) throws Exception {
        List<Map.Entry<Integer, Finding>> numbered = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            numbered.add(Map.entry(i + 1, finding(Weight.values()[i % Weight.values().length])));
        }
        Map<Spot, List<Map.Entry<Integer, Finding>>> on = new EnumMap<>(Spot.class);
        on.put(spot, numbered);
        return OneLine.of(report("parcel-van", 0, 1), on);
    }

    /** Six marks find room at a place; of more it is said how many are not shown. */
    @ParameterizedTest(name = "{1} at {0}")
    @CsvSource({
        "PACK, 1",
        "PACK, 2",
        "PACK, 3",
        "PACK, 6",
        "PACK, 7",
        "MOTOR, 6",
        "CHARGER, 1",
        "CHARGER, 6",
        "CHARGER, 9",
        "LOW_VOLTAGE, 3",
        "STATION, 6",
        "BUS, 6",
        "SENSORS, 3"
    })
    void marks_standApart_besideTheirSymbol_andSomeMoreAreCounted(Spot spot, int count) throws Exception {
        String svg = marked(spot, count);
        List<Point> marks = points(MARK, svg, 3);
        assertEquals(Math.min(count, 6), marks.size());
        assertEquals(count > 6, svg.contains(">+" + (count - 6) + "<"));
        Point symbol = points(LABEL, svg, 1).stream()
                .min((a, b) -> Double.compare(a.from(marks.get(0)), b.from(marks.get(0))))
                .orElseThrow();
        for (Point mark : marks) {
            assertTrue(mark.x > 13 && mark.x < WIDTH - 13 && mark.y > 13 && mark.y < HEIGHT - 13, mark + " is outside");
            assertTrue(mark.from(symbol) < 170, mark + " is far from " + symbol);
            for (Point other : marks) {
                assertTrue(other == mark || other.from(mark) >= 24, mark + " over " + other);
            }
            for (Point drawn : points(SYMBOL, svg, 1)) {
                assertTrue(drawn.from(mark) > 24, mark + " hides the symbol at " + drawn);
            }
        }
        List<String> weights =
                MARK.matcher(svg).results().map(m -> m.group(1) + m.group(2)).toList();
        assertEquals("1" + Weight.values()[0].word(), weights.get(0));
    }

    @Test
    void spots_ofAVehicleWithoutAHeater_leaveItOut() throws Exception {
        assertTrue(OneLine.spots(report("parcel-van", 0, 0)).contains(Spot.HEATER));
        assertTrue(!OneLine.spots(report("yard-cart", 0, 0)).contains(Spot.HEATER));
        assertTrue(Arrays.stream(Spot.values())
                .filter(spot -> spot != Spot.HEATER)
                .allMatch(OneLine.spots(Checker.check(Catalogue.installed().vehicle("yard-cart")))::contains));
    }
}
