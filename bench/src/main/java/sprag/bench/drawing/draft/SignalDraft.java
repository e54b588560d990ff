package sprag.bench.drawing.draft;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/** Drafts switches and loops, pedal and sensors, the data bus, the inlet. */
final class SignalDraft {
    private static final double CONTROL_FUSE_A = 10;

    private final Builder b;
    private final Set<Signal> fitted;

    SignalDraft(Builder builder) {
        b = builder;
        fitted = b.vehicle.fitted();
    }

    void draft() {
        switches();
        auxiliaries();
        sensors();
        data();
        inlet();
    }

    private boolean has(Signal signal) {
        return fitted.contains(signal);
    }

    private void feed(String terminal) {
        b.low(Builder.next("node_control"), terminal, "lv_control", CONTROL_FUSE_A, 0.1);
    }

    private void switches() {
        b.part("key_switch", Place.CABIN, "key,32,5,5");
        feed("key_switch.in");
        b.signal("key_switch.drive", "supervisor.key_on", "key_on");
        b.signal("key_switch.start", "supervisor.start_request", "start_request");
        b.part("direction_lever", Place.CABIN, "switch,32,2,2");
        feed("direction_lever.in");
        b.signal("direction_lever.out", "supervisor.forward_switch", "forward_on");
        b.signal("direction_lever.out_2", "supervisor.reverse_switch", "reverse_on");
        feed("brake_switch.in");
        b.signal("brake_switch.out", "supervisor.brake_pressed", "brake_pressed");
        feed("cut_off.in_2");
        b.signal("cut_off.out_2", "service_switch.in_2", "cut_loop_cab");
        boolean two = b.answers.packBoxes() == 2;
        String cut = "service_switch.out_2";
        if (two) {
            b.signal(cut, "service_switch_rear.in_2", "cut_loop_front");
            cut = "service_switch_rear.out_2";
        }
        boolean cover = has(Signal.COVER_LOOP_CLOSED);
        loop(cut, "supervisor.cut_loop_closed", "cut_loop", two && !cover);
        if (cover) {
            b.part("cover_switch", Place.PACK, "switch,32,1,1");
            feed("cover_switch.in");
            loop("cover_switch.out", "supervisor.cover_loop_closed", "cover_loop", two);
        }
        if (has(Signal.CRASH_LOOP_CLOSED)) {
            b.part("crash_switch", Place.CABIN, "switch,32,5,5");
            feed("crash_switch.in");
            b.signal("crash_switch.out", "supervisor.crash_loop_closed", "crash_loop");
        }
    }

    /**
     * The end of a loop; with a pack in two boxes it goes through a small connector beside each traction connector, which opens
     * first, and is bridged at the far one.
     */
    private void loop(String from, String to, String net, boolean throughConnectors) {
        if (!throughConnectors) {
            b.signal(from, to, net);
            return;
        }
        b.part("connector_loop_front", Place.PACK, "connector,32,1");
        b.part("connector_loop_rear", Place.REAR, "connector,32,1");
        String out = net + "_out";
        b.signal(from, "connector_loop_front.loop_out", out);
        b.signal("connector_loop_front.loop_out", "connector_loop_rear.loop_out", out);
        b.signal("connector_loop_rear.loop_out", "connector_loop_rear.loop_back", out);
        b.signal("connector_loop_rear.loop_back", "connector_loop_front.loop_back", out);
        b.signal("connector_loop_front.loop_back", to, out);
    }

    private void auxiliaries() {
        String from = "";
        Signal[] signals = {Signal.NEGATIVE_AUX_CLOSED, Signal.POSITIVE_AUX_CLOSED, Signal.PRECHARGE_AUX_CLOSED};
        String[] parts = {"contactor_negative", "contactor_positive", "relay_precharge"};
        for (int i = 0; i < parts.length; i++) {
            if (has(signals[i])) {
                if (from.isEmpty()) {
                    feed(parts[i] + ".aux_a");
                } else {
                    b.signal(from, parts[i] + ".aux_a", "lv_control");
                }
                from = parts[i] + ".aux_a";
                b.signal(parts[i] + ".aux_b", "supervisor." + signals[i].key(), signals[i].key());
            }
        }
    }

    private void sensors() {
        b.part("pedal", Place.CABIN, "pedal,5");
        b.signal(
                "supervisor.sensor_supply",
                "pedal.supply",
                "sensor_5v",
                has(Signal.PEDAL_SUPPLY_V) ? "pedal_supply_v" : "");
        b.signal("pedal.wiper_a", "supervisor.pedal_a_v", "pedal_a");
        if (has(Signal.PEDAL_B_V)) {
            b.signal("pedal.wiper_b", "supervisor.pedal_b_v", "pedal_b");
        }
        b.signal("pedal.ground", "supervisor.sensor_ground", "sensor_ground");
        String ground = "pedal.ground";
        Signal[] signals = {Signal.MOTOR_TEMP_V, Signal.COOLANT_TEMP_V, Signal.HEATER_TEMP_V};
        String[] parts = {"motor_thermistor", "coolant_thermistor", "heater_probe"};
        for (int i = 0; i < parts.length; i++) {
            if (has(signals[i])) {
                b.part(parts[i], i == 2 ? Place.CABIN : Place.MOTOR, "sensor," + (i == 2 ? "32" : "5"));
                b.signal(
                        parts[i] + ".a",
                        "supervisor." + signals[i].key(),
                        signals[i].key().replace("_v", ""));
                b.signal(parts[i] + ".b", ground, "sensor_ground");
                ground = parts[i] + ".b";
            }
        }
        if (has(Signal.WHEEL_SPEED_KPH)) {
            b.part("wheel_sensor", Place.MOTOR, "sensor,32");
            b.signal("wheel_sensor.speed", "supervisor.wheel_speed_kph", "wheel_speed");
            b.signal("wheel_sensor.ground", ground, "sensor_ground");
            ground = "wheel_sensor.ground";
        }
        sensorsFedWith5V(ground);
        if (has(Signal.HEATER_AIRFLOW)) {
            b.part("heater_probe", Place.CABIN, "sensor,32");
            b.signal("heater_probe.airflow", "supervisor.heater_airflow", "airflow");
        }
    }

    /** What asks for regeneration, and the second current sensor: at the end of the chain, so that one more moves no other wire. */
    private void sensorsFedWith5V(String lastGround) {
        String supply = "pedal.supply";
        String ground = lastGround;
        if (has(Signal.REGEN_DEMAND_V)) {
            boolean lever = b.vehicle.is(Parameter.REGEN_BY, "lever");
            String name = lever ? "regen_lever" : "brake_pressure_sensor";
            b.part(name, Place.CABIN, "sensor,5");
            b.signal(supply, name + ".supply", "sensor_5v");
            b.signal(name + (lever ? ".wiper" : ".signal"), "supervisor.regen_demand_v", "regen_demand");
            b.signal(name + ".ground", ground, "sensor_ground");
            supply = name + ".supply";
            ground = name + ".ground";
        }
        if (has(Signal.PACK_CURRENT_2_A)) {
            b.signal(supply, "current_sensor.supply", "sensor_5v");
            b.signal("current_sensor.signal", "supervisor.pack_current_2_a", "pack_current_2");
            b.signal("current_sensor.ground", ground, "sensor_ground");
        }
    }

    /** From part to part, each pair carrying what the part behind it has. */
    private void data() {
        b.pair(
                "supervisor",
                "battery_monitor",
                carried("pack_voltage_v pack_current_a pack_hot_v pack_cold_v discharge_permit charge_permit"
                        + " cell_max_v cell_min_v isolation_kohm"));
        b.pair(
                "battery_monitor",
                "inverter",
                carried("bus_voltage_v inverter_ready inverter_fault inverter_temp_v motor_speed_rpm"
                        + " torque_request_nm"));
        String before = "inverter";
        if (b.answers.motors() == 2) {
            b.pair(before, "inverter_2", "");
            before = "inverter_2";
        }
        int count = b.chargers();
        for (int n = 1; n <= count; n++) {
            String first = n > 1
                    ? ""
                    : " charge_current_limit_a charge_voltage_limit_v charger_temp_v"
                            + (b.vehicle.is(Parameter.CHARGER_SIDE, "bus-side") ? " charger_enable" : "")
                            + (b.vehicle.is(Parameter.DCDC_SIDE, "bus-side") ? " dcdc_enable" : "");
            String name = "charger_" + n;
            String said = "_limit_a " + name + "_ok " + name + "_current_a " + name + "_voltage_v";
            b.pair(before, name, carried(name + said + first));
            before = name;
        }
        b.pair(
                before,
                "dash_panel",
                carried("ready_lamp fault_lamp charge_lamp buzzer gauge_fraction regen_level heater_request"
                        + " service_reset"));
    }

    /** Signals that the vehicle lacks are left out; outputs stay. */
    private String carried(String names) {
        Set<String> lacking = Stream.of(Signal.values())
                .filter(s -> !fitted.contains(s))
                .map(Signal::key)
                .collect(Collectors.toSet());
        List<String> kept = new ArrayList<>(List.of(names.split(" ")));
        kept.removeIf(lacking::contains);
        return String.join(" ", kept);
    }

    private void inlet() {
        double supplyA = b.vehicle.get(Parameter.INLET_MAX_A);
        int count = b.chargers();
        if (count == 0) {
            return;
        }
        b.part("inlet", Place.INLET, "inlet,250," + Sizes.text(supplyA));
        String before = "inlet";
        for (int n = 1; n <= count; n++) {
            double leftA = supplyA * (count - n + 1) / count;
            b.mains(before + ".line", "charger_" + n + ".line", "inlet_line", leftA, "brown");
            b.mains(before + ".neutral", "charger_" + n + ".neutral", "inlet_neutral", leftA, "blue");
            b.mains(before + ".earth", "charger_" + n + ".earth", "protective_earth", supplyA, "green-yellow");
            before = "charger_" + n;
        }
        b.ground(
                before + ".earth",
                Sizes.text(Math.max(2.5, b.sizes.thinMm2(supplyA * 1.25, 0, 1))),
                "protective_earth");
        if (has(Signal.PILOT_PEAK_V)) {
            b.signal("inlet.pilot", "supervisor.pilot_peak_v", "pilot", "pilot_duty");
        }
        if (has(Signal.PROXIMITY_V)) {
            b.signal("inlet.proximity", "supervisor.proximity_v", "proximity");
        }
        if (has(Signal.PLUG_PRESENT)) {
            b.signal("inlet.latch", "supervisor.plug_present", "plug_present");
        }
    }
}
