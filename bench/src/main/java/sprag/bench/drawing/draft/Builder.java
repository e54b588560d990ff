package sprag.bench.drawing.draft;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import sprag.bench.review.formula.DangerousVoltage;
import sprag.bench.review.wiring.schedule.VoltageClass;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/** Collects the rows and parts of a draft. */
final class Builder {
    /** A lead up to a fuse is guarded by nothing of its own, so it is as short as can be. */
    private static final double STUB_M = 0.15;

    /** Thinner leads break at the bar; common practice. */
    private static final double LEAST_STUB_MM2 = 2.5;

    /** Stands for the name of a terminal that the other end of the wire gives. */
    private static final String OPEN = ".?";

    private static final double SAME_PLACE_M = 0.6;
    private static final String LOW_PIN_V = "32";
    private static final String MAINS_PIN_V = "400";
    private static final List<String> COLOURS = List.of(
            "white",
            "brown",
            "green",
            "yellow",
            "grey",
            "pink",
            "blue",
            "violet",
            "white-brown",
            "white-green",
            "white-blue",
            "brown-green",
            "yellow-grey",
            "grey-pink",
            "blue-violet",
            "green-black",
            "yellow-black");

    final Vehicle vehicle;
    final Sizes sizes;
    final List<DraftRow> rows = new ArrayList<>();
    final Map<String, String> parts = new LinkedHashMap<>();
    private final Map<String, Place> placeOf = new LinkedHashMap<>();
    final Answers answers;
    private final Ways ways;

    Builder(Vehicle vehicle, Answers answers) {
        this.vehicle = vehicle;
        this.answers = answers;
        sizes = new Sizes(vehicle);
        ways = new Ways(answers);
    }

    /** Adds a part: its name, its place, and its row of the list behind the name. */
    void part(String name, Place place, String row) {
        parts.putIfAbsent(name, row);
        placeOf.putIfAbsent(name, place);
    }

    /** A terminal of a splice or of the chassis, named by what it leads to, so that it stays when others come and go. */
    static String next(String part) {
        return part + OPEN;
    }

    private static String resolved(String end, String other) {
        return end.endsWith(OPEN)
                ? end.substring(0, end.length() - OPEN.length()) + "." + other.replace('.', '_')
                : end;
    }

    /** A traction conductor: what guards it, what it carries. */
    void traction(String from, String to, String net, double fuseA, double currentA) {
        double size = fuseA == sizes.mainFuseA() ? sizes.mainMm2() : sizes.tractionMm2(fuseA);
        tractionSized(from, to, net, size, new double[] {fuseA, currentA});
    }

    /** A short lead from the main bar to a fuse: thinner than the bar, and guarded by the main fuse alone. */
    void stub(String from, String to, String net, double branchFuseA) {
        double size = Math.max(LEAST_STUB_MM2, sizes.tractionMm2(branchFuseA));
        tractionSized(from, to, net, size, new double[] {sizes.mainFuseA(), Double.NaN});
    }

    /** A conductor of the minus side: no fuse lies there. */
    void minus(String from, String to, String net, double guardA, double currentA) {
        double size = guardA == sizes.mainFuseA() ? sizes.mainMm2() : sizes.tractionMm2(guardA);
        tractionSized(from, to, net, size, new double[] {Double.NaN, currentA});
    }

    private void tractionSized(String from, String to, String net, double sizeMm2, double[] fuseAndCurrentA) {
        boolean orange = vehicle.get(Parameter.PACK_MAX_V) > DangerousVoltage.ABOVE_V;
        add(
                from,
                to,
                net,
                VoltageClass.TRACTION,
                new DraftRow.Cells(
                        Sizes.text(sizeMm2),
                        orange ? "orange" : net.contains("minus") || net.contains("return") ? "black" : "red",
                        Sizes.text(lengthM(from, to, VoltageClass.TRACTION)),
                        Sizes.text(fuseAndCurrentA[0]),
                        Sizes.text(sizes.tractionV()),
                        Sizes.text(fuseAndCurrentA[1]),
                        "",
                        "",
                        "size by ampacity"));
    }

    /** A conductor of the 12 V side. */
    void low(String from, String to, String net, double fuseA, double currentA) {
        String carries = to.equals("supervisor.supply") ? "lv_supply_v" : "";
        double size = sizes.thinMm2(fuseA, Double.isNaN(currentA) ? 0 : currentA, lengthM(from, to));
        add(
                from,
                to,
                net,
                VoltageClass.LOW_VOLTAGE,
                new DraftRow.Cells(
                        Sizes.text(size),
                        "red",
                        Sizes.text(lengthM(from, to)),
                        Sizes.text(fuseA),
                        LOW_PIN_V,
                        Sizes.text(currentA),
                        "",
                        carries,
                        "size by ampacity and drop"));
    }

    /** The way from a coil to the output that drives it. */
    void drive(String coilMinus, String output) {
        add(
                coilMinus,
                "supervisor." + output,
                "drive_" + output,
                VoltageClass.LOW_VOLTAGE,
                new DraftRow.Cells(
                        "0.75",
                        colour(),
                        Sizes.text(lengthM(coilMinus, "supervisor.x")),
                        "",
                        LOW_PIN_V,
                        "1",
                        "",
                        "",
                        ""));
    }

    /** A ground of the 12 V side or protective earth. */
    void ground(String from, String size, String net) {
        String to = next("chassis");
        boolean protective = net.startsWith("protective");
        add(
                from,
                to,
                net,
                VoltageClass.EARTH,
                new DraftRow.Cells(
                        size,
                        protective ? "green-yellow" : "black",
                        "0.5",
                        "",
                        protective ? MAINS_PIN_V : LOW_PIN_V,
                        "",
                        "",
                        "",
                        ""));
    }

    void mains(String from, String to, String net, double currentA, String colour) {
        double size = sizes.thinMm2(currentA * 1.25, 0, 1);
        boolean earth = net.startsWith("protective");
        add(
                from,
                to,
                net,
                earth ? VoltageClass.EARTH : VoltageClass.MAINS,
                new DraftRow.Cells(
                        Sizes.text(Math.max(2.5, size)),
                        colour,
                        Sizes.text(lengthM(from, to, earth ? VoltageClass.EARTH : VoltageClass.MAINS)),
                        "",
                        MAINS_PIN_V,
                        earth ? "" : Sizes.text(currentA),
                        "",
                        "",
                        ""));
    }

    void signal(String from, String to, String net) {
        signal(from, to, net, "");
    }

    void signal(String from, String to, String net, String carries) {
        add(
                from,
                to,
                net,
                VoltageClass.SIGNAL,
                new DraftRow.Cells(
                        "0.5",
                        colour(),
                        Sizes.text(lengthM(from, to, VoltageClass.SIGNAL)),
                        "",
                        LOW_PIN_V,
                        "",
                        "",
                        carries,
                        ""));
    }

    /** A twisted pair from part to part. */
    void pair(String from, String to, String carries) {
        String high = from + ".data_high to " + to + ".data_high";
        String low = from + ".data_low to " + to + ".data_low";
        String length = Sizes.text(lengthM(from + ".x", to + ".x", VoltageClass.SIGNAL));
        add(
                from + ".data_high",
                to + ".data_high",
                "data_high",
                VoltageClass.SIGNAL,
                new DraftRow.Cells("0.5", "yellow", length, "", LOW_PIN_V, "", low, carries, ""));
        add(
                from + ".data_low",
                to + ".data_low",
                "data_low",
                VoltageClass.SIGNAL,
                new DraftRow.Cells("0.5", "green", length, "", LOW_PIN_V, "", high, "", ""));
    }

    /** The two measuring wires of the shunt, twisted. */
    void sense(String plus, String minus) {
        boolean orange = vehicle.get(Parameter.PACK_MAX_V) > DangerousVoltage.ABOVE_V;
        String colour = orange ? "orange" : "black";
        String pinV = Sizes.text(sizes.tractionV());
        String a = "shunt.sense_plus to " + plus;
        String b = "shunt.sense_minus to " + minus;
        add(
                "shunt.sense_plus",
                plus,
                "shunt_high",
                VoltageClass.TRACTION,
                new DraftRow.Cells("0.75", colour, "0.6", "", pinV, "", b, "", ""));
        add(
                "shunt.sense_minus",
                minus,
                "shunt_low",
                VoltageClass.TRACTION,
                new DraftRow.Cells("0.75", colour, "0.6", "", pinV, "", a, "", ""));
    }

    private void add(String from, String to, String net, VoltageClass voltageClass, DraftRow.Cells cells) {
        rows.add(new DraftRow(resolved(from, to), resolved(to, from), net, voltageClass, cells));
    }

    private String colour() {
        return COLOURS.get(rows.size() % COLOURS.size());
    }

    /** The size of the wire that begins at a terminal (mm²). */
    double sizeMm2(String from) {
        return rows.stream()
                .filter(row -> row.from().equals(from))
                .mapToDouble(row -> Double.parseDouble(row.cells().sizeMm2()))
                .findFirst()
                .orElseThrow();
    }

    /** How many chargers sit in the car: none when the pack is taken out to be charged. */
    int chargers() {
        return vehicle.is(Parameter.INLET_KIND, "none") ? 0 : (int) vehicle.get(Parameter.CHARGER_COUNT);
    }

    /** Where each part is. */
    Map<String, Place> places() {
        return placeOf;
    }

    private double lengthM(String from, String to) {
        return lengthM(from, to, VoltageClass.LOW_VOLTAGE);
    }

    private double lengthM(String from, String to, VoltageClass voltageClass) {
        Place a = placeOf.get(from.substring(0, from.indexOf('.')));
        Place b = placeOf.get(to.substring(0, to.indexOf('.')));
        if (a == null || b == null || a == b) {
            boolean stub = to.startsWith("fuse_") && to.endsWith(".in")
                    || from.startsWith("fuse_")
                    || from.equals("resistor_precharge.out");
            return stub ? STUB_M : SAME_PLACE_M;
        }
        return ways.between(a, b, voltageClass).lengthM();
    }
}
