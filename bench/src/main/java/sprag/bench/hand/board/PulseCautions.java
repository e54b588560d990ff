package sprag.bench.hand.board;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import sprag.hal.board.BoardSpec;
import sprag.hal.board.OutputPin;
import sprag.supervisor.vocabulary.Output;

/** What a person must know before an output is switched on by hand, with no supervisor watching. */
public final class PulseCautions {
    private static final String TRACTION =
            "Traction battery: disconnected, its service plug out and locked away, and absence of voltage verified"
                    + " with a meter rated for it. Nothing watches the precharge here; closing onto a live pack can weld,"
                    + " burn and kill.";
    private static final String MOTION =
            "The driven wheels clear of the ground and the car secured: what can turn will turn.";
    private static final String CHARGE = "No plug in the inlet and no person near it.";
    private static final String HEAT =
            "The heater makes fire without airflow: its blower must run, and its supply should be off.";

    private static final Map<Output, List<String>> BY_OUTPUT = Map.ofEntries(
            Map.entry(Output.NEGATIVE_CONTACTOR, List.of(TRACTION)),
            Map.entry(Output.PRECHARGE_RELAY, List.of(TRACTION)),
            Map.entry(Output.POSITIVE_CONTACTOR, List.of(TRACTION)),
            Map.entry(Output.INVERTER_ENABLE, List.of(TRACTION, MOTION)),
            Map.entry(Output.TORQUE_REQUEST_NM, List.of(TRACTION, MOTION)),
            Map.entry(Output.CHARGER_ENABLE, List.of(TRACTION, CHARGE)),
            Map.entry(Output.CHARGE_CURRENT_LIMIT_A, List.of(TRACTION, CHARGE)),
            Map.entry(Output.CHARGE_VOLTAGE_LIMIT_V, List.of(TRACTION, CHARGE)),
            Map.entry(Output.CHARGER_1_LIMIT_A, List.of(TRACTION, CHARGE)),
            Map.entry(Output.CHARGER_2_LIMIT_A, List.of(TRACTION, CHARGE)),
            Map.entry(Output.CHARGER_3_LIMIT_A, List.of(TRACTION, CHARGE)),
            Map.entry(Output.DCDC_ENABLE, List.of(TRACTION)),
            Map.entry(Output.HEATER_ELEMENT, List.of(TRACTION, HEAT)));

    private static final List<String> ALWAYS = List.of(
            "This switches real hardware, and nothing but your eyes supervises it.",
            "Hands, tools and people clear of whatever the output moves. Two people; one can cut the supply.",
            "Local electrical and vehicle codes come first; where they ask for a licensed person, get one.");

    private PulseCautions() {}

    /**
     * What an output itself asks for, whichever board it is on. Returns one sentence each, empty when it is harmless.
     */
    public static List<String> about(Output output) {
        return BY_OUTPUT.getOrDefault(output, List.of());
    }

    static List<String> of(OutputPin pin, BoardSpec board) {
        List<String> all = new ArrayList<>(ALWAYS);
        all.addAll(about(pin.output()));
        all.addAll(board.map().cautions());
        return all;
    }
}
