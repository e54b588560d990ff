package sprag.bench.wired;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import sprag.bench.drawing.live.CircuitPlan;
import sprag.bench.drawing.live.RunningCircuit;
import sprag.bench.drawing.live.element.Consumer;
import sprag.bench.drawing.live.element.Control;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.supervisor.vocabulary.Output;

/** Which consumer is whose supply. */
final class PartPower {
    static final int NONE = -1;

    private final CircuitPlan plan;
    private final Map<String, Integer> supplyOf = new HashMap<>();
    /** The consumer that stands for the 12 V side as a whole: the supervisor, or else the first that is always fed. */
    final int reference;
    /** The supervisor's supply; {@link #NONE} when none is drawn. */
    final int supervisor;
    /** Whether no supervisor is drawn. */
    final boolean isWithoutSupervisor;
    /** The inverter; empty when none is drawn. */
    final String inverter;
    /** Whether the inverter's supply is what enables it: then nothing else of it depends on that. */
    final boolean enabledBySupply;

    PartPower(CircuitPlan plan) {
        this.plan = plan;
        for (int c = 0; c < plan.consumers().size(); c++) {
            PartKind kind =
                    plan.schedule().parts().get(plan.consumers().get(c).part()).kind();
            boolean onSensorSupply = kind == PartKind.PEDAL || kind == PartKind.SENSOR;
            if (plan.consumers().get(c).kind() == Consumer.Kind.SUPPLY && !onSensorSupply) {
                supplyOf.put(plan.consumers().get(c).part(), c);
            }
        }
        supervisor = supply(part(PartKind.SUPERVISOR));
        isWithoutSupervisor = part(PartKind.SUPERVISOR).isEmpty();
        inverter = part(PartKind.INVERTER);
        RunningCircuit rest = new RunningCircuit(plan);
        rest.settle(0);
        reference = supervisor != NONE
                ? supervisor
                : supplyOf.values().stream()
                        .filter(rest::works)
                        .sorted()
                        .findFirst()
                        .orElse(NONE);
        enabledBySupply = supply(inverter) != NONE && works(true) && !works(false);
    }

    /** Whether the inverter has its supply with key and every output on, with or without its own output. */
    private boolean works(boolean enabled) {
        RunningCircuit circuit = new RunningCircuit(plan);
        for (int c = 0; c < plan.controls().size(); c++) {
            Control control = plan.controls().get(c);
            boolean on = control.kind() == Control.Kind.OUTPUT || control.kind() == Control.Kind.KEY;
            circuit.set(c, on && (enabled || !control.part().equals(Output.INVERTER_ENABLE.key())));
        }
        circuit.settle(0);
        return circuit.works(supply(inverter));
    }

    private String part(PartKind kind) {
        return plan.schedule().parts().values().stream()
                .filter(p -> p.kind() == kind)
                .map(Part::name)
                .findFirst()
                .orElse("");
    }

    /** The consumer that is a part's 12 V supply; {@link #NONE} when none is drawn. */
    int supply(String part) {
        return supplyOf.getOrDefault(part, NONE);
    }

    /** Whether a part's electronics have their supply; a part without a drawn one is fed by itself. */
    boolean isFed(RunningCircuit circuit, String part) {
        int supply = supply(part);
        return supply == NONE || part.equals(inverter) && enabledBySupply || circuit.works(supply);
    }

    /** All consumers of a kind whose part's name holds a word. */
    int[] consumers(Consumer.Kind kind, String word) {
        return IntStream.range(0, plan.consumers().size())
                .filter(c -> plan.consumers().get(c).kind() == kind)
                .filter(c -> plan.consumers().get(c).part().contains(word))
                .toArray();
    }

    /** The first part of a kind whose name holds a word. */
    Optional<String> part(PartKind kind, String word) {
        return plan.schedule().parts().values().stream()
                .filter(p -> p.kind() == kind && p.name().contains(word))
                .map(Part::name)
                .findFirst();
    }
}
