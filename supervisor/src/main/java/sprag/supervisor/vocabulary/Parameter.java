package sprag.supervisor.vocabulary;

import static sprag.supervisor.vocabulary.Unit.AMPERE;
import static sprag.supervisor.vocabulary.Unit.AMPERE_HOUR;
import static sprag.supervisor.vocabulary.Unit.CELSIUS;
import static sprag.supervisor.vocabulary.Unit.JOULE;
import static sprag.supervisor.vocabulary.Unit.KPH;
import static sprag.supervisor.vocabulary.Unit.METRE;
import static sprag.supervisor.vocabulary.Unit.MICROFARAD;
import static sprag.supervisor.vocabulary.Unit.MILLISECOND;
import static sprag.supervisor.vocabulary.Unit.MINUTE;
import static sprag.supervisor.vocabulary.Unit.MPS2;
import static sprag.supervisor.vocabulary.Unit.NEWTON_METRE;
import static sprag.supervisor.vocabulary.Unit.NUMBER;
import static sprag.supervisor.vocabulary.Unit.OHM;
import static sprag.supervisor.vocabulary.Unit.RPM;
import static sprag.supervisor.vocabulary.Unit.SECOND;
import static sprag.supervisor.vocabulary.Unit.VOLT;
import static sprag.supervisor.vocabulary.Unit.WATT;

import java.util.List;

/**
 * Everything an owner sets. Key, unit, default, range and what goes wrong outside the range are stated once, here.
 *
 * <p>The key in a vehicle file follows from the name: {@code PRECHARGE_DONE_FRACTION} is {@code done_fraction} in the
 * section {@code [precharge]}. A row without a default must be given by every vehicle.
 */
public enum Parameter implements Row {
    // @formatter:off
    //                          unit         default    min      max   a value outside the range would
    LOOP_TICK_MS               (MILLISECOND,      10,     5,      50, "make the delays coarser than the contactors"),
    LOOP_STALE_MS              (MILLISECOND,     100,    10,     500, "let decisions rest on old readings"),
    LOOP_BLIND_MS              (MILLISECOND,      50,    10,     500, "drive on blind, or stop for one lost sample"),

    PACK_CELLS                 (NUMBER,        given(),   1,     400, "make every pack limit wrong"),
    PACK_CHEMISTRY             (               given(), List.of("lfp", "nmc"), "make the gauge read the wrong voltage curve"),
    PACK_NOMINAL_V             (VOLT,          given(),  12,     900, "make every pack limit wrong"),
    PACK_MIN_V                 (VOLT,          given(),   8,     900, "over-discharge the pack"),
    PACK_MAX_V                 (VOLT,          given(),  12,    1000, "overcharge the pack"),
    PACK_CAPACITY_AH           (AMPERE_HOUR,   given(),   1,    2000, "make the gauge and the charge wrong"),
    PACK_DISCHARGE_MAX_A       (AMPERE,        given(),   1,    2000, "overload pack, fuse or cable"),
    PACK_CHARGE_MAX_A          (AMPERE,        given(),   1,    2000, "plate lithium in the cells"),
    PACK_OVER_FACTOR           (NUMBER,          1.2,  1.01,       3, "trip on noise, or only after the fuse"),
    PACK_OVER_MS               (MILLISECOND,     500,    10,    5000, "trip on a peak, or only after the fuse"),
    PACK_APART_SHARE           (NUMBER,         0.05,  0.01,     0.5, "call two sound current sensors different, or two different ones sound (share of pack.discharge_max_a)"),
    PACK_APART_MS              (MILLISECOND,     500,    50,    5000, "stop for current sensors that lag, or drive on with one that lies"),
    PACK_WARM_C                (CELSIUS,          45,     0,      80, "derate too late to stay below the hot limit"),
    PACK_HOT_C                 (CELSIUS,          55,     0,      90, "lead to thermal runaway"),
    PACK_COOL_C                (CELSIUS,          10,   -40,      40, "charge cool cells at full current"),
    PACK_COLD_C                (CELSIUS,           0,   -40,      40, "plate lithium by charging or regenerating cold"),
    PACK_COOL_SHARE            (NUMBER,          0.3,     0,       1, "charge cool cells too fast"),
    PACK_TRIP_MS               (MILLISECOND,     500,    10,    5000, "act on noise, or too late"),

    CELL_MIN_V                 (VOLT,          given(), 1.5,     4.5, "over-discharge a cell"),
    CELL_LOW_V                 (VOLT,          given(), 1.5,     4.5, "give no warning before the stop"),
    CELL_HIGH_V                (VOLT,          given(), 1.5,     4.5, "not pull the charge back in time"),
    CELL_MAX_V                 (VOLT,          given(), 1.5,     4.5, "overcharge a cell"),
    CELL_TRIP_MS               (MILLISECOND,     500,    10,    5000, "act on noise, or too late"),

    PRECHARGE_BY               (                   0, List.of("relay", "inverter"), "ask an inverter to precharge without the pack, or skip a weld test that could be made"),
    PRECHARGE_RESISTANCE_OHM   (OHM,           given(),   1,    5000, "overheat the resistor or never finish"),
    PRECHARGE_DONE_FRACTION    (NUMBER,         0.95,   0.8,    0.99, "close the contactor into an inrush, or never"),
    PRECHARGE_FAST_MS          (MILLISECOND,   given(),   0,   10000, "miss a missing capacitor or a shorted resistor"),
    PRECHARGE_MIN_MS           (MILLISECOND,   given(),   0,   10000, "close before the rise is known"),
    PRECHARGE_TIMEOUT_MS       (MILLISECOND,   given(),  50,   10000, "overheat the precharge resistor"),
    PRECHARGE_STALL_MS         (MILLISECOND,     300,    50,    5000, "cook the resistor on a stalled bus"),
    PRECHARGE_FLAT_FRACTION    (NUMBER,          0.5,  0.01,       5, "take a rising bus for a finished one (share of pack per second)"),
    PRECHARGE_ENERGY_J         (JOULE,         given(),   1,  100000, "overheat the precharge resistor"),
    PRECHARGE_COOLING_S        (SECOND,           30,     1,     600, "count the resistor cold while it is hot"),

    BUS_CAPACITANCE_UF         (MICROFARAD,    given(),   1,   50000, "make the precharge arithmetic wrong"),
    BUS_DISCHARGED_V           (VOLT,          given(),   1,      60, "call a live bus dead (60 V d.c. is the usual limit)"),
    BUS_BLEED_MS               (MILLISECOND,    5000,   100,   60000, "leave a live bus unnoticed"),
    BUS_MAX_V                  (VOLT,          given(),  12,    1200, "break down the inverter's capacitors"),
    BUS_OVER_MS                (MILLISECOND,      20,     5,     500, "break down the inverter's capacitors"),
    BUS_LOST_FRACTION          (NUMBER,          0.7,   0.3,    0.95, "miss a contactor that has dropped out"),
    BUS_LOST_MS                (MILLISECOND,     100,    10,    2000, "miss a contactor that has dropped out"),

    CONTACTOR_POLES            (                   0, List.of("both", "positive"), "find a weld where there is no contactor, or skip a weld test that could be made"),
    CONTACTOR_CLOSE_MS         (MILLISECOND,      60,    10,     500, "take a slow contactor for a failed one, or the reverse"),
    CONTACTOR_RELEASE_MS       (MILLISECOND,      50,     5,     500, "take a slow contactor for a welded one, or the reverse"),
    CONTACTOR_OVERLAP_MS       (MILLISECOND,      50,    10,     500, "open the precharge path before the main one is closed"),
    CONTACTOR_OPEN_A           (AMPERE,        given(), 0.1,     100, "open the contactors under load"),
    CONTACTOR_WELD_TEST_MS     (MILLISECOND,     150,    20,    2000, "miss a welded contactor"),

    RUNDOWN_WAIT_MS            (MILLISECOND,     400,    50,    5000, "wait too long for the current to fall, or not at all"),
    RUNDOWN_SPIN_MS            (MILLISECOND,    5000,    50,   20000, "let a spinning motor lift the open bus, or hold the contactors for ever"),

    PEDAL_A_RELEASED_V         (VOLT,          given(),   0,       5, "read the pedal wrong"),
    PEDAL_A_FULL_V             (VOLT,          given(),   0,       5, "read the pedal wrong"),
    PEDAL_B_RELEASED_V         (VOLT,            0.5,     0,       5, "read the pedal wrong"),
    PEDAL_B_FULL_V             (VOLT,            2.2,     0,       5, "read the pedal wrong"),
    PEDAL_MIN_V                (VOLT,           0.25,  0.05,       2, "take a shorted wire for a pedal position"),
    PEDAL_MAX_V                (VOLT,           4.75,     2,    4.95, "take an open wire for a pedal position"),
    PEDAL_RANGE_MS             (MILLISECOND,      50,    10,     500, "drive on with a broken wire"),
    PEDAL_SHORT_V              (VOLT,           0.15,  0.02,       1, "miss two wipers shorted to each other"),
    PEDAL_DISAGREE_SHARE       (NUMBER,         0.10,  0.02,     0.3, "drive on with a lying track"),
    PEDAL_DISAGREE_MS          (MILLISECOND,     100,    10,     500, "drive on with a lying track"),
    PEDAL_SUPPLY_MIN_V         (VOLT,           4.75,     4,       5, "scale the pedal by a sagging reference"),
    PEDAL_SUPPLY_MAX_V         (VOLT,           5.25,     5,       6, "scale the pedal by a wrong reference"),
    PEDAL_DEADBAND_SHARE       (NUMBER,         0.03,     0,     0.2, "creep with the pedal released"),
    PEDAL_RELEASED_SHARE       (NUMBER,         0.05,  0.01,     0.2, "never see the pedal released"),
    PEDAL_BRAKE_SHARE          (NUMBER,         0.25,  0.05,     0.5, "let drive torque fight the brake"),
    PEDAL_STILL_MS             (MILLISECOND,    2000,   500,    5000, "take the torque from a steady foot on a hill, or drive on with a stuck pedal under the brake"),

    DRIVE_TORQUE_NM            (NEWTON_METRE,  given(),   1,    2000, "break the drive line"),
    DRIVE_POWER_W              (WATT,          given(), 500, 1000000, "overload pack or motor"),
    DRIVE_SHAPE                (NUMBER,          1.4,   0.5,       3, "make the pedal undriveable"),
    DRIVE_REVERSE_SHARE        (NUMBER,          0.4,   0.1,       1, "reverse too strongly"),
    DRIVE_RISE_NM_PER_S        (NEWTON_METRE,  given(),   1,   20000, "jerk the drive line"),
    DRIVE_FALL_NM_PER_S        (NEWTON_METRE,  given(),   1,   50000, "keep driving after the pedal is lifted"),
    DRIVE_GEARBOX              (                   0, List.of("fixed", "clutch"), "doubt a motor that is out of gear, or believe a broken speed wire"),
    DRIVE_GEAR_RATIO           (NUMBER,        given(), 0.5,      30, "make every road speed wrong"),
    DRIVE_WHEEL_RADIUS_M       (METRE,         given(), 0.1,       1, "make every road speed wrong"),
    DRIVE_MASS_KG              (Unit.KILOGRAM, given(),  50,   20000, "light the brake lamp at the wrong deceleration"),
    DRIVE_MAX_KPH              (KPH,           given(),   3,     200, "outrun brakes or motor"),
    DRIVE_REVERSE_MAX_KPH      (KPH,              10,     2,      30, "reverse too fast"),
    DRIVE_STANDSTILL_KPH       (KPH,               1,   0.2,       5, "change direction while rolling"),
    DRIVE_BRAKE_MPS2           (MPS2,             15,     8,      40, "doubt the speed when the car brakes hard, or believe a broken wire (most that tyres can brake)"),
    DRIVE_LAUNCH_KPH           (KPH,               8,     3,      30, "take the torque away in a hill start, or gain that speed with a dead speed sensor"),
    DRIVE_LIMP_SHARE           (NUMBER,          0.4,   0.1,     0.9, "leave no way home, or limit nothing"),
    DRIVE_UNASKED_A            (AMPERE,        given(),   1,     500, "miss an inverter that drives by itself"),
    DRIVE_UNASKED_MS           (MILLISECOND,     150,    20,    2000, "stop for a lagging inverter, or miss one that drives by itself"),

    MOTOR_KIND                 (               given(), List.of("induction", "permanent-magnet"), "misjudge the voltage of a spinning motor"),
    MOTOR_SENSOR               (                   0, List.of("ntc", "pt1000"), "misread the motor temperature"),
    MOTOR_MAX_RPM              (RPM,           given(), 100,   25000, "burst the rotor"),
    MOTOR_EMF_V_PER_KRPM       (VOLT,              0,     0,    2000, "misjudge the voltage of a spinning motor"),
    MOTOR_WARM_C               (CELSIUS,         110,    40,     180, "derate too late to stay below the hot limit"),
    MOTOR_HOT_C                (CELSIUS,         140,    50,     200, "burn the winding"),
    INVERTER_WARM_C            (CELSIUS,          70,    30,     110, "derate too late to stay below the hot limit"),
    INVERTER_HOT_C             (CELSIUS,          85,    40,     125, "burn the power stage"),
    INVERTER_READY_MS          (MILLISECOND,     200,    10,    5000, "drive without an inverter, or stop for a glitch"),
    COOLANT_WARM_C             (CELSIUS,          60,    20,     100, "derate too late to stay below boiling"),
    COOLANT_HOT_C              (CELSIUS,          75,    30,     120, "boil the coolant"),
    COOLANT_FAN_C              (CELSIUS,          50,    20,     100, "run the fan never or always"),
    COOLANT_PUMP_C             (CELSIUS,          35,    10,     100, "run the pump never or always"),
    COOLANT_AFTER_RUN_S        (SECOND,          120,     0,    1800, "drain the 12 V battery or soak the inverter"),
    COOLANT_LAG_K              (NUMBER,           25,     5,      80, "miss a stopped pump (inverter above coolant)"),

    THERMISTOR_R25_OHM         (OHM,           10000,   500,  200000, "misread every temperature"),
    THERMISTOR_BETA_K          (NUMBER,         3435,  2000,    5000, "misread every temperature"),
    THERMISTOR_STEINHART_A     (NUMBER,            0, -0.01,    0.01, "misread every temperature (0, with both others: the Beta model holds)"),
    THERMISTOR_STEINHART_B     (NUMBER,            0,     0,   0.001, "misread every temperature"),
    THERMISTOR_STEINHART_C     (NUMBER,            0, -1e-6,    1e-5, "misread every temperature"),
    THERMISTOR_PULLUP_OHM      (OHM,            4700,   100,  200000, "misread every temperature"),
    THERMISTOR_SUPPLY_V        (VOLT,              5,     2,       5, "misread every temperature"),
    THERMISTOR_SHORT_V         (VOLT,           0.10,  0.02,       1, "take a shorted wire for a hot sensor"),
    THERMISTOR_OPEN_V          (VOLT,           4.93,     2,    4.98, "take an open wire for a cold sensor"),
    THERMISTOR_MS              (MILLISECOND,     500,    10,    5000, "act on noise, or too late"),

    REGEN_BY                   (                   0, List.of("pedal", "brake-pressure", "lever"), "brake by what is not there, or leave a sensor unread"),
    REGEN_DEMAND_REST_V        (VOLT,            0.5,     0,       5, "brake with the lever at rest"),
    REGEN_DEMAND_FULL_V        (VOLT,            4.5,     0,       5, "brake too hard, or too little"),
    REGEN_TORQUE_NM            (NEWTON_METRE,  given(),   0,    2000, "lock the driven wheels"),
    REGEN_LEVELS               (NUMBER,            3,     0,       4, "offer levels that do not exist"),
    REGEN_LEVEL_1_SHARE        (NUMBER,         0.35,     0,       1, "regenerate more than allowed"),
    REGEN_LEVEL_2_SHARE        (NUMBER,         0.65,     0,       1, "regenerate more than allowed"),
    REGEN_LEVEL_3_SHARE        (NUMBER,            1,     0,       1, "regenerate more than allowed"),
    REGEN_LEVEL_4_SHARE        (NUMBER,            1,     0,       1, "regenerate more than allowed"),
    REGEN_COAST_TRAVEL         (NUMBER,         0.25,  0.02,     0.6, "leave no travel to drive with"),
    REGEN_COAST_FULL_KPH       (KPH,              30,     1,     120, "make the coast point jump"),
    REGEN_FADE_START_KPH       (KPH,               8,     1,      40, "jerk to a stop"),
    REGEN_FADE_END_KPH         (KPH,             1.5,     0,      20, "push the car backwards"),
    REGEN_FULL_FRACTION        (NUMBER,         0.97,   0.5,       1, "overcharge a full pack down a hill"),
    REGEN_LAMP_ON_MPS2         (MPS2,            1.3,   0.7,     1.3, "leave the driver behind unwarned (UN R13-H)"),
    REGEN_LAMP_OFF_MPS2        (MPS2,            0.7,   0.3,     1.0, "keep the brake lamp lit while cruising (UN R13-H)"),

    LV_LOW_V                   (VOLT,           11.4,     8,      26, "shed loads never, or always"),
    LV_LOST_V                  (VOLT,              9,     6,      20, "let contactors chatter on a dying supply"),
    LV_SUPPORT_V               (VOLT,           12.1,     8,      26, "run the 12 V battery flat on the cable, or its converter for ever"),
    LV_LOW_MS                  (MILLISECOND,    1000,    10,   10000, "shed loads at every start"),
    LV_LOST_MS                 (MILLISECOND,      50,     5,     500, "let contactors chatter on a dying supply"),

    ISOLATION_MIN_OHM_PER_V    (OHM,             500,   100,    2000, "let a first fault pass that makes the second deadly"),
    ISOLATION_MS               (MILLISECOND,    2000,    10,   30000, "act on noise, or too late"),

    INLET_KIND                 (                   1, List.of("type-1", "type-2", "plain", "none"), "misread the cable, or look for a plug where none can be"),
    INLET_MAX_A                (AMPERE,           32,     6,      80, "melt the inlet"),
    INLET_PHASES               (NUMBER,            1,     1,       3, "misjudge the power of the inlet"),
    INLET_SUPPLY_V             (VOLT,            230,   100,     250, "misjudge the current taken from the station (a.c., rms)"),
    INLET_STALE_MS             (MILLISECOND,     500,    50,    3000, "charge on from a dead pilot"),
    INLET_LOCK                 (                   0, List.of("none", "fitted"), "let a plug be pulled under load, or wait for a lock that is not there"),
    INLET_LOCK_MS              (MILLISECOND,    1500,   100,   10000, "refuse a slow lock, or charge behind an open one"),
    INLET_UNLOCK_MS            (MILLISECOND,   10000,   500,   60000, "let the plug go under load, or hold it for ever"),

    CHARGER_SIDE               (               given(), List.of("pack-side", "bus-side"), "close contactors that the charger does not need, or not close them"),
    CHARGER_CONTROL            (                   0, List.of("limited", "switched", "alone"), "ask a charger for what it does not do, or leave it unlimited"),
    CHARGER_COUNT              (NUMBER,            1,     1,       3, "leave chargers unlimited"),
    CHARGER_1_MAX_W            (WATT,          given(), 100,   50000, "ask more than the charger has (d.c. side)"),
    CHARGER_2_MAX_W            (WATT,              0,     0,   50000, "ask more than the charger has (d.c. side)"),
    CHARGER_3_MAX_W            (WATT,              0,     0,   50000, "ask more than the charger has (d.c. side)"),
    CHARGER_EFFICIENCY         (NUMBER,         0.92,   0.5,       1, "overload the supply circuit"),
    CHARGER_POWER_FACTOR       (NUMBER,         0.98,   0.5,       1, "overload the supply circuit"),
    CHARGER_LAG_MS             (MILLISECOND,    2000,   100,   10000, "call a slow charger a disobedient one, or the reverse"),
    CHARGER_IGNORES_MS         (MILLISECOND,    4000,   200,   20000, "call a slow charger a disobedient one, or overload the supply"),
    CHARGER_SILENT_MS          (MILLISECOND,    3000,   100,   20000, "overload supply or cable while a silent charger still delivers"),
    CHARGER_WARM_C             (CELSIUS,          60,    20,     100, "overheat the charger"),
    CHARGER_HOT_C              (CELSIUS,          75,    30,     120, "overheat the charger"),

    CHARGE_CURRENT_A           (AMPERE,        given(), 0.5,     500, "charge faster than the cells allow"),
    CHARGE_VOLTAGE_V           (VOLT,          given(),  12,    1000, "overcharge the pack"),
    CHARGE_OVER_V              (VOLT,          given(), 0.1,      20, "trip on ripple, or let the pack be overcharged"),
    CHARGE_OVER_MS             (MILLISECOND,     200,    10,    5000, "trip on ripple, or let the pack be overcharged"),
    CHARGE_END_A               (AMPERE,        given(), 0.1,     100, "never end, or end half full"),
    CHARGE_END_S               (SECOND,           60,     1,    3600, "end on a dip"),
    CHARGE_MAX_MIN             (MINUTE,          960,    10,    2880, "charge for ever into a bad cell"),
    CHARGE_RESTART_FRACTION    (NUMBER,         0.95,   0.5,    0.99, "top up all night, or never"),
    CHARGE_RAMP_A_PER_S        (AMPERE,            5,   0.1,     100, "step the station's supply"),
    CHARGE_WARM_C              (CELSIUS,          40,    20,      60, "charge warm cells at full current"),
    CHARGE_HOT_C               (CELSIUS,          45,    25,      60, "charge hot cells"),
    CHARGE_STOP_MS             (MILLISECOND,     100,    10,    3000, "break the plug's contacts under load"),
    CHARGE_RETRY_S             (SECOND,           30,     1,     600, "hammer a station that refuses"),
    CHARGE_BALANCE_MIN         (MINUTE,            0,     0,     600, "hold the pack at its limit too long"),

    HEATER_MAX_C               (CELSIUS,          75,    30,     120, "set fire to the heater box"),
    HEATER_AIRFLOW_MS          (MILLISECOND,    1500,   100,    5000, "heat without airflow"),
    DCDC_SIDE                  (                   1, List.of("pack-side", "bus-side"), "let the 12 V battery run flat"),

    GAUGE_REST_MIN             (MINUTE,           30,     1,     600, "trust a voltage that has not settled"),
    GAUGE_CURRENT_ERROR_A      (AMPERE,          0.5,     0,      20, "show more certainty than there is"),
    GAUGE_CAPACITY_ERROR       (NUMBER,         0.03,     0,     0.3, "show more certainty than there is"),
    GAUGE_VOLTAGE_ERROR_V      (VOLT,          0.015, 0.001,     0.2, "show more certainty than there is (a cell, sensor and curve together)"),

    BUDGET_TORQUE_MS           (MILLISECOND,     250,    20,    2000, "let the car move unasked (fault-tolerant time)"),
    BUDGET_SHOCK_MS            (MILLISECOND,     600,    20,   10000, "leave people near live parts (fault-tolerant time)"),
    BUDGET_ARC_MS              (MILLISECOND,    1500,    20,   20000, "arc, weld or heat a resistor red (fault-tolerant time)"),
    BUDGET_PACK_MS             (MILLISECOND,    3000,    20,   60000, "damage cells (fault-tolerant time)"),
    BUDGET_HEAT_MS             (MILLISECOND,    5000,    20,   60000, "overheat parts (fault-tolerant time)"),
    BUDGET_INLET_MS            (MILLISECOND,    1000,    20,    6000, "draw an arc at the inlet (fault-tolerant time)"),
    BUDGET_LATENT_MS           (MILLISECOND,   10000,   100,   60000, "leave a hidden first fault until a second one hurts (fault-tolerant time)");
    // @formatter:on

    /** How many parameters there are. */
    public static final int COUNT = values().length;

    private final Spec spec;

    Parameter(Unit unit, double byDefault, double min, double max, String risk) {
        spec = Spec.number(unit, byDefault, min, max, risk);
    }

    Parameter(double byDefault, List<String> choices, String risk) {
        spec = Spec.choice(byDefault, choices, risk);
    }

    /** No default: the vehicle's file must give it. */
    private static double given() {
        return Double.NaN;
    }

    @Override
    public Spec spec() {
        return spec;
    }
}
