package sprag.bench.hand.commission.pins;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import sprag.bench.cli.Nearest;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/**
 * A mistake planted in the simulated loom for a rehearsal: {@code key_on.dead}, {@code ready_lamp.swapped=fault_lamp},
 * {@code cut_off.bypassed}, {@code cut_off.slow=400} (milliseconds).
 *
 * @param where a signal, an output, or the cut-off
 * @param other what it is swapped with, empty otherwise
 * @param ms how slow, 0 otherwise
 */
public record WireFault(String where, Kind kind, String other, int ms) {
    static final String CUT_OFF = "cut_off";

    /** What can be wrong with a wire. */
    enum Kind {
        DEAD,
        SWAPPED,
        BYPASSED,
        SLOW
    }

    /** Reads one.
     *
     * @throws IllegalArgumentException with words for people
     */
    public static WireFault parse(String written, Set<Signal> signals, Set<Output> outputs) {
        List<String> inputs = signals.stream().map(Signal::key).toList();
        List<String> driven = outputs.stream().map(Output::key).toList();
        String[] sides = written.split("=", 2);
        int dot = sides[0].lastIndexOf('.');
        String where = dot < 0 ? sides[0] : sides[0].substring(0, dot);
        String kind = dot < 0 ? "" : sides[0].substring(dot + 1);
        String value = sides.length > 1 ? sides[1] : "";
        if (where.equals(CUT_OFF)) {
            return cutOff(written, kind, value);
        }
        List<String> all = new ArrayList<>(inputs);
        all.addAll(driven);
        if (!all.contains(where)) {
            throw new IllegalArgumentException("--fault " + written + ": \"" + where
                    + "\" is no wire of this rehearsal. " + Nearest.hint(where, all));
        }
        if (kind.equals("dead") && value.isEmpty()) {
            return new WireFault(where, Kind.DEAD, "", 0);
        }
        List<String> likes = inputs.contains(where) ? inputs : driven;
        if (kind.equals("swapped") && likes.contains(value)) {
            return new WireFault(where, Kind.SWAPPED, value, 0);
        }
        throw new IllegalArgumentException("--fault " + written + " is neither " + where + ".dead nor " + where
                + ".swapped=OTHER with another of: " + String.join(", ", likes));
    }

    private static WireFault cutOff(String written, String kind, String value) {
        if (kind.equals("bypassed") && value.isEmpty()) {
            return new WireFault(CUT_OFF, Kind.BYPASSED, "", 0);
        }
        if (kind.equals("slow") && value.matches("[1-9]\\d{0,3}")) {
            return new WireFault(CUT_OFF, Kind.SLOW, "", Integer.parseInt(value));
        }
        throw new IllegalArgumentException(
                "--fault " + written + " is neither cut_off.bypassed nor cut_off.slow=MS with 1 to 9999");
    }
}
