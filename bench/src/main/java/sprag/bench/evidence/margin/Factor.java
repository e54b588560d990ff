package sprag.bench.evidence.margin;

import static sprag.bench.vehicle.CarParameter.BODY_BRAKE_N;
import static sprag.bench.vehicle.CarParameter.BODY_DRAG_AREA_M2;
import static sprag.bench.vehicle.CarParameter.BODY_MASS_KG;
import static sprag.bench.vehicle.CarParameter.BODY_ROLLING;
import static sprag.bench.vehicle.CarParameter.BOX_BOUNCE_MS;
import static sprag.bench.vehicle.CarParameter.BOX_CLOSE_MS;
import static sprag.bench.vehicle.CarParameter.BOX_HOLD_V;
import static sprag.bench.vehicle.CarParameter.BOX_PULL_IN_V;
import static sprag.bench.vehicle.CarParameter.BOX_RELAY_CLOSE_MS;
import static sprag.bench.vehicle.CarParameter.BOX_RELEASE_MS;
import static sprag.bench.vehicle.CarParameter.CELLS_CAPACITY_AH;
import static sprag.bench.vehicle.CarParameter.CELLS_POLAR_MOHM;
import static sprag.bench.vehicle.CarParameter.CELLS_RESISTANCE_MOHM;
import static sprag.bench.vehicle.CarParameter.CELLS_START_SHARE;
import static sprag.bench.vehicle.CarParameter.CHARGERS_RISE_A_PER_S;
import static sprag.bench.vehicle.CarParameter.DAY_AMBIENT_C;
import static sprag.bench.vehicle.CarParameter.LV_START_SHARE;
import static sprag.bench.vehicle.CarParameter.MACHINE_COPPER_W_PER_NM2;
import static sprag.bench.vehicle.CarParameter.MACHINE_IRON_W_PER_KRPM;
import static sprag.bench.vehicle.CarParameter.MACHINE_LAG_MS;
import static sprag.bench.vehicle.CarParameter.MACHINE_WAKE_MS;
import static sprag.bench.vehicle.CarParameter.PARTS_BLEED_OHM;
import static sprag.bench.vehicle.CarParameter.PARTS_CAPACITANCE_UF;
import static sprag.bench.vehicle.CarParameter.PARTS_PRECHARGE_OHM;
import static sprag.bench.vehicle.CarParameter.SENSORS_BUS_SHARE;
import static sprag.bench.vehicle.CarParameter.SENSORS_CELL_V;
import static sprag.bench.vehicle.CarParameter.SENSORS_CHARGER_K;
import static sprag.bench.vehicle.CarParameter.SENSORS_CURRENT_A;
import static sprag.bench.vehicle.CarParameter.SENSORS_CURRENT_SHARE;
import static sprag.bench.vehicle.CarParameter.SENSORS_INVERTER_K;
import static sprag.bench.vehicle.CarParameter.SENSORS_LV_SHARE;
import static sprag.bench.vehicle.CarParameter.SENSORS_MOTOR_K;
import static sprag.bench.vehicle.CarParameter.SENSORS_PACK_K;
import static sprag.bench.vehicle.CarParameter.SENSORS_PACK_SHARE;
import static sprag.bench.vehicle.CarParameter.SENSORS_PEDAL_A_V;
import static sprag.bench.vehicle.CarParameter.SENSORS_PEDAL_B_V;
import static sprag.bench.vehicle.CarParameter.SENSORS_PILOT_SHARE;
import static sprag.bench.vehicle.CarParameter.SENSORS_SUPPLY_SHARE;
import static sprag.bench.vehicle.CarParameter.THERMAL_INVERTER_W_PER_K;
import static sprag.bench.vehicle.CarParameter.THERMAL_MOTOR_W_PER_K;

import java.util.List;
import java.util.Locale;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Tolerance;

/** One thing in which cars of the same drawing differ. Factors are independent of each other. One row each. */
enum Factor {
    // @formatter:off
    CAPACITANCE       (Tolerance.CAPACITANCE,    "the bus capacitance",              (c, u) -> c.share(PARTS_CAPACITANCE_UF, Tolerance.CAPACITANCE, u)),
    PRECHARGE_RESISTOR(Tolerance.RESISTANCE,     "the precharge resistor",           (c, u) -> c.share(PARTS_PRECHARGE_OHM, Tolerance.RESISTANCE, u)),
    BLEED_RESISTOR    (Tolerance.RESISTANCE,     "the bleed resistor",               (c, u) -> c.share(PARTS_BLEED_OHM, Tolerance.RESISTANCE, u)),
    PACK_VOLTAGE      (Tolerance.VOLTAGE,        "the reading of the pack voltage",  (c, u) -> c.leans(SENSORS_PACK_SHARE, c.of(Tolerance.VOLTAGE) / 2, u)),
    BUS_VOLTAGE       (Tolerance.VOLTAGE,        "the reading of the bus voltage",   (c, u) -> c.leans(SENSORS_BUS_SHARE, c.of(Tolerance.VOLTAGE) / 2, u)),
    CONTACTOR_CLOSES  (Tolerance.TIMES,          "how slowly the contactors close",  (c, u) -> c.ratio(BOX_CLOSE_MS, Tolerance.TIMES, u)),
    CONTACTOR_OPENS   (Tolerance.TIMES,          "how slowly the contactors open",   (c, u) -> c.ratio(BOX_RELEASE_MS, Tolerance.TIMES, u)),
    CONTACTOR_BOUNCES (Tolerance.TIMES,          "how long the contacts bounce",     (c, u) -> c.ratio(BOX_BOUNCE_MS, Tolerance.TIMES, u)),
    RELAY_CLOSES      (Tolerance.TIMES,          "how slowly the precharge relay closes", (c, u) -> c.ratio(BOX_RELAY_CLOSE_MS, Tolerance.TIMES, u)),
    COIL              (Tolerance.COIL,           "the coils' pull-in voltage",       (c, u) -> { c.share(BOX_PULL_IN_V, Tolerance.COIL, u); c.share(BOX_HOLD_V, Tolerance.COIL, u); }),
    CURRENT           (Tolerance.CURRENT,        "the slope of the current sensor",  (c, u) -> c.leans(SENSORS_CURRENT_SHARE, Tolerance.CURRENT, u)),
    CURRENT_ZERO      (Tolerance.CURRENT_A,      "the zero of the current sensor",   (c, u) -> c.leans(SENSORS_CURRENT_A, Tolerance.CURRENT_A, u)),
    CELL_VOLTAGE      (Tolerance.CELL_V,         "the reading of the cell voltages", (c, u) -> c.leans(SENSORS_CELL_V, Tolerance.CELL_V, u)),
    PEDAL_A           (Tolerance.PEDAL_V,        "the first pedal track",            (c, u) -> c.leans(SENSORS_PEDAL_A_V, Tolerance.PEDAL_V, u)),
    PEDAL_B           (Tolerance.PEDAL_V,        "the second pedal track",           (c, u) -> c.leans(SENSORS_PEDAL_B_V, Tolerance.PEDAL_V, u)),
    MOTOR_SENSOR      (Tolerance.TEMPERATURE_K,  "the motor's temperature sensor",   (c, u) -> c.leans(SENSORS_MOTOR_K, Tolerance.TEMPERATURE_K, u)),
    INVERTER_SENSOR   (Tolerance.TEMPERATURE_K,  "the inverter's temperature sensor", (c, u) -> c.leans(SENSORS_INVERTER_K, Tolerance.TEMPERATURE_K, u)),
    CHARGER_SENSOR    (Tolerance.TEMPERATURE_K,  "the chargers' temperature sensor", (c, u) -> c.leans(SENSORS_CHARGER_K, Tolerance.TEMPERATURE_K, u)),
    PACK_SENSOR       (Tolerance.TEMPERATURE_K,  "the pack's temperature sensors",   (c, u) -> c.leans(SENSORS_PACK_K, Tolerance.TEMPERATURE_K, u)),
    REFERENCE         (Tolerance.SUPPLY,         "the reading of the 5 V reference", (c, u) -> c.leans(SENSORS_SUPPLY_SHARE, Tolerance.SUPPLY, u)),
    LV_VOLTAGE        (Tolerance.SUPPLY,         "the reading of the 12 V supply",   (c, u) -> c.leans(SENSORS_LV_SHARE, Tolerance.SUPPLY, u)),
    PILOT             (Tolerance.PILOT,          "the reading of the pilot",         (c, u) -> c.leans(SENSORS_PILOT_SHARE, Tolerance.PILOT, u)),
    LOSSES            (Tolerance.UNMEASURED,     "the motor's losses",               (c, u) -> { c.share(MACHINE_COPPER_W_PER_NM2, Tolerance.UNMEASURED, u); c.share(MACHINE_IRON_W_PER_KRPM, Tolerance.UNMEASURED, u); }),
    COOLING           (Tolerance.UNMEASURED,     "the cooling",                      (c, u) -> { c.share(THERMAL_MOTOR_W_PER_K, Tolerance.UNMEASURED, u); c.share(THERMAL_INVERTER_W_PER_K, Tolerance.UNMEASURED, u); }),
    BRAKES            (Tolerance.UNMEASURED,     "the brakes",                       (c, u) -> c.share(BODY_BRAKE_N, Tolerance.UNMEASURED, u)),
    TORQUE_LAG        (Tolerance.UNMEASURED,     "the lag of the torque",            (c, u) -> c.share(MACHINE_LAG_MS, Tolerance.UNMEASURED, u)),
    INVERTER_WAKES    (Tolerance.UNMEASURED,     "how slowly the inverter wakes up", (c, u) -> c.share(MACHINE_WAKE_MS, Tolerance.UNMEASURED, u)),
    CHARGER_RISE      (Tolerance.UNMEASURED,     "how fast the chargers' current rises", (c, u) -> c.share(CHARGERS_RISE_A_PER_S, Tolerance.UNMEASURED, u)),
    LOAD              (Tolerance.LOAD,           "the load",                         (c, u) -> c.share(BODY_MASS_KG, Tolerance.LOAD, u)),
    ROLLING           (Tolerance.ROLLING,        "rolling and drag",                 (c, u) -> { c.share(BODY_ROLLING, Tolerance.ROLLING, u); c.share(BODY_DRAG_AREA_M2, Tolerance.ROLLING, u); }),
    AGE               (Tolerance.AGE_RESISTANCE, "the age of the pack",              Factor::age),
    DAY               (Tolerance.HOT_C,          "the temperature of the day",       (c, u) -> c.between(DAY_AMBIENT_C, c.of(Tolerance.COLD_C), c.of(Tolerance.HOT_C), u)),
    CHARGE            (Tolerance.CHARGE_HIGH,    "the state of charge",              (c, u) -> c.between(CELLS_START_SHARE, c.of(Tolerance.CHARGE_LOW), c.of(Tolerance.CHARGE_HIGH), u)),
    LV_CHARGE         (Tolerance.LV_CHARGE_LOW,  "the charge of the 12 V battery",   (c, u) -> c.between(LV_START_SHARE, c.of(Tolerance.LV_CHARGE_LOW), 1, u));
    // @formatter:on

    /** Puts what a place within the tolerance means. */
    private interface Put {
        void into(OneCar car, double place);
    }

    /** How many factors there are. */
    static final int COUNT = values().length;

    /** The key of its tolerance. */
    final Tolerance tolerance;
    /** What differs, for people. */
    final String words;

    private final Put put;

    Factor(Tolerance tolerance, String words, Put put) {
        this.tolerance = tolerance;
        this.words = words;
        this.put = put;
    }

    private static void age(OneCar car, double place) {
        for (CarParameter row : List.of(CELLS_RESISTANCE_MOHM, CELLS_POLAR_MOHM)) {
            car.grows(row, car.of(Tolerance.AGE_RESISTANCE), place);
        }
        car.grows(CELLS_CAPACITY_AH, -car.of(Tolerance.AGE_CAPACITY), place);
    }

    /** Gives a car what it has at a place from 0 to 1. */
    void put(OneCar car, double place) {
        put.into(car, place);
    }

    /** The name in files, e.g. {@code bleed_resistor}. */
    String key() {
        return name().toLowerCase(Locale.ROOT);
    }
}
