package sprag.bench.drawing.sheet;

import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

/**
 * Reads a sheet as somebody does who wires from it: lines, frames, and the words that stand beside them. It takes nothing from the
 * schedule, and from the SVG only what is drawn: no group, no title.
 */
final class PaperReader {
    private static final Set<String> PENS =
            Set.of("traction", "mains", "supply", "earth", "signal", "data", "gone", "thin");
    /** How far words stand from the end of a line that they belong to (mm). */
    private static final double NEAR_MM = 2;

    private static final double BELOW_MM = 5;
    private static final double SAME_MM = 0.03;
    /** How far the middle of a sign stands above a line (mm). */
    private static final double ABOVE_MM = 2.2;

    private static final int MOST_LINES = 60;

    /** Words with the point that they are set at. */
    record Words(double x, double y, String text, String style) {}

    /** A line with its corners. */
    record Line(String pen, double[] xs, double[] ys, boolean closed) {
        int last() {
            return xs.length - 1;
        }

        double least(double[] some) {
            return java.util.Arrays.stream(some).min().orElseThrow();
        }

        double most(double[] some) {
            return java.util.Arrays.stream(some).max().orElseThrow();
        }
    }

    /** A part: its frame and the name in its head. */
    record Frame(double left, double top, double right, double bottom, String name) {
        boolean holds(double x, double y) {
            return x > left - SAME_MM && x < right + SAME_MM && y > top - SAME_MM && y < bottom + SAME_MM;
        }
    }

    /**
     * One end of a wire as it is drawn.
     *
     * @param part name in the head of the frame, or beside the ground
     * @param pin the terminal's name; empty for a ground
     * @param more the numbers of the sheets on which more wires of the terminal are said to be
     */
    record End(String wire, String sizeAndColour, String part, String pin, List<Integer> more) {
        String terminal() {
            return pin.isEmpty() ? part : part + "." + pin;
        }
    }

    /** A wire from end to end. */
    record Drawn(Line line, End from, End to) {}

    /** A sign of a finding: its number, and the part or the end of a wire that it stands at. */
    record Sign(String number, String place) {}

    /** A circle. */
    record Circle(String style, double x, double y) {}

    final List<Circle> circles = new ArrayList<>();
    final List<Words> words = new ArrayList<>();
    final List<Line> lines = new ArrayList<>();
    final List<Frame> frames = new ArrayList<>();

    PaperReader(String svg) throws Exception {
        DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
        Element root = factory.newDocumentBuilder()
                .parse(new InputSource(new StringReader(svg)))
                .getDocumentElement();
        NodeList texts = root.getElementsByTagName("text");
        for (int i = 0; i < texts.getLength(); i++) {
            Element e = (Element) texts.item(i);
            words.add(new Words(
                    Double.parseDouble(e.getAttribute("x")),
                    Double.parseDouble(e.getAttribute("y")),
                    e.getTextContent(),
                    e.getAttribute("class")));
        }
        NodeList rounds = root.getElementsByTagName("circle");
        for (int i = 0; i < rounds.getLength(); i++) {
            Element e = (Element) rounds.item(i);
            circles.add(new Circle(
                    e.getAttribute("class"),
                    Double.parseDouble(e.getAttribute("cx")),
                    Double.parseDouble(e.getAttribute("cy"))));
        }
        NodeList paths = root.getElementsByTagName("path");
        for (int i = 0; i < paths.getLength(); i++) {
            Element e = (Element) paths.item(i);
            lines.add(line(e.getAttribute("class"), e.getAttribute("d")));
        }
        lines.stream().filter(l -> l.pen().equals("symbol f-pale")).forEach(l -> frames.add(frame(l)));
    }

    private static Line line(String pen, String d) {
        Matcher points = Pattern.compile("[ML](-?[\\d.]+) (-?[\\d.]+)").matcher(d);
        List<double[]> found = new ArrayList<>();
        while (points.find()) {
            found.add(new double[] {Double.parseDouble(points.group(1)), Double.parseDouble(points.group(2))});
        }
        return new Line(
                pen,
                found.stream().mapToDouble(p -> p[0]).toArray(),
                found.stream().mapToDouble(p -> p[1]).toArray(),
                d.endsWith("Z"));
    }

    /** The name goes on in the next line of the head after an underscore. */
    private Frame frame(Line l) {
        double left = l.least(l.xs());
        double top = l.least(l.ys());
        double right = l.most(l.xs());
        double bottom = l.most(l.ys());
        List<Words> inside = words.stream()
                .filter(w -> w.x() > left && w.x() < right && w.y() > top && w.y() < bottom)
                .filter(w -> !w.style().equals("f-paper"))
                .sorted(java.util.Comparator.comparingDouble(Words::y).thenComparingDouble(Words::x))
                .toList();
        StringBuilder name = new StringBuilder();
        double column = inside.get(1).x();
        for (Words line : inside.subList(1, inside.size())) {
            if (Math.abs(line.x() - column) > SAME_MM || name.length() > 0 && name.charAt(name.length() - 1) != '_') {
                break;
            }
            name.append(line.text());
        }
        return new Frame(left, top, right, bottom, name.toString());
    }

    /** All wires of the sheet. */
    List<Drawn> wires() {
        List<Drawn> drawn = new ArrayList<>();
        for (Line line : lines) {
            boolean bar = line.pen().equals("supply")
                    && frames.stream()
                            .anyMatch(f -> f.holds(line.xs()[0], line.ys()[0])
                                    && f.holds(line.xs()[line.last()], line.ys()[line.last()])
                                    && line.xs()[0] > f.left() + SAME_MM
                                    && line.xs()[0] < f.right() - SAME_MM);
            if (PENS.contains(line.pen()) && !bar && !line.pen().equals("thin")) {
                drawn.add(new Drawn(line, end(line, 0), end(line, line.last())));
            }
        }
        return drawn;
    }

    private End end(Line line, int corner) {
        double x = line.xs()[corner];
        double y = line.ys()[corner];
        int inner = corner == 0 ? 1 : corner - 1;
        double out = Math.signum(line.xs()[inner] - x);
        String wire = one(x, y, out, -NEAR_MM, 0);
        String size = one(x, y, out, NEAR_MM, BELOW_MM);
        List<Frame> at = frames.stream()
                .filter(f -> f.holds(x, y) && Math.abs(x - (out > 0 ? f.right() : f.left())) < SAME_MM)
                .toList();
        if (at.isEmpty()) {
            return new End(wire, size, ground(x, y, -out), "", List.of());
        }
        String pin = pin(x, y, -out, MOST_LINES);
        int arrow = pin.indexOf(" →");
        List<Integer> more = new ArrayList<>();
        if (arrow >= 0) {
            Matcher numbers = Pattern.compile("\\d+").matcher(pin.substring(arrow));
            while (numbers.find()) {
                more.add(Integer.parseInt(numbers.group()));
            }
        }
        return new End(wire, size, at.get(0).name(), arrow < 0 ? pin : pin.substring(0, arrow), more);
    }

    /** The only words beside a point, on one side of it. */
    private String one(double x, double y, double side, double fromMm, double toMm) {
        List<Words> found = words.stream()
                .filter(w -> (w.x() - x) * side > 0 && (w.x() - x) * side < NEAR_MM)
                .filter(w -> w.y() - y > fromMm && w.y() - y <= toMm)
                .toList();
        if (found.size() != 1) {
            throw new AssertionError("at " + x + " " + y + " stand " + found);
        }
        return found.get(0).text();
    }

    /** The name at a terminal. Without one a line leads to the terminal that the wire shares. */
    private String pin(double x, double y, double inward, int most) {
        List<Words> found = words.stream()
                .filter(w -> (w.x() - x) * inward > 0 && (w.x() - x) * inward < NEAR_MM)
                .filter(w -> w.y() - y > -NEAR_MM && w.y() <= y)
                .toList();
        if (found.size() == 1) {
            return found.get(0).text();
        }
        for (Line line : lines) {
            int last = line.last();
            boolean begins = line.pen().equals("symbol")
                    && !line.closed()
                    && Math.abs(line.xs()[0] - x) < SAME_MM
                    && Math.abs(line.ys()[0] - y) < SAME_MM
                    && line.ys()[last] < y - SAME_MM;
            if (begins && most > 0) {
                return pin(x, line.ys()[last], inward, most - 1);
            }
        }
        throw new AssertionError("at " + x + " " + y + " stand " + found + " and no line leads on");
    }

    /** The words behind three bars, on the side that the wire does not come from. */
    private String ground(double x, double y, double inward) {
        List<Words> found = words.stream()
                .filter(w -> (w.x() - x) * inward > 0 && (w.x() - x) * inward < 8 && Math.abs(w.y() - y) < NEAR_MM)
                .filter(w -> lines.stream()
                        .anyMatch(l -> l.pen().equals("symbol")
                                && l.last() == 1
                                && l.ys()[0] > y
                                && l.ys()[0] < y + NEAR_MM
                                && isBetween(x, l.xs()[0], w.x())
                                && isBetween(x, l.xs()[1], w.x())))
                .toList();
        if (found.size() != 1) {
            throw new AssertionError("at " + x + " " + y + " is no frame and no ground: " + found);
        }
        return found.get(0).text();
    }

    private static boolean isBetween(double one, double middle, double other) {
        return (middle - one) * (other - middle) > 0;
    }

    /** Whether a bar joins all that lands on a part. */
    boolean isBar(String part) {
        return frames.stream()
                .filter(f -> f.name().equals(part))
                .anyMatch(f -> lines.stream()
                        .anyMatch(l -> l.pen().equals("supply")
                                && l.xs()[0] == l.xs()[l.last()]
                                && l.xs()[0] > f.left() + SAME_MM
                                && l.xs()[0] < f.right() - SAME_MM
                                && f.holds(l.xs()[0], l.ys()[0])
                                && f.holds(l.xs()[0], l.ys()[l.last()])));
    }

    /** Eight-sided signs: in the head of a part, or past the number at the end of a wire. */
    List<Sign> stops() {
        return signs("hair f-bad", 8);
    }

    /** Triangles. */
    List<Sign> cautions() {
        return signs("hair f-odd", 3);
    }

    private List<Sign> signs(String style, int corners) {
        List<Sign> signs = new ArrayList<>();
        List<Drawn> wires = wires();
        for (Line shape : lines) {
            if (!shape.pen().equals(style) || shape.xs().length != corners) {
                continue;
            }
            double x = (shape.least(shape.xs()) + shape.most(shape.xs())) / 2;
            double y = corners == 3
                    ? shape.most(shape.ys()) - 1.7
                    : (shape.least(shape.ys()) + shape.most(shape.ys())) / 2;
            String number = words.stream()
                    .filter(w -> w.style().equals("f-paper") && Math.abs(w.x() - x) < 0.1 && Math.abs(w.y() - y) < 2)
                    .findFirst()
                    .orElseThrow()
                    .text();
            signs.add(new Sign(number, place(wires, x, y)));
        }
        return signs;
    }

    private String place(List<Drawn> wires, double x, double y) {
        for (Frame frame : frames) {
            if (frame.holds(x, y)) {
                return frame.name();
            }
        }
        String nearest = "nothing";
        double leastMm = 30;
        for (Drawn wire : wires) {
            for (int corner : new int[] {0, wire.line().last()}) {
                double awayX = Math.abs(wire.line().xs()[corner] - x);
                double awayY = Math.abs(wire.line().ys()[corner] - ABOVE_MM - y);
                if (awayY < NEAR_MM && awayX < leastMm) {
                    leastMm = awayX;
                    End end = corner == 0 ? wire.from() : wire.to();
                    nearest = end.wire() + " at " + end.terminal();
                }
            }
        }
        return nearest;
    }
}
