package sprag.bench.review.wiring;

import static sprag.bench.review.wiring.Rule.*;

import java.util.EnumSet;
import java.util.Set;
import java.util.function.Consumer;

/** Mistakes planted in the parcel van's schedule, one at a time. Other ones than those of the flawed van. */
enum Mistake {
    // @formatter:off
    PACK_NAMED_BOX          (NO_PACK,                   d -> d.setPart("pack", "kind", "other"), VOLTAGE_DROP),
    CONNECTOR_FOR_12V       (TRACTION_PIN_RATING,       d -> d.set("relay_dcdc.out", "dcdc.plus", "to_pin_v", "32")),
    CONNECTOR_JUST_BELOW    (TRACTION_PIN_RATING,       d -> d.set("pack.minus", "shunt.pack", "from_pin_v", "107.9")),
    CALLED_12V              (TRACTION_CLASS,            d -> d.set("fuse_heater.out", "relay_heater.in", "class", "12v")),
    CALLED_TRACTION         (TRACTION_CLASS,            d -> d.set("fuse_blower.out", "heater_blower.plus", "class", "traction"), TRACTION_PIN_RATING, TRACTION_NOT_ORANGE),
    MINUS_TO_BODY           (TRACTION_BONDED,           d -> d.addLike("dcdc.minus", "bar_pack_minus.3", "bar_pack_minus.9", "chassis.box", "pack_return")),
    DCDC_RETURN_VIA_BODY    (TRACTION_BONDED,           d -> d.set("dcdc.minus", "bar_pack_minus.3", "to", "chassis.dcdc_2").set("dcdc.minus", "chassis.dcdc_2", "net", "ground")),
    PLUS_ON_12V             (TRACTION_BONDED,           d -> d.addLike("fuse_12v.out", "post_12v.1", "bar_pack_plus.9", "post_12v.9", "lv_main")),
    BUS_BARS_SWAPPED        (TRACTION_SHORTED,          d -> d.addLike("contactor_negative.out", "inverter.minus", "contactor_positive.out", "inverter.minus", "bus_minus"), TERMINAL_IN_TWO_NETS, BRANCH_WITHOUT_FUSE),
    HEATER_REVERSED         (POLARITY_REVERSED,         d -> d.set("heater.minus", "inverter.minus", "from", "heater.plus").set("relay_heater.out", "heater.plus", "to", "heater.minus")),
    RED_CABLE               (TRACTION_NOT_ORANGE,       d -> d.set("pack.plus", "fuse_main.in", "colour", "red")),
    NO_COLOUR               (TRACTION_NOT_ORANGE,       d -> d.set("inverter.u", "motor.u", "colour", "")),
    HEATER_BEHIND_NOTHING   (POLE_NOT_SWITCHED,         d -> d.set("heater.minus", "inverter.minus", "to", "bar_pack_minus.9").set("heater.minus", "bar_pack_minus.9", "net", "pack_return"), SIDE_DIFFERS),
    NO_NEGATIVE_CONTACTOR   (POLE_NOT_SWITCHED,         d -> d.set("bar_pack_minus.2", "contactor_negative.in", "to", "inverter.minus").set("bar_pack_minus.2", "inverter.minus", "net", "bus_minus"), TERMINAL_IN_TWO_NETS, TERMINAL_UNWIRED),
    CHARGER_ON_BUS          (SIDE_DIFFERS,              d -> d.set("bar_pack_plus.5", "fuse_charger_1.in", "from", "inverter.plus").set("inverter.plus", "fuse_charger_1.in", "net", "bus_plus")),
    DCDC_BEFORE_SHUNT       (LOAD_BEFORE_SHUNT,         d -> d.set("dcdc.minus", "bar_pack_minus.3", "to", "pack.minus").set("dcdc.minus", "pack.minus", "net", "pack_minus")),
    PRECHARGE_ON_PACK_SIDE  (PRECHARGE_WRONG_SIDE,      d -> d.set("resistor_precharge.out", "contactor_positive.out", "to", "contactor_positive.in").set("resistor_precharge.out", "contactor_positive.in", "net", "pack_fused")),
    PRECHARGE_TO_OTHER_POLE (PRECHARGE_WRONG_SIDE,      d -> d.set("resistor_precharge.out", "contactor_positive.out", "to", "inverter.minus").set("resistor_precharge.out", "inverter.minus", "net", "bus_minus"), TRACTION_SHORTED),
    RESISTOR_ALWAYS_ON      (PRECHARGE_WITHOUT_RELAY,   d -> d.set("relay_precharge.out", "resistor_precharge.in", "from", "fuse_precharge.out").set("fuse_precharge.out", "resistor_precharge.in", "net", "precharge_fused"), TERMINAL_UNWIRED),
    RESISTOR_FORGOTTEN      (PRECHARGE_WITHOUT_RESISTOR, d -> d.set("relay_precharge.out", "resistor_precharge.in", "to", "contactor_positive.out").set("relay_precharge.out", "contactor_positive.out", "net", "bus_plus").remove("resistor_precharge.out", "contactor_positive.out").removePart("resistor_precharge"), CONTACTS_IN_PARALLEL, BRANCH_WITHOUT_FUSE, FUSE_DIFFERS),
    HEATER_WITHOUT_FUSE     (BRANCH_WITHOUT_FUSE,       d -> d.set("fuse_heater.out", "relay_heater.in", "from", "inverter.plus").set("inverter.plus", "relay_heater.in", "net", "bus_plus").remove("inverter.plus", "fuse_heater.in").removePart("fuse_heater"), FUSE_DIFFERS),
    BLOWER_WITHOUT_FUSE     (BRANCH_WITHOUT_FUSE,       d -> d.set("fuse_blower.out", "heater_blower.plus", "from", "battery_12v.plus").set("battery_12v.plus", "heater_blower.plus", "net", "lv_battery"), FUSE_DIFFERS, TERMINAL_UNWIRED),
    CHARGER_FUSE_IN_RETURN  (FUSE_AFTER_LOAD,           d -> d.set("fuse_charger_2.out", "relay_charge.in_2", "from", "bar_pack_plus.9").set("bar_pack_plus.9", "relay_charge.in_2", "net", "pack_fused").remove("bar_pack_plus.6", "fuse_charger_2.in").set("charger_2.minus", "bar_pack_minus.5", "to", "fuse_charger_2.in").set("charger_2.minus", "fuse_charger_2.in", "net", "charger_2_return").addLike("dcdc.minus", "bar_pack_minus.3", "fuse_charger_2.out", "bar_pack_minus.5", "pack_return"), BRANCH_WITHOUT_FUSE, FUSE_DIFFERS),
    FUSE_AT_THE_REAR        (FUSE_FAR_FROM_SOURCE,      d -> d.set("pack.plus", "fuse_main.in", "length_m", "1.84")),
    FUSE_DOUBLED            (FUSE_ABOVE_CONDUCTOR,      d -> d.setPart("fuse_heater", "rated_a", "80"), FUSE_DIFFERS),
    WIRE_HALVED             (FUSE_ABOVE_CONDUCTOR,      d -> d.set("fuse_blower.out", "heater_blower.plus", "size_mm2", "0.5"), VOLTAGE_DROP),
    DRAWN_FUSE_LARGER       (FUSE_ABOVE_CONDUCTOR,      d -> d.set("relay_dcdc.out", "dcdc.plus", "fuse_a", "100"), FUSE_DIFFERS),
    TWO_RATINGS             (Rule.FUSE_DIFFERS,         d -> d.set("fuse_blower.out", "heater_blower.plus", "fuse_a", "10")),
    GLASS_FUSE              (Rule.FUSE_VOLTAGE,         d -> d.setPart("fuse_precharge", "rated_v", "32")),
    FUSE_TOO_SMALL          (FUSE_OVERLOADED,           d -> d.setPart("fuse_blower", "rated_a", "7.5").set("fuse_blower.out", "heater_blower.plus", "fuse_a", "7.5")),
    THIN_MAIN_CABLE         (Rule.CONDUCTOR_TOO_SMALL,  d -> d.set("contactor_negative.out", "inverter.minus", "size_mm2", "16")),
    LONG_THIN_WIRE          (Rule.VOLTAGE_DROP,         d -> d.set("relay_brake_lamp.out", "brake_lamps.plus", "length_m", "6")),
    TIMER_BY_PASSED         (Rule.CONTACTS_IN_PARALLEL, d -> d.addPart("timer_fan", "timer", "32", "10").setPart("timer_fan", "suppression", "diode")
                                                               .addLike("fuse_blower.out", "heater_blower.plus", "fuse_blower.out", "timer_fan.in", "lv_blower").set("fuse_blower.out", "heater_blower.plus", "from", "timer_fan.out").set("timer_fan.out", "heater_blower.plus", "net", "blower_late")
                                                               .addPart("switch_fan", "switch", "32", "10").addLike("fuse_blower.out", "timer_fan.in", "timer_fan.in", "switch_fan.in", "lv_blower").addLike("timer_fan.out", "heater_blower.plus", "switch_fan.out", "timer_fan.out", "blower_late"), BLOWER_INTERRUPTED),
    CUT_OFF_BY_PASSED       (Rule.CONTACTS_IN_PARALLEL, d -> d.addPart("switch_workshop", "switch", "32", "10").addLike("fuse_coils.out", "cut_off.in", "cut_off.in", "switch_workshop.in", "lv_coils").addLike("cut_off.out", "relay_watchdog.in", "switch_workshop.out", "cut_off.out", "lv_coils_cut"), CUT_OFF_LEAVES_SOURCE),
    LAMPS_IN_SERIES         (Rule.CONTACTS_IN_SERIES,   d -> d.set("relay_brake_lamp.out", "brake_lamps.plus", "from", "brake_switch.out_2").set("brake_switch.out_2", "brake_lamps.plus", "net", "brake_lamps_on").set("brake_switch.out_2", "relay_brake_lamp.out", "from", "brake_switch.in_2").set("brake_switch.in_2", "relay_brake_lamp.out", "net", "lv_brake_late").set("brake_switch.in_2", "relay_brake_lamp.in", "from", "fuse_brake_lamps.out").set("fuse_brake_lamps.out", "relay_brake_lamp.in", "net", "lv_brake").remove("fuse_brake_lamps.out", "brake_switch.in_2")),
    COIL_BARE               (COIL_WITHOUT_SUPPRESSION,  d -> d.setPart("relay_brake_lamp", "suppression", "")),
    DIODE_ON_MAIN           (SUPPRESSION_SLOWS_RELEASE, d -> d.setPart("contactor_negative", "suppression", "diode")),
    RELAY_FOR_LAMPS         (CONTACT_BREAKS_TOO_MUCH,   d -> d.setPart("relay_heater", "breaks_a", "10")),
    AUTOMOTIVE_RELAY        (CONTACT_BREAKS_TOO_MUCH,   d -> d.setPart("relay_precharge", "rated_v", "24")),
    INVERTER_ON_KEY         (INVERTER_SUPPLY_EARLY,     d -> d.set("relay_inverter.out", "inverter.supply", "from", "key_switch.drive").set("key_switch.drive", "inverter.supply", "net", "key_on"), TERMINAL_UNWIRED),
    COILS_FROM_BATTERY      (CUT_OFF_LEAVES_SOURCE,     d -> d.set("relay_watchdog.out", "node_coils.1", "from", "fuse_coils.out").set("fuse_coils.out", "node_coils.1", "net", "lv_coils"), Rule.TERMINAL_IN_TWO_NETS, TERMINAL_UNWIRED, OUTPUTS_UNGUARDED),
    NO_CUT_OFF              (CUT_OFF_LEAVES_SOURCE,     d -> d.setPart("cut_off", "kind", "switch")),
    PILOT_TO_CONNECTOR      (PILOT_UNCONNECTED,         d -> d.addPart("connector_x", "connector", "", "").set("inlet.pilot", "supervisor.pilot_peak_v", "to", "connector_x.3"), NET_ONE_END, NEEDED_SIGNAL_WITHOUT_WIRE),
    PROXIMITY_LEFT_OUT      (PILOT_UNCONNECTED,         d -> d.remove("inlet.proximity", "supervisor.proximity_v"), NEEDED_SIGNAL_WITHOUT_WIRE),
    EARTH_CUT               (EARTH_MISSING,             d -> d.remove("charger_2.earth", "chassis.charger")),
    EARTH_OVER_ELECTRONICS  (EARTH_MISSING,             d -> d.set("charger_2.earth", "chassis.charger", "to", "supervisor.ground").set("charger_2.earth", "supervisor.ground", "net", "ground").set("charger_1.earth", "charger_2.earth", "net", "ground").set("inlet.earth", "charger_1.earth", "net", "ground")),
    EARTH_OF_SMALL_WIRE     (EARTH_THIN,                d -> d.set("charger_2.earth", "chassis.charger", "size_mm2", "4")),
    CHARGER_MINUS_ON_BUS    (SIDE_DIFFERS,              d -> d.set("charger_2.minus", "bar_pack_minus.5", "to", "inverter.minus").set("charger_2.minus", "inverter.minus", "net", "bus_minus")),
    WIPER_ON_ITS_SUPPLY     (INPUT_OR_OUTPUT_TIED,      d -> d.set("pedal.wiper_b", "supervisor.pedal_b_v", "from", "pedal.supply").set("pedal.supply", "supervisor.pedal_b_v", "net", "sensor_5v")),
    WIPER_ON_SENSOR_GROUND  (INPUT_OR_OUTPUT_TIED,      d -> d.set("pedal.wiper_a", "supervisor.pedal_a_v", "from", "pedal.ground").set("pedal.ground", "supervisor.pedal_a_v", "net", "sensor_ground"), TERMINAL_CROWDED),
    THERMISTORS_EXCHANGED   (SIGNALS_SWAPPED,           d -> d.set("motor_thermistor.a", "supervisor.motor_temp_v", "to", "supervisor.x").set("heater_probe.a", "supervisor.heater_temp_v", "to", "supervisor.motor_temp_v").set("motor_thermistor.a", "supervisor.x", "to", "supervisor.heater_temp_v")),
    AIRFLOW_ALWAYS          (INPUT_OR_OUTPUT_TIED,      d -> d.set("heater_probe.airflow", "supervisor.heater_airflow", "from", "heater_probe.b").set("heater_probe.b", "supervisor.heater_airflow", "net", "sensor_ground")),
    BLOWER_ON_SENSOR_GROUND (GROUND_SHARED,             d -> d.set("heater_blower.minus", "chassis.heater", "to", "motor_thermistor.b").set("heater_blower.minus", "motor_thermistor.b", "net", "sensor_ground"), TERMINAL_CROWDED),
    BATTERY_GROUND_OF_BELL_WIRE (CONDUCTOR_TOO_SMALL,   d -> d.set("battery_12v.minus", "chassis.battery", "size_mm2", "4")),
    HEATER_ON_BOTH_SIDES    (SIDE_DIFFERS,              d -> d.set("inverter.plus", "fuse_heater.in", "from", "bar_pack_plus.9").set("bar_pack_plus.9", "fuse_heater.in", "net", "pack_fused")),
    CONVERTER_ON_A_BRANCH   (FUSE_ABOVE_CONDUCTOR,      d -> d.set("fuse_dcdc_out.out", "post_12v.2", "to", "node_control.30").set("fuse_dcdc_out.out", "node_control.30", "net", "lv_control"), FUSE_DIFFERS),
    LOOPS_EXCHANGED         (SIGNALS_SWAPPED,           d -> d.set("crash_switch.out", "supervisor.crash_loop_closed", "to", "supervisor.x").set("cover_switch.out", "supervisor.cover_loop_closed", "to", "supervisor.crash_loop_closed").set("crash_switch.out", "supervisor.x", "to", "supervisor.cover_loop_closed")),
    TWO_ON_ONE              (Rule.TERMINAL_IN_TWO_NETS, d -> d.set("crash_switch.out", "supervisor.crash_loop_closed", "to", "supervisor.cover_loop_closed"), SIGNAL_WITHOUT_WIRE),
    STAR_ON_ONE_PIN         (Rule.TERMINAL_CROWDED,     d -> d.addLike("pedal.ground", "supervisor.sensor_ground", "motor_thermistor.b", "supervisor.sensor_ground", "sensor_ground").addLike("pedal.ground", "supervisor.sensor_ground", "heater_probe.b", "supervisor.sensor_ground", "sensor_ground")),
    FEED_FORGOTTEN          (TERMINAL_UNWIRED,          d -> d.remove("relay_charge.out", "charger_1.plus")),
    WIRE_TO_NOWHERE         (Rule.NET_ONE_END,          d -> d.set("key_switch.start", "supervisor.start_request", "to", ""), NEEDED_SIGNAL_WITHOUT_WIRE),
    SLIP_IN_A_NAME          (NET_NAMES_ALIKE,           d -> d.set("shunt.load", "bar_pack_minus.1", "net", "pack_retrun")),
    SAME_NAME_TWICE         (Rule.NET_IN_PIECES,        d -> d.set("crash_switch.out", "supervisor.crash_loop_closed", "net", "cover_loop")),
    ROW_DOUBLED             (ROW_REPEATED,              d -> d.repeat("crash_switch.out", "supervisor.crash_loop_closed")),
    NUMBER_TWICE            (ROW_REPEATED,              d -> d.set("crash_switch.out", "supervisor.crash_loop_closed", "wire", "T001")),
    UNTWISTED_DATA          (PAIR_NOT_TWISTED,          d -> d.set("inverter.data_high", "charger_1.data_high", "twisted_with", "")),
    HALF_A_PAIR             (PAIR_NOT_TWISTED,          d -> d.remove("charger_2.data_low", "dash_panel.data_low").set("charger_2.data_high", "dash_panel.data_high", "twisted_with", "")),
    AIRFLOW_FORGOTTEN       (Rule.SIGNAL_WITHOUT_WIRE,  d -> d.remove("heater_probe.airflow", "supervisor.heater_airflow")),
    PERMIT_FORGOTTEN        (NEEDED_SIGNAL_WITHOUT_WIRE, d -> d.set("supervisor.data_high", "battery_monitor.data_high", "carries", "pack_voltage_v pack_current_a pack_hot_v pack_cold_v discharge_permit cell_max_v cell_min_v")),
    SIGNAL_MISSPELT         (WIRE_WITHOUT_SIGNAL,       d -> d.set("motor_thermistor.a", "supervisor.motor_temp_v", "to", "supervisor.motor_tmp_v"), Rule.SIGNAL_WITHOUT_WIRE),
    PART_MISSPELT           (PART_NOT_LISTED,           d -> d.set("crash_switch.out", "supervisor.crash_loop_closed", "from", "crash_swich.out"), TERMINAL_UNWIRED),
    PART_LEFT_OVER          (PART_NOT_WIRED,            d -> d.addPart("fuse_spare", "fuse", "32", "10")),
    SIZE_LEFT_OUT           (CELL_MISSING,              d -> d.set("heater.minus", "inverter.minus", "size_mm2", "")),
    RATING_LEFT_OUT         (RATING_MISSING,            d -> d.setPart("relay_heater", "rated_v", ""));
    // @formatter:on

    final Rule rule;
    final Consumer<Draft> plant;
    /** Rules that such a mistake breaks as well; anything else is a false alarm. */
    final Set<Rule> alsoBreaks = EnumSet.noneOf(Rule.class);

    Mistake(Rule rule, Consumer<Draft> plant, Rule... alsoBreaks) {
        this.rule = rule;
        this.plant = plant;
        this.alsoBreaks.addAll(Set.of(alsoBreaks));
    }
}
