package sprag.bench.vehicle;

import java.util.Set;
import java.util.function.ToDoubleFunction;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Signal;

/** Whether the kinds of inlet, charger and contactor box and the signals that are fitted go together. */
final class KindCheck {
    private static final String FITTED = "signals.fitted";
    private static final Set<Signal> SIGNS =
            Set.of(Signal.PLUG_PRESENT, Signal.CHARGER_1_OK, Signal.CHARGER_2_OK, Signal.CHARGER_3_OK);

    private final Section root;
    private final String kind;
    private final boolean locked;
    private final boolean onBus;
    private final boolean alone;
    private final boolean onePole;
    private final String regenBy;

    KindCheck(Section root, ToDoubleFunction<Row> values) {
        this.root = root;
        kind = word(Parameter.INLET_KIND, values);
        locked = word(Parameter.INLET_LOCK, values).equals("fitted");
        onBus = word(Parameter.CHARGER_SIDE, values).equals("bus-side");
        regenBy = word(Parameter.REGEN_BY, values);
        onePole = word(Parameter.CONTACTOR_POLES, values).equals("positive");
        alone = word(Parameter.CHARGER_CONTROL, values).equals("alone");
    }

    private static String word(Row row, ToDoubleFunction<Row> values) {
        double index = values.applyAsDouble(row);
        return Double.isNaN(index) ? "" : row.choices().get((int) index);
    }

    void check(Set<Signal> listed) {
        boolean seen = listed.contains(Signal.PLUG_PRESENT) || listed.contains(Signal.CHARGER_1_OK);
        if (kind.equals("plain") && !seen) {
            root.note(
                    FITTED,
                    "names neither \"plug_present\" nor \"charger_1_ok\", and inlet.kind = \"plain\" has no pilot",
                    "at least one sign of a lead that is plugged in",
                    "let the car drive off with its lead in the socket",
                    "Fit a switch that the plug presses (plug_present), or use the line by which the charger says that it"
                            + " has mains (charger_1_ok).");
        }
        if (onePole && listed.contains(Signal.NEGATIVE_AUX_CLOSED)) {
            root.note(
                    FITTED,
                    "holds \"negative_aux_closed\", and contactor.poles is \"positive\"",
                    "contacts of contactors that are there",
                    "wait for a contactor that never closes",
                    "Take it out, or write contactor.poles = \"both\".");
        }
        regeneration(listed.contains(Signal.REGEN_DEMAND_V));
        if (kind.equals("none")) {
            none(listed);
        }
        if (alone && onBus && !kind.equals("none")) {
            root.note(
                    Parameter.CHARGER_CONTROL.key(),
                    "= \"alone\", and charger.side = \"bus-side\"",
                    "a charger that nothing controls on the pack's side",
                    "put its voltage on the bus before the contactors are asked",
                    "Write charger.side = \"pack-side\", or let the supervisor switch the charger.");
        }
    }

    private void regeneration(boolean hasDemand) {
        boolean byPedal = regenBy.equals("pedal");
        if (hasDemand && byPedal) {
            root.note(
                    FITTED,
                    "holds \"regen_demand_v\", and regen.by is \"pedal\"",
                    "regen_demand_v only where something beside the pedal asks for regeneration",
                    "have no effect",
                    "Write regen.by = \"brake-pressure\" or \"lever\", or take it out.");
        } else if (!hasDemand && !byPedal && !regenBy.isEmpty()) {
            root.note(
                    Parameter.REGEN_BY.key(),
                    "= \"" + regenBy + "\", and signals.fitted does not name \"regen_demand_v\"",
                    "regen_demand_v in signals.fitted",
                    "never brake by it",
                    "Name the signal, or write regen.by = \"pedal\".");
        }
    }

    private void none(Set<Signal> listed) {
        for (Signal sign : SIGNS.stream().filter(listed::contains).sorted().toList()) {
            root.note(
                    FITTED,
                    "holds \"" + sign.key() + "\", and inlet.kind is \"none\"",
                    "signals of a charger only in a car that has one",
                    "have no effect",
                    "Take it out, or write the kind of the inlet.");
        }
        if (locked) {
            root.note(
                    Parameter.INLET_LOCK.key(),
                    "= \"fitted\", and inlet.kind is \"none\"",
                    "\"none\"",
                    "be the lock of an inlet that is not there",
                    "Take the line out, or write the kind of the inlet.");
        }
    }
}
