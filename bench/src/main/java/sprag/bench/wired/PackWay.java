package sprag.bench.wired;

import sprag.bench.car.electric.ContactorBox;
import sprag.bench.car.electric.ContactorBox.Path;
import sprag.bench.drawing.live.CircuitPlan;
import sprag.bench.drawing.live.RunningCircuit;
import sprag.bench.drawing.live.element.Consumer;

/** How the drawn wires join pack and bus, in each position of the three contacts. */
final class PackWay {
    private static final String[] PHASES = {"u", "v", "w"};

    private final int inverter;
    private final int[][] phases = new int[PHASES.length][];

    PackWay(CircuitPlan plan, PartPower power) {
        int[] inverters = power.consumers(Consumer.Kind.TRACTION, power.inverter);
        inverter = power.inverter.isEmpty() || inverters.length == 0 ? PartPower.NONE : inverters[0];
        for (int i = 0; i < PHASES.length; i++) {
            phases[i] =
                    new int[] {plan.terminal(power.inverter + "." + PHASES[i]), plan.terminal("motor." + PHASES[i])};
        }
    }

    void look(RunningCircuit circuit, Path[] into) {
        boolean drawn = inverter != PartPower.NONE
                && circuit.has(CircuitPlan.Role.NEGATIVE)
                && circuit.has(CircuitPlan.Role.POSITIVE);
        for (int position = 0; position < ContactorBox.POSITIONS && drawn; position++) {
            into[position] = circuit.hardAt(position, inverter)
                    ? Path.THROUGH_CONTACTOR
                    : circuit.softAt(position, inverter) ? Path.THROUGH_RESISTOR : Path.OPEN;
        }
    }

    /** Whether a wire between inverter and motor is broken: the inverter then stops itself (common practice). */
    boolean lacksPhase(RunningCircuit circuit) {
        for (int[] phase : phases) {
            if (phase[0] >= 0 && phase[1] >= 0 && !circuit.joins(phase[0], phase[1])) {
                return true;
            }
        }
        return false;
    }
}
