package sprag.supervisor.vocabulary;

import static sprag.supervisor.vocabulary.Parameter.BUS_DISCHARGED_V;
import static sprag.supervisor.vocabulary.Parameter.BUS_MAX_V;
import static sprag.supervisor.vocabulary.Parameter.CELL_HIGH_V;
import static sprag.supervisor.vocabulary.Parameter.CELL_LOW_V;
import static sprag.supervisor.vocabulary.Parameter.CHARGER_HOT_C;
import static sprag.supervisor.vocabulary.Parameter.CHARGER_IGNORES_MS;
import static sprag.supervisor.vocabulary.Parameter.CHARGER_LAG_MS;
import static sprag.supervisor.vocabulary.Parameter.CHARGER_WARM_C;
import static sprag.supervisor.vocabulary.Parameter.CHARGE_CURRENT_A;
import static sprag.supervisor.vocabulary.Parameter.CHARGE_END_A;
import static sprag.supervisor.vocabulary.Parameter.CHARGE_HOT_C;
import static sprag.supervisor.vocabulary.Parameter.CHARGE_VOLTAGE_V;
import static sprag.supervisor.vocabulary.Parameter.CHARGE_WARM_C;
import static sprag.supervisor.vocabulary.Parameter.COOLANT_HOT_C;
import static sprag.supervisor.vocabulary.Parameter.COOLANT_WARM_C;
import static sprag.supervisor.vocabulary.Parameter.DRIVE_MAX_KPH;
import static sprag.supervisor.vocabulary.Parameter.DRIVE_REVERSE_MAX_KPH;
import static sprag.supervisor.vocabulary.Parameter.INVERTER_HOT_C;
import static sprag.supervisor.vocabulary.Parameter.INVERTER_WARM_C;
import static sprag.supervisor.vocabulary.Parameter.LV_LOST_V;
import static sprag.supervisor.vocabulary.Parameter.LV_LOW_V;
import static sprag.supervisor.vocabulary.Parameter.LV_SUPPORT_V;
import static sprag.supervisor.vocabulary.Parameter.MOTOR_HOT_C;
import static sprag.supervisor.vocabulary.Parameter.MOTOR_WARM_C;
import static sprag.supervisor.vocabulary.Parameter.PACK_CHARGE_MAX_A;
import static sprag.supervisor.vocabulary.Parameter.PACK_COLD_C;
import static sprag.supervisor.vocabulary.Parameter.PACK_COOL_C;
import static sprag.supervisor.vocabulary.Parameter.PACK_HOT_C;
import static sprag.supervisor.vocabulary.Parameter.PACK_MAX_V;
import static sprag.supervisor.vocabulary.Parameter.PACK_MIN_V;
import static sprag.supervisor.vocabulary.Parameter.PACK_NOMINAL_V;
import static sprag.supervisor.vocabulary.Parameter.PACK_WARM_C;
import static sprag.supervisor.vocabulary.Parameter.PEDAL_BRAKE_SHARE;
import static sprag.supervisor.vocabulary.Parameter.PEDAL_DEADBAND_SHARE;
import static sprag.supervisor.vocabulary.Parameter.PEDAL_MAX_V;
import static sprag.supervisor.vocabulary.Parameter.PEDAL_MIN_V;
import static sprag.supervisor.vocabulary.Parameter.PEDAL_RELEASED_SHARE;
import static sprag.supervisor.vocabulary.Parameter.PRECHARGE_FAST_MS;
import static sprag.supervisor.vocabulary.Parameter.PRECHARGE_MIN_MS;
import static sprag.supervisor.vocabulary.Parameter.PRECHARGE_STALL_MS;
import static sprag.supervisor.vocabulary.Parameter.PRECHARGE_TIMEOUT_MS;
import static sprag.supervisor.vocabulary.Parameter.REGEN_FADE_END_KPH;
import static sprag.supervisor.vocabulary.Parameter.REGEN_FADE_START_KPH;
import static sprag.supervisor.vocabulary.Parameter.REGEN_LAMP_OFF_MPS2;
import static sprag.supervisor.vocabulary.Parameter.REGEN_LAMP_ON_MPS2;
import static sprag.supervisor.vocabulary.Parameter.THERMISTOR_OPEN_V;
import static sprag.supervisor.vocabulary.Parameter.THERMISTOR_SHORT_V;

/** Pairs of values that contradict each other when the first is not below the second. One row each. */
public enum Consistency {
    // @formatter:off
    //                     must be less than       because otherwise
    PACK_RANGE            (PACK_MIN_V,            PACK_MAX_V,            "the pack has no usable range"),
    PACK_NOMINAL_LOW      (PACK_MIN_V,            PACK_NOMINAL_V,        "nominal lies below empty"),
    PACK_NOMINAL_HIGH     (PACK_NOMINAL_V,        PACK_MAX_V,            "nominal lies above full"),
    CHARGE_BELOW_PACK     (CHARGE_VOLTAGE_V,      PACK_MAX_V,            "the charge would pass the pack's limit"),
    CHARGE_ABOVE_NOMINAL  (PACK_NOMINAL_V,        CHARGE_VOLTAGE_V,      "a charge would be broken off as it began"),
    CHARGE_BELOW_CURRENT  (CHARGE_CURRENT_A,      PACK_CHARGE_MAX_A,     "the charge would pass the pack's current limit"),
    CHARGE_ENDS           (CHARGE_END_A,          CHARGE_CURRENT_A,      "the charge would end before it began"),
    BUS_ABOVE_PACK        (PACK_MAX_V,            BUS_MAX_V,             "a full pack would trip the bus limit"),
    BUS_DEAD_BELOW_PACK   (BUS_DISCHARGED_V,      PACK_MIN_V,            "a live bus would count as discharged"),
    CELLS_LOW             (Parameter.CELL_MIN_V,  CELL_LOW_V,            "a cell would stop the car before it is limited"),
    CELLS_SPAN            (CELL_LOW_V,            CELL_HIGH_V,           "no cell voltage would be good"),
    CELLS_HIGH            (CELL_HIGH_V,           Parameter.CELL_MAX_V,  "a cell would trip before the charge is pulled back"),
    PACK_COLD             (PACK_COLD_C,           PACK_COOL_C,           "cold would not come before cool"),
    PACK_COOL             (PACK_COOL_C,           PACK_WARM_C,           "no pack temperature would be good"),
    PACK_HOT              (PACK_WARM_C,           PACK_HOT_C,            "the stop would come before the limit"),
    CHARGE_WARM           (CHARGE_WARM_C,         CHARGE_HOT_C,          "the stop would come before the reduction"),
    MOTOR_HOT             (MOTOR_WARM_C,          MOTOR_HOT_C,           "the stop would come before the limit"),
    INVERTER_HOT          (INVERTER_WARM_C,       INVERTER_HOT_C,        "the stop would come before the limit"),
    COOLANT_HOT           (COOLANT_WARM_C,        COOLANT_HOT_C,         "the stop would come before the limit"),
    CHARGER_OBEYS         (CHARGER_LAG_MS,        CHARGER_IGNORES_MS,    "every charger would be called disobedient"),
    CHARGER_HOT           (CHARGER_WARM_C,        CHARGER_HOT_C,         "the stop would come before the reduction"),
    PRECHARGE_FAST        (PRECHARGE_FAST_MS,     PRECHARGE_MIN_MS,      "every good precharge would be called too fast"),
    PRECHARGE_SLOW        (PRECHARGE_MIN_MS,      PRECHARGE_TIMEOUT_MS,  "every precharge would be called too slow"),
    PRECHARGE_STALL       (PRECHARGE_STALL_MS,    PRECHARGE_TIMEOUT_MS,  "a stall could never be told"),
    PEDAL_RANGE           (PEDAL_MIN_V,           PEDAL_MAX_V,           "no pedal voltage would be good"),
    PEDAL_RELEASED        (PEDAL_DEADBAND_SHARE,  PEDAL_RELEASED_SHARE,  "the pedal could act while it counts as released"),
    PEDAL_BRAKE           (PEDAL_RELEASED_SHARE,  PEDAL_BRAKE_SHARE,     "torque would return at once after pedal and brake"),
    FADE                  (REGEN_FADE_END_KPH,    REGEN_FADE_START_KPH,  "regeneration would not fade before standstill"),
    REGEN_DEMAND          (Parameter.REGEN_DEMAND_REST_V, Parameter.REGEN_DEMAND_FULL_V, "a lever at rest would brake"),
    BRAKE_LAMP            (REGEN_LAMP_OFF_MPS2,   REGEN_LAMP_ON_MPS2,    "the brake lamp would flicker"),
    THERMISTOR_RANGE      (THERMISTOR_SHORT_V,    THERMISTOR_OPEN_V,     "no temperature would be good"),
    LV_ORDER              (LV_LOST_V,             LV_LOW_V,              "12 V would be lost before it is low"),
    LV_SUPPORT            (LV_LOW_V,              LV_SUPPORT_V,          "on the cable the 12 V battery would be helped only when it is low"),
    REVERSE_BELOW_FORWARD (DRIVE_REVERSE_MAX_KPH, DRIVE_MAX_KPH,         "reverse would be faster than forward");
    // @formatter:on

    /** The value that must be less. */
    public final Parameter lower;
    /** The value that must be more. */
    public final Parameter upper;
    /** What follows when it is not. */
    public final String otherwise;

    Consistency(Parameter lower, Parameter upper, String otherwise) {
        this.lower = lower;
        this.upper = upper;
        this.otherwise = otherwise;
    }

    /** Whether a vehicle's values agree with this row.
     *
     * @param lowerValue the value of {@link #lower}
     * @param upperValue the value of {@link #upper}
     * @return true when there is no contradiction
     */
    public boolean holds(double lowerValue, double upperValue) {
        return lowerValue < upperValue;
    }
}
