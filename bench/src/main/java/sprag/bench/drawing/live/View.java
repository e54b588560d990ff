package sprag.bench.drawing.live;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import sprag.bench.cli.Numbers;
import sprag.bench.drawing.live.element.Consumer;
import sprag.bench.drawing.live.element.Control;
import sprag.bench.drawing.live.element.Gate;
import sprag.bench.drawing.live.element.Potential;
import sprag.bench.review.wiring.schedule.PartKind;

/** What the promises ask of 64 settled combinations. */
final class View {
    /** A net that is rated for less than a potential, by the node that says so. */
    private record Weak(int node, Potential potential) {}

    private final SwitchCircuit circuit;
    private final int[] cutOffs;
    private final int[] serviceSwitches;
    private final int[] tractionCoils;
    private final int[] supervisors;
    private final int[] brakeLamps;
    private final int[] inverters;
    private final int[] undriven;
    private final int positive;
    private final int[] batteries;
    private final int[] keys;
    private final int[] timers;
    private final int[] plugs;
    private final int[] starts;
    private final DriveWays drive;
    private final int beat;
    private final int[] heaters;
    private final int heating;
    private final int brake;
    /** Whether the schedule makes of the brake switch one that is closed at rest. */
    private final boolean brakeOpens;

    private final List<Weak> weak = new ArrayList<>();
    private Flow flow;
    private int[] weakPlaces;
    private FuseRings rings;

    View(SwitchCircuit circuit) {
        this.circuit = circuit;
        cutOffs = circuit.cutOffs(false);
        serviceSwitches = circuit.cutOffs(true);
        tractionCoils = circuit.tractionCoils();
        supervisors = circuit.consumers(Consumer.Kind.SUPPLY, PartKind.SUPERVISOR);
        brakeLamps = brakeLamps();
        inverters = circuit.consumers(Consumer.Kind.TRACTION, PartKind.INVERTER);
        undriven = IntStream.of(tractionCoils)
                .filter(c -> !circuit.drivenBy.containsKey(c))
                .toArray();
        positive = circuit.control(Control.Kind.OUTPUT, "positive_contactor");
        heaters = circuit.consumers(Consumer.Kind.TRACTION, PartKind.HEATER);
        heating = circuit.control(Control.Kind.OUTPUT, "heater_element");
        beat = circuit.control(Control.Kind.OUTPUT, "heartbeat");
        batteries = circuit.controls(Control.Kind.BATTERY);
        keys = circuit.controls(Control.Kind.KEY);
        timers = circuit.timers();
        brake = brakeSwitch();
        brakeOpens = circuit.links.stream()
                .filter(link -> !circuit.nodes.get(link.b()).name().endsWith(".rest"))
                .anyMatch(link -> link.gate().control() == brake && link.gate().opens());
        plugs = circuit.plugs();
        starts = circuit.switches("start");
        drive = new DriveWays(circuit);
        for (int n = 0; n < circuit.nodes.size(); n++) {
            for (Potential potential : Potential.values()) {
                if (circuit.volts[potential.ordinal()] > circuit.nodes.get(n).ratedV()) {
                    weak.add(new Weak(n, potential));
                }
            }
        }
    }

    private int[] brakeLamps() {
        return IntStream.of(circuit.consumers(Consumer.Kind.LAMP))
                .filter(c -> circuit.consumers.get(c).part().contains("brake"))
                .toArray();
    }

    private int brakeSwitch() {
        return IntStream.of(circuit.controls(Control.Kind.SWITCH))
                .filter(c -> circuit.controls.get(c).part().contains("brake"))
                .findFirst()
                .orElse(Gate.NONE);
    }

    /** The controls that the promises themselves speak of. */
    int[] premises() {
        IntStream asked = IntStream.concat(IntStream.of(cutOffs), IntStream.of(serviceSwitches));
        asked = IntStream.concat(asked, IntStream.of(batteries));
        asked = IntStream.concat(asked, IntStream.of(beat, brake, heating));
        asked = IntStream.concat(asked, drive.premises());
        return IntStream.concat(asked, circuit.drivenBy.values().stream().mapToInt(Integer::intValue))
                .filter(c -> c != Gate.NONE)
                .distinct()
                .toArray();
    }

    /** The key, which one promise speaks of; where it leads to inputs only, its position changes nothing and counts as on. */
    int[] keys() {
        return keys;
    }

    View at(Flow settled) {
        if (flow == null || flow.netlist != settled.netlist) {
            weakPlaces = weakPlaces(settled.netlist);
            rings = new FuseRings(settled.netlist);
        }
        flow = settled;
        return this;
    }

    Flow flow() {
        return flow;
    }

    DriveWays drive() {
        return drive;
    }

    private long any(int[] controls) {
        long any = 0;
        for (int control : controls) {
            any |= flow.controls()[control];
        }
        return any;
    }

    long pressed() {
        return any(cutOffs);
    }

    long out() {
        return any(serviceSwitches);
    }

    long beating() {
        return beat == Gate.NONE ? 0 : flow.controls()[beat];
    }

    long batteryOn() {
        return ~any(batteries);
    }

    long braking() {
        if (brake == Gate.NONE) {
            return 0;
        }
        return brakeOpens ? ~flow.controls()[brake] : flow.controls()[brake];
    }

    long tractionHeld() {
        long held = 0;
        for (int coil : tractionCoils) {
            held |= flow.fed[coil];
        }
        return held;
    }

    long anyFed(Consumer.Kind kind) {
        long any = 0;
        for (int c = 0; c < flow.fed.length; c++) {
            any |= circuit.consumers.get(c).kind() == kind ? flow.fed[c] : 0;
        }
        return any;
    }

    long pullsUnasked() {
        long found = 0;
        for (Map.Entry<Integer, Integer> driven : circuit.drivenBy.entrySet()) {
            found |= flow.fed[driven.getKey()] & ~flow.controls()[driven.getValue()];
        }
        for (int coil : undriven) {
            found |= flow.fed[coil];
        }
        return found;
    }

    long chargedAtOnce() {
        long joined = 0;
        for (int inverter : inverters) {
            joined |= flow.hard(circuit.consumers.get(inverter).a(), Potential.PACK_PLUS);
        }
        return positive == Gate.NONE ? joined : joined & ~flow.controls()[positive];
    }

    long drivesPlugged() {
        return any(plugs) & drive.unasked(flow);
    }

    /** With a cut-off pressed, or while a heartbeat that is drawn has stopped. */
    long wokenInSpite() {
        long stopped = beat == Gate.NONE ? 0 : ~beating();
        return (pressed() | stopped) & drive.woken(flow);
    }

    long heatsUnasked() {
        long heats = 0;
        for (int heater : heaters) {
            heats |= flow.fed[heater];
        }
        return heating == Gate.NONE ? 0 : heats & ~flow.controls()[heating];
    }

    long fuseBypassed() {
        return rings.bypassed(flow);
    }

    FuseRings rings() {
        return rings;
    }

    /** The undriven coils; where outputs decide, another promise speaks of the same. */
    private long heldByThemselves() {
        long held = 0;
        for (int coil : undriven) {
            held |= flow.fed[coil];
        }
        return circuit.isUnsupervised() ? held : 0;
    }

    long heldWithoutKey() {
        return heldByThemselves() & ~any(keys) & ~any(plugs);
    }

    long closesUnstarted() {
        return circuit.isUnsupervised() ? drive.joins(flow) & ~any(starts) & flow.fromRest() : 0;
    }

    long drivesThroughResistor() {
        return circuit.isUnsupervised() ? drive.awake(flow) & drive.throughResistor(flow) : 0;
    }

    long disobeyed() {
        long all = batteryOn() & ~pressed() & ~out();
        if (keys.length > 0) {
            all &= flow.controls()[keys[0]];
        }
        if (beat != Gate.NONE) {
            all &= beating();
        }
        for (int timer : timers) {
            all &= flow.controls()[timer];
        }
        long found = 0;
        for (Map.Entry<Integer, Integer> driven : circuit.drivenBy.entrySet()) {
            found |= all & ~flow.fed[driven.getKey()] & flow.controls()[driven.getValue()];
        }
        return found;
    }

    long supervisorFed() {
        long fed = supervisors.length == 0 ? 0 : -1;
        for (int supervisor : supervisors) {
            fed &= flow.fed[supervisor];
        }
        return fed;
    }

    long brakeLampsLit() {
        long lit = -1;
        for (int lamp : brakeLamps) {
            lit &= flow.fed[lamp];
        }
        return lit;
    }

    long overRating() {
        long found = 0;
        for (int place : weakPlaces) {
            found |= flow.soft[place];
        }
        return found;
    }

    /** Where a flow keeps what must not reach a net; many terminals of one net are one place. */
    private int[] weakPlaces(Netlist netlist) {
        return weak.stream()
                .mapToInt(w ->
                        netlist.net[w.node()] * Potential.COUNT + w.potential().ordinal())
                .distinct()
                .toArray();
    }

    /** The terminals whose rating is passed in one combination. */
    List<String> passed(long lane) {
        return weak.stream()
                .filter(w -> (flow.soft(w.node(), w.potential()) & lane) != 0)
                .map(w -> circuit.nodes.get(w.node()).name() + " is rated for "
                        + Numbers.text(circuit.nodes.get(w.node()).ratedV()) + " V and sees "
                        + w.potential().words)
                .toList();
    }
}
