package sprag.bench.review.report;

import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.Map;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** What can no longer be detected without an optional signal. One row for each optional signal. */
public enum Cover {
    // @formatter:off
    PEDAL_B           (Signal.PEDAL_B_V,            "a single track that lies within its range is believed: a wiper stuck or drifting at half travel drives the car, and nothing contradicts it"),
    PEDAL_SUPPLY      (Signal.PEDAL_SUPPLY_V,       "a sagging or raised 5 V reference scales the pedal on both tracks alike, so the tracks still agree and the torque is wrong"),
    REGEN_DEMAND      (Signal.REGEN_DEMAND_V,       "brake pressure or a lever cannot ask for regeneration: the pedal alone does"),
    HEATER_REQUEST    (Signal.HEATER_REQUEST,       "nobody can ask for heat, so the heater stays off"),
    COVER_LOOP        (Signal.COVER_LOOP_CLOSED,    "a traction connector pulled, or a lid lifted, while live is not seen: the contactors stay closed over bare contacts"),
    CRASH_LOOP        (Signal.CRASH_LOOP_CLOSED,    "after a crash the contactors stay closed until somebody presses the cut-off"),
    NEGATIVE_AUX      (Signal.NEGATIVE_AUX_CLOSED,  "a negative contactor that is welded or did not close shows only through the bus voltage, and behind a closed positive one not at all"),
    POSITIVE_AUX      (Signal.POSITIVE_AUX_CLOSED,  "a positive contactor that is welded or did not close shows only through the bus voltage, seconds later when a bleed hides it"),
    PRECHARGE_AUX     (Signal.PRECHARGE_AUX_CLOSED, "a precharge relay stuck closed shows only as a bus that stays live after opening; until then its resistor carries whatever the bus draws"),
    INVERTER_FAULT    (Signal.INVERTER_FAULT,       "an inverter that knows it is faulty but still reports ready is believed until its torque is wrong"),
    WHEEL_SPEED       (Signal.WHEEL_SPEED_KPH,      "the motor speed is compared with nothing: one that drifts, or is lost at standstill, is believed until torque or current contradict it"),
    MOTOR_TEMP        (Signal.MOTOR_TEMP_V,         "a motor that overheats is neither limited nor stopped: the first sign is the smell of the winding"),
    INVERTER_TEMP     (Signal.INVERTER_TEMP_V,      "a hot power stage is only known to the inverter itself, which then cuts torque without warning"),
    COOLANT_TEMP      (Signal.COOLANT_TEMP_V,       "a stopped pump, lost coolant or boiling is not seen; only the parts' own temperatures rise, later"),
    PACK_CURRENT_2    (Signal.PACK_CURRENT_2_A,     "the pack current is compared with nothing: a sensor that drifts or sticks within its range is believed, and over-current and gauge follow it"),
    CELL_MAX          (Signal.CELL_MAX_V,           "one cell overcharged in a pack whose total is right is left to the battery monitor's permit alone"),
    CELL_MIN          (Signal.CELL_MIN_V,           "one cell over-discharged in a pack whose total is right is left to the battery monitor's permit alone"),
    ISOLATION         (Signal.ISOLATION_KOHM,       "the first fault from traction to the body goes unnoticed; the second one is a shock or a fire"),
    PILOT             (Signal.PILOT_PEAK_V,         "no pilot: nobody says what the supply can bear, so inlet.max_a is taken on trust and a weaker socket or lead overheats; one sign of the plug instead of three"),
    PILOT_DUTY        (Signal.PILOT_DUTY,           "no offer of current: a supply that must give less can only trip its breaker"),
    PROXIMITY         (Signal.PROXIMITY_V,          "no proximity contact: a plug that is not fully home and a lead made for less current are not seen, and nothing tells before the plug's contacts part under load"),
    PLUG_PRESENT      (Signal.PLUG_PRESENT,         "no plug switch: the lead is seen only while a charger says that it has mains, so with a dead socket or a failed charger the car can be driven off with its lead in"),
    CHARGER_1_OK      (Signal.CHARGER_1_OK,         "a charger that has failed is not told from one that waits: the charge is said to be on while nothing flows"),
    CHARGER_2_OK      (Signal.CHARGER_2_OK,         "a second charger that has failed is not told from one that waits: its share of the inlet's current is given to nobody"),
    CHARGER_3_OK      (Signal.CHARGER_3_OK,         "a third charger that has failed is not told from one that waits: its share of the inlet's current is given to nobody"),
    CHARGER_1_CURRENT (Signal.CHARGER_1_CURRENT_A,  "the first charger that gives more than its share is seen only in the sum of all; with a pack current that reads too low, not at all"),
    CHARGER_2_CURRENT (Signal.CHARGER_2_CURRENT_A,  "the second charger that gives more than its share is seen only in the sum of all; with a pack current that reads too low, not at all"),
    CHARGER_3_CURRENT (Signal.CHARGER_3_CURRENT_A,  "the third charger that gives more than its share is seen only in the sum of all; with a pack current that reads too low, not at all"),
    CHARGER_1_VOLTAGE (Signal.CHARGER_1_VOLTAGE_V,  "the first charger's own voltage is compared with nothing: a pack voltage that reads too low lets it charge on, up to the cells' limits"),
    CHARGER_2_VOLTAGE (Signal.CHARGER_2_VOLTAGE_V,  "the second charger's own voltage is compared with nothing: a pack voltage that reads too low lets it charge on, up to the cells' limits"),
    CHARGER_3_VOLTAGE (Signal.CHARGER_3_VOLTAGE_V,  "the third charger's own voltage is compared with nothing: a pack voltage that reads too low lets it charge on, up to the cells' limits"),
    CHARGER_TEMP      (Signal.CHARGER_TEMP_V,       "a charger that overheats is left to its own protection, if it has one"),
    PLUG_LOCK         (Signal.PLUG_LOCKED,          "nothing tells that the plug is held: a type-2 plug pulled under charge arcs with the full mains current (10 to 31 A on the simulated cars) where no lock holds it; a type-1 plug tells by its latch button first"),
    HEATER_AIRFLOW    (Signal.HEATER_AIRFLOW,       "a blower that does not blow is not seen: the element is switched on into still air"),
    HEATER_TEMP       (Signal.HEATER_TEMP_V,        "a heater box that overheats with the air flowing is not seen");
    // @formatter:on

    private static final String NO_INLET =
            "no inlet: a charger that somebody connects to the pack in the car is not seen, and the car can be driven with it";

    private static final Map<Signal, Cover> BY_SIGNAL = new EnumMap<>(Signal.class);

    static {
        for (Cover row : values()) {
            BY_SIGNAL.put(row.signal, row);
        }
    }

    private final Signal signal;
    private final String lost;

    Cover(Signal signal, String lost) {
        this.signal = signal;
        this.lost = lost;
    }

    /** What is lost without a signal; null for one that every vehicle has. */
    public static String lostWithout(Signal signal) {
        Cover row = BY_SIGNAL.get(signal);
        return row == null ? null : row.lost;
    }

    /** What a vehicle cannot detect.
     *
     * @return for each signal that is lacking, what is lost; a signal of an inlet or a charger that is not there is no loss
     */
    public static Map<Signal, String> lost(Settings settings) {
        Map<Signal, String> lost = new LinkedHashMap<>();
        for (Cover row : values()) {
            if (!settings.has(row.signal) && hasPart(settings, row.signal)) {
                lost.put(row.signal, row.lost);
            }
        }
        if (settings.is(Parameter.INLET_KIND, "none")) {
            lost.put(Signal.PLUG_PRESENT, NO_INLET);
        }
        return lost;
    }

    private static boolean hasPart(Settings settings, Signal signal) {
        boolean inlet = !settings.is(Parameter.INLET_KIND, "none");
        double chargers = settings.get(Parameter.CHARGER_COUNT);
        return switch (signal) {
            case CHARGER_2_OK, CHARGER_2_CURRENT_A, CHARGER_2_VOLTAGE_V -> inlet && chargers >= 2;
            case CHARGER_3_OK, CHARGER_3_CURRENT_A, CHARGER_3_VOLTAGE_V -> inlet && chargers >= 3;
            case REGEN_DEMAND_V -> !settings.is(Parameter.REGEN_BY, "pedal");
            case PLUG_LOCKED, CHARGER_TEMP_V, CHARGER_1_CURRENT_A, CHARGER_1_VOLTAGE_V -> inlet;
            default -> inlet || signal.fit == Signal.Fit.OPTIONAL;
        };
    }
}
