package sprag.bench.hand.commission.steps;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import sprag.bench.cli.Numbers;
import sprag.bench.hand.commission.record.Measure;
import sprag.bench.hand.commission.record.StepAbandoned;
import sprag.bench.hand.commission.record.StepDescription;
import sprag.bench.hand.commission.record.StepResult;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/** Each input is moved by hand or compared with a meter. No other switch may change meanwhile. */
final class InputSteps {
    private static final long SETTLE_MS = 250;
    /** How far a pedal may be from what its file says: common practice for a potentiometer in a linkage (V). */
    private static final double PEDAL_V = 0.25;

    /** The actions that switch an input on and off. */
    private record Moves(LeverAction on, LeverAction off) {
        LeverAction to(boolean level) {
            return level ? on : off;
        }

        boolean isOnAtRest() {
            return on.to == on.lever.initial;
        }
    }

    private static final Map<Signal, Moves> MOVES = new EnumMap<>(Map.ofEntries(
            Map.entry(Signal.KEY_ON, new Moves(LeverAction.KEY_ON, LeverAction.KEY_OFF)),
            Map.entry(Signal.START_REQUEST, new Moves(LeverAction.START_PRESSED, LeverAction.START_RELEASED)),
            Map.entry(Signal.FORWARD_SWITCH, new Moves(LeverAction.FORWARD, LeverAction.NEUTRAL)),
            Map.entry(Signal.REVERSE_SWITCH, new Moves(LeverAction.REVERSE, LeverAction.NEUTRAL)),
            Map.entry(Signal.BRAKE_PRESSED, new Moves(LeverAction.BRAKE_PRESSED, LeverAction.BRAKE_RELEASED)),
            Map.entry(Signal.SERVICE_RESET, new Moves(LeverAction.RESET_PRESSED, LeverAction.RESET_RELEASED)),
            Map.entry(Signal.HEATER_REQUEST, new Moves(LeverAction.HEAT_ON, LeverAction.HEAT_OFF)),
            Map.entry(Signal.CUT_LOOP_CLOSED, new Moves(LeverAction.CUT_OFF_RELEASED, LeverAction.CUT_OFF)),
            Map.entry(Signal.COVER_LOOP_CLOSED, new Moves(LeverAction.COVER_CLOSED, LeverAction.COVER_OPENED)),
            Map.entry(Signal.CRASH_LOOP_CLOSED, new Moves(LeverAction.INERTIA_RESET, LeverAction.INERTIA_TRIPPED)),
            Map.entry(Signal.PLUG_PRESENT, new Moves(LeverAction.PLUG_IN, LeverAction.PLUG_OUT))));

    /** Moved at the driver's place or measured on the 12 V side. Every other input is near the traction side. */
    private static final Set<Signal> ON_THE_LOW_SIDE = EnumSet.of(
            Signal.KEY_ON,
            Signal.START_REQUEST,
            Signal.FORWARD_SWITCH,
            Signal.REVERSE_SWITCH,
            Signal.BRAKE_PRESSED,
            Signal.PEDAL_A_V,
            Signal.PEDAL_B_V,
            Signal.PEDAL_SUPPLY_V,
            Signal.REGEN_LEVEL,
            Signal.SERVICE_RESET,
            Signal.HEATER_REQUEST,
            Signal.LV_SUPPLY_V);

    private InputSteps() {}

    static List<BringUpStep> all(StepContext context) {
        List<Signal> contacts = Contactors.contacts(context);
        return context.signals().stream()
                .filter(signal -> !contacts.contains(signal))
                .map(signal -> of(context, signal))
                .toList();
    }

    private static BringUpStep of(StepContext context, Signal signal) {
        if (signal.isSwitch()) {
            return toggle(context, signal);
        }
        boolean pedal = signal == Signal.PEDAL_A_V || signal == Signal.PEDAL_B_V;
        return pedal ? pedal(context, signal) : quantity(context, signal);
    }

    private static BringUpStep step(
            StepContext context, Signal signal, List<String> todo, String expect, BringUpStep.Work work) {
        List<String> all = new ArrayList<>(List.of(context.place(signal)));
        all.addAll(todo);
        return new BringUpStep(
                new StepDescription(
                        BringUpStep.idOf("input", signal.key()),
                        StepDescription.Part.INPUTS,
                        signal.key() + ": " + signal.meaning,
                        all,
                        expect),
                ON_THE_LOW_SIDE.contains(signal) ? BringUpStep.Need.NO_VOLTAGE : BringUpStep.Need.SAFE,
                work);
    }

    private static BringUpStep toggle(StepContext context, Signal signal) {
        Moves moves = MOVES.get(signal);
        boolean rest = moves != null && moves.isOnAtRest();
        List<String> todo = moves == null
                ? List.of("switch the far end of its wire over and back, or make its part do so")
                : List.of(moves.to(!rest).instruction, moves.to(rest).instruction);
        String expect = String.format(
                "it reads %s, then %s, then %s; no other switch changes", word(rest), word(!rest), word(rest));
        return step(context, signal, todo, expect, () -> toggled(context, signal, rest));
    }

    private static String word(boolean on) {
        return on ? "on" : "off";
    }

    private static StepResult toggled(StepContext context, Signal signal, boolean rest) throws StepAbandoned {
        if (!MOVES.containsKey(signal)) {
            move(context, signal, rest);
        }
        context.driver().settle(SETTLE_MS, context.signals());
        Map<Signal, Double> before = context.switches();
        expect(context, signal, rest, before, "before anything was moved");
        move(context, signal, !rest);
        expect(context, signal, !rest, before, "after it was moved");
        List<Signal> others = changed(context, signal, before);
        if (!others.isEmpty()) {
            throw StepAbandoned.failed(
                    signal.key() + " answered, but so did " + others.get(0).key());
        }
        move(context, signal, rest);
        expect(context, signal, rest, before, "after it was moved back");
        return StepResult.passed(
                "read " + word(rest) + ", " + word(!rest) + ", " + word(rest) + "; nothing else changed");
    }

    private static void move(StepContext context, Signal signal, boolean on) throws StepAbandoned {
        if (MOVES.containsKey(signal)) {
            context.askFor(MOVES.get(signal).to(on));
        } else {
            String part = context.drawing().farPart(signal.key());
            context.console()
                    .confirm("Make " + signal.key() + " read " + word(on) + " at the far end of its wire"
                            + (part.isEmpty() ? "" : ", at " + part));
            if (context.isRehearsal()) {
                context.loom().force(signal, on ? 1 : 0);
            }
        }
        context.driver().settle(SETTLE_MS, context.signals());
    }

    /** The other switches that read something else than before. */
    private static List<Signal> changed(StepContext context, Signal except, Map<Signal, Double> before) {
        Map<Signal, Double> now = context.switches();
        return now.keySet().stream()
                .filter(other -> other != except && !now.get(other).equals(before.get(other)))
                .toList();
    }

    /** Fails with what was seen instead. */
    private static void expect(StepContext context, Signal signal, boolean on, Map<Signal, Double> before, String when)
            throws StepAbandoned {
        double level = context.driver().read(signal);
        if (level == (on ? 1 : 0)) {
            return;
        }
        List<String> others = new ArrayList<>();
        for (Signal other : changed(context, signal, before)) {
            double otherLevel = context.driver().read(other);
            others.add(other.key() + (Double.isNaN(otherLevel) ? " gave no sample" : " went " + word(otherLevel == 1)));
        }
        String seen = Double.isNaN(level) ? "nothing (no sample)" : word(level == 1);
        throw StepAbandoned.failed(signal.key() + " reads " + seen + " " + when + ", not " + word(on)
                + (others.isEmpty() ? "; no other switch changed" : "; instead " + String.join(", ", others)));
    }

    private static BringUpStep pedal(StepContext context, Signal signal) {
        boolean a = signal == Signal.PEDAL_A_V;
        double releasedV = context.vehicle().get(a ? Parameter.PEDAL_A_RELEASED_V : Parameter.PEDAL_B_RELEASED_V);
        double fullV = context.vehicle().get(a ? Parameter.PEDAL_A_FULL_V : Parameter.PEDAL_B_FULL_V);
        LeverAction release = LeverAction.PEDAL_RELEASED;
        LeverAction press = LeverAction.PEDAL_PRESSED;
        String expect = String.format(
                Locale.ROOT,
                "%.2f V released, %.2f V full, %.2f V released again, each within %.2f V",
                releasedV,
                fullV,
                releasedV,
                PEDAL_V);
        return step(
                context,
                signal,
                List.of(release.instruction, press.instruction, release.instruction),
                expect,
                () -> StepResult.judged(
                        "read at three positions",
                        List.of(
                                position(context, signal, "released", releasedV, release),
                                position(context, signal, "full", fullV, press),
                                position(context, signal, "released again", releasedV, release))));
    }

    private static Measure position(StepContext context, Signal signal, String name, double volts, LeverAction action)
            throws StepAbandoned {
        context.askFor(action);
        context.driver().settle(SETTLE_MS, context.signals());
        return new Measure(name, context.driver().read(signal), "V", volts - PEDAL_V, volts + PEDAL_V);
    }

    private static BringUpStep quantity(StepContext context, Signal signal) {
        double tolerance = tolerance(context.vehicle(), signal);
        return step(
                context,
                signal,
                List.of("measure the same at the far end of its wire, or read what its part displays"),
                "the reading agrees with the meter within " + Numbers.text(tolerance) + " " + signal.unit.symbol,
                () -> compared(context, signal, tolerance));
    }

    private static StepResult compared(StepContext context, Signal signal, double tolerance) throws StepAbandoned {
        String unit = signal.unit.symbol;
        double simulated = context.isRehearsal() ? context.loom().farEnd(signal) : 0;
        double meter = context.console().askNumber("What the meter shows for " + signal.key(), unit, simulated);
        context.driver().settle(SETTLE_MS, context.signals());
        double reading = context.driver().read(signal);
        String seen = "the meter shows " + Numbers.text(meter) + " " + unit;
        return Double.isNaN(reading)
                ? StepResult.failed(seen + ", the input nothing")
                : StepResult.judged(
                        seen, List.of(new Measure("reading", reading, unit, meter - tolerance, meter + tolerance)));
    }

    /** How far a reading may be from a hand-held meter: its own error and ten bits over the range. Common practice. */
    private static double tolerance(Vehicle vehicle, Signal signal) {
        return switch (signal) {
            case PACK_VOLTAGE_V, BUS_VOLTAGE_V, CHARGER_1_VOLTAGE_V, CHARGER_2_VOLTAGE_V, CHARGER_3_VOLTAGE_V ->
                0.02 * vehicle.get(Parameter.PACK_MAX_V);
            case PACK_CURRENT_A -> 0.02 * vehicle.get(Parameter.PACK_DISCHARGE_MAX_A);
            case CHARGER_1_CURRENT_A, CHARGER_2_CURRENT_A, CHARGER_3_CURRENT_A ->
                0.02 * vehicle.get(Parameter.CHARGE_CURRENT_A);
            case LV_SUPPLY_V, PILOT_PEAK_V -> 0.4;
            case CELL_MAX_V, CELL_MIN_V, PILOT_DUTY -> 0.02;
            case MOTOR_SPEED_RPM -> 20;
            case ISOLATION_KOHM -> 100;
            default -> 0.1;
        };
    }
}
