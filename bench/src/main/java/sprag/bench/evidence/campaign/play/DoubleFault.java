package sprag.bench.evidence.campaign.play;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.car.FaultSpec;
import sprag.bench.vehicle.Vehicle;

/** Pairs of faults that could hurt where either alone cannot: the second takes away what guards against the first. */
public enum DoubleFault {
    // @formatter:off
    BOTH_POLES_WELDED      ("negative_contactor.welded", "positive_contactor.welded",   "both poles stay live"),
    NEGATIVE_WELD_HIDDEN   ("negative_contactor.welded", "negative_aux_closed.open",    "the weld cannot be told by its contact"),
    POSITIVE_WELD_HIDDEN   ("positive_contactor.welded", "positive_aux_closed.open",    "the weld cannot be told by its contact"),
    WELD_AND_BUS_BLIND     ("positive_contactor.welded", "bus_voltage_v.short_low",     "the weld cannot be told by the bus"),
    PEDAL_BOTH_STUCK       ("pedal_a_v.stuck",           "pedal_b_v.stuck",             "both tracks agree on a position nobody holds"),
    PEDAL_BIAS_AND_BRAKE   ("pedal_a_v.bias",            "brake_pressed.stuck",         "a false travel without the brake to tell"),
    PLUG_AND_PROXIMITY     ("plug_present.stuck",        "proximity_v.stuck",           "two of the three signs of a plug are gone"),
    RUNS_ON_AND_BLIND      ("inverter.runs_on",          "pack_current_a.stuck",        "torque nobody asked for cannot be told by the current"),
    RUNS_ON_AND_WELD       ("inverter.runs_on",          "positive_contactor.welded",   "torque nobody asked for cannot be cut off at one pole"),
    RESISTOR_AND_BLIND     ("precharge_resistor.shorted","bus_voltage_v.stuck",         "a fast precharge cannot be told"),
    LOAD_AND_BLIND         ("bus.load_left_on",          "bus_voltage_v.bias",          "a bus that is not charged looks charged"),
    OVERSHOOT_AND_MONITOR  ("charger_1.overshoot",       "battery_monitor.silent",      "an overcharge without the cells to tell"),
    OVERSHOOT_AND_BLIND    ("charger_1.overshoot",       "pack_voltage_v.stuck",        "an overcharge without the voltage to tell"),
    IGNORES_AND_STUCK      ("charger_1.ignores_limit",   "charger_enable.stuck_on",     "a charger that neither limits nor stops"),
    STATION_AND_PROXIMITY  ("station.stuck_closed",      "proximity_v.stuck",           "a plug pulled under load without a warning"),
    PUMP_AND_SENSOR        ("pump.stopped",              "inverter_temp_v.stuck",       "lost coolant without the temperature to tell"),
    LOOP_AND_WELD          ("cut_loop_closed.stuck",     "positive_contactor.welded",   "the cut-off is asked for and cannot come");
    // @formatter:on

    private final String first;
    private final String second;
    /** What the pair can do. */
    final String why;

    DoubleFault(String first, String second, String why) {
        this.first = first;
        this.second = second;
        this.why = why;
    }

    /** The pairs that a vehicle can have. */
    public static List<List<String>> of(Vehicle vehicle) {
        List<String> names =
                FaultSpec.all(vehicle).stream().map(FaultSpec::name).toList();
        List<List<String>> pairs = new ArrayList<>();
        for (DoubleFault pair : values()) {
            if (names.contains(pair.first) && names.contains(pair.second)) {
                pairs.add(List.of(pair.first, pair.second));
            }
        }
        return pairs;
    }
}
