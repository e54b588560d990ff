package sprag.supervisor.vocabulary;

import java.util.List;

/**
 * Everything that Logic may ask about the vehicle. Each fact has a small number of values, so Logic is a finite machine.
 *
 * <p>All thresholds, hysteresis and debouncing end here: {@link #detection} names the parameter that says how long a cause
 * must last before its fact is true. A fact that warns is true when the matter is bad <em>or unknown</em>.
 */
public enum Fact {
    // @formatter:off
    // what the driver and the vehicle are doing
    KEY_ON                   (atOnce(), "the key is on"),
    KEY_OFF                  (atOnce(), "the key is known to be off; a key that nobody can read is neither on nor off"),
    START_REQUESTED          (atOnce(), "the start button is known to be held"),
    START_RELEASED           (atOnce(), "the start button is known to be released; one that nobody can read is neither held nor released"),
    SERVICE_RESET            (atOnce(), "the service reset is held"),
    DIRECTION                (List.of("NEUTRAL", "FORWARD", "REVERSE"), "the direction lever; both switches count as neutral"),
    BRAKE_PRESSED            (atOnce(), "the brake pedal is pressed"),
    PEDAL_RELEASED           (atOnce(), "every fitted pedal track is sound and below the released share"),
    STANDSTILL               (atOnce(), "the car stands or nearly so, and the speed is known"),
    PLUG_SEEN                (atOnce(), "any sign of a plug: switch, proximity or pilot, or one of them unknown"),
    BUS_LEVEL                (List.of("DISCHARGED", "PARTIAL", "CHARGED"), "how far the bus is charged"),
    BUS_FLAT                 (atOnce(), "the rise of the bus has flattened"),
    CURRENT_LOW              (atOnce(), "no torque is asked for and the pack current is small enough to open contactors"),
    BACK_EMF_HIGH            (atOnce(), "a spinning permanent-magnet motor would lift an open bus above its limit"),
    NEGATIVE_CONFIRMED       (atOnce(), "the negative contactor is closed by its contact, or has no contact"),
    POSITIVE_CONFIRMED       (atOnce(), "the positive contactor is closed by its contact, or has no contact"),
    CHARGE_OFFERED           (atOnce(), "station, cable and plug are sound and offer current"),
    PLUG_HELD                (atOnce(), "the inlet's lock holds the plug, or the car has no lock"),
    PLUG_RELEASED            (atOnce(), "the plug is seen to be let go: its switch off, proximity open, or the latch pressed"),
    PLUG_WANTED              (atOnce(), "start is held or unknown while a plug is in an inlet with a lock: somebody wants the plug"),
    CHARGE_DUE               (atOnce(), "the pack wants charge: not finished, or fallen since"),
    CHARGE_DONE              (atOnce(), "the charge has reached its end"),
    CHARGE_RETRY             (atOnce(), "the wait after a refusal is over"),

    // causes that open everything
    CUT_LOOP_OPEN            (atOnce(), "the emergency cut-off or service switch is open"),
    CRASH_SEEN               (atOnce(), "the inertia switch has opened"),
    LV_LOST                  (Parameter.LV_LOST_MS,          "the 12 V supply is too low to hold contactors"),
    NEGATIVE_WELDED          (Parameter.CONTACTOR_RELEASE_MS, "the negative contactor is released but its contact says closed"),
    POSITIVE_WELDED          (Parameter.CONTACTOR_RELEASE_MS, "the positive contactor is released but its contact says closed"),
    PRECHARGE_WELDED         (Parameter.CONTACTOR_RELEASE_MS, "the precharge relay is released but its contact says closed"),
    BUS_STILL_LIVE           (Parameter.BUS_BLEED_MS,        "the bus is live long after everything was asked to open"),
    BUS_STALLED              (Parameter.PRECHARGE_STALL_MS,  "the bus stopped rising below the done fraction"),
    BUS_REVERSED             (Parameter.LOOP_BLIND_MS,       "the bus falls, or is negative, while it should rise"),
    RESISTOR_OVERLOADED      (atOnce(), "the precharge resistor holds more heat than it may"),
    CHARGER_RUNS_ON          (Parameter.CHARGER_LAG_MS,      "charge current flows, or a charger says so, although none is asked for"),

    // causes that stop, then open
    COVER_LOOP_OPEN          (Parameter.LOOP_BLIND_MS,       "a traction connector or lid is open"),
    PACK_OVERHEATED          (Parameter.PACK_TRIP_MS,        "the pack is too hot"),
    PACK_OVERVOLTAGE         (Parameter.PACK_TRIP_MS,        "the pack is above its maximum voltage"),
    PACK_UNDERVOLTAGE        (Parameter.PACK_TRIP_MS,        "the pack is below its minimum voltage"),
    CELL_OVERVOLTAGE         (Parameter.CELL_TRIP_MS,        "a cell is above its maximum voltage"),
    CELL_UNDERVOLTAGE        (Parameter.CELL_TRIP_MS,        "a cell is below its minimum voltage"),
    PACK_OVERCURRENT         (Parameter.PACK_OVER_MS,        "the pack current is above its limit, either way"),
    READINGS_LOST            (Parameter.LOOP_BLIND_MS,       "pack voltage, bus voltage, pack current or inertia switch is unknown"),
    LINK_LOST                (Parameter.LOOP_BLIND_MS,       "the link to an I/O board is down"),
    LOOP_LATE                (Parameter.LOOP_BLIND_MS,       "tick after tick came too late"),
    GATE_VETOED              (atOnce(), "the gate had to overrule the logic in the last tick"),
    BUS_LOST                 (Parameter.BUS_LOST_MS,         "the bus fell away from the pack although the contactors should be closed"),
    NEGATIVE_DROPPED         (Parameter.CONTACTOR_CLOSE_MS,  "the negative contactor is energised but its contact says open"),
    POSITIVE_DROPPED         (Parameter.CONTACTOR_CLOSE_MS,  "the positive contactor is energised but its contact says open"),
    TORQUE_UNASKED           (Parameter.DRIVE_UNASKED_MS,    "more traction current flows than the torque asked for can take"),
    CHARGE_OVERVOLTAGE       (Parameter.CHARGE_OVER_MS,      "pack or charger is above the charge voltage by more than the tolerance"),

    // causes that take the torque away
    PEDAL_OUT_OF_RANGE       (Parameter.PEDAL_RANGE_MS,      "a pedal track is open, shorted or unknown"),
    PEDAL_SHORTED            (Parameter.PEDAL_RANGE_MS,      "the two pedal tracks show the same voltage"),
    PEDAL_REFERENCE_WRONG    (Parameter.PEDAL_RANGE_MS,      "the 5 V reference of the pedal is off"),
    PEDAL_DISAGREES          (Parameter.PEDAL_DISAGREE_MS,   "the two pedal tracks disagree about the travel"),
    PEDAL_WITH_BRAKE         (atOnce(), "the pedal is well pressed while the brake is on"),
    PEDAL_STILL              (Parameter.PEDAL_STILL_MS,      "the pedal is not released and has not moved at all while the brake is on"),
    DIRECTION_CONFLICT       (atOnce(), "both direction switches are on, or one is unknown"),
    INVERTER_FAULTED         (atOnce(), "the inverter reports a fault"),
    INVERTER_NOT_READY       (Parameter.INVERTER_READY_MS,   "the inverter does not say it is ready"),
    SPEED_LOST               (Parameter.LOOP_BLIND_MS,       "the motor speed is unknown"),
    SPEED_DOUBTED            (atOnce(), "the motor speed has changed as no wheel can or has not moved under torque or differs from the second speed, and has not proved itself since"),
    MOTOR_OVERHEATED         (Parameter.THERMISTOR_MS,       "the motor is too hot"),
    INVERTER_OVERHEATED      (Parameter.THERMISTOR_MS,       "the inverter is too hot"),
    COOLANT_OVERHEATED       (Parameter.THERMISTOR_MS,       "the coolant is too hot"),
    BUS_OVERVOLTAGE          (Parameter.BUS_OVER_MS,         "the bus is above its limit"),
    DISCHARGE_WITHDRAWN      (Parameter.LOOP_BLIND_MS,       "the battery monitor does not allow current out of the pack"),

    // causes that limit
    MOTOR_WARM               (Parameter.THERMISTOR_MS,       "the motor is warm enough to be spared"),
    INVERTER_WARM            (Parameter.THERMISTOR_MS,       "the inverter is warm enough to be spared"),
    COOLANT_WARM             (Parameter.THERMISTOR_MS,       "the coolant is warm enough to spare the drive"),
    COOLING_LOST             (Parameter.THERMISTOR_MS,       "the inverter is far hotter than the coolant: no flow"),
    PACK_WARM                (Parameter.PACK_TRIP_MS,        "the pack is warm enough to be spared"),
    PACK_COOL                (Parameter.PACK_TRIP_MS,        "the pack is too cool for full charge current"),
    PACK_FULL                (Parameter.CELL_TRIP_MS,        "pack or cells are close to full: less regeneration"),
    PACK_LOW                 (atOnce(), "pack or lowest cell are close to empty under this load, or unknown: less drive"),
    CHARGE_WITHDRAWN         (Parameter.LOOP_BLIND_MS,       "the battery monitor does not allow current into the pack"),
    DRIVE_SENSOR_LOST        (Parameter.THERMISTOR_MS,       "a thermistor of motor, inverter or coolant is open or shorted"),
    PACK_SENSOR_LOST         (Parameter.THERMISTOR_MS,       "a thermistor of the pack is open or shorted"),
    MONITOR_SILENT           (Parameter.CELL_TRIP_MS,        "the battery monitor's cell voltages are unknown"),
    CURRENTS_APART           (Parameter.PACK_APART_MS,       "two pack currents differ, or the second one is unknown"),
    LV_LOW                   (Parameter.LV_LOW_MS,           "the 12 V supply sags"),
    ISOLATION_LOW            (Parameter.ISOLATION_MS,        "insulation against chassis is below its limit"),
    ISOLATION_SILENT         (Parameter.ISOLATION_MS,        "insulation against chassis is unknown"),
    OVERSPEED                (Parameter.LOOP_BLIND_MS,       "the motor turns faster than it may"),

    // causes that keep a start or a charge from beginning
    PEDAL_REST_WRONG         (Parameter.PEDAL_RANGE_MS,      "the pedal seems released, but its tracks disagree there or lie below their rest"),
    RESISTOR_SPENT           (atOnce(), "the precharge resistor could not take another precharge yet"),
    PILOT_INVALID            (Parameter.INLET_STALE_MS,      "the control pilot makes no sense, or asks for what this car cannot do"),
    PROXIMITY_INVALID        (Parameter.INLET_STALE_MS,      "the proximity contact shows none of its known values"),
    PROXIMITY_MISSING        (Parameter.INLET_STALE_MS,      "a pilot is there but the proximity contact sees no plug"),
    PLUG_UNLOCKED            (Parameter.INLET_LOCK_MS,       "the inlet's lock is asked to hold the plug and is not seen to do so, or its contact never moves"),
    ROLLING_PLUGGED          (Parameter.LOOP_BLIND_MS,       "a plug is seen, and the car rolls above walking pace or nobody knows that it stands"),
    PACK_TOO_COLD            (Parameter.PACK_TRIP_MS,        "the pack is too cold to be charged"),
    PACK_TOO_WARM_TO_CHARGE  (Parameter.PACK_TRIP_MS,        "the pack is too warm to be charged"),
    CHARGER_OVERHEATED       (Parameter.THERMISTOR_MS,       "the chargers are too hot"),
    CHARGERS_LOST            (Parameter.INLET_STALE_MS,      "no charger says it is well"),
    CHARGE_TOO_LONG          (atOnce(), "the charge has taken longer than it may; until unplugged"),
    CHARGER_ABOVE_LIMIT      (Parameter.CHARGER_IGNORES_MS,  "far more charge current flows than the chargers' limits allow, in all or from one; until unplugged"),

    // causes that only warn
    HEATER_WITHOUT_AIR       (Parameter.HEATER_AIRFLOW_MS,   "the blower is asked for but no airflow is seen"),
    WHEEL_SPEED_LOST         (Parameter.LOOP_BLIND_MS,       "the second speed is unknown: nothing confirms the motor's"),
    ROLLING_AWAY             (Parameter.LOOP_BLIND_MS,       "the car rolls against the chosen direction"),
    REGEN_DEMAND_LOST        (Parameter.LOOP_BLIND_MS,       "brake pressure or the lever for regeneration shows what no sound sensor shows"),
    GAUGE_UNSURE             (atOnce(), "the state of charge is known only roughly");
    // @formatter:on

    /** How many facts there are; a {@link Watch} keeps a bit of two longs for each. */
    public static final int COUNT = Bounds.counted(values().length, 2 * Long.SIZE, "facts");

    /** The names of its values, in order; a yes-or-no fact has {@code NO} and {@code YES}. */
    public final List<String> labels;
    /** How long the cause must last before the fact is true; null when it takes effect in the same tick. */
    public final Parameter detection;
    /** One clause for people, true when the fact is. */
    public final String meaning;

    private static Parameter atOnce() {
        return null;
    }

    Fact(Parameter detection, String meaning) {
        this.labels = List.of("NO", "YES");
        this.detection = detection;
        this.meaning = meaning;
    }

    Fact(List<String> labels, String meaning) {
        this.labels = labels;
        this.detection = null;
        this.meaning = meaning;
    }
}
