package sprag.bench.wired;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.drawing.live.CircuitPlan;
import sprag.bench.drawing.live.CircuitPlan.Role;
import sprag.bench.drawing.live.RunningCircuit;
import sprag.bench.drawing.live.element.Consumer;
import sprag.bench.drawing.live.element.Potential;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.supervisor.vocabulary.Output;

/** What the wires make of each output on its way to what it drives. */
final class OutputWires {
    /** What arrives. */
    enum Arrives {
        /** What is asked. */
        ASKED,
        /** On, whatever is asked. */
        ON,
        /** Off, whatever is asked. */
        OFF,
        /** Nothing is heard: the last word stands until the part lets go by itself. */
        SILENCE
    }

    /** An output that a load takes by a wire of its own: a word of the load's name. */
    private static final Map<Output, String> LOADS = Map.of(
            Output.COOLANT_PUMP, "pump",
            Output.RADIATOR_FAN_DUTY, "fan",
            Output.HEATER_BLOWER, "blower",
            Output.PLUG_LOCK, "lock",
            Output.BUZZER, "buzzer");

    private static final Map<Output, String> LAMPS = Map.of(
            Output.BRAKE_LAMP, "brake",
            Output.READY_LAMP, "ready",
            Output.FAULT_LAMP, "fault",
            Output.CHARGE_LAMP, "charge");

    private static final Map<Role, Output> COILS = Map.of(
            Role.NEGATIVE, Output.NEGATIVE_CONTACTOR,
            Role.PRECHARGE, Output.PRECHARGE_RELAY,
            Role.POSITIVE, Output.POSITIVE_CONTACTOR);

    private static final int CHARGERS = 3;

    /** A load: its part, its consumer, the terminal that tells it to run and the supervisor's that says so. */
    private record Load(String part, int consumer, int pin, int from) {}

    private final CircuitPlan plan;
    private final PartPower power;
    private final BusLines bus;
    private final Map<Output, Load> loads = new EnumMap<>(Output.class);
    private final Map<Output, int[]> lamps = new EnumMap<>(Output.class);
    private final int[][] chargers = new int[CHARGERS][];
    private final int[][] mains = new int[CHARGERS][];
    private final int[] chargerPins = new int[CHARGERS];
    private final int[] converters;
    private final int[] heaters;
    private final Load inverterEnable;
    private final Load torque;
    private final boolean heaterDriven;

    OutputWires(CircuitPlan plan, PartPower power, BusLines bus) {
        this.plan = plan;
        this.power = power;
        this.bus = bus;
        LOADS.forEach((output, word) -> power.part(PartKind.LOAD, word)
                .ifPresent(part -> loads.put(output, load(output, part, "switch", "duty", "enable"))));
        LAMPS.forEach((output, word) -> lamps.put(output, power.consumers(Consumer.Kind.LAMP, word)));
        for (int i = 0; i < CHARGERS; i++) {
            String part = "charger_" + (i + 1);
            chargers[i] = power.consumers(Consumer.Kind.TRACTION, part);
            mains[i] = power.consumers(Consumer.Kind.MAINS, part);
            chargerPins[i] = plan.terminal(part + ".enable");
        }
        converters = ofKind(PartKind.DCDC);
        heaters = ofKind(PartKind.HEATER);
        inverterEnable = load(Output.INVERTER_ENABLE, power.inverter, "enable");
        torque = load(Output.TORQUE_REQUEST_NM, power.inverter, "torque");
        heaterDriven = plan.terminals().stream().anyMatch(t -> t.endsWith("." + Output.HEATER_ELEMENT.key()));
    }

    private int[] ofKind(PartKind kind) {
        return IntStream.range(0, plan.consumers().size())
                .filter(c -> plan.consumers().get(c).kind() == Consumer.Kind.TRACTION)
                .filter(c -> plan.schedule()
                                .parts()
                                .get(plan.consumers().get(c).part())
                                .kind()
                        == kind)
                .toArray();
    }

    private Load load(Output output, String part, String... pins) {
        int pin = Arrays.stream(pins)
                .mapToInt(p -> plan.terminal(part + "." + p))
                .filter(t -> t >= 0)
                .findFirst()
                .orElse(PartPower.NONE);
        int from = plan.terminals().stream()
                .filter(t -> t.endsWith("." + output.key()))
                .mapToInt(plan::terminal)
                .findFirst()
                .orElse(PartPower.NONE);
        return new Load(part, power.supply(part), pin, from);
    }

    /** Says what arrives of each output while the supervisor is fed.
     *
     * @param into by output
     */
    void look(RunningCircuit circuit, Arrives[] into) {
        for (Output output : Output.values()) {
            into[output.ordinal()] = overBus(circuit, output);
        }
        for (Map.Entry<Role, Output> coil : COILS.entrySet()) {
            if (circuit.has(coil.getKey())) {
                into[coil.getValue().ordinal()] = when(circuit.pulls(coil.getKey()));
            }
        }
        loads.forEach((output, load) -> into[output.ordinal()] = runs(circuit, output, load));
        lamps.forEach((output, consumers) -> {
            if (consumers.length > 0) {
                into[output.ordinal()] = when(Arrays.stream(consumers).anyMatch(circuit::works));
            }
        });
        if (converters.length > 0 && into[Output.DCDC_ENABLE.ordinal()] != Arrives.SILENCE) {
            boolean gives = power.reference == PartPower.NONE || circuit.feeds(converters[0], power.reference);
            into[Output.DCDC_ENABLE.ordinal()] = when(gives);
        }
        if (heaters.length > 0) {
            boolean fed = Arrays.stream(heaters).anyMatch(circuit::worksClosed);
            into[Output.HEATER_ELEMENT.ordinal()] =
                    !fed ? Arrives.OFF : heaterDriven ? Arrives.ON : into[Output.HEATER_ELEMENT.ordinal()];
        }
        inverter(circuit, into);
    }

    private static Arrives when(boolean on) {
        return on ? Arrives.ON : Arrives.OFF;
    }

    private Arrives overBus(RunningCircuit circuit, Output output) {
        Optional<String> part = bus.partOf(output.key());
        boolean heard = part.isEmpty() || bus.isHeard(circuit, part.get()) && power.isFed(circuit, part.get());
        return heard ? Arrives.ASKED : Arrives.SILENCE;
    }

    private Arrives runs(RunningCircuit circuit, Output output, Load load) {
        if (load.consumer != PartPower.NONE && !circuit.works(load.consumer)) {
            return Arrives.OFF;
        }
        return load.pin == PartPower.NONE ? overBus(circuit, output) : told(circuit, output, load);
    }

    /** A switched output grounds its wire, where a switch of the driver puts 12 V on it; a quantity stands on it as a voltage. */
    private Arrives told(RunningCircuit circuit, Output output, Load load) {
        if (output.isSwitch()) {
            return when(circuit.hard(load.pin, power.isWithoutSupervisor ? Potential.LOW_VOLTAGE : Potential.GROUND));
        }
        boolean joined = load.from != PartPower.NONE && circuit.joins(load.from, load.pin);
        return joined && !circuit.isHeld(load.pin) ? Arrives.ASKED : Arrives.OFF;
    }

    private void inverter(RunningCircuit circuit, Arrives[] into) {
        boolean fed = isInverterFed(circuit);
        if (inverterEnable.pin != PartPower.NONE) {
            into[Output.INVERTER_ENABLE.ordinal()] =
                    fed ? told(circuit, Output.INVERTER_ENABLE, inverterEnable) : Arrives.OFF;
        } else if (power.enabledBySupply) {
            into[Output.INVERTER_ENABLE.ordinal()] = when(fed);
        } else if (!fed) {
            into[Output.INVERTER_ENABLE.ordinal()] = Arrives.OFF;
        }
        if (torque.pin != PartPower.NONE) {
            into[Output.TORQUE_REQUEST_NM.ordinal()] = told(circuit, Output.TORQUE_REQUEST_NM, torque);
        }
    }

    /** Whether the inverter has its supply. */
    boolean isInverterFed(RunningCircuit circuit) {
        return inverterEnable.consumer == PartPower.NONE || circuit.works(inverterEnable.consumer);
    }

    /** Whether contacts join any charger to the pack. */
    boolean isChargerJoined(RunningCircuit circuit) {
        return Arrays.stream(chargers).anyMatch(each -> each.length > 0 && circuit.worksClosed(each[0]));
    }

    /** Tells the car where its power wires lead. */
    void wire(RunningCircuit circuit, SimulatedCar car, boolean stationClosed) {
        car.wiring().inverterSupply = power.enabledBySupply || power.isFed(circuit, power.inverter);
        car.wiring().battery = power.reference == PartPower.NONE || circuit.worksOnBattery(power.reference);
        for (int i = 0; i < CHARGERS; i++) {
            boolean traction = chargers[i].length == 0 || circuit.worksClosed(chargers[i][0]);
            boolean fed = mains[i].length == 0 || !stationClosed || circuit.works(mains[i][0]);
            boolean told = chargerPins[i] < 0 || circuit.hard(chargerPins[i], Potential.GROUND);
            car.wiring().charger[i] = traction && fed && told;
        }
    }
}
