package sprag.bench.drawing.live;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.stream.IntStream;
import sprag.bench.drawing.live.element.Control;
import sprag.bench.drawing.live.element.Gate;

/**
 * A state of the car that everybody knows, as positions of controls.
 *
 * @param sort which one
 * @param title such as {@code driving, cut_off pressed or out}
 * @param set the controls that are not at rest
 */
public record Situation(Sort sort, String title, BitSet set) {
    /** What is known of a situation without reading its title. */
    public enum Sort {
        PARKED,
        KEY_ON,
        PRECHARGING,
        DRIVING,
        CHARGING,
        /** Driving, with a cut-off pressed or a service switch out. */
        CUT_OFF,
        /** Driving, with a 12 V battery off. */
        BATTERY_OFF,
        /** Driving, with a fuse out. */
        FUSE_OUT
    }

    /** The situations that a circuit can be in; those of fuses come last. */
    static List<Situation> of(SwitchCircuit circuit) {
        List<Situation> all = new ArrayList<>();
        BitSet parked = new BitSet();
        BitSet key = new BitSet();
        if (circuit.isUnsupervised()) {
            // What a supervisor would read is in the way of the current: doors are shut, and the battery monitor
            // permits.
            IntStream.of(circuit.switches("cover", "lid", "crash", "inertia", "permit"))
                    .forEach(parked::set);
        }
        key.or(parked);
        IntStream.of(circuit.controls(Control.Kind.KEY)).forEach(key::set);
        BitSet beating = with(circuit, key, "heartbeat", "dcdc_enable");
        BitSet driving = with(circuit, beating, "negative_contactor", "positive_contactor", "inverter_enable");
        BitSet precharging = with(circuit, key, "heartbeat", "negative_contactor", "precharge_relay");
        if (circuit.isUnsupervised()) {
            // The moment of the start: a relay that holds itself has no memory here.
            for (int pressed : circuit.switches("start", "brake")) {
                driving.set(pressed);
                precharging.set(pressed);
            }
        }
        timers(circuit, driving);
        BitSet charging = with(circuit, parked, "heartbeat", "dcdc_enable", "charger_enable");
        IntStream.of(circuit.controls(Control.Kind.STATION)).forEach(charging::set);
        IntStream.of(circuit.plugs()).forEach(charging::set);
        timers(circuit, charging);
        all.add(new Situation(Sort.PARKED, "parked", parked));
        all.add(new Situation(Sort.KEY_ON, "key on", with(circuit, key, "heartbeat")));
        all.add(new Situation(Sort.PRECHARGING, "precharging", precharging));
        all.add(new Situation(Sort.DRIVING, "driving", driving));
        all.add(new Situation(Sort.CHARGING, "charging", charging));
        whileDriving(circuit, driving, Control.Kind.CUT_OFF, Sort.CUT_OFF, all);
        whileDriving(circuit, driving, Control.Kind.BATTERY, Sort.BATTERY_OFF, all);
        whileDriving(circuit, driving, Control.Kind.FUSE, Sort.FUSE_OUT, all);
        return all;
    }

    private static void whileDriving(
            SwitchCircuit circuit, BitSet driving, Control.Kind kind, Sort sort, List<Situation> into) {
        for (int c : circuit.controls(kind)) {
            BitSet more = (BitSet) driving.clone();
            more.set(c);
            into.add(new Situation(sort, "driving, " + circuit.controls.get(c).setWords(), more));
        }
    }

    /** Whoever drives or charges has waited for the timers. */
    private static void timers(SwitchCircuit circuit, BitSet set) {
        IntStream.of(circuit.timers()).forEach(set::set);
    }

    private static BitSet with(SwitchCircuit circuit, BitSet set, String... outputs) {
        BitSet more = (BitSet) set.clone();
        for (String output : outputs) {
            int control = circuit.control(Control.Kind.OUTPUT, output);
            if (control != Gate.NONE) {
                more.set(control);
            }
        }
        return more;
    }
}
