package sprag.bench.hand.commission;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import sprag.bench.cli.Numbers;
import sprag.bench.hand.board.PulseCautions;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/** Each output is switched on for a moment, alone, and confirmed by its auxiliary contact or by a person. */
final class OutputSteps {
    /** The auxiliary contact that answers an output. */
    static final Map<Output, Signal> AUX = new EnumMap<>(Map.of(
            Output.NEGATIVE_CONTACTOR, Signal.NEGATIVE_AUX_CLOSED,
            Output.PRECHARGE_RELAY, Signal.PRECHARGE_AUX_CLOSED,
            Output.POSITIVE_CONTACTOR, Signal.POSITIVE_AUX_CLOSED));

    private static final long PULSE_MS = 1000;
    private static final long BEFORE_MS = 300;
    /** How much later than allowed an answer is still waited for, to say how late it was. */
    private static final long LATE_MS = 1500;
    /** What sampling, the line and two ticks may add to what is measured (ms). */
    private static final double LINK_MS = 50;

    private OutputSteps() {}

    static List<BringUpStep> all(StepContext f) {
        List<BringUpStep> steps = new ArrayList<>();
        for (Output output : f.wired().outputs()) {
            steps.add(of(f, output));
        }
        return steps;
    }

    /** The contact that answers, null when there is none among the pins. */
    static Signal aux(StepContext f, Output output) {
        Signal aux = AUX.get(output);
        return aux != null && f.signals().contains(aux) ? aux : null;
    }

    /** Whether an input is the contact of an output among the pins, and moves only with that. */
    static boolean isShownByItsOutput(StepContext f, Signal signal) {
        return f.wired().outputs().stream().anyMatch(output -> AUX.get(output) == signal);
    }

    /** How long a contactor may take to be seen closed, with the link's share. */
    static double closeMs(StepContext f) {
        return f.vehicle().get(Parameter.CONTACTOR_CLOSE_MS) + LINK_MS;
    }

    /** How long a contactor may take to be seen open, with the link's share. */
    static double releaseMs(StepContext f) {
        return f.vehicle().get(Parameter.CONTACTOR_RELEASE_MS) + LINK_MS;
    }

    private static BringUpStep of(StepContext f, Output output) {
        Signal aux = aux(f, output);
        double value = pulse(f.vehicle(), output);
        String level = output.isSwitch() ? "on" : ("at " + Numbers.text(value) + " " + output.unit.symbol).strip();
        String part = f.drawing().farPart(output.key());
        List<String> todo = new ArrayList<>();
        todo.add(place(f, output));
        todo.add("Enter switches it " + level + " for " + PULSE_MS + " ms"
                + (output == Output.HEARTBEAT ? ", beating" : ""));
        return new BringUpStep(
                BringUpStep.idOf("output", output.key()),
                BringUpStep.Part.OUTPUTS,
                output.key() + ": " + output.meaning,
                todo,
                aux != null
                        ? String.format(
                                Locale.ROOT,
                                "%s closes within %.0f ms and opens within %.0f ms (%.0f ms of each for the link);"
                                        + " no other contact moves",
                                aux.key(),
                                closeMs(f),
                                releaseMs(f),
                                LINK_MS)
                        : (part.isEmpty() ? "what it drives" : part) + " acts, and nothing else does",
                BringUpStep.Need.ARMED,
                floor -> aux != null ? byContact(floor, output, aux) : byEye(floor, output, value));
    }

    private static String place(StepContext f, Output output) {
        String pin = f.pins().map() == null
                ? ""
                : f.pins().map().outputs().stream()
                        .filter(p -> p.output() == output)
                        .map(p -> "pin " + p.pin() + "; ")
                        .findFirst()
                        .orElse("");
        return pin + f.drawing().wiring(output.key());
    }

    /** How much of a quantity is enough to be seen and little enough to be harmless. */
    private static double pulse(Vehicle vehicle, Output output) {
        return switch (output) {
            case TORQUE_REQUEST_NM -> 0.1 * vehicle.get(Parameter.DRIVE_TORQUE_NM);
            case CHARGE_CURRENT_LIMIT_A, CHARGER_1_LIMIT_A, CHARGER_2_LIMIT_A, CHARGER_3_LIMIT_A ->
                0.1 * vehicle.get(Parameter.PACK_CHARGE_MAX_A);
            case CHARGE_VOLTAGE_LIMIT_V -> vehicle.get(Parameter.PACK_NOMINAL_V);
            case GAUGE_FRACTION -> 0.5;
            default -> 1;
        };
    }

    private static void warn(StepContext f, Output output) {
        PulseCautions.about(output).forEach(caution -> f.talk().say("  CAUTION ", caution));
    }

    private static StepResult byContact(StepContext f, Output output, Signal aux) throws StepAbandoned {
        warn(f, output);
        f.talk().go("Hands clear of " + output.key());
        PinDriver bed = f.bed();
        bed.drive(true);
        bed.settle(BEFORE_MS, f.signals());
        Map<Signal, Double> before = InputSteps.switches(f);
        if (!bed.isOn(aux) && Double.isNaN(bed.read(aux))) {
            throw StepAbandoned.failed(aux.key() + " shows nothing");
        }
        if (bed.isOn(aux)) {
            throw StepAbandoned.failed(
                    aux.key() + " reads closed before anything was driven: welded, bridged or inverted");
        }
        bed.set(output, 1);
        long closedMs = bed.until(() -> bed.isOn(aux), (long) closeMs(f) + LATE_MS);
        List<String> others = changed(f, aux, before);
        if (closedMs < 0) {
            throw StepAbandoned.failed(aux.key() + " did not close; "
                    + (others.isEmpty() ? "no other contact moved either" : "instead " + String.join(", ", others)));
        }
        bed.settle(BEFORE_MS, f.signals());
        others = changed(f, aux, before);
        bed.set(output, 0);
        long openMs = bed.until(() -> bed.read(aux) == 0, (long) releaseMs(f) + LATE_MS);
        if (openMs < 0) {
            throw StepAbandoned.failed(aux.key() + " did not open again: welded, or its wire is bridged");
        }
        if (!others.isEmpty()) {
            throw StepAbandoned.failed(aux.key() + " closed, but " + String.join(", ", others) + " as well");
        }
        return StepResult.judged(
                aux.key() + " answered, no other contact did",
                List.of(
                        new Measure("closes after", closedMs, "ms", 0, closeMs(f)),
                        new Measure("opens after", openMs, "ms", 0, releaseMs(f))));
    }

    private static List<String> changed(StepContext f, Signal except, Map<Signal, Double> before) {
        List<String> found = new ArrayList<>();
        InputSteps.switches(f).forEach((signal, now) -> {
            if (signal != except && AUX.containsValue(signal) && !now.equals(before.get(signal))) {
                found.add(signal.key() + (now == 1 ? " closed" : " opened"));
            }
        });
        return found;
    }

    private static StepResult byEye(StepContext f, Output output, double value) throws StepAbandoned {
        warn(f, output);
        f.talk().go("Look and listen, hands clear of what " + output.key() + " moves");
        if (f.isRehearsal()) {
            f.loom().watch();
        }
        f.bed().drive(true);
        f.bed().set(output, value);
        f.bed().let(PULSE_MS);
        f.bed().look();
        Set<Output> moved = f.isRehearsal() ? f.loom().moved() : EnumSet.noneOf(Output.class);
        if (output != Output.HEARTBEAT) {
            moved.remove(Output.HEARTBEAT);
        }
        String eyes = moved.isEmpty() ? "nothing acted" : "acted: " + keys(moved);
        if (f.isRehearsal()) {
            f.talk().say("  ", "(simulated: " + eyes + ")");
        }
        boolean right = moved.equals(EnumSet.of(output));
        if (f.talk().yes("Did " + output.key() + " act, and nothing else?", right)) {
            return StepResult.passed("seen by whoever did it");
        }
        return StepResult.failed("not as it should: " + f.talk().words("What was seen instead, in a few words:", eyes));
    }

    private static String keys(Set<Output> outputs) {
        return String.join(", ", outputs.stream().map(Output::key).toList());
    }
}
