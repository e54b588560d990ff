package sprag.bench.review.page;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import sprag.bench.page.Svg;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.report.CheckReport;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/**
 * The power side of a vehicle on one line, both poles drawn as one, with the numbers of the findings where they belong.
 *
 * <pre>
 *                                              +- relay - resistor -+
 *   pack - fuse - shunt --+-- contactor - -----+-- contactor + -----+--+-- inverter - motor
 *                         |                                            |
 *                     branches on the pack side               branches on the bus side
 * </pre>
 */
final class OneLine {
    private static final int WIDTH = 1000;
    private static final int HEIGHT = 610;
    private static final int MAIN_Y = 180;
    private static final int RAIL_Y = 270;
    private static final int PACK_NODE_X = 330;
    private static final int BUS_NODE_X = 650;

    private final CheckReport report;
    private final StringBuilder svg = new StringBuilder();
    private final Map<Spot, int[]> place = new EnumMap<>(Spot.class);

    private OneLine(CheckReport report) {
        this.report = report;
    }

    /** Draws the diagram.
     *
     * @param numbered the findings that sit on it, by spot, each with its number
     */
    static String of(CheckReport report, Map<Spot, List<Map.Entry<Integer, Finding>>> numbered) {
        OneLine line = new OneLine(report);
        line.draw();
        numbered.forEach(line::badges);
        return new Svg("one-line", "One-line diagram of the traction side", WIDTH, HEIGHT)
                .begin()
                .raw(line.svg.toString())
                .end();
    }

    /** The spots that the diagram of this vehicle has. */
    static Set<Spot> spots(CheckReport report) {
        OneLine line = new OneLine(report);
        line.draw();
        return line.place.keySet();
    }

    private void draw() {
        main();
        branches(false);
        branches(true);
        control();
    }

    private void put(Spot spot, int x, int y, String symbol) {
        place.put(spot, new int[] {x, y});
        svg.append(symbol);
    }

    private void named(Spot spot, int x, int y, String symbol, int labelY) {
        put(spot, x, y, symbol);
        svg.append(Symbols.label(x, labelY, spot.label));
    }

    private void main() {
        int y = MAIN_Y;
        named(Spot.PACK, 70, y, Symbols.battery(70, y), y + 42);
        named(Spot.FUSE, 160, y, Symbols.fuse(160, y), y + 42);
        named(Spot.SHUNT, 250, y, Symbols.shunt(250, y), y + 42);
        svg.append(Symbols.line(100, y, 130, y)).append(Symbols.line(190, y, 220, y));
        svg.append(Symbols.line(280, y, 390, y)).append(Symbols.joint(PACK_NODE_X, y));
        named(Spot.NEGATIVE, 420, y, Symbols.contactor(420, y), y + 42);
        svg.append(Symbols.line(450, y, 520, y)).append(Symbols.joint(480, y));
        named(Spot.POSITIVE, 550, y, Symbols.contactor(550, y), y + 42);
        svg.append(Symbols.line(580, y, BUS_NODE_X, y)).append(Symbols.joint(620, y));
        svg.append(Symbols.line(480, y, 480, 100)).append(Symbols.line(620, y, 620, 100));
        svg.append(Symbols.contact(510, 100)).append(Symbols.resistor(585, 100));
        svg.append(Symbols.line(540, 100, 555, 100)).append(Symbols.line(615, 100, 620, 100));
        place.put(Spot.PRECHARGE, new int[] {550, 98});
        svg.append(Symbols.label(580, 124, Spot.PRECHARGE.label));
        svg.append(Symbols.joint(BUS_NODE_X, y)).append(Symbols.line(BUS_NODE_X, y, 796, y));
        svg.append(Symbols.joint(715, y)).append(Symbols.line(715, y, 715, y + 18));
        named(Spot.BUS, 715, y + 40, Symbols.capacitor(715, y + 40), y + 78);
        place.put(Spot.CABLE, new int[] {690, y});
        named(Spot.INVERTER, 820, y, Symbols.converter(820, y, "=", "3~"), y + 46);
        svg.append(Symbols.line(844, y, 894, y));
        named(Spot.MOTOR, 920, y, Symbols.motor(920, y), y + 46);
    }

    /** The branches that hang on the pack, or on the bus, side by side. */
    private void branches(boolean onBus) {
        int x = onBus ? BUS_NODE_X : PACK_NODE_X;
        List<Spot> spots = new ArrayList<>();
        if (report.vehicle().is(Parameter.DCDC_SIDE, "bus-side") == onBus) {
            spots.add(Spot.DCDC);
        }
        if (report.vehicle().is(Parameter.CHARGER_SIDE, "bus-side") == onBus) {
            spots.add(Spot.CHARGER);
        }
        if (onBus && report.vehicle().settings().has(Signal.HEATER_REQUEST)) {
            spots.add(Spot.HEATER);
        }
        if (spots.isEmpty()) {
            return;
        }
        svg.append(Symbols.line(x, MAIN_Y, x, RAIL_Y)).append(Symbols.joint(x, RAIL_Y));
        int left =
                onBus ? 880 - 190 * (spots.size() - 1) - (spots.size() == 1 ? 90 : 0) : 290 - 180 * (spots.size() - 1);
        int apart = onBus ? 190 : 180;
        int railFrom = Math.min(left, x);
        int railTo = Math.max(left + (spots.size() - 1) * apart, x);
        svg.append(Symbols.line(railFrom, RAIL_Y, railTo, RAIL_Y));
        for (int i = 0; i < spots.size(); i++) {
            int at = left + apart * i;
            svg.append(at > railFrom && at < railTo ? Symbols.joint(at, RAIL_Y) : "");
            branch(spots.get(i), at);
        }
    }

    private void branch(Spot spot, int x) {
        svg.append(Symbols.line(x, RAIL_Y, x, RAIL_Y + 46));
        int y = RAIL_Y + 70;
        switch (spot) {
            case DCDC -> {
                put(spot, x, y, Symbols.converter(x, y, "=", "="));
                svg.append(Symbols.label(x + 52, y + 5, spot.label));
                svg.append(Symbols.line(x, y + 24, x, y + 70)).append(Symbols.line(x, y + 70, x + 10, y + 70));
                named(Spot.LOW_VOLTAGE, x + 40, y + 70, Symbols.battery(x + 40, y + 70), y + 112);
            }
            case CHARGER -> {
                put(spot, x, y, Symbols.converter(x, y, "=", "~"));
                svg.append(Symbols.label(x + 56, y + 5, spot.label));
                svg.append(Symbols.line(x, y + 24, x, y + 72));
                put(Spot.INLET, x, y + 84, Symbols.inlet(x, y + 84));
                svg.append(Symbols.label(x + 40, y + 88, Spot.INLET.label));
                svg.append(Symbols.line(x, y + 88, x, y + 116));
                put(Spot.STATION, x, y + 136, Symbols.box(x, y + 136, 84, Spot.STATION.label));
            }
            default -> {
                put(spot, x, y - 14, Symbols.heater(x, y - 14));
                svg.append(Symbols.label(x + 54, y - 9, spot.label));
            }
        }
    }

    private void control() {
        int y = 562;
        put(Spot.CUT_OFF, 60, y, Symbols.cutOff(60, y));
        svg.append(Symbols.label(60, y + 28, Spot.CUT_OFF.label));
        put(Spot.SUPERVISOR, 230, y, Symbols.box(230, y, 120, "supervisor"));
        put(Spot.SENSORS, 420, y, Symbols.box(420, y, 120, "pedal, sensors"));
        put(Spot.CHASSIS, 590, y, Symbols.chassis(590, y));
        svg.append(Symbols.label(590, y + 28, Spot.CHASSIS.label));
    }

    private static boolean isBranch(Spot spot) {
        return switch (spot) {
            case DCDC, LOW_VOLTAGE, CHARGER, INLET, STATION, HEATER -> true;
            default -> false;
        };
    }

    /** Above a symbol on the main line, to the left of one on a branch. */
    private void badges(Spot spot, List<Map.Entry<Integer, Finding>> findings) {
        int[] at = place.get(spot);
        if (at == null) {
            return;
        }
        int shown = Math.min(findings.size(), 6);
        for (int i = 0; i < shown; i++) {
            boolean left = isBranch(spot);
            int x = left ? at[0] - 46 - 26 * (i % 2) : at[0] - 13 * Math.min(shown - 1, 2) + 26 * (i % 3);
            int y = left ? at[1] - 12 + 25 * (i / 2) : at[1] - 40 - 25 * (i / 3);
            badge(findings.get(i), x, y);
        }
        if (findings.size() > shown) {
            svg.append(Symbols.label(at[0] + 66, at[1] - 34, "+" + (findings.size() - shown)));
        }
    }

    private void badge(Map.Entry<Integer, Finding> numbered, int x, int y) {
        Weight weight = numbered.getValue().weight();
        String shape = switch (weight) {
            case STOP -> "<path d=\"M-6 -13 H6 L13 -6 V6 L6 13 H-6 L-13 6 V-6 Z\"/>";
            case CAUTION -> "<path d=\"M0 -16 L15 11 H-15 Z\"/>";
            case NOTE -> "<circle r=\"12\"/>";
        };
        svg.append(Svg.markup("<a href=\"#f%d\"><g class=\"mark %s\" ", numbered.getKey(), weight.word()))
                .append(Svg.markup("transform=\"translate(%d %d)\">", x, y))
                .append(Svg.markup("<title>%s</title>", numbered.getValue().sentence()))
                .append(shape)
                .append(Svg.markup("<text y=\"%d\">%d</text>", weight == Weight.CAUTION ? 8 : 4, numbered.getKey()))
                .append("</g></a>\n");
    }
}
