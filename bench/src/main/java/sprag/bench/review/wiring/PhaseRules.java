package sprag.bench.review.wiring;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import sprag.bench.review.wiring.circuit.Hit;
import sprag.bench.review.wiring.circuit.Review;
import sprag.bench.review.wiring.schedule.PartKind;

/** Rules about the wires between inverter and motor. */
final class PhaseRules {
    private static final Set<String> PHASES = Set.of("u", "v", "w");

    private PhaseRules() {}

    /** A phase of one side meets no phase of the other, or something that is no phase. */
    static List<Hit> astray(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (int t : phases(review)) {
            int net = review.circuit.netOf(t);
            PartKind other = review.circuit.part(t).kind() == PartKind.MOTOR ? PartKind.INVERTER : PartKind.MOTOR;
            List<String> strangers = onNet(review, net)
                    .filter(s -> !isPhase(review, s)
                            && !review.circuit.part(s).kind().isJoint())
                    .filter(s -> review.circuit.part(s).kind() != PartKind.CURRENT_SENSOR)
                    .mapToObj(review.circuit::terminal)
                    .toList();
            boolean met = onNet(review, net)
                    .anyMatch(s -> isPhase(review, s) && review.circuit.part(s).kind() == other);
            boolean drawn = !review.parts(other).isEmpty();
            if (!strangers.isEmpty() || drawn && !met && onNet(review, net).count() > 1) {
                String what = strangers.isEmpty() ? "no phase of the " + other.word() : String.join(", ", strangers);
                hits.add(review.atTerminal(
                        t, "Phase " + review.circuit.terminal(t) + " is joined to " + what + ".", Map.of()));
            }
        }
        return hits;
    }

    /** A phase of an inverter ends at another phase of the motor. */
    static List<Hit> crossed(Review review) {
        List<Hit> hits = new ArrayList<>();
        for (int t : phases(review)) {
            boolean inverter = review.circuit.part(t).kind() == PartKind.INVERTER;
            onNet(review, review.circuit.netOf(t))
                    .filter(s -> inverter
                            && isPhase(review, s)
                            && review.circuit.part(s).kind() == PartKind.MOTOR
                            && !review.circuit.pin(s).equals(review.circuit.pin(t)))
                    .forEach(s -> hits.add(review.atTerminal(
                            t,
                            "Phase " + review.circuit.terminal(t) + " ends at " + review.circuit.terminal(s) + ".",
                            Map.of())));
        }
        return hits;
    }

    private static int[] phases(Review review) {
        return IntStream.range(0, review.circuit.terminalCount())
                .filter(t -> isPhase(review, t))
                .toArray();
    }

    private static boolean isPhase(Review review, int terminal) {
        PartKind kind = review.circuit.part(terminal).kind();
        return PHASES.contains(review.circuit.pin(terminal)) && (kind == PartKind.MOTOR || kind == PartKind.INVERTER);
    }

    private static IntStream onNet(Review review, int net) {
        return IntStream.range(0, review.circuit.terminalCount()).filter(t -> review.circuit.netOf(t) == net);
    }
}
