package sprag.supervisor.vocabulary;

import static sprag.supervisor.vocabulary.Unit.AMPERE;
import static sprag.supervisor.vocabulary.Unit.KILO_OHM;
import static sprag.supervisor.vocabulary.Unit.KPH;
import static sprag.supervisor.vocabulary.Unit.NUMBER;
import static sprag.supervisor.vocabulary.Unit.RPM;
import static sprag.supervisor.vocabulary.Unit.SWITCH;
import static sprag.supervisor.vocabulary.Unit.VOLT;

import java.util.Locale;

/**
 * Everything that can be sampled, as it stands on the connector: volts, amperes, switch states. One row each.
 *
 * <p>A switch reads 0 or 1. Any reading may be NaN, which means that nobody knows: the wire is not sampled, the sample is
 * too old, the link is down. What an unknown reading means is decided by the conditioner, always to the safe side.
 */
public enum Signal {
    // @formatter:off
    //                    unit      min    max    fitted     what it is
    // the driver
    KEY_ON               (SWITCH,     0,     1, Fit.ALWAYS,   "key switch in the drive position"),
    START_REQUEST        (SWITCH,     0,     1, Fit.ALWAYS,   "start button or crank position of the key, held by hand"),
    FORWARD_SWITCH       (SWITCH,     0,     1, Fit.ALWAYS,   "direction lever at forward"),
    REVERSE_SWITCH       (SWITCH,     0,     1, Fit.ALWAYS,   "direction lever at reverse"),
    BRAKE_PRESSED        (SWITCH,     0,     1, Fit.ALWAYS,   "brake pedal switch"),
    PEDAL_A_V            (VOLT,       0,     5, Fit.ALWAYS,   "wiper of the first pedal track"),
    PEDAL_B_V            (VOLT,       0,     5, Fit.OPTIONAL, "wiper of the second pedal track"),
    PEDAL_SUPPLY_V       (VOLT,       0,     6, Fit.OPTIONAL, "5 V reference of the pedal, measured at the connector"),
    REGEN_LEVEL          (NUMBER,     0,     4, Fit.ALWAYS,   "regeneration level chosen by the driver, 0 is coast"),
    REGEN_DEMAND_V       (VOLT,       0,     5, Fit.OPTIONAL, "brake pressure sensor or hand lever that asks for regeneration"),
    SERVICE_RESET        (SWITCH,     0,     1, Fit.ALWAYS,   "reset button at the supervisor, out of the driver's reach"),
    HEATER_REQUEST       (SWITCH,     0,     1, Fit.OPTIONAL, "cabin heat asked for"),
    // loops: a broken wire opens them
    CUT_LOOP_CLOSED      (SWITCH,     0,     1, Fit.ALWAYS,   "emergency cut-off and service switch, closed when well"),
    COVER_LOOP_CLOSED    (SWITCH,     0,     1, Fit.OPTIONAL, "connectors and lids of traction parts, closed when well"),
    CRASH_LOOP_CLOSED    (SWITCH,     0,     1, Fit.OPTIONAL, "inertia switch, closed when well"),
    // contactor box
    NEGATIVE_AUX_CLOSED  (SWITCH,     0,     1, Fit.OPTIONAL, "auxiliary contact of the negative contactor"),
    POSITIVE_AUX_CLOSED  (SWITCH,     0,     1, Fit.OPTIONAL, "auxiliary contact of the positive contactor"),
    PRECHARGE_AUX_CLOSED (SWITCH,     0,     1, Fit.OPTIONAL, "auxiliary contact of the precharge relay"),
    // inverter and motor
    INVERTER_READY       (SWITCH,     0,     1, Fit.ALWAYS,   "inverter says it can make torque"),
    INVERTER_FAULT       (SWITCH,     0,     1, Fit.OPTIONAL, "inverter says it has a fault"),
    MOTOR_SPEED_RPM      (RPM,   -20000, 20000, Fit.ALWAYS,   "motor speed, positive forward"),
    WHEEL_SPEED_KPH      (KPH,        0,   300, Fit.OPTIONAL, "a second speed, of an undriven wheel or the gearbox, without a sign"),
    MOTOR_TEMP_V         (VOLT,       0,     5, Fit.OPTIONAL, "thermistor divider in the motor winding"),
    INVERTER_TEMP_V      (VOLT,       0,     5, Fit.OPTIONAL, "thermistor divider on the inverter's heat sink"),
    COOLANT_TEMP_V       (VOLT,       0,     5, Fit.OPTIONAL, "thermistor divider in the coolant"),
    // pack
    DISCHARGE_PERMIT     (SWITCH,     0,     1, Fit.ALWAYS,   "battery monitor allows current out of the pack"),
    CHARGE_PERMIT        (SWITCH,     0,     1, Fit.ALWAYS,   "battery monitor allows current into the pack"),
    PACK_HOT_V           (VOLT,       0,     5, Fit.ALWAYS,   "thermistor divider at the warmest place of the pack"),
    PACK_COLD_V          (VOLT,       0,     5, Fit.ALWAYS,   "thermistor divider at the coldest place of the pack"),
    PACK_VOLTAGE_V       (VOLT,       0,  1000, Fit.ALWAYS,   "pack voltage on the pack side of the contactors"),
    BUS_VOLTAGE_V        (VOLT,       0,  1000, Fit.ALWAYS,   "bus voltage on the inverter side of the contactors"),
    PACK_CURRENT_A       (AMPERE, -2000,  2000, Fit.ALWAYS,   "pack current, positive out of the pack"),
    PACK_CURRENT_2_A     (AMPERE, -2000,  2000, Fit.OPTIONAL, "pack current by a second sensor of another kind, positive out of the pack"),
    CELL_MAX_V           (VOLT,       0,     5, Fit.OPTIONAL, "highest cell, from the battery monitor"),
    CELL_MIN_V           (VOLT,       0,     5, Fit.OPTIONAL, "lowest cell, from the battery monitor"),
    ISOLATION_KOHM       (KILO_OHM,   0, 100000, Fit.OPTIONAL, "insulation resistance, traction against chassis"),
    LV_SUPPLY_V          (VOLT,       0,    36, Fit.ALWAYS,   "supply of the supervisor and the contactor coils"),
    // inlet and chargers
    PLUG_PRESENT         (SWITCH,     0,     1, Fit.INLET,    "inlet switch: a connector is in the inlet"),
    PILOT_PEAK_V         (VOLT,     -15,    15, Fit.PILOT,    "positive peak of the control pilot at the inlet"),
    PILOT_DUTY           (NUMBER,     0,     1, Fit.PILOT,    "duty of the control pilot, 1 is steady"),
    PROXIMITY_V          (VOLT,       0,     5, Fit.PILOT,    "proximity contact, 5 V through the vehicle's pull-up"),
    PLUG_LOCKED          (SWITCH,     0,     1, Fit.OPTIONAL, "contact of the inlet's lock: closed while its pin holds the plug"),
    CHARGER_1_OK         (SWITCH,     0,     1, Fit.INLET,    "first charger ready and without fault; on a plain lead without a plug switch also: it has mains"),
    CHARGER_2_OK         (SWITCH,     0,     1, Fit.OPTIONAL, "second charger ready and without fault"),
    CHARGER_3_OK         (SWITCH,     0,     1, Fit.OPTIONAL, "third charger ready and without fault"),
    CHARGER_1_CURRENT_A  (AMPERE,     0,  1000, Fit.OPTIONAL, "direct current that the first charger says it gives"),
    CHARGER_2_CURRENT_A  (AMPERE,     0,  1000, Fit.OPTIONAL, "direct current that the second charger says it gives"),
    CHARGER_3_CURRENT_A  (AMPERE,     0,  1000, Fit.OPTIONAL, "direct current that the third charger says it gives"),
    CHARGER_1_VOLTAGE_V  (VOLT,       0,  1000, Fit.OPTIONAL, "voltage that the first charger measures at its output"),
    CHARGER_2_VOLTAGE_V  (VOLT,       0,  1000, Fit.OPTIONAL, "voltage that the second charger measures at its output"),
    CHARGER_3_VOLTAGE_V  (VOLT,       0,  1000, Fit.OPTIONAL, "voltage that the third charger measures at its output"),
    CHARGER_TEMP_V       (VOLT,       0,     5, Fit.OPTIONAL, "thermistor divider on the chargers' heat sink"),
    // auxiliaries
    HEATER_AIRFLOW       (SWITCH,     0,     1, Fit.OPTIONAL, "airflow switch behind the heater's blower"),
    HEATER_TEMP_V        (VOLT,       0,     5, Fit.OPTIONAL, "thermistor divider at the heater's outlet"),
    // the loop about itself
    LOOP_OVERRUN         (SWITCH,     0,     1, Fit.ALWAYS,   "the last tick came too late or took too long"),
    LINK_LOST            (SWITCH,     0,     1, Fit.ALWAYS,   "the link to an I/O board is down");
    // @formatter:on

    /** Whether a vehicle may do without a signal. */
    public enum Fit {
        /** Every vehicle has it. */
        ALWAYS,
        /** A vehicle may lack it and loses cover thereby; its file says so under {@code signals.fitted}. */
        OPTIONAL,
        /** Every vehicle whose inlet has a pilot has it; where {@code inlet.kind} has none it is optional. */
        INLET,
        /** Every vehicle whose inlet has a pilot has it, and no other. */
        PILOT
    }

    /** How many signals there are; {@link Readings} keeps a bit of a long for each. */
    public static final int COUNT = Bounds.counted(values().length, Long.SIZE, "signals");

    /** What it is measured in. */
    public final Unit unit;
    /** The least value that a sound wire can show. */
    public final double min;
    /** The greatest value that a sound wire can show. */
    public final double max;
    /** True when a vehicle may lack it. */
    public final boolean optional;
    /** Which vehicles have it. */
    public final Fit fit;
    /** One sentence for people. */
    public final String meaning;

    Signal(Unit unit, double min, double max, Fit fit, String meaning) {
        this.unit = unit;
        this.min = min;
        this.max = max;
        this.optional = fit == Fit.OPTIONAL;
        this.fit = fit;
        this.meaning = meaning;
    }

    /** The name in files, traces and on pages, e.g. {@code bus_voltage_v}.
     *
     * @return the name in lower case with its unit
     */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** Whether a vehicle has it.
     *
     * @param listed whether its file names it under {@code signals.fitted}
     * @param pilot whether its inlet has a pilot
     * @return true when it is fitted
     */
    boolean isFitted(boolean listed, boolean pilot) {
        return switch (fit) {
            case ALWAYS -> true;
            case OPTIONAL -> listed;
            case INLET -> pilot || listed;
            case PILOT -> pilot;
        };
    }

    /** Whether it is a switch rather than a measured quantity.
     *
     * @return true for a switch
     */
    public boolean isSwitch() {
        return unit == SWITCH;
    }
}
