package sprag.bench.car;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** The faults that one car has at the moment. Only the thread that advances the car may touch them. */
public final class Faults {
    private final Map<String, FaultSpec> present = new LinkedHashMap<>();
    private final double[] parts = new double[PartFault.COUNT];
    private final SignalTrouble[] ofSignal = new SignalTrouble[Signal.COUNT];
    private final OutputTrouble[] ofOutput = new OutputTrouble[Output.COUNT];
    private int changes;

    public Faults() {
        Arrays.fill(parts, Double.NaN);
    }

    /** Lets a fault come. A second one at the same sensor or wire takes the place of the first. */
    public void inject(FaultSpec fault) {
        if (fault.point() instanceof Signal) {
            clearPoint(fault.point());
            ofSignal[fault.point().ordinal()] = new SignalTrouble((SignalFault) fault.kind(), fault.magnitude());
        } else if (fault.point() instanceof Output) {
            clearPoint(fault.point());
            ofOutput[fault.point().ordinal()] = new OutputTrouble((OutputFault) fault.kind(), fault.magnitude());
        } else {
            parts[fault.point().ordinal()] = fault.magnitude();
        }
        present.put(fault.name(), fault);
        changes++;
    }

    private void clearPoint(Enum<?> point) {
        present.values().removeIf(other -> other.point() == point);
    }

    /** Repairs a fault; nothing happens when it is not there. */
    public void clear(FaultSpec fault) {
        clear(fault.name());
    }

    /** Repairs a fault by its name; nothing happens when it is not there. */
    public void clear(String name) {
        FaultSpec old = present.remove(name);
        if (old == null) {
            return;
        }
        if (old.point() instanceof Signal) {
            ofSignal[old.point().ordinal()] = null;
        } else if (old.point() instanceof Output) {
            ofOutput[old.point().ordinal()] = null;
        } else {
            parts[old.point().ordinal()] = Double.NaN;
        }
        changes++;
    }

    /** Repairs everything. */
    public void clear() {
        for (FaultSpec fault : present()) {
            clear(fault);
        }
    }

    /** The faults there are, in the order they came. */
    public List<FaultSpec> present() {
        return List.copyOf(present.values());
    }

    /** Whether nothing is wrong. */
    public boolean isEmpty() {
        return present.isEmpty();
    }

    /** Grows with every change, so that caches know. */
    public int changes() {
        return changes;
    }

    public boolean has(PartFault part) {
        double magnitude = parts[part.ordinal()];
        return magnitude == magnitude;
    }

    /** The magnitude of a part's fault, or what to use when it is sound. */
    public double of(PartFault part, double whenSound) {
        double magnitude = parts[part.ordinal()];
        return magnitude == magnitude ? magnitude : whenSound;
    }

    /** The fault at work on a signal, null when it is sound. */
    public SignalTrouble trouble(Signal signal) {
        return ofSignal[signal.ordinal()];
    }

    /** The fault at work on an output, null when it is sound. */
    public OutputTrouble trouble(Output output) {
        return ofOutput[output.ordinal()];
    }
}
