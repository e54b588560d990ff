package sprag.bench.hand.commission.steps;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import sprag.bench.cli.Numbers;
import sprag.bench.hand.board.PulseCautions;
import sprag.bench.hand.commission.pins.PinDriver;
import sprag.bench.hand.commission.record.Measure;
import sprag.bench.hand.commission.record.StepAbandoned;
import sprag.bench.hand.commission.record.StepDescription;
import sprag.bench.hand.commission.record.StepResult;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/** Each output is switched on alone for a moment. Its auxiliary contact confirms it, or a person does. */
final class OutputSteps {
    private static final long PULSE_MS = 1000;
    private static final long BEFORE_MS = 300;
    /** A late answer is waited for this much longer, to say how late it was. */
    private static final long LATE_MS = 1500;

    private OutputSteps() {}

    static List<BringUpStep> all(StepContext context) {
        return context.wired().outputs().stream()
                .map(output -> of(context, output))
                .toList();
    }

    private static BringUpStep of(StepContext context, Output output) {
        Signal aux = Contactors.aux(context, output);
        double value = pulse(context.vehicle(), output);
        String level = output.isSwitch() ? "on" : ("at " + Numbers.text(value) + " " + output.unit.symbol).strip();
        String part = context.drawing().farPart(output.key());
        String expect = aux == null
                ? (part.isEmpty() ? "what it drives" : part) + " acts, and nothing else does"
                : String.format(
                        Locale.ROOT,
                        "%s closes within %.0f ms and opens within %.0f ms (%.0f ms of each for the link);"
                                + " no other contact moves",
                        aux.key(),
                        Contactors.closeMs(context),
                        Contactors.releaseMs(context),
                        Contactors.LINK_MS);
        return new BringUpStep(
                new StepDescription(
                        BringUpStep.idOf("output", output.key()),
                        StepDescription.Part.OUTPUTS,
                        output.key() + ": " + output.meaning,
                        List.of(
                                context.place(output),
                                "Enter switches it " + level + " for " + PULSE_MS + " ms"
                                        + (output == Output.HEARTBEAT ? ", beating" : "")),
                        expect),
                BringUpStep.Need.ARMED,
                () -> aux != null ? byContact(context, output, aux) : byEye(context, output, value));
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

    /** Cautions first, then Enter. */
    private static void confirm(StepContext context, Output output, String instruction) throws StepAbandoned {
        PulseCautions.about(output).forEach(caution -> context.console().say("  CAUTION ", caution));
        context.console().confirm(instruction);
    }

    private static StepResult byContact(StepContext context, Output output, Signal aux) throws StepAbandoned {
        confirm(context, output, "Keep your hands clear of " + output.key());
        PinDriver driver = context.driver();
        driver.driveByHand(true);
        driver.settle(BEFORE_MS, context.signals());
        Map<Signal, Double> before = context.switches();
        if (Double.isNaN(driver.read(aux))) {
            throw StepAbandoned.failed(aux.key() + " shows nothing");
        }
        if (driver.isOn(aux)) {
            throw StepAbandoned.failed(
                    aux.key() + " reads closed before anything was driven: welded, bridged or inverted");
        }
        driver.set(output, 1);
        long closedMs = driver.waitFor(() -> driver.isOn(aux), (long) Contactors.closeMs(context) + LATE_MS);
        List<String> others = moved(context, aux, before);
        if (closedMs < 0) {
            String instead = others.isEmpty()
                    ? "no other contact moved either"
                    : "the wrong contact moved: instead " + String.join(", ", others);
            throw StepAbandoned.failed(aux.key() + " did not close; " + instead);
        }
        driver.settle(BEFORE_MS, context.signals());
        others = moved(context, aux, before);
        driver.set(output, 0);
        long openMs = driver.waitFor(() -> driver.read(aux) == 0, (long) Contactors.releaseMs(context) + LATE_MS);
        if (openMs < 0) {
            throw StepAbandoned.failed(aux.key() + " did not open again: welded, or its wire is bridged");
        }
        if (!others.isEmpty()) {
            throw StepAbandoned.failed(
                    "a wrong contact moved: " + aux.key() + " closed, but " + String.join(", ", others) + " as well");
        }
        return StepResult.judged(
                aux.key() + " answered, no other contact did",
                List.of(
                        new Measure("closes after", closedMs, "ms", 0, Contactors.closeMs(context)),
                        new Measure("opens after", openMs, "ms", 0, Contactors.releaseMs(context))));
    }

    /** The auxiliary contacts that have moved, except one; null leaves none out. */
    private static List<String> moved(StepContext context, Signal except, Map<Signal, Double> before) {
        List<String> moved = new ArrayList<>();
        context.switches().forEach((signal, now) -> {
            if (signal != except && Contactors.isAux(signal) && !now.equals(before.get(signal))) {
                moved.add(signal.key() + (now == 1 ? " closed" : " opened"));
            }
        });
        return moved;
    }

    private static StepResult byEye(StepContext context, Output output, double value) throws StepAbandoned {
        confirm(context, output, "Look and listen. Keep your hands clear of what " + output.key() + " moves");
        if (context.isRehearsal()) {
            context.loom().watch();
        }
        context.driver().driveByHand(true);
        context.driver().settle(BEFORE_MS, context.signals());
        Map<Signal, Double> before = context.switches();
        context.driver().set(output, value);
        context.driver().runMs(PULSE_MS);
        List<String> others = moved(context, null, before);
        context.driver().stopDriving();
        if (!others.isEmpty()) {
            throw StepAbandoned.failed(
                    "the wrong contact moved: " + output.key() + " was switched on and " + String.join(", ", others));
        }
        Set<Output> acted = context.isRehearsal() ? context.loom().moved() : EnumSet.noneOf(Output.class);
        if (output != Output.HEARTBEAT) {
            acted.remove(Output.HEARTBEAT);
        }
        String seen = acted.isEmpty()
                ? "nothing acted"
                : "acted: " + acted.stream().map(Output::key).collect(Collectors.joining(", "));
        if (context.isRehearsal()) {
            context.console().say("  ", "(simulated: " + seen + ")");
        }
        boolean right = acted.equals(EnumSet.of(output));
        if (context.console().askYesNo("Did " + output.key() + " act, and nothing else?", right)) {
            return StepResult.passed("seen by hand");
        }
        return StepResult.failed(
                "not as it should: " + context.console().askText("What did you see instead? A few words:", seen));
    }
}
