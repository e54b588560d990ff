package sprag.bench.vehicle;

import static sprag.bench.vehicle.CarParameter.Origin.CHOSEN;
import static sprag.bench.vehicle.CarParameter.Origin.DATA_SHEET;
import static sprag.bench.vehicle.CarParameter.Origin.TEXTBOOK;
import static sprag.bench.vehicle.NoDefault.GIVEN;
import static sprag.supervisor.vocabulary.Unit.AMPERE;
import static sprag.supervisor.vocabulary.Unit.AMPERE_HOUR;
import static sprag.supervisor.vocabulary.Unit.CELSIUS;
import static sprag.supervisor.vocabulary.Unit.KILOGRAM;
import static sprag.supervisor.vocabulary.Unit.KILO_OHM;
import static sprag.supervisor.vocabulary.Unit.MICROFARAD;
import static sprag.supervisor.vocabulary.Unit.MILLISECOND;
import static sprag.supervisor.vocabulary.Unit.NEWTON_METRE;
import static sprag.supervisor.vocabulary.Unit.NUMBER;
import static sprag.supervisor.vocabulary.Unit.OHM;
import static sprag.supervisor.vocabulary.Unit.SECOND;
import static sprag.supervisor.vocabulary.Unit.SWITCH;
import static sprag.supervisor.vocabulary.Unit.VOLT;
import static sprag.supervisor.vocabulary.Unit.WATT;

import java.util.List;
import java.util.Optional;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Unit;

/**
 * What the simulated car is made of. The supervisor never sees these values: it only knows its own, which may differ from
 * them, as in life.
 *
 * <p>The key follows from the name: {@code BODY_ROLLING} is {@code rolling} in the section {@code [car.body]}. A row that is
 * taken over from a {@link Parameter} need not be written again; writing it makes the car differ from what the supervisor
 * believes.
 */
public enum CarParameter implements Row {
    // @formatter:off
    //                            unit         default   min        max  origin      a value outside the range would
    BODY_MASS_KG                 (KILOGRAM,    Parameter.DRIVE_MASS_KG, 50, 30000, CHOSEN, "make the car accelerate as no real car does"),
    BODY_ROTATING_SHARE          (NUMBER,        0.05,     0,       0.5, TEXTBOOK,   "make the car accelerate as no real car does (inertia of wheels and rotor as a share of the mass)"),
    BODY_DRAG_AREA_M2            (NUMBER,         GIVEN,   0,        20, TEXTBOOK,   "make the top speed wrong (drag coefficient times frontal area)"),
    BODY_ROLLING                 (NUMBER,        0.012,    0,       0.2, TEXTBOOK,   "make the range wrong"),
    BODY_AIR_KG_PER_M3           (NUMBER,        1.2,    0.5,         2, TEXTBOOK,   "make the top speed wrong"),
    BODY_GEAR_EFFICIENCY         (NUMBER,        0.96,   0.5,         1, DATA_SHEET, "make the range wrong"),
    BODY_BRAKE_N                 (NUMBER,         GIVEN, 100,    500000, CHOSEN,     "leave the car without brakes (force at the tyres, pedal fully pressed)"),

    CELLS_CAPACITY_AH            (AMPERE_HOUR, Parameter.PACK_CAPACITY_AH, 0.5, 3000, DATA_SHEET, "make the range wrong"),
    CELLS_RESISTANCE_MOHM        (NUMBER,         GIVEN, 0.01,      200, DATA_SHEET, "make the pack sag as no real pack does (one cell, at once, at 25 C)"),
    CELLS_POLAR_MOHM             (NUMBER,         GIVEN,    0,      200, DATA_SHEET, "make the pack sag as no real pack does (one cell, the slow part)"),
    CELLS_POLAR_S                (SECOND,          20,    0.1,     2000, CHOSEN,     "make the pack recover as no real pack does"),
    CELLS_COLD_PER_10_K          (NUMBER,         1.4,      1,        3, CHOSEN,     "make the cold pack unlike a real one (resistance times this for each 10 K below 25 C)"),
    CELLS_SPREAD_SHARE           (NUMBER,       0.008,      0,      0.2, CHOSEN,     "make the cells drift as no real pack does (fullest less emptiest, share of capacity)"),
    CELLS_START_SHARE            (NUMBER,         0.8,      0,        1, CHOSEN,     "start with no charge that exists"),
    CELLS_HEAT_J_PER_K           (NUMBER,         GIVEN,  100,     5e6,  DATA_SHEET, "make the pack warm up as no real pack does (whole pack)"),
    CELLS_COOL_W_PER_K           (NUMBER,           8,      0,     5000, CHOSEN,     "make the pack cool down as no real pack does"),
    CELLS_UNEVEN_K               (NUMBER,           2,      0,       20, CHOSEN,     "make the pack unlike a real one (warmest less coldest place)"),

    MONITOR_CELL_MAX_V           (VOLT,  Parameter.CELL_MAX_V, 1.5, 5,   CHOSEN,     "let the battery monitor allow overcharge"),
    MONITOR_CELL_MIN_V           (VOLT,  Parameter.CELL_MIN_V, 1,   4.5, CHOSEN,     "let the battery monitor allow over-discharge"),
    MONITOR_HYSTERESIS_V         (VOLT,          0.05,  0.001,        1, CHOSEN,     "make the permits chatter"),
    MONITOR_HOT_C                (CELSIUS, Parameter.PACK_HOT_C, 0, 100, CHOSEN,     "let the battery monitor allow hot cells"),
    MONITOR_COLD_CHARGE_C        (CELSIUS, Parameter.PACK_COLD_C, -50, 40, CHOSEN,   "let the battery monitor allow a cold charge"),
    MONITOR_DELAY_MS             (MILLISECOND,    500,      0,    10000, CHOSEN,     "make the permits chatter or come too late"),

    BOX_CLOSE_MS                 (MILLISECOND,     18,      1,      300, DATA_SHEET, "make the contactors unlike real ones"),
    BOX_BOUNCE_MS                (MILLISECOND,      4,      0,       50, DATA_SHEET, "make the contactors unlike real ones"),
    BOX_RELEASE_MS               (MILLISECOND,      9,      1,      300, DATA_SHEET, "make the contactors unlike real ones"),
    BOX_RELAY_CLOSE_MS           (MILLISECOND,     10,      1,      300, DATA_SHEET, "make the precharge relay unlike a real one"),
    BOX_PULL_IN_V                (VOLT,           8.8,      3,       30, DATA_SHEET, "let the contactors close on a dead supply"),
    BOX_HOLD_V                   (VOLT,           6.0,      1,       30, DATA_SHEET, "let the contactors hold on a dead supply"),
    BOX_COIL_A                   (AMPERE,        0.45,   0.01,       10, DATA_SHEET, "load the 12 V side as no real coil does"),
    BOX_COIL_INRUSH_A            (AMPERE,         2.5,   0.01,       50, DATA_SHEET, "load the 12 V side as no real coil does"),
    BOX_CONTACT_MOHM             (NUMBER,         0.3,   0.01,       50, DATA_SHEET, "make the contacts heat up as no real contact does"),
    BOX_ARC_MS                   (MILLISECOND,      4,    0.1,       50, CHOSEN,     "make the arc unlike a real one (how long one burns)"),
    BOX_CAUTIOUS_A               (AMPERE,           5,    0.1,      100, DATA_SHEET, "count harmless openings as arcs"),
    BOX_FUSE_A                   (AMPERE,         GIVEN,    1,     3000, DATA_SHEET, "leave the cables without a fuse"),
    BOX_FUSE_S                   (SECOND,           2,   0.01,      300, DATA_SHEET, "leave the cables without a fuse (how long it stands twice its rating)"),
    BOX_WATCHDOG_MS              (MILLISECOND,      0,      0,     1000, CHOSEN,     "let go of the coils at every late beat (0: no watchdog relay)"),

    PARTS_CAPACITANCE_UF         (MICROFARAD, Parameter.BUS_CAPACITANCE_UF, 0.5, 100000, DATA_SHEET, "make the precharge unlike a real one"),
    PARTS_PRECHARGE_OHM          (OHM, Parameter.PRECHARGE_RESISTANCE_OHM, 0.5, 10000, DATA_SHEET, "make the precharge unlike a real one"),
    PARTS_BLEED_OHM              (OHM,            GIVEN,  100,      1e7, DATA_SHEET, "leave the bus live for ever, or spoil the precharge"),
    PARTS_RESISTOR_J_PER_K       (NUMBER,          15,    0.5,     1000, DATA_SHEET, "make the precharge resistor heat up as no real resistor does"),
    PARTS_RESISTOR_W_PER_K       (NUMBER,         0.3,   0.01,       50, DATA_SHEET, "make the precharge resistor cool down as no real resistor does"),
    PARTS_LEFT_ON_W              (WATT,             0,      0,    50000, CHOSEN,     "make the precharge stall at once"),
    PARTS_SHORT_OHM              (OHM,            0.5,   0.01,     1000, CHOSEN,     "make a short that is none"),
    PARTS_ISOLATION_KOHM         (KILO_OHM,     20000,      0,   100000, CHOSEN,     "make the car unsafe from the start"),

    MACHINE_TORQUE_NM            (NEWTON_METRE, Parameter.DRIVE_TORQUE_NM, 1, 4000, DATA_SHEET, "make the motor unlike a real one"),
    MACHINE_POWER_W              (WATT,    Parameter.DRIVE_POWER_W, 500, 2e6, DATA_SHEET, "make the motor unlike a real one"),
    MACHINE_LAG_MS               (MILLISECOND,     15,      1,      500, DATA_SHEET, "make the torque follow as with no real inverter"),
    MACHINE_COPPER_W_PER_NM2     (NUMBER,         GIVEN,    0,      100, TEXTBOOK,   "make the losses wrong (grow with torque squared)"),
    MACHINE_IRON_W_PER_KRPM      (NUMBER,         GIVEN,    0,    10000, TEXTBOOK,   "make the losses wrong (grow with speed)"),
    MACHINE_WINDAGE_W_PER_KRPM3  (NUMBER,         GIVEN,    0,     1000, TEXTBOOK,   "make the losses wrong (grow with speed cubed)"),
    MACHINE_IDLE_W               (WATT,            60,      0,     5000, DATA_SHEET, "make the losses wrong (inverter switching, no torque)"),
    MACHINE_INVERTER_SHARE       (NUMBER,         0.4,      0,        1, CHOSEN,     "heat the wrong part (share of the torque losses that arises in the inverter)"),
    MACHINE_MIN_V                (VOLT,           GIVEN,    5,      900, DATA_SHEET, "let the inverter run on nothing"),
    MACHINE_TRIP_V               (VOLT,           GIVEN,   10,     1300, DATA_SHEET, "break down the inverter's capacitors"),
    MACHINE_WAKE_MS              (MILLISECOND,    100,      0,     5000, DATA_SHEET, "make the inverter ready like none"),
    MACHINE_EMF_V_PER_KRPM       (VOLT, Parameter.MOTOR_EMF_V_PER_KRPM, 0, 4000, DATA_SHEET, "make the voltage of the spinning motor wrong (rectified)"),
    MACHINE_SOURCE_OHM           (OHM,            0.3,  0.001,       50, CHOSEN,     "make the current of the spinning motor wrong (winding and diodes)"),

    THERMAL_COOLING              (                  1, List.of("air", "liquid"), CHOSEN, "make the parts heat up as no real part does"),
    THERMAL_MOTOR_J_PER_K        (NUMBER,         GIVEN,  100,      1e6, DATA_SHEET, "make the motor heat up as no real motor does"),
    THERMAL_MOTOR_W_PER_K        (NUMBER,         GIVEN,  0.1,     5000, DATA_SHEET, "make the motor cool down as no real motor does"),
    THERMAL_INVERTER_J_PER_K     (NUMBER,         GIVEN,   50,      1e6, DATA_SHEET, "make the inverter heat up as no real inverter does"),
    THERMAL_INVERTER_W_PER_K     (NUMBER,         GIVEN,  0.1,     5000, DATA_SHEET, "make the inverter cool down as no real inverter does"),
    THERMAL_STILL_SHARE          (NUMBER,        0.08,      0,        1, CHOSEN,     "cool without a pump or a fan (share of the cooling that is left without flow)"),
    THERMAL_COOLANT_J_PER_K      (NUMBER,       15000,    100,      1e6, TEXTBOOK,   "make the coolant heat up as no real coolant does"),
    THERMAL_RADIATOR_W_PER_K     (NUMBER,         150,      1,     5000, DATA_SHEET, "cool the coolant as no real radiator does (fan at full speed)"),
    THERMAL_RADIATOR_STILL_W_PER_K (NUMBER,        10,      0,     1000, CHOSEN,     "cool the coolant as no real radiator does (car standing, fan off)"),
    THERMAL_CHARGER_J_PER_K      (NUMBER,        3000,     10,      1e6, DATA_SHEET, "make the chargers heat up as no real charger does"),
    THERMAL_CHARGER_W_PER_K      (NUMBER,          12,    0.1,     5000, DATA_SHEET, "make the chargers cool down as no real charger does"),

    LV_CAPACITY_AH               (AMPERE_HOUR,     40,      1,      500, DATA_SHEET, "make the 12 V side like none"),
    LV_START_SHARE               (NUMBER,         0.8,      0,        1, CHOSEN,     "start with no charge that exists"),
    LV_EMPTY_V                   (VOLT,          11.4,      5,       30, TEXTBOOK,   "make the 12 V side like none (at rest, empty)"),
    LV_FULL_V                    (VOLT,          12.8,      5,       30, TEXTBOOK,   "make the 12 V side like none (at rest, full)"),
    LV_RESISTANCE_MOHM           (NUMBER,          15,      1,     1000, DATA_SHEET, "make the 12 V side like none"),
    LV_SLEEP_A                   (AMPERE,        0.03,      0,       20, CHOSEN,     "drain the 12 V battery overnight"),
    LV_AWAKE_A                   (AMPERE,           4,      0,      100, CHOSEN,     "load the 12 V side as no real car does"),
    LV_PUMP_A                    (AMPERE,           4,      0,       50, DATA_SHEET, "load the 12 V side as no real pump does"),
    LV_FAN_A                     (AMPERE,          12,      0,       80, DATA_SHEET, "load the 12 V side as no real fan does"),
    LV_BLOWER_A                  (AMPERE,          10,      0,       50, DATA_SHEET, "load the 12 V side as no real blower does"),
    LV_DCDC_V                    (VOLT,          13.8,      5,       30, DATA_SHEET, "boil or starve the 12 V battery"),
    LV_DCDC_MAX_A                (AMPERE,          60,      1,      500, DATA_SHEET, "make the DC-DC converter like none"),
    LV_DCDC_EFFICIENCY           (NUMBER,        0.92,    0.5,        1, DATA_SHEET, "make the losses wrong"),
    LV_DCDC_MIN_V                (VOLT,           GIVEN,    5,      900, DATA_SHEET, "let the DC-DC converter run on nothing (input)"),

    WARMER_POWER_W               (WATT,             0,      0,    20000, DATA_SHEET, "make the heater like none (element at nominal pack voltage)"),
    WARMER_J_PER_K               (NUMBER,         400,     10,    20000, CHOSEN,     "heat the heater box like none"),
    WARMER_AIR_W_PER_K           (NUMBER,          80,      1,     1000, CHOSEN,     "cool the heater box like none (blower on)"),
    WARMER_STILL_W_PER_K         (NUMBER,           3,   0.01,      100, CHOSEN,     "cool the heater box like none (blower off)"),
    WARMER_AIRFLOW_MS            (MILLISECOND,    400,      0,     5000, CHOSEN,     "make the airflow switch like none"),

    STATION_SUPPLY_V             (VOLT, Parameter.INLET_SUPPLY_V, 50, 500, CHOSEN,   "make the station like none (a.c., rms)"),
    STATION_MAX_A                (AMPERE, Parameter.INLET_MAX_A,   6,  80, CHOSEN,   "make the station like none"),
    STATION_START_MS             (MILLISECOND,    800,      0,    10000, CHOSEN,     "make the station like none (from plug to first duty)"),
    STATION_CLOSE_MS             (MILLISECOND,    300,      0,     3000, CHOSEN,     "make the station like none (from request to power; at most 3 s, from memory of IEC 61851-1)"),
    STATION_OPEN_MS              (MILLISECOND,     50,      0,     3000, CHOSEN,     "make the station like none (from end of request to dead; at most 100 ms, from memory of IEC 61851-1)"),
    STATION_TRIP_S               (SECOND,           5,    0.1,       60, CHOSEN,     "make the station like none (how long it stands 10 % too much current)"),
    STATION_VENTILATED           (SWITCH,           0,      0,        1, CHOSEN,     "make the station like none (whether it serves a car that asks for ventilation)"),

    CHARGERS_RISE_A_PER_S        (AMPERE,          20,    0.1,     1000, DATA_SHEET, "make the chargers like none"),
    CHARGERS_FALL_A_PER_S        (AMPERE,        2000,      1,   100000, DATA_SHEET, "make the chargers like none"),
    CHARGERS_START_MS            (MILLISECOND,    400,      0,    10000, DATA_SHEET, "make the chargers like none (from mains to first current)"),

    SENSORS_NOISE                (NUMBER,           1,      0,      100, CHOSEN,     "make the sensors like none (times the usual noise; 0 is none)"),
    SENSORS_PACK_SHARE           (NUMBER,           0,   -0.3,      0.3, CHOSEN,     "make a sensor like none (share by which the pack voltage reads too high)"),
    SENSORS_BUS_SHARE            (NUMBER,           0,   -0.3,      0.3, CHOSEN,     "make a sensor like none (share by which the bus voltage reads too high)"),
    SENSORS_CURRENT_SHARE        (NUMBER,           0,   -0.3,      0.3, CHOSEN,     "make a sensor like none (share by which the pack current reads too high)"),
    SENSORS_CURRENT_A            (AMPERE,           0,   -100,      100, CHOSEN,     "make a sensor like none (what it shows without a current)"),
    SENSORS_CELL_V               (VOLT,             0,   -0.3,      0.3, CHOSEN,     "make a sensor like none (by which cell voltages read too high)"),
    SENSORS_PEDAL_A_V            (VOLT,             0,     -1,        1, CHOSEN,     "make a pedal like none (by which the first track reads too high)"),
    SENSORS_PEDAL_B_V            (VOLT,             0,     -1,        1, CHOSEN,     "make a pedal like none (by which the second track reads too high)"),
    SENSORS_SUPPLY_SHARE         (NUMBER,           0,   -0.3,      0.3, CHOSEN,     "make a sensor like none (share by which the 5 V reference reads too high)"),
    SENSORS_LV_SHARE             (NUMBER,           0,   -0.3,      0.3, CHOSEN,     "make a sensor like none (share by which the 12 V supply reads too high)"),
    SENSORS_PILOT_SHARE          (NUMBER,           0,   -0.3,      0.3, CHOSEN,     "make a sensor like none (share by which the pilot voltage reads too high)"),
    SENSORS_MOTOR_K              (NUMBER,           0,    -30,       30, CHOSEN,     "make a sensor like none (kelvins by which the motor reads too warm)"),
    SENSORS_INVERTER_K           (NUMBER,           0,    -30,       30, CHOSEN,     "make a sensor like none (kelvins by which inverter and coolant read too warm)"),
    SENSORS_CHARGER_K            (NUMBER,           0,    -30,       30, CHOSEN,     "make a sensor like none (kelvins by which the chargers read too warm)"),
    SENSORS_PACK_K               (NUMBER,           0,    -30,       30, CHOSEN,     "make a sensor like none (kelvins by which the pack reads too warm)"),

    DAY_AMBIENT_C                (CELSIUS,         20,    -40,       60, CHOSEN,     "describe no day (temperature of the air, and of every part at the start)"),

    RELAYS_TIMERS                (                  0, List.of("none", "one", "parallel", "series"), CHOSEN, "be no way to wire timers"),
    RELAYS_TIMER_MS              (MILLISECOND,   1200,     10,    60000, CHOSEN,     "be no timer relay");
    // @formatter:on

    /** Where the default or the usual value comes from. */
    public enum Origin {
        /** A value or a model that stands in textbooks. */
        TEXTBOOK,
        /** The size that data sheets of such parts give. */
        DATA_SHEET,
        /** Chosen for this simulation, plausible and no more. */
        CHOSEN
    }

    private final Spec spec;
    private final Parameter same;
    private final Origin origin;

    CarParameter(Unit unit, double byDefault, double min, double max, Origin origin, String risk) {
        this(Spec.number(unit, byDefault, min, max, risk), null, origin);
    }

    CarParameter(Unit unit, Parameter same, double min, double max, Origin origin, String risk) {
        this(Spec.number(unit, Double.NaN, min, max, risk), same, origin);
    }

    CarParameter(double byDefault, List<String> choices, Origin origin, String risk) {
        this(Spec.choice(byDefault, choices, risk), null, origin);
    }

    CarParameter(Spec spec, Parameter same, Origin origin) {
        this.spec = spec;
        this.same = same;
        this.origin = origin;
    }

    @Override
    public Spec spec() {
        return spec;
    }

    @Override
    public String key() {
        return "car." + Row.super.key();
    }

    @Override
    public boolean required() {
        return same == null && Double.isNaN(byDefault());
    }

    /** Whether timer relays close the main contactor of a car, and no supervisor decides. */
    public static boolean hasRelays(Vehicle vehicle) {
        return !vehicle.is(RELAYS_TIMERS, "none");
    }

    /** The supervisor's value that it is equal to unless the file says otherwise. */
    public Optional<Parameter> sameAs() {
        return Optional.ofNullable(same);
    }

    /** Where the default or the usual value comes from. */
    public Origin origin() {
        return origin;
    }
}
