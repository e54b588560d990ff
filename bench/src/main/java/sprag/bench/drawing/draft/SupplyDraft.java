package sprag.bench.drawing.draft;

import java.util.Set;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/** Drafts the 12 V side: sources, fuses, cut-off and watchdog, coils, lamps, fans. */
final class SupplyDraft {
    private static final double LEAST_POST_FUSE_A = 100;
    private static final double LEAST_RETURN_MM2 = 25;
    private static final double CONTROL_FUSE_A = 10;

    private final Builder b;
    private final Set<Signal> fitted;
    /** The fuse of the battery, and the largest of those that feed the post. */
    private final double postFuseA;

    SupplyDraft(Builder builder) {
        b = builder;
        fitted = b.vehicle.fitted();
        postFuseA = Math.max(LEAST_POST_FUSE_A, Sizes.fuseA(PowerDraft.converterA(b)));
    }

    void draft() {
        b.part("chassis", null, "chassis");
        b.part("post_12v", Place.MOTOR, "splice");
        b.part("node_control", Place.CABIN, "splice");
        b.part("node_coils", Place.PACK, "splice");
        b.part("supervisor", Place.CABIN, "supervisor,16");
        b.part("dash_panel", Place.CABIN, "other,16");
        sources();
        String control = fuse("fuse_control", CONTROL_FUSE_A);
        b.low(control, Builder.next("node_control"), "lv_control", CONTROL_FUSE_A, 5);
        b.low(Builder.next("node_control"), "supervisor.supply", "lv_control", CONTROL_FUSE_A, 1);
        b.low(Builder.next("node_control"), "dash_panel.supply", "lv_control", CONTROL_FUSE_A, 1);
        b.ground("supervisor.ground", "1.5", "ground");
        b.ground("dash_panel.ground", "1", "ground");
        if (fitted.contains(Signal.ISOLATION_KOHM)) {
            b.low(Builder.next("node_control"), "isolation_monitor.supply", "lv_control", CONTROL_FUSE_A, 0.5);
            b.ground("isolation_monitor.ground", "1", "ground");
            b.ground("isolation_monitor.chassis", "2.5", "ground");
        }
        coils();
        brakeLamps();
        fans();
    }

    private void sources() {
        double converterA = PowerDraft.converterA(b);
        double converterFuseA = Sizes.fuseA(converterA);
        b.part("battery_12v", Place.MOTOR, "lv-battery,12,60");
        b.part("fuse_12v", Place.MOTOR, "fuse,32," + Sizes.text(postFuseA) + ",2000");
        b.part("fuse_dcdc_out", Place.MOTOR, "fuse,32," + Sizes.text(converterFuseA) + ",2000");
        b.low("battery_12v.plus", "fuse_12v.in", "lv_battery", postFuseA, 60);
        b.low("fuse_12v.out", Builder.next("post_12v"), "lv_main", postFuseA, 60);
        b.low("dcdc.out_plus", "fuse_dcdc_out.in", "lv_dcdc", converterFuseA, converterA);
        b.low("fuse_dcdc_out.out", Builder.next("post_12v"), "lv_main", postFuseA, converterA);
        b.ground("battery_12v.minus", returnMm2("battery_12v.plus"), "ground");
        b.ground("dcdc.out_minus", returnMm2("dcdc.out_plus"), "ground");
    }

    /** The return of a source is no thinner than its plus. */
    private String returnMm2(String plus) {
        return Sizes.text(Math.max(LEAST_RETURN_MM2, b.sizeMm2(plus)));
    }

    /** A fuse on the post; gives its outgoing terminal. */
    private String fuse(String name, double ratedA) {
        b.part(name, Place.MOTOR, "fuse,32," + Sizes.text(ratedA) + ",1000");
        b.low(Builder.next("post_12v"), name + ".in", "lv_main", postFuseA, Double.NaN);
        return name + ".out";
    }

    private void coils() {
        b.part("cut_off", Place.CABIN, "cut-off,32,10,10");
        b.part("relay_watchdog", Place.CABIN, "relay,32,10,10,8,zener,holds-off");
        String feed = fuse("fuse_coils", CONTROL_FUSE_A);
        b.low(feed, "cut_off.in", "lv_coils", CONTROL_FUSE_A, 6);
        b.low("cut_off.out", "relay_watchdog.in", "lv_coils_cut", CONTROL_FUSE_A, 6);
        b.low("cut_off.out", "relay_watchdog.coil_plus", "lv_coils_cut", CONTROL_FUSE_A, 0.2);
        b.drive("relay_watchdog.coil_minus", "heartbeat");
        b.low("relay_watchdog.out", Builder.next("node_coils"), "lv_coils_alive", CONTROL_FUSE_A, 6);
        coil("contactor_negative", "negative_contactor");
        coil("contactor_positive", "positive_contactor");
        coil("relay_precharge", "precharge_relay");
        b.part("relay_inverter", Place.PACK, "relay,32,10,10,8,diode");
        coil("relay_inverter", "inverter_enable");
        b.low(Builder.next("node_coils"), "relay_inverter.in", "lv_coils_alive", CONTROL_FUSE_A, 2);
        for (int n = 1; n <= b.answers.motors(); n++) {
            String inverter = n == 1 ? "inverter" : "inverter_" + n;
            b.low("relay_inverter.out", inverter + ".supply", "lv_inverter", CONTROL_FUSE_A, 2);
            b.ground(inverter + ".ground", "2.5", "ground");
        }
        if (b.chargers() > 0 && !b.vehicle.is(Parameter.CHARGER_SIDE, "bus-side")) {
            coil("relay_charge", "charger_enable");
        }
        if (!b.vehicle.is(Parameter.DCDC_SIDE, "bus-side")) {
            coil("relay_dcdc", "dcdc_enable");
        }
        if (fitted.contains(Signal.HEATER_REQUEST)) {
            coil("relay_heater", "heater_element");
        }
    }

    private void coil(String part, String output) {
        b.low(Builder.next("node_coils"), part + ".coil_plus", "lv_coils_alive", CONTROL_FUSE_A, 1);
        b.drive(part + ".coil_minus", output);
    }

    private void brakeLamps() {
        b.part("brake_switch", Place.CABIN, "switch,32,5,5,,,closes");
        b.part("relay_brake_lamp", Place.CABIN, "relay,32,10,10,8,diode,closes");
        b.part("brake_lamps", Place.REAR, "lamp,14,4");
        b.low(fuse("fuse_brake_lamps", CONTROL_FUSE_A), "brake_switch.in_2", "lv_brake", CONTROL_FUSE_A, 4);
        b.low("brake_switch.in_2", "relay_brake_lamp.in", "lv_brake", CONTROL_FUSE_A, 4);
        b.low("relay_brake_lamp.in", "relay_brake_lamp.coil_plus", "lv_brake", CONTROL_FUSE_A, Double.NaN);
        b.drive("relay_brake_lamp.coil_minus", "brake_lamp");
        b.low("brake_switch.out_2", "relay_brake_lamp.out", "brake_lamps_on", CONTROL_FUSE_A, 4);
        b.low("relay_brake_lamp.out", "brake_lamps.plus", "brake_lamps_on", CONTROL_FUSE_A, 4);
        b.ground("brake_lamps.minus", "1.5", "ground");
    }

    private void fans() {
        if (fitted.contains(Signal.HEATER_REQUEST)) {
            b.part("heater_blower", Place.CABIN, "load,14,10");
            b.low(fuse("fuse_blower", 15), "heater_blower.plus", "lv_blower", 15, 10);
            b.ground("heater_blower.minus", "2.5", "ground");
            b.signal("supervisor.heater_blower", "heater_blower.switch", "blower_on");
        }
        if (fitted.contains(Signal.COOLANT_TEMP_V)) {
            b.part("coolant_pump", Place.MOTOR, "load,14,4");
            b.part("radiator_fan", Place.MOTOR, "load,14,12");
            b.low(fuse("fuse_pump", 7.5), "coolant_pump.plus", "lv_pump", 7.5, 4);
            b.low(fuse("fuse_fan", 15), "radiator_fan.plus", "lv_fan", 15, 12);
            b.ground("coolant_pump.minus", "2.5", "ground");
            b.ground("radiator_fan.minus", "2.5", "ground");
            b.signal("supervisor.coolant_pump", "coolant_pump.switch", "pump_on");
            b.signal("supervisor.radiator_fan_duty", "radiator_fan.duty", "fan_duty");
        }
        if (fitted.contains(Signal.PLUG_LOCKED)) {
            b.part("plug_lock", Place.INLET, "load,14,3");
            b.low(fuse("fuse_lock", 5), "plug_lock.plus", "lv_lock", 5, 3);
            b.ground("plug_lock.minus", "1", "ground");
            b.signal("supervisor.plug_lock", "plug_lock.switch", "plug_lock_on");
            b.signal("plug_lock.contact", "supervisor.plug_locked", "plug_locked");
        }
    }
}
