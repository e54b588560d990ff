package sprag.bench.evidence.campaign.harm;

import java.util.Locale;
import java.util.function.ToDoubleFunction;
import sprag.bench.car.Quantity;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/**
 * What counts as harm. One row each: the hazard of {@code docs/hazards.md}, how it is measured, above which amount it is harm,
 * and where that limit comes from. "Chosen" means that no source was found and the reason is given.
 */
public enum Harm {
    // @formatter:off
    //                 hazard  unit    how         what is measured
    UNASKED_TORQUE    ("H01", "Nm s", HarmWay.SUM,     "torque beyond what the pedal asks for",
        InstantHarm::unaskedNm, Harm::torqueForItsBudget, "full torque for budget.torque_ms of the vehicle"),
    UNASKED_MOTION    ("H01", "m",    HarmWay.SUM,     "driven from standstill although the pedal was never pressed",
        InstantHarm::unaskedMotionMps, v -> 0.3, "less than a step; chosen"),
    TETHERED_MOTION   ("H02", "m",    HarmWay.GROWN,   "driven with the plug in the inlet",
        c -> c.truth(Quantity.LIVE_PLUG_MOVE_M), v -> 0.05, "a car may rock in its suspension; chosen"),
    AGAINST_ROLLING   ("H03", "Nm s", HarmWay.SUM,     "torque of the other direction while the car rolls",
        InstantHarm::againstRollingNm, Harm::torqueForItsBudget, "full torque for budget.torque_ms of the vehicle"),
    WRONG_WAY         ("H03", "m",    HarmWay.SUM,     "driven by the motor against the direction lever",
        InstantHarm::wrongWayMps, v -> 0.3, "less than a step; chosen"),
    MOTOR_BRAKING     ("H04", "m/s2", HarmWay.MOST,    "slowed down by the motor while the pedal asks for drive",
        InstantHarm::motorBrakingMps2, v -> 1.3, "UN R13-H: above this a brake lamp must warn the driver behind"),
    DRIVE_LOST_UNTOLD ("H04", "s",    HarmWay.LONGEST, "no drive at speed, and neither lamp nor buzzer says so",
        InstantHarm::driveLostUntold, v -> 3, "the time in which a driver notices it without a lamp; chosen"),
    POLES_LEFT_CLOSED ("H05", "s",    HarmWay.LONGER,  "both poles closed with key off and plug out, more than without the fault",
        InstantHarm::polesLeftClosed, v -> v.get(Parameter.RUNDOWN_SPIN_MS) / 1000 + shockS(v),
        "rundown.spin_ms, the wait for a spinning motor, and budget.shock_ms of the vehicle"),
    BUS_LEFT_LIVE     ("H05", "s",    HarmWay.LONGER,  "bus above bus.discharged_v after the poles have opened, key off and plug out, more than without the fault",
        InstantHarm::busLeftLive, Harm::shockS, "budget.shock_ms of the vehicle"),
    ISOLATION_UNTOLD  ("H06", "s",    HarmWay.LONGEST, "poles closed with too little insulation, and no lamp says so",
        InstantHarm::isolationUntold, v -> v.get(Parameter.BUDGET_LATENT_MS) / 1000, "budget.latent_ms of the vehicle"),
    CONTACT_ARC       ("H07", "J",    HarmWay.GROWN,   "burnt in arcs of opening contacts, more than without the fault",
        c -> c.truth(Quantity.CONTACTOR_ARC_J), v -> 50, "leaves a contact usable; chosen"),
    INRUSH            ("H07", "J",    HarmWay.GROWN,   "dissipated in closing contacts, more than without the fault",
        c -> c.truth(Quantity.CONTACTOR_INRUSH_J), v -> 40, "does not weld a contact made for traction; chosen"),
    RESISTOR_HOT      ("H08", "C",    HarmWay.MOST,    "precharge resistor",
        c -> c.truth(Quantity.RESISTOR_TEMP_C), v -> 200, "silicone insulation beside it withstands 180 to 200 C; common practice"),
    PACK_OVER         ("H09", "V",    HarmWay.MOST,    "pack above pack.max_v",
        c -> c.truth(Quantity.PACK_VOLTAGE_V) - c.value(Parameter.PACK_MAX_V), v -> v.get(Parameter.PACK_MAX_V) * 0.01,
        "1 % of pack.max_v, the tolerance of a voltage measurement; chosen"),
    CELL_OVER         ("H09", "V s",  HarmWay.SUM,     "a cell above cell.max_v while it is charged",
        InstantHarm::cellOverV, Harm::cellVoltSeconds, "0.1 V for budget.pack_ms of the vehicle; chosen"),
    CELL_UNDER        ("H09", "V s",  HarmWay.SUM,     "a cell below cell.min_v while it is discharged",
        InstantHarm::cellUnderV, Harm::cellVoltSeconds, "0.1 V for budget.pack_ms of the vehicle; chosen"),
    PACK_OVERLOADED   ("H09", "s",    HarmWay.LONGEST, "pack current above its limit times pack.over_factor",
        InstantHarm::packOverloaded, Harm::packS, "budget.pack_ms of the vehicle"),
    CHARGED_COLD_HOT  ("H09", "s",    HarmWay.LONGEST, "pack charged below pack.cold_c or above pack.hot_c",
        InstantHarm::chargedColdOrHot, Harm::packS, "budget.pack_ms of the vehicle"),
    PLUG_ARC          ("H10", "A",    HarmWay.MOST,    "current at which the plug was pulled",
        c -> c.truth(Quantity.PLUG_ARC_A), v -> 1, "below about 1 A contacts part without a lasting arc; from memory"),
    CABLE_OVERLOADED  ("H10", "s",    HarmWay.LONGEST, "mains current a tenth above what station and cable allow",
        InstantHarm::cableOverloaded, v -> 5, "IEC 61851-1 gives the car 5 s to follow a lower limit; from memory"),
    PART_OVERHEATED   ("H11", "K",    HarmWay.MOST,    "motor, inverter, coolant or charger above its hot limit",
        InstantHarm::partOverK, v -> 10, "a part cools by as much when its load ends; chosen"),
    HEATER_HOT        ("H12", "C",    HarmWay.MOST,    "heater's outlet",
        c -> c.truth(Quantity.HEATER_TEMP_C), v -> 120, "plastics of a heater box soften above; common practice"),
    CLOSED_ON_LOW_12V ("H13", "s",    HarmWay.LONGEST, "a main contact closed with the 12 V side below lv.lost_v",
        InstantHarm::closedOnLowSupply, v -> v.get(Parameter.BUDGET_ARC_MS) / 1000, "budget.arc_ms of the vehicle"),
    CANNOT_OPEN       ("H14", "s",    HarmWay.LONGEST, "both poles closed although they are asked to open",
        InstantHarm::cannotOpen, v -> v.get(Parameter.BUDGET_ARC_MS) / 1000, "budget.arc_ms of the vehicle"),
    SELF_ENERGISED    ("H15", "times", HarmWay.SUM,    "bus made live by the pack without plug and without a start asked for",
        InstantHarm::selfEnergised, v -> 0, "must never be"),
    LAMP_DARK         ("H16", "s",    HarmWay.LONGEST, "slowed down by the motor above 1.3 m/s2 with the brake lamp dark",
        InstantHarm::lampDark, v -> 0.5, "UN R13-H gives the limit of 1.3 m/s2; the time is chosen"),
    BUS_OVER          ("H17", "V",    HarmWay.MOST,    "bus above bus.max_v",
        c -> c.truth(Quantity.BUS_VOLTAGE_V) - c.value(Parameter.BUS_MAX_V), v -> v.get(Parameter.BUS_MAX_V) * 0.05,
        "capacitors withstand a short surge of a tenth, and half of it is allowed; common practice"),
    OVERSPEED         ("H17", "rpm",  HarmWay.MOST,    "motor above motor.max_rpm",
        c -> Math.abs(c.truth(Quantity.MOTOR_SPEED_RPM)) - c.value(Parameter.MOTOR_MAX_RPM),
        v -> v.get(Parameter.MOTOR_MAX_RPM) * 0.1, "rotors are tested at 1.2 times the speed, and half of the excess is allowed; common practice"),
    ROLLED_AWAY       ("H18", "m",    HarmWay.SUM,     "rolled from standstill with pedal and brake released and no torque",
        InstantHarm::rolledAwayMps, v -> 0.3, "less than a step; chosen");
    // @formatter:on

    /** The id of its hazard in {@code docs/hazards.md}. */
    public final String hazard;
    /** What it is measured in. */
    public final String unit;
    /** How the amounts of single ticks become one of the run. */
    final HarmWay way;
    /** What is measured, as a clause for people. */
    public final String meaning;
    /** Where the limit comes from. */
    public final String source;

    private final ToDoubleFunction<InstantHarm> amount;
    private final ToDoubleFunction<Vehicle> limit;

    Harm(
            String hazard,
            String unit,
            HarmWay way,
            String meaning,
            ToDoubleFunction<InstantHarm> amount,
            ToDoubleFunction<Vehicle> limit,
            String source) {
        this.hazard = hazard;
        this.unit = unit;
        this.way = way;
        this.meaning = meaning;
        this.amount = amount;
        this.limit = limit;
        this.source = source;
    }

    /** The name in files, e.g. {@code unasked_torque}. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** The amount in one tick. Where a length of time is measured, the amount is above 0 as long as the harm lasts. */
    double amount(InstantHarm now) {
        return amount.applyAsDouble(now);
    }

    /** The greatest amount that is no harm yet. */
    public double limit(Vehicle vehicle) {
        return limit.applyAsDouble(vehicle);
    }

    private static double torqueForItsBudget(Vehicle v) {
        return v.get(Parameter.DRIVE_TORQUE_NM) * v.get(Parameter.BUDGET_TORQUE_MS) / 1000;
    }

    private static double shockS(Vehicle v) {
        return v.get(Parameter.BUDGET_SHOCK_MS) / 1000;
    }

    private static double packS(Vehicle v) {
        return v.get(Parameter.BUDGET_PACK_MS) / 1000;
    }

    private static double cellVoltSeconds(Vehicle v) {
        return 0.1 * packS(v);
    }
}
