package sprag.bench.hand.commission.steps;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import sprag.bench.hand.commission.record.Measure;
import sprag.bench.hand.commission.record.StepAbandoned;
import sprag.bench.hand.commission.record.StepDescription;
import sprag.bench.hand.commission.record.StepResult;
import sprag.hal.board.InputPin;

/** The data bus: its two wires, and who speaks. That a pulled cable releases everything is shown among the interlocks. */
final class BusSteps {
    /** Two terminators of 120 ohm side by side, and a tenth: common practice. */
    private static final double LEAST_OHM = 54;

    private static final double MOST_OHM = 66;
    /** ISO 11898-2, both wires while nobody sends (from memory). A meter on a busy bus still shows a value between. */
    private static final double LEAST_V = 2;

    private static final double MOST_V = 3;
    private static final double SIMULATED_OHM = 60;
    private static final double SIMULATED_V = 2.5;
    private static final long BACK_MS = 20_000;
    private static final long WATCH_MS = 1000;

    private BusSteps() {}

    static List<BringUpStep> wires(StepContext context) {
        return context.onBus() ? List.of(resistance(context), levels(context)) : List.of();
    }

    static List<BringUpStep> speakers(StepContext context) {
        return context.onBus() ? List.of(whoSpeaks(context)) : List.of();
    }

    private static BringUpStep resistance(StepContext context) {
        return new BringUpStep(
                new StepDescription(
                        "bus.resistance",
                        StepDescription.Part.SUPPLIES,
                        "the two wires of the data bus are ended at both ends",
                        List.of(
                                "switch every supply off, and pull the adapter off the bus",
                                "measure between the two wires at one end, then at the other"),
                        "54 to 66 ohm at both: two terminators of 120 ohm; 120 is one missing, 40 is one too many"),
                BringUpStep.Need.NO_VOLTAGE,
                () -> measured(context));
    }

    private static StepResult measured(StepContext context) throws StepAbandoned {
        context.driver().allowLoss(true);
        double near = context.console().askNumber("Resistance at the first end", "ohm", SIMULATED_OHM);
        double far = context.console().askNumber("Resistance at the other end", "ohm", SIMULATED_OHM);
        context.console().confirm("Put the adapter back and switch the supplies on");
        context.await("a message on the bus", BACK_MS, context.pins()::isConnected);
        return StepResult.judged(
                "measured by hand",
                List.of(
                        new Measure("first end", near, "ohm", LEAST_OHM, MOST_OHM),
                        new Measure("other end", far, "ohm", LEAST_OHM, MOST_OHM)));
    }

    private static BringUpStep levels(StepContext context) {
        return new BringUpStep(
                new StepDescription(
                        "bus.levels",
                        StepDescription.Part.SUPPLIES,
                        "neither wire of the data bus touches a supply or ground",
                        List.of("with the supplies on, measure each wire of the data bus to ground"),
                        "2 to 3 V on each, the high wire not below the low one"),
                BringUpStep.Need.NO_VOLTAGE,
                () -> {
                    double high = context.console().askNumber("Voltage of the high wire", "V", SIMULATED_V);
                    double low = context.console().askNumber("Voltage of the low wire", "V", SIMULATED_V);
                    return StepResult.judged(
                            high < low ? "the wires may be swapped: the low one is higher" : "measured by hand",
                            List.of(
                                    new Measure("high wire", high, "V", Math.max(LEAST_V, low), MOST_V),
                                    new Measure("low wire", low, "V", LEAST_V, MOST_V)));
                });
    }

    private static BringUpStep whoSpeaks(StepContext context) {
        return new BringUpStep(
                new StepDescription(
                        "bus.speakers",
                        StepDescription.Part.LINK,
                        "every message of the data bus is heard, and each of its values is known",
                        List.of("do nothing: the messages are watched for " + WATCH_MS + " ms"),
                        "a known value in every field that is a signal"),
                BringUpStep.Need.NOTHING,
                () -> heard(context));
    }

    /** The pin of a field is its message and its name. */
    private static StepResult heard(StepContext context) {
        context.driver().runMs(WATCH_MS);
        Map<String, List<String>> unknown = new TreeMap<>();
        int messages = 0;
        String last = "";
        for (InputPin pin : context.pins().map().inputs()) {
            int dot = pin.pin().lastIndexOf('.');
            if (dot < 0) {
                continue;
            }
            String message = pin.pin().substring(0, dot);
            messages += message.equals(last) ? 0 : 1;
            last = message;
            if (context.signals().contains(pin.signal())
                    && Double.isNaN(context.driver().read(pin.signal()))) {
                unknown.computeIfAbsent(message, key -> new ArrayList<>())
                        .add(pin.pin().substring(dot + 1));
            }
        }
        return unknown.isEmpty()
                ? StepResult.passed(messages + " messages heard")
                : StepResult.failed("unknown: " + unknown);
    }
}
