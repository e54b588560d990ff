package sprag.bench.review.page;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.Wire;

/** The places of the one-line diagram, and which findings belong to which. */
public enum Spot {
    // @formatter:off
    //            label          keys of the vehicle's file that belong here
    PACK         ("pack",        List.of("pack", "cell", "car.cells", "design.pack")),
    FUSE         ("main fuse",   List.of("car.box.fuse", "design.fuse")),
    SHUNT        ("current",     List.of()),
    CABLE        ("main cable",  List.of("design.cable")),
    NEGATIVE     ("contactor -", List.of()),
    POSITIVE     ("contactor +", List.of("contactor", "car.box", "design.contacts")),
    PRECHARGE    ("precharge",   List.of("precharge", "design.resistor", "car.parts.left_on", "design.contacts.relay")),
    BUS          ("bus",         List.of("bus", "car.parts.bleed")),
    INVERTER     ("inverter",    List.of("inverter", "car.machine.trip")),
    MOTOR        ("motor",       List.of("motor", "drive", "regen")),
    DCDC         ("DC-DC",       List.of("dcdc", "car.lv.dcdc")),
    LOW_VOLTAGE  ("12 V",        List.of("lv", "car.lv", "design.supply")),
    CHARGER      ("charger",     List.of("charger", "charge")),
    INLET        ("inlet",       List.of("inlet")),
    STATION      ("station",     List.of("design.station", "car.station")),
    HEATER       ("heater",      List.of("heater")),
    CHASSIS      ("body",        List.of("isolation")),
    CUT_OFF      ("cut-off",     List.of()),
    SUPERVISOR   ("supervisor",  List.of("budget", "loop", "rundown", "gauge")),
    SENSORS      ("sensors",     List.of("pedal", "thermistor", "coolant", "design.sensor"));
    // @formatter:on

    private static final Map<PartKind, Spot> BY_KIND = Map.ofEntries(
            Map.entry(PartKind.PACK, PACK),
            Map.entry(PartKind.MONITOR, PACK),
            Map.entry(PartKind.SHUNT, SHUNT),
            Map.entry(PartKind.CURRENT_SENSOR, SHUNT),
            Map.entry(PartKind.RESISTOR, PRECHARGE),
            Map.entry(PartKind.INVERTER, INVERTER),
            Map.entry(PartKind.MOTOR, MOTOR),
            Map.entry(PartKind.DCDC, DCDC),
            Map.entry(PartKind.LV_BATTERY, LOW_VOLTAGE),
            Map.entry(PartKind.CHARGER, CHARGER),
            Map.entry(PartKind.INLET, INLET),
            Map.entry(PartKind.HEATER, HEATER),
            Map.entry(PartKind.CHASSIS, CHASSIS),
            Map.entry(PartKind.ISOLATION_MONITOR, CHASSIS),
            Map.entry(PartKind.CUT_OFF, CUT_OFF),
            Map.entry(PartKind.SUPERVISOR, SUPERVISOR),
            Map.entry(PartKind.PEDAL, SENSORS),
            Map.entry(PartKind.SENSOR, SENSORS),
            Map.entry(PartKind.SWITCH, SENSORS),
            Map.entry(PartKind.KEY, SENSORS));

    private static final Map<String, Spot> BY_NAME = Map.of(
            "negative", NEGATIVE,
            "positive", POSITIVE,
            "precharge", PRECHARGE,
            "dcdc", DCDC,
            "charger", CHARGER,
            "heater", HEATER,
            "inverter", INVERTER,
            "main", FUSE,
            "lamp", SENSORS);

    final String label;
    private final List<String> keys;

    Spot(String label, List<String> keys) {
        this.label = label;
        this.keys = keys;
    }

    /** Where a finding sits; null when it is about the drawing as a whole. */
    static Spot of(Finding finding, Schedule schedule, Map<String, Wire> wires) {
        if (finding.place().file().equals("vehicle.toml")) {
            return ofKey(finding.where());
        }
        if (schedule == null) {
            return null;
        }
        if (wires.containsKey(finding.where())) {
            return ofWire(wires.get(finding.where()), schedule);
        }
        int dot = finding.where().indexOf('.');
        return ofPart(
                schedule.parts().get(dot < 0 ? finding.where() : finding.where().substring(0, dot)));
    }

    /**
     * The part of a schedule that a key of the vehicle's file is about: the resistor before the relay beside it. Nothing when it is
     * about none that is drawn.
     */
    public static Optional<String> partOf(String key, Schedule schedule) {
        Spot spot = ofKey(key);
        Spot drawn = spot == STATION ? INLET : spot == CABLE || spot == BUS ? INVERTER : spot;
        return drawn == null
                ? Optional.empty()
                : schedule.parts().values().stream()
                        .filter(part -> ofPart(part) == drawn)
                        .min(Comparator.comparing(part -> BY_KIND.get(part.kind()) != drawn))
                        .map(Part::name);
    }

    /** The spot with the longest key that a key begins with. */
    private static Spot ofKey(String key) {
        Spot best = null;
        int longest = 0;
        for (Spot spot : values()) {
            for (String start : spot.keys) {
                boolean fits = key.equals(start) || key.startsWith(start + ".") || key.startsWith(start + "_");
                if (fits && start.length() > longest) {
                    best = spot;
                    longest = start.length();
                }
            }
        }
        return best;
    }

    private static Spot ofWire(Wire wire, Schedule schedule) {
        Spot fallback = null;
        for (String end : List.of(wire.to(), wire.from())) {
            int dot = end.indexOf('.');
            Spot spot = dot < 0 ? null : ofPart(schedule.parts().get(end.substring(0, dot)));
            if (spot != null && spot != CHASSIS && spot != SUPERVISOR) {
                return spot;
            }
            fallback = spot == null ? fallback : spot;
        }
        return fallback;
    }

    private static Spot ofPart(Part part) {
        if (part == null) {
            return null;
        }
        if (BY_KIND.containsKey(part.kind())) {
            return BY_KIND.get(part.kind());
        }
        for (String word : part.name().toLowerCase(Locale.ROOT).split("_")) {
            if (BY_NAME.containsKey(word)) {
                return BY_NAME.get(word);
            }
        }
        return null;
    }
}
