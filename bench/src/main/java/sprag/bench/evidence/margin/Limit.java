package sprag.bench.evidence.margin;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Consistency;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Unit;

/** A time or threshold of the supervisor that must part sound cars from broken ones. One row each. */
enum Limit {
    // @formatter:off
    TIMEOUT        (Parameter.PRECHARGE_TIMEOUT_MS,  "bus.load_left_on",             State.PRECHARGE,      0, Interlock.PRECHARGE_SLOW, Interlock.PRECHARGE_STALLED),
    STALL          (Parameter.PRECHARGE_STALL_MS,    "precharge_resistor.open",      State.PRECHARGE,      0, Interlock.PRECHARGE_STALLED),
    FAST           (Parameter.PRECHARGE_FAST_MS,     "bus.capacitor_missing",        State.PRECHARGE,      0, Interlock.PRECHARGE_FAST),
    WELD_TEST      (Parameter.CONTACTOR_WELD_TEST_MS, "positive_contactor.welded",   State.PRECHARGE,      0, Interlock.POSITIVE_WELD_FOUND, Interlock.POSITIVE_WELDED),
    CLOSE          (Parameter.CONTACTOR_CLOSE_MS,    "negative_contactor.stuck_open", State.PRECHARGE,     0, Interlock.CONTACTOR_NOT_CLOSED, Interlock.NEGATIVE_DROPPED, Interlock.POSITIVE_DROPPED),
    RELEASE        (Parameter.CONTACTOR_RELEASE_MS,  "positive_contactor.welded",    State.DRIVE_ENABLE, 100, Interlock.POSITIVE_WELDED, Interlock.NEGATIVE_WELDED, Interlock.PRECHARGE_WELDED),
    BLEED          (Parameter.BUS_BLEED_MS,          "bus.bleed_open",               State.DRIVE_ENABLE, 100, Interlock.BUS_STILL_LIVE),
    BUS_LOST       (Parameter.BUS_LOST_MS,           "pack_fuse.blown",              State.DRIVE_ENABLE, 100, Interlock.BUS_LOST),
    STALE          (Parameter.LOOP_STALE_MS,         "bus_voltage_v.stale",          State.DRIVE_ENABLE, 100, Interlock.READINGS_LOST),
    BLIND          (Parameter.LOOP_BLIND_MS,         "bus_voltage_v.stale",          State.DRIVE_ENABLE, 100, Interlock.READINGS_LOST),
    DISAGREE_SHARE (Parameter.PEDAL_DISAGREE_SHARE,  "pedal_b_v.bias",               State.DRIVE_ENABLE, 100, Interlock.PEDAL_DISAGREES),
    DISAGREE_TIME  (Parameter.PEDAL_DISAGREE_MS,     "pedal_b_v.bias",               State.DRIVE_ENABLE, 100, Interlock.PEDAL_DISAGREES),
    PEDAL_RANGE    (Parameter.PEDAL_RANGE_MS,        "pedal_a_v.open",               State.DRIVE_ENABLE, 100, Interlock.PEDAL_OUT_OF_RANGE, Interlock.PEDAL_SHORTED),
    READY          (Parameter.INVERTER_READY_MS,     "inverter.not_ready",           State.DRIVE_ENABLE, 100, Interlock.INVERTER_NOT_READY);
    // @formatter:on

    private static final double[] TIMES = {0.25, 0.35, 0.5, 0.7, 1, 1.4, 2, 2.8, 4};

    /** What is tried with other values. */
    final Parameter parameter;
    /** What it is there to notice. */
    final String fault;
    /** Where the fault comes. */
    final State state;
    /** How many ticks after that. */
    final int ticks;
    /** What notices it, and is a false alarm on a sound car. */
    final Set<Interlock> interlocks;

    Limit(Parameter parameter, String fault, State state, int ticks, Interlock... interlocks) {
        this.parameter = parameter;
        this.fault = fault;
        this.state = state;
        this.ticks = ticks;
        this.interlocks = Set.of(interlocks);
    }

    /** The values that are tried on a vehicle, the present one among them: a quarter to four times, where that is allowed. */
    List<Double> values(Vehicle vehicle) {
        double present = vehicle.get(parameter);
        double step = parameter.unit() == Unit.MILLISECOND ? vehicle.get(Parameter.LOOP_TICK_MS) : 0;
        List<Double> values = new ArrayList<>();
        for (double times : TIMES) {
            double value = times == 1 || step == 0 ? present * times : Math.rint(present * times / step) * step;
            boolean inside = value >= parameter.min() && value <= parameter.max();
            if (inside && !values.contains(value) && isConsistent(vehicle, value)) {
                values.add(value);
            }
        }
        return values;
    }

    private boolean isConsistent(Vehicle vehicle, double value) {
        return Arrays.stream(Consistency.values())
                .filter(row -> row.lower == parameter || row.upper == parameter)
                .allMatch(row -> row.holds(
                        row.lower == parameter ? value : vehicle.get(row.lower),
                        row.upper == parameter ? value : vehicle.get(row.upper)));
    }
}
