package sprag.bench.review.wiring;

import static sprag.bench.review.wiring.Draft.move;
import static sprag.bench.review.wiring.Draft.otherEnd;
import static sprag.bench.review.wiring.Rule.*;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.function.BiPredicate;

/**
 * Mistakes that can be planted in any schedule, since they look for terminals and kinds of parts and not for names. The second
 * column: the rules of which one must speak. A mistake answers false where a schedule has nothing to plant it in.
 */
enum WrongByTerminal {
    // @formatter:off
    SUPERVISOR_WITHOUT_GROUND  (Set.of(GROUND_MISSING),             (d, r) -> remove(d, "supervisor.ground")),
    INVERTER_WITHOUT_GROUND    (Set.of(GROUND_MISSING),             (d, r) -> remove(d, d.parts("inverter").get(0) + ".ground")),
    PEDAL_WITHOUT_GROUND       (Set.of(GROUND_MISSING),             (d, r) -> remove(d, d.parts("pedal").get(0) + ".ground")),
    THERMISTOR_WITHOUT_GROUND  (Set.of(GROUND_MISSING),             WrongByTerminal::thermistorWithoutGround),
    SENSOR_GROUND_BY_CHASSIS   (Set.of(SENSOR_GROUND_ON_CHASSIS),   (d, r) -> moved(d, "supervisor.sensor_ground", chassis(d))),
    SENSOR_GROUND_TIED         (Set.of(SENSOR_GROUND_ON_CHASSIS),   (d, r) -> added(d, "supervisor.ground", "supervisor.sensor_ground", chassis(d))),
    CURRENT_THE_WRONG_WAY      (Set.of(CURRENT_REVERSED),           (d, r) -> swapped(d, pick(d.parts("shunt", "current-sensor"), r), ".pack", ".load")),
    COIL_THE_WRONG_WAY         (Set.of(COIL_REVERSED),              WrongByTerminal::coilTheWrongWay),
    CONTACTOR_OUTPUTS_SWAPPED  (Set.of(OUTPUT_AT_WRONG_COIL),       (d, r) -> swapped(d, "supervisor", ".negative_contactor", ".positive_contactor")),
    PRECHARGE_OUTPUT_SWAPPED   (Set.of(OUTPUT_AT_WRONG_COIL),       (d, r) -> swapped(d, "supervisor", ".precharge_relay", r.nextBoolean() ? ".positive_contactor" : ".negative_contactor")),
    PRECHARGE_AROUND_NEGATIVE  (Set.of(PRECHARGE_WRONG_SIDE),       WrongByTerminal::prechargeAroundNegative),
    SERVICE_SWITCH_ON_BUS      (Set.of(SERVICE_SWITCH_ON_BUS_SIDE), WrongByTerminal::serviceSwitchOnBus),
    PILOT_FOR_PROXIMITY        (Set.of(SIGNALS_SWAPPED),            (d, r) -> swapped(d, "supervisor", ".pilot_peak_v", ".proximity_v")),
    PEDAL_TRACKS_SWAPPED       (Set.of(SIGNALS_SWAPPED),            (d, r) -> swapped(d, "supervisor", ".pedal_a_v", ".pedal_b_v")),
    AUXILIARIES_SWAPPED        (Set.of(SIGNALS_SWAPPED),            (d, r) -> swapped(d, "supervisor", ".negative_aux_closed", ".positive_aux_closed")),
    PHASE_FOR_PLUS             (Set.of(PHASE_ASTRAY),               (d, r) -> swapped(d, d.parts("inverter").get(0), pick(List.of(".u", ".v", ".w"), r), ".plus")),
    PHASE_FROM_THE_BUS         (Set.of(PHASE_ASTRAY),               (d, r) -> moved(d, d.parts("inverter").get(0), pick(List.of(".u", ".v", ".w"), r), ".plus")),
    PHASES_EXCHANGED           (Set.of(PHASES_CROSSED),             (d, r) -> swapped(d, "motor", ".u", pick(List.of(".v", ".w"), r))),
    PHASE_LEFT_OUT             (Set.of(TERMINAL_UNWIRED),           (d, r) -> remove(d, d.parts("inverter").get(0) + pick(List.of(".u", ".v", ".w"), r))),
    AUXILIARY_WITHOUT_FEED     (Set.of(TERMINAL_UNWIRED),           (d, r) -> remove(d, "relay_precharge.aux_a")),
    NEUTRAL_ON_CHASSIS         (Set.of(MAINS_CROSSED),              (d, r) -> added(d, pick(d.parts("charger"), r) + ".neutral", pick(d.parts("charger"), r) + ".neutral", chassis(d))),
    LINE_FOR_NEUTRAL           (Set.of(MAINS_CROSSED),              (d, r) -> swapped(d, d.parts("inlet").get(0), ".line", ".neutral")),
    INLET_TOO_SMALL            (Set.of(PART_OVERLOADED),            WrongByTerminal::inletTooSmall),
    CONNECTOR_FOR_BOTH         (Set.of(CONNECTOR_SHARED),           WrongByTerminal::connectorForBoth),
    THERMOSTAT_AT_THE_BLOWER   (Set.of(BLOWER_INTERRUPTED),         WrongByTerminal::thermostatAtTheBlower),
    TERMINAL_NOBODY_HAS        (Set.of(TERMINAL_UNKNOWN),           (d, r) -> moved(d, pick(d.parts("fuse"), r), ".out", ".output")),
    COVER_SWITCH_BRIDGED       (Set.of(CONTACT_BRIDGED, INPUT_OR_OUTPUT_TIED), (d, r) -> bridged(d, "supervisor.cover_loop_closed")),
    COVER_LOOP_CUT_SHORT       (Set.of(INPUT_OR_OUTPUT_TIED),       (d, r) -> fedBySupply(d, "supervisor.cover_loop_closed", r)),
    CUT_OFF_LEFT_OUT_OF_LOOP   (Set.of(CUT_OFF_OUTSIDE_LOOP),       WrongByTerminal::cutOffLeftOut),
    LOOP_LANDS_BESIDE_CONNECTOR (Set.of(LOOP_PAST_CONNECTOR),        (d, r) -> loopPastConnector(d, false)),
    LOOP_AROUND_CONNECTOR      (Set.of(LOOP_PAST_CONNECTOR),        (d, r) -> loopPastConnector(d, true)),
    KEY_BRIDGED                (Set.of(INPUT_OR_OUTPUT_TIED),       (d, r) -> fedBySupply(d, "supervisor.key_on", r)),
    PEDAL_WIPER_ON_12V         (Set.of(INPUT_OR_OUTPUT_TIED),       (d, r) -> fedBySupply(d, "supervisor.pedal_a_v", r)),
    LOAD_ON_SUPERVISOR_GROUND  (Set.of(GROUND_SHARED),              WrongByTerminal::loadOnSupervisorGround),
    DATA_PAIR_CROSSED          (Set.of(PAIR_CROSSED),               WrongByTerminal::dataPairCrossed),
    PEDAL_ON_12V               (Set.of(SENSOR_SUPPLY_WRONG),        (d, r) -> moved(d, "supervisor.sensor_supply", supply(d))),
    FUSE_BRIDGED               (Set.of(CONTACT_BRIDGED),            (d, r) -> bridgedContact(d, pick(d.parts("fuse"), r))),
    SHUNT_BRIDGED              (Set.of(CONTACT_BRIDGED),            (d, r) -> !d.at("shunt.pack").isEmpty() && added(d, "shunt.pack", "shunt.pack", "shunt.load")),
    CONVERTER_WITHOUT_MINUS    (Set.of(TERMINAL_UNWIRED),           (d, r) -> remove(d, "dcdc.out_minus")),
    HEATER_RELAY_BRIDGED       (Set.of(CONTACT_BRIDGED),            (d, r) -> d.at("supervisor.heater_element").size() == 1 && bridgedContact(d, coilAt(d, "supervisor.heater_element"))),
    COIL_TO_CHASSIS            (Set.of(COIL_WITHOUT_OUTPUT, NEEDED_SIGNAL_WITHOUT_WIRE), (d, r) -> moved(d, pick(List.of("supervisor.positive_contactor", "supervisor.negative_contactor", "supervisor.precharge_relay"), r), chassis(d))),
    COIL_ALSO_TO_CHASSIS       (Set.of(INPUT_OR_OUTPUT_TIED),       (d, r) -> added(d, "supervisor.positive_contactor", "supervisor.positive_contactor", chassis(d))),
    SIGNAL_LEFT_OUT            (Set.of(NEEDED_SIGNAL_WITHOUT_WIRE), (d, r) -> leftOut(d, pick(List.of("bus_voltage_v", "torque_request_nm", "inverter_enable", "discharge_permit", "charge_permit", "pack_voltage_v", "key_on", "plug_present"), r))),
    WATCHDOG_BRIDGED           (Set.of(OUTPUTS_UNGUARDED, CONTACTS_IN_PARALLEL), (d, r) -> bridgedContact(d, coilAt(d, "supervisor.heartbeat"))),
    WATCHDOG_HELD_FOR_EVER     (Set.of(OUTPUTS_UNGUARDED),          (d, r) -> moved(d, "supervisor.heartbeat", chassis(d)));
    // @formatter:on

    final Set<Rule> rules;
    private final BiPredicate<Draft, Random> plant;

    WrongByTerminal(Set<Rule> rules, BiPredicate<Draft, Random> plant) {
        this.rules = rules;
        this.plant = plant;
    }

    /** False when the schedule has no place for it. */
    boolean plantIn(Draft draft, Random random) {
        return plant.test(draft, random);
    }

    private static <T> T pick(List<T> all, Random random) {
        return all.get(random.nextInt(all.size()));
    }

    private static String chassis(Draft d) {
        return d.parts("chassis").get(0) + ".planted";
    }

    /** A terminal of the 12 V supply that stays live. */
    private static String supply(Draft d) {
        return otherEnd(d.at("supervisor.supply").get(0), "supervisor.supply");
    }

    private static boolean remove(Draft d, String terminal) {
        return d.wires().removeAll(d.at(terminal));
    }

    private static boolean moved(Draft d, String from, String to) {
        boolean any = !d.at(from).isEmpty();
        d.moveAll(from, to);
        return any;
    }

    private static boolean moved(Draft d, String part, String pin, String other) {
        return moved(d, part + pin, part + other);
    }

    private static boolean swapped(Draft d, String part, String one, String other) {
        if (d.at(part + one).isEmpty() || d.at(part + other).isEmpty()) {
            return false;
        }
        d.swap(part + one, part + other);
        return true;
    }

    private static boolean added(Draft d, String like, String from, String to) {
        d.add(d.at(like).get(0), from, to);
        return true;
    }

    private static boolean thermistorWithoutGround(Draft d, Random r) {
        List<String> probes = d.parts("sensor").stream()
                .filter(p -> !d.at(p + ".a").isEmpty())
                .toList();
        return !probes.isEmpty() && remove(d, pick(probes, r) + ".b");
    }

    private static boolean coilTheWrongWay(Draft d, Random r) {
        List<String> coils = d.parts("contactor", "relay").stream()
                .filter(p ->
                        Set.of("diode", "zener", "built-in").contains(d.part(p).get("suppression")))
                .toList();
        return swapped(d, pick(coils, r), ".coil_plus", ".coil_minus");
    }

    private static String coilAt(Draft d, String output) {
        String terminal = otherEnd(d.at(output).get(0), output);
        return terminal.substring(0, terminal.indexOf('.'));
    }

    private static boolean prechargeAroundNegative(Draft d, Random r) {
        String resistor = d.parts("resistor").get(0);
        String negative = coilAt(d, "supervisor.negative_contactor");
        List<String> chain = new ArrayList<>(List.of(resistor, coilAt(d, "supervisor.precharge_relay")));
        d.parts("fuse").stream()
                .filter(f -> f.contains("pre") || f.contains("soft"))
                .forEach(chain::add);
        List<Map<String, String>> outer = d.wires().stream()
                .filter(w -> w.get("class").equals("traction"))
                .filter(w -> inside(chain, w.get("from")) != inside(chain, w.get("to")))
                .toList();
        for (int i = 0; i < outer.size(); i++) {
            Map<String, String> wire = outer.get(i);
            String outside = inside(chain, wire.get("from")) ? wire.get("to") : wire.get("from");
            boolean fromPack = inside(List.of(d.parts("resistor").get(0)), wire.get("from")) || i > 0;
            move(wire, outside, negative + (fromPack ? ".out" : ".in"));
        }
        return outer.size() == 2;
    }

    private static boolean inside(List<String> chain, String terminal) {
        return chain.contains(terminal.substring(0, terminal.indexOf('.')));
    }

    private static boolean serviceSwitchOnBus(Draft d, Random r) {
        List<String> found = d.parts("cut-off").stream()
                .filter(p -> d.at(p + ".in").get(0).get("class").equals("traction"))
                .toList();
        if (found.isEmpty()) {
            return false;
        }
        String name = found.get(0);
        Map<String, String> out = d.at(name + ".out").get(0);
        String beyond = otherEnd(out, name + ".out");
        d.moveAll(name + ".in", beyond);
        d.wires().remove(out);
        String bus = coilAt(d, "supervisor.positive_contactor") + ".out";
        Map<String, String> main = d.at(bus).stream()
                .max((a, b) ->
                        Double.compare(Double.parseDouble(a.get("size_mm2")), Double.parseDouble(b.get("size_mm2"))))
                .orElseThrow();
        move(main, bus, name + ".out");
        d.add(main, bus, name + ".in");
        return true;
    }

    private static boolean inletTooSmall(Draft d, Random r) {
        String inlet = d.parts("inlet").get(0);
        double currentA = Double.parseDouble(d.at(inlet + ".line").get(0).get("current_a"));
        d.part(inlet).put("rated_a", String.valueOf(currentA - 0.5));
        return true;
    }

    private static void through(Draft d, String terminal, String in, String out) {
        Map<String, String> wire = d.at(terminal).get(0);
        move(wire, terminal, in);
        d.add(wire, out, terminal);
    }

    private static boolean connectorForBoth(Draft d, Random r) {
        d.addPart("connector_planted", "connector", "", "");
        through(d, d.parts("dcdc").get(0) + ".plus", "connector_planted.1", "connector_planted.1");
        through(d, "supervisor.supply", "connector_planted.2", "connector_planted.2");
        return true;
    }

    /** A connector that the loop passes twice; one wire lands beside it, or one wire leads around it. */
    private static boolean loopPastConnector(Draft d, boolean around) {
        String loop = "supervisor.cut_loop_closed";
        if (d.at(loop).isEmpty()) {
            return false;
        }
        Map<String, String> last = d.at(loop).get(0);
        String far = otherEnd(last, loop);
        d.addPart("connector_planted", "connector", "", "");
        move(last, loop, "connector_planted.out");
        d.add(last, "connector_planted.out", "connector_planted.back");
        d.add(last, around ? "connector_planted.back" : "connector_planted.out", loop);
        if (around) {
            d.add(last, far, loop);
        }
        return true;
    }

    private static boolean thermostatAtTheBlower(Draft d, Random r) {
        if (d.at("heater_blower.plus").isEmpty()) {
            return false;
        }
        d.addPart("thermostat", "switch", "32", "20");
        String pin = r.nextBoolean() ? ".plus" : ".minus";
        through(d, "heater_blower" + pin, "thermostat.in", "thermostat.out");
        return true;
    }

    /** The contact whose far end is at the supervisor's terminal gets a wire from one side to the other. */
    private static boolean bridged(Draft d, String terminal) {
        return !d.at(terminal).isEmpty() && bridgedContact(d, coilAt(d, terminal));
    }

    private static boolean bridgedContact(Draft d, String part) {
        d.add(d.at(part + ".in").get(0), part + ".in", part + ".out");
        return true;
    }

    private static boolean fedBySupply(Draft d, String terminal, Random r) {
        if (d.at(terminal).isEmpty()) {
            return false;
        }
        Map<String, String> wire = d.at(terminal).get(0);
        move(wire, otherEnd(wire, terminal), r.nextBoolean() && !terminal.endsWith("_v") ? chassis(d) : supply(d));
        return true;
    }

    private static boolean cutOffLeftOut(Draft d, Random r) {
        String loop = "supervisor.cut_loop_closed";
        Map<String, String> last = d.at(loop).get(0);
        String far = otherEnd(last, loop);
        String part = far.substring(0, far.indexOf('.'));
        String before = otherEnd(d.at(part + ".in_2").get(0), part + ".in_2");
        if (!before.endsWith(".out_2")) {
            return false;
        }
        move(last, far, before);
        return true;
    }

    private static boolean loadOnSupervisorGround(Draft d, Random r) {
        List<String> loads = d.parts("load", "lamp").stream()
                .filter(p -> d.at(p + ".minus").size() == 1
                        && otherEnd(d.at(p + ".minus").get(0), p + ".minus")
                                .startsWith(d.parts("chassis").get(0)))
                .toList();
        if (loads.isEmpty()) {
            return false;
        }
        String minus = pick(loads, r) + ".minus";
        Map<String, String> wire = d.at(minus).get(0);
        move(wire, otherEnd(wire, minus), "supervisor.ground");
        return true;
    }

    private static boolean dataPairCrossed(Draft d, Random r) {
        List<Map<String, String>> highs = d.wires().stream()
                .filter(w -> w.get("from").endsWith(".data_high") && w.get("to").endsWith(".data_high"))
                .toList();
        Map<String, String> high = pick(highs, r);
        Map<String, String> low = d.wires().stream()
                .filter(w -> w.get("from").equals(high.get("from").replace("high", "low")))
                .filter(w -> w.get("to").equals(high.get("to").replace("high", "low")))
                .findFirst()
                .orElseThrow();
        String end = high.get("to");
        high.put("to", low.get("to"));
        low.put("to", end);
        return true;
    }

    private static boolean leftOut(Draft d, String key) {
        d.wires().removeAll(d.at("supervisor." + key));
        d.wires()
                .forEach(w -> w.put(
                        "carries",
                        (" " + w.get("carries") + " ")
                                .replace(" " + key + " ", " ")
                                .strip()));
        return true;
    }
}
