package sprag.bench.hand.commission;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import sprag.bench.cli.Numbers;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/** Each input is moved by hand or compared with a meter, and everything else must stand still meanwhile. */
final class InputSteps {
    private static final long SETTLE_MS = 250;
    /** How far a pedal may be from what its file says: common practice for a potentiometer in a linkage (V). */
    private static final double PEDAL_V = 0.25;

    /** Which act puts a switch on, and which off. */
    private static final Map<Signal, LeverAction[]> MOVES = new EnumMap<>(Map.ofEntries(
            Map.entry(Signal.KEY_ON, new LeverAction[] {LeverAction.KEY_ON, LeverAction.KEY_OFF}),
            Map.entry(Signal.START_REQUEST, new LeverAction[] {LeverAction.START, LeverAction.START_GO}),
            Map.entry(Signal.FORWARD_SWITCH, new LeverAction[] {LeverAction.FORWARD, LeverAction.NEUTRAL}),
            Map.entry(Signal.REVERSE_SWITCH, new LeverAction[] {LeverAction.REVERSE, LeverAction.NEUTRAL}),
            Map.entry(Signal.BRAKE_PRESSED, new LeverAction[] {LeverAction.BRAKE, LeverAction.BRAKE_GO}),
            Map.entry(Signal.SERVICE_RESET, new LeverAction[] {LeverAction.RESET, LeverAction.RESET_GO}),
            Map.entry(Signal.HEATER_REQUEST, new LeverAction[] {LeverAction.HEAT, LeverAction.HEAT_OFF}),
            Map.entry(Signal.CUT_LOOP_CLOSED, new LeverAction[] {LeverAction.CUT_BACK, LeverAction.CUT}),
            Map.entry(Signal.COVER_LOOP_CLOSED, new LeverAction[] {LeverAction.COVER_SHUT, LeverAction.COVER_OPEN}),
            Map.entry(Signal.CRASH_LOOP_CLOSED, new LeverAction[] {LeverAction.CRASH_BACK, LeverAction.CRASH}),
            Map.entry(Signal.PLUG_PRESENT, new LeverAction[] {LeverAction.PLUG, LeverAction.PLUG_OUT})));

    private InputSteps() {}

    static List<BringUpStep> all(StepContext f) {
        List<BringUpStep> steps = new ArrayList<>();
        for (Signal signal : f.signals()) {
            if (!OutputSteps.isShownByItsOutput(f, signal)) {
                steps.add(of(f, signal));
            }
        }
        return steps;
    }

    private static BringUpStep of(StepContext f, Signal signal) {
        boolean pedal = signal == Signal.PEDAL_A_V || signal == Signal.PEDAL_B_V;
        String where = place(f, signal);
        if (!signal.isSwitch()) {
            return pedal ? pedal(f, signal, where) : quantity(f, signal, where);
        }
        boolean rest = MOVES.containsKey(signal) && MOVES.get(signal)[0].to == MOVES.get(signal)[0].lever.initial;
        List<String> todo = new ArrayList<>(List.of(where));
        todo.add(
                MOVES.containsKey(signal)
                        ? MOVES.get(signal)[rest ? 1 : 0].words + ", then " + MOVES.get(signal)[rest ? 0 : 1].words
                        : "put the far end of its wire on its other level and back, or make its part do so");
        return new BringUpStep(
                BringUpStep.idOf("input", signal.key()),
                BringUpStep.Part.INPUTS,
                signal.key() + ": " + signal.meaning,
                todo,
                "it reads " + word(rest) + ", then " + word(!rest) + ", then " + word(rest)
                        + "; no other switch changes",
                BringUpStep.Need.NOTHING,
                floor -> toggled(floor, signal, rest));
    }

    private static String place(StepContext f, Signal signal) {
        String pin = f.pins().map() == null
                ? ""
                : f.pins().map().inputs().stream()
                        .filter(p -> p.signal() == signal)
                        .map(p -> "pin " + p.pin() + "; ")
                        .findFirst()
                        .orElse("");
        return pin + f.drawing().wiring(signal.key());
    }

    static String word(boolean on) {
        return on ? "on" : "off";
    }

    private static StepResult toggled(StepContext f, Signal signal, boolean rest) throws StepAbandoned {
        if (!MOVES.containsKey(signal)) {
            shift(f, signal, rest);
        }
        f.bed().settle(SETTLE_MS, f.signals());
        Map<Signal, Double> before = switches(f);
        demand(f, signal, rest, before, "before anything was moved");
        shift(f, signal, !rest);
        demand(f, signal, !rest, before, "after it was moved");
        Map<Signal, Double> during = switches(f);
        for (Map.Entry<Signal, Double> other : before.entrySet()) {
            if (other.getKey() != signal && !other.getValue().equals(during.get(other.getKey()))) {
                throw StepAbandoned.failed(
                        signal.key() + " answered, but so did " + other.getKey().key());
            }
        }
        shift(f, signal, rest);
        demand(f, signal, rest, before, "after it was moved back");
        return StepResult.passed(
                "read " + word(rest) + ", " + word(!rest) + ", " + word(rest) + "; nothing else changed");
    }

    private static void shift(StepContext f, Signal signal, boolean on) throws StepAbandoned {
        if (MOVES.containsKey(signal)) {
            f.ask(MOVES.get(signal)[on ? 0 : 1]);
        } else {
            f.talk()
                    .go("Make " + signal.key() + " read " + word(on) + " at the far end of its wire"
                            + f.drawing().farPart(signal.key()).transform(p -> p.isEmpty() ? "" : ", at " + p));
            if (f.isRehearsal()) {
                f.loom().force(signal, on ? 1 : 0);
            }
        }
        f.bed().settle(SETTLE_MS, f.signals());
    }

    /** Fails with what was seen instead. */
    private static void demand(StepContext f, Signal signal, boolean on, Map<Signal, Double> before, String when)
            throws StepAbandoned {
        double shows = f.bed().read(signal);
        if (shows == (on ? 1 : 0)) {
            return;
        }
        List<String> instead = new ArrayList<>();
        Map<Signal, Double> now = switches(f);
        for (Map.Entry<Signal, Double> other : now.entrySet()) {
            if (other.getKey() != signal && !other.getValue().equals(before.get(other.getKey()))) {
                double level = other.getValue();
                instead.add(
                        other.getKey().key() + (Double.isNaN(level) ? " gave no sample" : " went " + word(level == 1)));
            }
        }
        String seen = Double.isNaN(shows) ? "nothing (no sample)" : word(shows == 1);
        throw StepAbandoned.failed(signal.key() + " reads " + seen + " " + when + ", not " + word(on)
                + (instead.isEmpty() ? "; no other switch changed" : "; instead " + String.join(", ", instead)));
    }

    static Map<Signal, Double> switches(StepContext f) {
        Map<Signal, Double> shown = new EnumMap<>(Signal.class);
        for (Signal signal : f.signals()) {
            if (signal.isSwitch()) {
                shown.put(signal, f.bed().read(signal));
            }
        }
        return shown;
    }

    private static BringUpStep pedal(StepContext f, Signal signal, String where) {
        boolean a = signal == Signal.PEDAL_A_V;
        double releasedV = f.vehicle().get(a ? Parameter.PEDAL_A_RELEASED_V : Parameter.PEDAL_B_RELEASED_V);
        double fullV = f.vehicle().get(a ? Parameter.PEDAL_A_FULL_V : Parameter.PEDAL_B_FULL_V);
        return new BringUpStep(
                BringUpStep.idOf("input", signal.key()),
                BringUpStep.Part.INPUTS,
                signal.key() + ": " + signal.meaning,
                List.of(
                        where,
                        LeverAction.PEDAL_GO.words + ", then " + LeverAction.PEDAL.words + ", then "
                                + LeverAction.PEDAL_GO.words),
                String.format(
                        Locale.ROOT,
                        "%.2f V released, %.2f V full, %.2f V released again, each within %.2f V",
                        releasedV,
                        fullV,
                        releasedV,
                        PEDAL_V),
                BringUpStep.Need.NOTHING,
                floor -> {
                    List<Measure> measures = new ArrayList<>();
                    measures.add(travel(floor, signal, "released", releasedV, LeverAction.PEDAL_GO));
                    measures.add(travel(floor, signal, "full", fullV, LeverAction.PEDAL));
                    measures.add(travel(floor, signal, "released again", releasedV, LeverAction.PEDAL_GO));
                    return StepResult.judged("read at three positions", measures);
                });
    }

    private static Measure travel(StepContext f, Signal signal, String name, double volts, LeverAction act)
            throws StepAbandoned {
        f.ask(act);
        f.bed().settle(SETTLE_MS, f.signals());
        return new Measure(name, f.bed().read(signal), "V", volts - PEDAL_V, volts + PEDAL_V);
    }

    private static BringUpStep quantity(StepContext f, Signal signal, String where) {
        double within = tolerance(f.vehicle(), signal);
        String unit = signal.unit.symbol;
        return new BringUpStep(
                BringUpStep.idOf("input", signal.key()),
                BringUpStep.Part.INPUTS,
                signal.key() + ": " + signal.meaning,
                List.of(where, "measure the same at the far end of its wire, or read what its part displays"),
                "the reading agrees with the meter within " + Numbers.text(within) + " " + unit,
                BringUpStep.Need.NOTHING,
                floor -> compared(floor, signal, within));
    }

    private static StepResult compared(StepContext f, Signal signal, double within) throws StepAbandoned {
        String unit = signal.unit.symbol;
        double simulated = f.isRehearsal() ? f.loom().farEnd(signal) : 0;
        double meter = f.talk().number("What the meter shows for " + signal.key(), unit, simulated);
        f.bed().settle(SETTLE_MS, f.signals());
        double reading = f.bed().read(signal);
        if (Double.isNaN(reading)) {
            return StepResult.failed("the meter shows " + Numbers.text(meter) + " " + unit + ", the input nothing");
        }
        return StepResult.judged(
                "the meter shows " + Numbers.text(meter) + " " + unit,
                List.of(new Measure("reading", reading, unit, meter - within, meter + within)));
    }

    /** How far a reading may be from a hand-held meter: its own error and ten bits over the range. Common practice. */
    private static double tolerance(Vehicle vehicle, Signal signal) {
        return switch (signal) {
            case PACK_VOLTAGE_V, BUS_VOLTAGE_V -> 0.02 * vehicle.get(Parameter.PACK_MAX_V);
            case PACK_CURRENT_A -> 0.02 * vehicle.get(Parameter.PACK_DISCHARGE_MAX_A);
            case LV_SUPPLY_V, PILOT_PEAK_V -> 0.4;
            case CELL_MAX_V, CELL_MIN_V, PILOT_DUTY -> 0.02;
            case MOTOR_SPEED_RPM -> 20;
            case ISOLATION_KOHM -> 100;
            case REGEN_LEVEL -> 0.1;
            default -> 0.1;
        };
    }
}
