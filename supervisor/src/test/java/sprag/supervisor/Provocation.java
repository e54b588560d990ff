package sprag.supervisor;

import java.util.Set;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/**
 * How each interlock is provoked on the rig: a quantity, its last good value and its first bad one. One row each; where a
 * limit has two sides there are two rows. The letters say in which states it is tried, as in {@link Interlock}.
 */
public enum Provocation {
    // @formatter:off
    //                     row                                  where      quantity                                       good     bad
    CUT_LOOP              (Interlock.CUT_LOOP_OPEN,            " ipdrcf", signal(Signal.CUT_LOOP_CLOSED),                     1,       0),
    CUT_LOOP_UNKNOWN      (Interlock.CUT_LOOP_OPEN,            " ipdrcf", signal(Signal.CUT_LOOP_CLOSED),                     1, unknown()),
    CRASH                 (Interlock.CRASH_SEEN,               "oipdrcf", signal(Signal.CRASH_LOOP_CLOSED),                   1,       0),
    LV_GONE               (Interlock.LV_LOST,                  " ipdrcf", signal(Signal.LV_SUPPLY_V),                         9,    8.99),
    LV_UNKNOWN            (Interlock.LV_LOST,                  " ipdrcf", signal(Signal.LV_SUPPLY_V),                         9, unknown()),
    NEGATIVE_STAYS        (Interlock.NEGATIVE_WELDED,          "oip  cf", answer(Signal.NEGATIVE_AUX_CLOSED),                 0,       1),
    POSITIVE_STAYS        (Interlock.POSITIVE_WELDED,          "oip  cf", answer(Signal.POSITIVE_AUX_CLOSED),                 0,       1),
    PRECHARGE_STAYS       (Interlock.PRECHARGE_WELDED,         "oi d cf", answer(Signal.PRECHARGE_AUX_CLOSED),                0,       1),
    BUS_STAYS_LIVE        (Interlock.BUS_STILL_LIVE,           "oi   cf", answer(Signal.BUS_VOLTAGE_V),                      60,    60.1),

    PLUG                  (Interlock.PLUG_PRESENT,             "  pd   ", signal(Signal.PLUG_PRESENT),                        0,       1),
    PLUG_UNKNOWN          (Interlock.PLUG_PRESENT,             "  pd   ", signal(Signal.PLUG_PRESENT),                        0, unknown()),
    COVER                 (Interlock.COVER_LOOP_OPEN,          " ipdrcf", signal(Signal.COVER_LOOP_CLOSED),                   1,       0),
    COVER_UNKNOWN         (Interlock.COVER_LOOP_OPEN,          " ipdrcf", signal(Signal.COVER_LOOP_CLOSED),                   1, unknown()),
    PACK_HOT              (Interlock.PACK_OVERHEATED,          " ipdrcf", celsius(Signal.PACK_HOT_V),                      54.8,    55.2),
    PACK_HIGH             (Interlock.PACK_OVERVOLTAGE,         " ipd cf", Rig::pack,                                        403,   403.1),
    PACK_EMPTY            (Interlock.PACK_UNDERVOLTAGE,        " ipd   ", Rig::pack,                                        288,   287.9),
    CELL_HIGH             (Interlock.CELL_OVERVOLTAGE,         " ipdrcf", signal(Signal.CELL_MAX_V),                        4.2,   4.201),
    CELL_EMPTY            (Interlock.CELL_UNDERVOLTAGE,        " ipd   ", signal(Signal.CELL_MIN_V),                        3.0,   2.999),
    CURRENT_OUT           (Interlock.PACK_OVERCURRENT,         "  pd c ", signal(Signal.PACK_CURRENT_A),                    360,   360.1),
    CURRENT_IN            (Interlock.PACK_OVERCURRENT,         "  pd c ", signal(Signal.PACK_CURRENT_A),                   -108,  -108.1),
    PACK_VOLTAGE_GONE     (Interlock.READINGS_LOST,            " ipdrcf", signal(Signal.PACK_VOLTAGE_V),                    350, unknown()),
    PACK_VOLTAGE_BEYOND   (Interlock.READINGS_LOST,            " ip  cf", signal(Signal.PACK_VOLTAGE_V),                   1000, 1000.01),
    BUS_VOLTAGE_GONE      (Interlock.READINGS_LOST,            " i drcf", answer(Signal.BUS_VOLTAGE_V),                     350, unknown()),
    BUS_VOLTAGE_BELOW     (Interlock.READINGS_LOST,            " i   cf", answer(Signal.BUS_VOLTAGE_V),                     -10,  -10.01),
    CURRENT_GONE          (Interlock.READINGS_LOST,            " ipdrcf", signal(Signal.PACK_CURRENT_A),                      0, unknown()),
    CURRENT_BEYOND        (Interlock.READINGS_LOST,            " ip  cf", signal(Signal.PACK_CURRENT_A),                  -2040,   -2041),
    CRASH_UNKNOWN         (Interlock.READINGS_LOST,            " ipdrcf", signal(Signal.CRASH_LOOP_CLOSED),                   1, unknown()),
    LINK                  (Interlock.LINK_LOST,                " ipdrcf", signal(Signal.LINK_LOST),                           0,       1),
    LATE                  (Interlock.LOOP_LATE,                " ipdrcf", signal(Signal.LOOP_OVERRUN),                        0,       1),
    BUS_FALLS_AWAY        (Interlock.BUS_LOST,                 "   d   ", answer(Signal.BUS_VOLTAGE_V),                     245,   244.9),
    NEGATIVE_DROPS        (Interlock.NEGATIVE_DROPPED,         "   d   ", answer(Signal.NEGATIVE_AUX_CLOSED),                 1,       0),
    NEGATIVE_UNKNOWN      (Interlock.NEGATIVE_DROPPED,         "   d   ", answer(Signal.NEGATIVE_AUX_CLOSED),                 1, unknown()),
    POSITIVE_DROPS        (Interlock.POSITIVE_DROPPED,         "   d   ", answer(Signal.POSITIVE_AUX_CLOSED),                 1,       0),
    DRIVES_BY_ITSELF      (Interlock.TORQUE_UNASKED,           "   d   ", lifted(Signal.PACK_CURRENT_A),                     15,    15.1),
    BRAKES_BY_ITSELF      (Interlock.TORQUE_UNASKED,           "   d   ", lifted(Signal.PACK_CURRENT_A),                    -15,   -15.1),
    LEAKS_AT_REST         (Interlock.ISOLATION_LOST,           "     cf", signal(Signal.ISOLATION_KOHM),                  201.5,   201.4),

    TRACK_A_SHORTED       (Interlock.PEDAL_OUT_OF_RANGE,       " i d   ", signal(Signal.PEDAL_A_V),                        0.25,    0.24),
    TRACK_A_OPEN          (Interlock.PEDAL_OUT_OF_RANGE,       " i d   ", signal(Signal.PEDAL_A_V),                        4.75,    4.76),
    TRACK_B_SHORTED       (Interlock.PEDAL_OUT_OF_RANGE,       " i d   ", signal(Signal.PEDAL_B_V),                        0.25,    0.24),
    TRACK_B_UNKNOWN       (Interlock.PEDAL_OUT_OF_RANGE,       " i d   ", signal(Signal.PEDAL_B_V),                        4.75, unknown()),
    WIPERS_TOUCH          (Interlock.PEDAL_SHORTED,            " i d   ", Provocation::apart,                             0.151,   0.149),
    REFERENCE_SAGS        (Interlock.PEDAL_REFERENCE_WRONG,    " i d   ", signal(Signal.PEDAL_SUPPLY_V),                   4.75,    4.74),
    REFERENCE_HIGH        (Interlock.PEDAL_REFERENCE_WRONG,    " i d   ", signal(Signal.PEDAL_SUPPLY_V),                   5.25,    5.26),
    TRACKS_APART          (Interlock.PEDAL_DISAGREES,          " i d   ", Provocation::disagree,                           0.10,   0.101),
    SPEED_GONE            (Interlock.SPEED_LOST,               " i d   ", signal(Signal.MOTOR_SPEED_RPM),                     0, unknown()),
    SPEED_BEYOND          (Interlock.SPEED_LOST,               " i d   ", signal(Signal.MOTOR_SPEED_RPM),                 15000,   15001),
    SPEED_FALLS           (Interlock.SPEED_DOUBTED,            "   d   ", Provocation::falls,                               3.53,    3.55),
    SPEED_JUMPS           (Interlock.SPEED_DOUBTED,            "   d   ", Provocation::jumps,                               6.99,    7.01),
    INVERTER_FAULT        (Interlock.INVERTER_FAULTED,         "   d   ", signal(Signal.INVERTER_FAULT),                      0,       1),
    INVERTER_UNKNOWN      (Interlock.INVERTER_FAULTED,         "   d   ", signal(Signal.INVERTER_FAULT),                      0, unknown()),
    INVERTER_READY        (Interlock.INVERTER_NOT_READY,       "   d   ", signal(Signal.INVERTER_READY),                      1,       0),
    BOTH_PEDALS           (Interlock.PEDAL_WITH_BRAKE,         "   d   ", Provocation::braked,                             0.25,   0.251),
    FOOT_STANDS_STILL     (Interlock.PEDAL_STILL,              "   d   ", Provocation::braked,                            0.049,    0.06),
    BOTH_DIRECTIONS       (Interlock.DIRECTION_CONFLICT,       "   d   ", signal(Signal.REVERSE_SWITCH),                      0,       1),
    DIRECTION_UNKNOWN     (Interlock.DIRECTION_CONFLICT,       "   d   ", signal(Signal.REVERSE_SWITCH),                      0, unknown()),
    BUS_TOO_HIGH          (Interlock.BUS_OVERVOLTAGE,          "   d   ", answer(Signal.BUS_VOLTAGE_V),                     430,   430.1),
    MOTOR_HOT             (Interlock.MOTOR_OVERHEATED,         " i d   ", celsius(Signal.MOTOR_TEMP_V),                   139.5,   140.5),
    INVERTER_HOT          (Interlock.INVERTER_OVERHEATED,      " i d   ", celsius(Signal.INVERTER_TEMP_V),                 84.8,    85.2),
    COOLANT_HOT           (Interlock.COOLANT_OVERHEATED,       " i d   ", celsius(Signal.COOLANT_TEMP_V),                  74.8,    75.2),
    NO_DISCHARGE          (Interlock.DISCHARGE_WITHDRAWN,      " ipd   ", signal(Signal.DISCHARGE_PERMIT),                    1,       0),

    NO_BRAKE              (Interlock.BRAKE_NOT_PRESSED,        " i     ", signal(Signal.BRAKE_PRESSED),                       1,       0),
    BRAKE_UNKNOWN         (Interlock.BRAKE_NOT_PRESSED,        " i     ", signal(Signal.BRAKE_PRESSED),                       1, unknown()),
    TRACK_HAS_DRIFTED     (Interlock.PEDAL_REST_WRONG,         " i     ", Provocation::drifted,                           0.029,   0.031),
    PEDAL_HELD            (Interlock.PEDAL_NOT_RELEASED,       " i     ", Rig::pedal,                                     0.049,   0.051),

    MOTOR_WARM            (Interlock.MOTOR_WARM,               "   d   ", celsius(Signal.MOTOR_TEMP_V),                   109.5,   110.5),
    INVERTER_WARM         (Interlock.INVERTER_WARM,            "   d   ", Provocation::bothAt,                             69.8,    70.2),
    COOLANT_WARM          (Interlock.COOLANT_WARM,             "   d   ", celsius(Signal.COOLANT_TEMP_V),                  59.8,    60.2),
    NO_FLOW               (Interlock.COOLING_LOST,             "   d   ", celsius(Signal.INVERTER_TEMP_V),                 49.8,    50.2),
    PACK_WARM             (Interlock.PACK_WARM,                "   d   ", celsius(Signal.PACK_HOT_V),                      44.8,    45.2),
    PACK_COOL             (Interlock.PACK_COOL,                "   d   ", celsius(Signal.PACK_COLD_V),                     10.2,     9.8),
    CELL_NEARLY_FULL      (Interlock.PACK_FULL,                "   d   ", signal(Signal.CELL_MAX_V),                      4.149,    4.15),
    PACK_NEARLY_FULL      (Interlock.PACK_FULL,                "   d   ", Rig::pack,                                      390.9,   391),
    CELL_NEARLY_EMPTY     (Interlock.PACK_LOW,                 "   d   ", signal(Signal.CELL_MIN_V),                      3.201,     3.2),
    PACK_NEARLY_EMPTY     (Interlock.PACK_LOW,                 "   d   ", Rig::pack,                                     305.26,  305.25),
    NO_CHARGE             (Interlock.CHARGE_WITHDRAWN,         "   d   ", signal(Signal.CHARGE_PERMIT),                       1,       0),
    MOTOR_SENSOR_OPEN     (Interlock.DRIVE_SENSOR_LOST,        "   d   ", signal(Signal.MOTOR_TEMP_V),                     4.929,    4.93),
    COOLANT_SENSOR_SHORTED(Interlock.DRIVE_SENSOR_LOST,        "   d   ", signal(Signal.COOLANT_TEMP_V),                      3,     0.1),
    INVERTER_SENSOR_GONE  (Interlock.DRIVE_SENSOR_LOST,        "   d   ", signal(Signal.INVERTER_TEMP_V),                     3, unknown()),
    PACK_SENSOR_OPEN      (Interlock.PACK_SENSOR_LOST,         "   d   ", signal(Signal.PACK_COLD_V),                       3.9,    4.93),
    PACK_SENSOR_GONE      (Interlock.PACK_SENSOR_LOST,         "   d   ", signal(Signal.PACK_HOT_V),                          3, unknown()),
    CELLS_SILENT          (Interlock.MONITOR_SILENT,           " i d   ", signal(Signal.CELL_MAX_V),                       3.65, unknown()),
    CELLS_NONSENSE        (Interlock.MONITOR_SILENT,           " i d   ", signal(Signal.CELL_MIN_V),                       3.65,    0.49),
    LV_SAGS               (Interlock.LV_LOW,                   " i d   ", signal(Signal.LV_SUPPLY_V),                      11.4,   11.39),
    LEAKS                 (Interlock.ISOLATION_LOW,            " i d   ", signal(Signal.ISOLATION_KOHM),                  201.5,   201.4),
    LEAK_UNKNOWN          (Interlock.ISOLATION_SILENT,         " i d   ", signal(Signal.ISOLATION_KOHM),                  201.5, unknown()),
    CURRENTS_DIFFER       (Interlock.CURRENTS_APART,           " i d   ", signal(Signal.PACK_CURRENT_2_A),                 15,    15.1),
    CURRENTS_OPPOSE       (Interlock.CURRENTS_APART,           " i d   ", signal(Signal.PACK_CURRENT_2_A),                -15,   -15.1),
    CURRENT_2_GONE        (Interlock.CURRENTS_APART,           " i d   ", signal(Signal.PACK_CURRENT_2_A),                  0, unknown()),
    TOO_FAST              (Interlock.OVERSPEED,                "   d   ", Rig::speedKph,                                  136.5,   136.6),
    MOTOR_TOO_FAST        (Interlock.OVERSPEED,                "   d   ", Provocation::backwards,                         -9000,   -9655.9),
    WHEEL_GONE            (Interlock.WHEEL_SPEED_LOST,         "   d   ", answer(Signal.WHEEL_SPEED_KPH),                     0, unknown()),
    DEMAND_GONE           (Interlock.REGEN_DEMAND_LOST,        "   d   ", signal(Signal.REGEN_DEMAND_V),                    0.5, unknown()),
    DEMAND_SHORTED        (Interlock.REGEN_DEMAND_LOST,        "   d   ", signal(Signal.REGEN_DEMAND_V),                    0.5,    0.24),
    ROLLS_BACK            (Interlock.ROLLING_AWAY,             "   d   ", Provocation::rolls,                              -0.99,   -1.01);
    // @formatter:on

    /** Sets a quantity on the rig. */
    public interface Setter {
        void set(Rig rig, double value);
    }

    public final Interlock row;
    public final Set<State> where;
    public final Setter setter;
    public final double good;
    public final double bad;

    Provocation(Interlock row, String where, Setter setter, double good, double bad) {
        this.row = row;
        this.where = State.inColumn(where);
        this.setter = setter;
        this.good = good;
        this.bad = bad;
    }

    /** The vehicle that it is tried on: one that has the signal. */
    public Settings settings() {
        return row == Interlock.CURRENTS_APART || row == Interlock.REGEN_DEMAND_LOST
                ? TestVehicle.every()
                : TestVehicle.full();
    }

    /** How many ticks the cause must have lasted. */
    public int detectionTicks(Rig rig) {
        return row.cause.detection() == null ? 0 : rig.ticks(row.cause.detection());
    }

    private static double unknown() {
        return Double.NaN;
    }

    private static Setter signal(Signal signal) {
        return (rig, value) -> rig.given(signal, value);
    }

    private static Setter celsius(Signal signal) {
        return (rig, value) -> rig.celsius(signal, value);
    }

    /** A reading that the rig's plant would write. */
    private static Setter answer(Signal signal) {
        return (rig, value) -> rig.leave().meddle(signal, value);
    }

    /** With the foot off, so that no torque is asked for. */
    private static Setter lifted(Signal signal) {
        return (rig, value) -> rig.pedal(0).given(signal, value);
    }

    private static void apart(Rig rig, double volts) {
        rig.given(Signal.PEDAL_A_V, 2 + volts).given(Signal.PEDAL_B_V, 2);
    }

    private static void disagree(Rig rig, double share) {
        rig.pedal(0.2 + share).pedalA(0.2);
    }

    private static void braked(Rig rig, double travel) {
        rig.pedal(travel).given(Signal.BRAKE_PRESSED, 1);
    }

    /** The other track a little below its rest, so that both seem released: 5 % apart are allowed there. */
    private static void drifted(Rig rig, double share) {
        rig.pedal(-0.02).pedalA(share);
    }

    private static void bothAt(Rig rig, double celsius) {
        rig.celsius(Signal.COOLANT_TEMP_V, 50).celsius(Signal.INVERTER_TEMP_V, celsius);
    }

    private static void backwards(Rig rig, double rpm) {
        rig.pedal(0).speedRpm(rpm);
    }

    /** Between two ticks; tyres slow this car by 0.54 km/h a tick, and 3 km/h are the margin. */
    private static void falls(Rig rig, double kph) {
        rig.pedal(0).speedKph(50).runMs(400).jumpKph(50 - kph);
    }

    /** Between two ticks; spinning wheels gain 4 km/h a tick, and 3 km/h are the margin. */
    private static void jumps(Rig rig, double kph) {
        rig.pedal(0).speedKph(20).runMs(400).jumpKph(20 + kph);
    }

    /** With the foot off, so that the speed is even. */
    private static void rolls(Rig rig, double kph) {
        rig.pedal(0).speedKph(kph);
    }
}
