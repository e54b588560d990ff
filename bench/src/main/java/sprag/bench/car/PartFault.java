package sprag.bench.car;

import static sprag.supervisor.vocabulary.Unit.KILO_OHM;
import static sprag.supervisor.vocabulary.Unit.MILLISECOND;
import static sprag.supervisor.vocabulary.Unit.NUMBER;
import static sprag.supervisor.vocabulary.Unit.SWITCH;
import static sprag.supervisor.vocabulary.Unit.VOLT;
import static sprag.supervisor.vocabulary.Unit.WATT;

import java.util.function.Predicate;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.Unit;

/** What can go wrong with a part of the car, other than with a sensor or a control wire. One row each. */
public enum PartFault {
    // @formatter:off
    //                               name                               unit         usual  where        what it is
    NEGATIVE_WELDED                 ("negative_contactor.welded",       SWITCH,       1, bothPoles(),    "contacts are stuck closed: open ones close at once, closed ones stay closed"),
    NEGATIVE_STUCK_OPEN             ("negative_contactor.stuck_open",   SWITCH,       1, bothPoles(),    "contacts never close"),
    NEGATIVE_SLOW                   ("negative_contactor.slow",         MILLISECOND, 200, bothPoles(),   "closes and opens later by this"),
    NEGATIVE_BOUNCE                 ("negative_contactor.bounce",       MILLISECOND, 60, bothPoles(),    "bounces for this long at closing"),
    POSITIVE_WELDED                 ("positive_contactor.welded",       SWITCH,       1, any(),         "contacts are stuck closed: open ones close at once, closed ones stay closed"),
    POSITIVE_STUCK_OPEN             ("positive_contactor.stuck_open",   SWITCH,       1, any(),         "contacts never close"),
    POSITIVE_SLOW                   ("positive_contactor.slow",         MILLISECOND, 200, any(),        "closes and opens later by this"),
    POSITIVE_BOUNCE                 ("positive_contactor.bounce",       MILLISECOND, 60, any(),         "bounces for this long at closing"),
    PRECHARGE_WELDED                ("precharge_relay.welded", SWITCH,       1, any(),         "contacts are stuck closed: open ones close at once, closed ones stay closed"),
    PRECHARGE_STUCK_OPEN            ("precharge_relay.stuck_open", SWITCH,   1, any(),         "contacts never close"),
    PRECHARGE_SLOW                  ("precharge_relay.slow",   MILLISECOND, 200, any(),        "closes and opens later by this"),
    PRECHARGE_BOUNCE                ("precharge_relay.bounce", MILLISECOND, 60, any(),         "bounces for this long at closing"),
    RESISTOR_OPEN                   ("precharge_resistor.open",         SWITCH,       1, any(),         "no precharge current flows"),
    RESISTOR_SHORTED                ("precharge_resistor.shorted",      SWITCH,       1, any(),         "precharge current is limited by nothing"),
    BUS_SHORTED                     ("bus.shorted",                     SWITCH,       1, any(),         "a low resistance across the bus"),
    BUS_CAPACITOR_MISSING           ("bus.capacitor_missing",           SWITCH,       1, any(),         "a hundredth of the capacitance is left"),
    BUS_LOAD_LEFT_ON                ("bus.load_left_on",                WATT,       200, any(),         "a load of this power stays on the bus"),
    BUS_BLEED_OPEN                  ("bus.bleed_open",                  SWITCH,       1, any(),         "the bus discharges a hundred times slower"),
    FUSE_BLOWN                      ("pack_fuse.blown",                 SWITCH,       1, any(),         "the main fuse of the pack has opened"),
    CELL_HIGH                       ("cell.high",                       VOLT,       0.5, any(),         "one cell stands higher than the others by this"),
    CELL_LOW                        ("cell.low",                        VOLT,       1.2, any(),         "one cell stands lower than the others by this"),
    MONITOR_SILENT                  ("battery_monitor.silent",          SWITCH,       1, any(),         "the battery monitor is off: permits gone, cell voltages not sampled"),
    ISOLATION_LOW                   ("isolation.low",                   KILO_OHM,     5, any(),         "traction leaks to the chassis through this"),
    COIL_SUPPLY_LOST                ("coil_supply.lost",                SWITCH,       1, any(),         "no coil of the contactor box gets current"),
    LV_DIP                          ("lv_supply.dip",                   VOLT,         5, any(),         "the 12 V side sags by this"),
    DCDC_DEAD                       ("dcdc.dead",                       SWITCH,       1, any(),         "the DC-DC converter delivers nothing"),
    PUMP_STOPPED                    ("pump.stopped",                    SWITCH,       1, liquid(),      "the coolant stands still"),
    FAN_STOPPED                     ("fan.stopped",                     SWITCH,       1, liquid(),      "the radiator fan stands still"),
    BLOWER_DEAD                     ("blower.dead",                     SWITCH,       1, heated(),      "no air passes the heater"),
    INVERTER_NOT_READY              ("inverter.not_ready",              SWITCH,       1, any(),         "makes no torque and says so"),
    INVERTER_TRIPPED                ("inverter.tripped",                SWITCH,       1, any(),         "makes no torque and reports a fault"),
    INVERTER_RUNS_ON                ("inverter.runs_on",                SWITCH,       1, any(),         "keeps its torque whatever is asked, enabled or not"),
    MOTOR_DEMAGNETISED              ("motor.demagnetised",              NUMBER,     0.5, magnets(),     "torque and voltage of the motor are this share of sound ones"),
    CHARGER_1_DEAD                  ("charger_1.dead",                  SWITCH,       1, charger(1),    "delivers nothing and says so"),
    CHARGER_1_OVERSHOOT             ("charger_1.overshoot",             VOLT,         8, charger(1),    "regulates to a voltage higher by this"),
    CHARGER_1_LAG                   ("charger_1.lag",                   MILLISECOND, 2000, charger(1),  "follows its limit later by this"),
    CHARGER_1_IGNORES_LIMIT         ("charger_1.ignores_limit",         SWITCH,       1, charger(1),    "delivers all it has whatever its limit, while it has mains"),
    CHARGER_1_KEEPS_LIMIT           ("charger_1.keeps_limit",           SWITCH,       1, charger(1),    "keeps the limits that it has now until it is disabled"),
    CHARGER_1_STAYS_ENABLED         ("charger_1.stays_enabled",         SWITCH,       1, charger(1),    "heeds its limits, but not that it is disabled"),
    CHARGER_1_DERATED               ("charger_1.derated",               NUMBER,     0.5, charger(1),    "delivers this share of what it has"),
    CHARGER_2_DEAD                  ("charger_2.dead",                  SWITCH,       1, charger(2),    "delivers nothing and says so"),
    CHARGER_2_OVERSHOOT             ("charger_2.overshoot",             VOLT,         8, charger(2),    "regulates to a voltage higher by this"),
    CHARGER_2_LAG                   ("charger_2.lag",                   MILLISECOND, 2000, charger(2),  "follows its limit later by this"),
    CHARGER_2_IGNORES_LIMIT         ("charger_2.ignores_limit",         SWITCH,       1, charger(2),    "delivers all it has whatever its limit, while it has mains"),
    CHARGER_2_KEEPS_LIMIT           ("charger_2.keeps_limit",           SWITCH,       1, charger(2),    "keeps the limits that it has now until it is disabled"),
    CHARGER_2_STAYS_ENABLED         ("charger_2.stays_enabled",         SWITCH,       1, charger(2),    "heeds its limits, but not that it is disabled"),
    CHARGER_2_DERATED               ("charger_2.derated",               NUMBER,     0.5, charger(2),    "delivers this share of what it has"),
    CHARGER_3_DEAD                  ("charger_3.dead",                  SWITCH,       1, charger(3),    "delivers nothing and says so"),
    CHARGER_3_OVERSHOOT             ("charger_3.overshoot",             VOLT,         8, charger(3),    "regulates to a voltage higher by this"),
    CHARGER_3_LAG                   ("charger_3.lag",                   MILLISECOND, 2000, charger(3),  "follows its limit later by this"),
    CHARGER_3_IGNORES_LIMIT         ("charger_3.ignores_limit",         SWITCH,       1, charger(3),    "delivers all it has whatever its limit, while it has mains"),
    CHARGER_3_KEEPS_LIMIT           ("charger_3.keeps_limit",           SWITCH,       1, charger(3),    "keeps the limits that it has now until it is disabled"),
    CHARGER_3_STAYS_ENABLED         ("charger_3.stays_enabled",         SWITCH,       1, charger(3),    "heeds its limits, but not that it is disabled"),
    CHARGER_3_DERATED               ("charger_3.derated",               NUMBER,     0.5, charger(3),    "delivers this share of what it has"),
    STATION_STUCK_CLOSED            ("station.stuck_closed",            SWITCH,       1, any(),         "the station's contactor does not open: mains stay on the inlet"),
    STATION_SILENT                  ("station.silent",                  SWITCH,       1, any(),         "no pilot voltage at all"),
    STATION_REFUSES                 ("station.refuses",                 SWITCH,       1, any(),         "the pilot stands at -12 V: not available"),
    STATION_DUTY_LIES               ("station.duty_lies",               NUMBER,     1.6, any(),         "offers this many times what it can supply"),
    STATION_THROTTLES               ("station.throttles",               NUMBER,     0.5, any(),         "lowers its offer to this share, again and again each 10 s"),
    PLUG_LOCK_STUCK                 ("plug_lock.stuck",                 SWITCH,       1, locked(),      "the pin of the inlet's lock stays where it is"),
    PILOT_SHORTED                   ("pilot.shorted",                   SWITCH,       1, any(),         "the pilot is shorted to earth: state E"),
    PILOT_BROKEN                    ("pilot.broken",                    SWITCH,       1, any(),         "the pilot conductor is broken in the cable"),
    PILOT_DIODE_SHORTED             ("pilot.diode_shorted",             SWITCH,       1, any(),         "the negative half is loaded too: the station refuses"),
    PILOT_ASKS_VENTILATION          ("pilot.asks_ventilation",          SWITCH,       1, any(),         "the car shows state D where it should show C"),
    TIMER_1_STUCK_CLOSED            ("timer_1.stuck_closed",            SWITCH,       1, timer(1),      "the timer's contact is closed from the first moment on"),
    TIMER_1_STUCK_OPEN              ("timer_1.stuck_open",              SWITCH,       1, timer(1),      "the timer's contact never closes"),
    TIMER_2_STUCK_CLOSED            ("timer_2.stuck_closed",            SWITCH,       1, timer(2),      "the timer's contact is closed from the first moment on"),
    TIMER_2_STUCK_OPEN              ("timer_2.stuck_open",              SWITCH,       1, timer(2),      "the timer's contact never closes"),
    LINK_LOST                       ("link.lost",                       SWITCH,       1, any(),         "no samples arrive and no commands leave");
    // @formatter:on

    /** How many there are. */
    public static final int COUNT = values().length;

    /** The stable name, e.g. {@code positive_contactor.welded}. */
    public final String key;
    /** What the magnitude is given in; a switch has none. */
    public final Unit unit;
    /** The usual magnitude. */
    public final double usual;
    /** One sentence for people. */
    public final String meaning;

    private final Predicate<Vehicle> where;

    PartFault(String key, Unit unit, double usual, Predicate<Vehicle> where, String meaning) {
        this.key = key;
        this.unit = unit;
        this.usual = usual;
        this.where = where;
        this.meaning = meaning;
    }

    /** Whether the vehicle has the part. */
    public boolean appliesTo(Vehicle vehicle) {
        return where.test(vehicle);
    }

    private static Predicate<Vehicle> any() {
        return vehicle -> true;
    }

    private static Predicate<Vehicle> bothPoles() {
        return vehicle -> vehicle.is(Parameter.CONTACTOR_POLES, "both");
    }

    private static Predicate<Vehicle> liquid() {
        return vehicle -> vehicle.is(CarParameter.THERMAL_COOLING, "liquid");
    }

    private static Predicate<Vehicle> heated() {
        return vehicle -> vehicle.get(CarParameter.WARMER_POWER_W) > 0
                && vehicle.settings().has(Signal.HEATER_REQUEST);
    }

    private static Predicate<Vehicle> magnets() {
        return vehicle -> vehicle.is(Parameter.MOTOR_KIND, "permanent-magnet");
    }

    private static Predicate<Vehicle> locked() {
        return vehicle -> vehicle.is(Parameter.INLET_LOCK, "fitted");
    }

    private static Predicate<Vehicle> timer(int number) {
        return vehicle ->
                CarParameter.hasRelays(vehicle) && (number == 1 || !vehicle.is(CarParameter.RELAYS_TIMERS, "one"));
    }

    private static Predicate<Vehicle> charger(int number) {
        return vehicle -> vehicle.get(Parameter.CHARGER_COUNT) >= number;
    }
}
