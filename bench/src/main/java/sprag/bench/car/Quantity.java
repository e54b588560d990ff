package sprag.bench.car;

import static sprag.supervisor.vocabulary.Unit.AMPERE;
import static sprag.supervisor.vocabulary.Unit.CELSIUS;
import static sprag.supervisor.vocabulary.Unit.JOULE;
import static sprag.supervisor.vocabulary.Unit.KILO_OHM;
import static sprag.supervisor.vocabulary.Unit.KPH;
import static sprag.supervisor.vocabulary.Unit.METRE;
import static sprag.supervisor.vocabulary.Unit.MPS2;
import static sprag.supervisor.vocabulary.Unit.NEWTON_METRE;
import static sprag.supervisor.vocabulary.Unit.NUMBER;
import static sprag.supervisor.vocabulary.Unit.RPM;
import static sprag.supervisor.vocabulary.Unit.SWITCH;
import static sprag.supervisor.vocabulary.Unit.VOLT;
import static sprag.supervisor.vocabulary.Unit.WATT;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import sprag.supervisor.vocabulary.Unit;

/** Everything that is true about the car, whatever its sensors say. One row each. */
public enum Quantity {
    // @formatter:off
    //                       unit          group              what it is
    PACK_VOLTAGE_V          (VOLT,         Group.VOLTAGE,     "pack, at its terminals"),
    PACK_OCV_V              (VOLT,         Group.VOLTAGE,     "pack, at rest (open circuit)"),
    BUS_VOLTAGE_V           (VOLT,         Group.VOLTAGE,     "bus, at the inverter's capacitors"),
    EMF_V                   (VOLT,         Group.VOLTAGE,     "rectified voltage of the spinning motor"),
    CELL_MAX_V              (VOLT,         Group.CELLS,       "highest cell"),
    CELL_MIN_V              (VOLT,         Group.CELLS,       "lowest cell"),
    SOC                     (NUMBER,       Group.CHARGE,      "state of charge, 0 to 1"),
    PACK_CURRENT_A          (AMPERE,       Group.CURRENT,     "pack, positive out of the pack, mean of the last step"),
    CONTACTOR_CURRENT_A     (AMPERE,       Group.CURRENT,     "through the contactor box, positive towards the bus, mean of the last step"),
    CONTACTOR_PEAK_A        (AMPERE,       Group.CURRENT,     "greatest current through the contactor box in either direction, so far"),
    CHARGER_1_CURRENT_A     (AMPERE,       Group.CURRENT,     "first charger, direct current"),
    CHARGER_2_CURRENT_A     (AMPERE,       Group.CURRENT,     "second charger, direct current"),
    CHARGER_3_CURRENT_A     (AMPERE,       Group.CURRENT,     "third charger, direct current"),
    AC_CURRENT_A            (AMPERE,       Group.CURRENT,     "taken from the station, a phase, rms"),
    CABLE_LIMIT_A           (AMPERE,       Group.CURRENT,     "least of what station and cable allow, truly"),
    NEGATIVE_CLOSED         (SWITCH,       Group.CONTACTORS,  "negative contactor, its main contacts"),
    POSITIVE_CLOSED         (SWITCH,       Group.CONTACTORS,  "positive contactor, its main contacts"),
    PRECHARGE_CLOSED        (SWITCH,       Group.CONTACTORS,  "precharge relay, its contacts"),
    FUSE_BLOWN              (SWITCH,       Group.CONTACTORS,  "main fuse of the pack"),
    CONTACTOR_ARC_J         (JOULE,        Group.HARM,        "burnt in arcs of contacts opened under load, so far"),
    CONTACTOR_INRUSH_J      (JOULE,        Group.HARM,        "dissipated by closing onto a difference of voltage, so far"),
    PLUG_ARC_A              (AMPERE,       Group.HARM,        "greatest current at which the plug was pulled, so far"),
    LIVE_PLUG_MOVE_M        (METRE,        Group.HARM,        "driven with the plug in the inlet, so far"),
    SPEED_KPH               (KPH,          Group.MOTION,      "speed, positive forward"),
    ACCELERATION_MPS2       (MPS2,         Group.MOTION,      "acceleration, positive forward, mean of the last step"),
    DISTANCE_M              (METRE,        Group.MOTION,      "distance from the start, backwards counts negative"),
    ALTITUDE_M              (METRE,        Group.MOTION,      "height above the start"),
    MOTOR_SPEED_RPM         (RPM,          Group.MOTION,      "motor speed, positive forward"),
    MOTOR_TORQUE_NM         (NEWTON_METRE, Group.TORQUE,      "motor torque, positive drives forward"),
    MOTOR_POWER_W           (WATT,         Group.POWER,       "mechanical power of the motor"),
    INVERTER_POWER_W        (WATT,         Group.POWER,       "power the inverter takes from the bus"),
    HEATER_POWER_W          (WATT,         Group.POWER,       "power of the heater's element"),
    DCDC_POWER_W            (WATT,         Group.POWER,       "power the DC-DC converter takes"),
    PACK_TEMP_C             (CELSIUS,      Group.TEMPERATURE, "pack, mean"),
    MOTOR_TEMP_C            (CELSIUS,      Group.TEMPERATURE, "motor winding"),
    INVERTER_TEMP_C         (CELSIUS,      Group.TEMPERATURE, "inverter's heat sink"),
    COOLANT_TEMP_C          (CELSIUS,      Group.TEMPERATURE, "coolant; the air when there is none"),
    CHARGER_TEMP_C          (CELSIUS,      Group.TEMPERATURE, "chargers' heat sink"),
    HEATER_TEMP_C           (CELSIUS,      Group.TEMPERATURE, "heater's outlet"),
    RESISTOR_TEMP_C         (CELSIUS,      Group.TEMPERATURE, "precharge resistor"),
    LV_VOLTAGE_V            (VOLT,         Group.LOW_VOLTAGE, "12 V side"),
    LV_CURRENT_A            (AMPERE,       Group.LOW_VOLTAGE, "loads of the 12 V side"),
    DCDC_CURRENT_A          (AMPERE,       Group.LOW_VOLTAGE, "DC-DC converter, output"),
    LV_SOC                  (NUMBER,       Group.LOW_VOLTAGE, "12 V battery, 0 to 1"),
    PILOT_STATE             (NUMBER,       Group.INLET,       "what the station sees on the pilot: 0 A, 1 B, 2 C, 3 D, 4 E, 5 F"),
    PILOT_DUTY              (NUMBER,       Group.INLET,       "duty that the station sends, 1 is steady"),
    PLUG_IN                 (SWITCH,       Group.INLET,       "the plug is in the inlet"),
    PLUG_LOCKED             (SWITCH,       Group.INLET,       "the pin of the inlet's lock is out and holds the plug"),
    STATION_CLOSED          (SWITCH,       Group.INLET,       "station's contactor: mains on the inlet"),
    ISOLATION_KOHM          (KILO_OHM,     Group.ISOLATION,   "insulation resistance, traction against chassis"),
    PACK_ENERGY_OUT_J       (JOULE,        Group.ENERGY,      "taken from the pack's terminals less given back, so far"),
    PACK_STORED_OUT_J       (JOULE,        Group.ENERGY,      "taken from the cells' chemistry less given back, so far"),
    PACK_LOSS_J             (JOULE,        Group.ENERGY,      "heat in the cells, so far"),
    PACK_SLOW_J             (JOULE,        Group.ENERGY,      "held by the slow part of the cells, neither heat nor given out"),
    BOX_LOSS_J              (JOULE,        Group.ENERGY,      "heat in the contacts, so far"),
    RESISTOR_ENERGY_J       (JOULE,        Group.ENERGY,      "heat in the precharge resistor, so far"),
    BLEED_ENERGY_J          (JOULE,        Group.ENERGY,      "heat in the bleed resistor and in shorts of the bus, so far"),
    BUS_LOAD_ENERGY_J       (JOULE,        Group.ENERGY,      "taken by heater, DC-DC converter and loads left on, so far"),
    HEATER_ENERGY_J         (JOULE,        Group.ENERGY,      "taken by the heater's element, so far"),
    INVERTER_ENERGY_J       (JOULE,        Group.ENERGY,      "taken by the inverter from the bus less given back, so far"),
    INVERTER_LOSS_J         (JOULE,        Group.ENERGY,      "heat in the inverter, so far"),
    MOTOR_LOSS_J            (JOULE,        Group.ENERGY,      "heat in the motor, so far"),
    MOTOR_WORK_J            (JOULE,        Group.ENERGY,      "work of the motor's shaft less work done on it, so far"),
    GEAR_LOSS_J             (JOULE,        Group.ENERGY,      "heat in the gear, so far"),
    ROLLING_LOSS_J          (JOULE,        Group.ENERGY,      "rolling resistance, so far"),
    DRAG_LOSS_J             (JOULE,        Group.ENERGY,      "air drag, so far"),
    BRAKE_HEAT_J            (JOULE,        Group.ENERGY,      "friction brakes, so far"),
    KINETIC_J               (JOULE,        Group.ENERGY,      "kinetic energy"),
    POTENTIAL_J             (JOULE,        Group.ENERGY,      "height times weight, since the start"),
    BUS_STORED_J            (JOULE,        Group.ENERGY,      "in the bus capacitors"),
    CHARGER_ENERGY_J        (JOULE,        Group.ENERGY,      "given by the chargers, direct current, so far"),
    CHARGER_LOSS_J          (JOULE,        Group.ENERGY,      "heat in the chargers, so far"),
    AC_ENERGY_J             (JOULE,        Group.ENERGY,      "taken from the station, so far");
    // @formatter:on

    /** What belongs into one plot. */
    public enum Group {
        /** Traction voltages. */
        VOLTAGE,
        /** Cell voltages. */
        CELLS,
        /** State of charge. */
        CHARGE,
        /** Currents. */
        CURRENT,
        /** Positions of contacts. */
        CONTACTORS,
        /** What should stay at nothing. */
        HARM,
        /** Speed and place. */
        MOTION,
        /** Torque. */
        TORQUE,
        /** Power. */
        POWER,
        /** Temperatures. */
        TEMPERATURE,
        /** The 12 V side. */
        LOW_VOLTAGE,
        /** Pilot and station. */
        INLET,
        /** Insulation. */
        ISOLATION,
        /** Sums of energy. */
        ENERGY
    }

    /** How many quantities there are. */
    public static final int COUNT = values().length;

    /** What it is measured in. */
    public final Unit unit;
    /** What it is plotted with. */
    public final Group group;
    /** One sentence for people. */
    public final String meaning;

    Quantity(Unit unit, Group group, String meaning) {
        this.unit = unit;
        this.group = group;
        this.meaning = meaning;
    }

    /** The name in files and on pages, e.g. {@code bus_voltage_v}. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** The quantity of a name. */
    public static Optional<Quantity> of(String key) {
        return Arrays.stream(values()).filter(q -> q.key().equals(key)).findFirst();
    }
}
