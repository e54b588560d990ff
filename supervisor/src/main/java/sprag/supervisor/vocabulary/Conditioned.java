package sprag.supervisor.vocabulary;

/**
 * The physical quantities behind the facts, written by the conditioner and read by the shapers. NaN means unknown.
 *
 * <p>They never reach Logic: they can only make a torque or a current smaller than what Logic permits.
 */
public final class Conditioned {
    /** Pedal travel after calibration and dead bands, 0 released to 1 full; NaN while in doubt. */
    public double travel = Double.NaN;
    /** Road speed (km/h), positive forward. */
    public double speedKph = Double.NaN;
    /** Road speed by what is tied to the road (km/h), without a sign: the second speed behind a clutch, else the motor's; NaN in doubt. */
    public double roadKph = Double.NaN;
    /** The fastest that any reading of this tick shows (km/h), without a sign, believed or not; 0 when no reading is known. */
    public double shownKph;
    /** Acceleration along the road from the speed (m/s²), positive forward; 0 while unknown. */
    public double accelerationMps2;
    /** Motor speed (rpm), positive forward. */
    public double motorSpeedRpm = Double.NaN;
    /** Regeneration level chosen by the driver, 0 to {@code regen.levels}; 0 when unknown. */
    public int regenLevel;
    /** The share of the regeneration that brake pressure or a lever asks for, 0 to 1; 0 when unknown or in doubt. */
    public double regenAsked;
    /** Motor temperature (°C). */
    public double motorTempC = Double.NaN;
    /** Inverter temperature (°C). */
    public double inverterTempC = Double.NaN;
    /** Coolant temperature (°C). */
    public double coolantTempC = Double.NaN;
    /** Warmest place of the pack (°C). */
    public double packHotC = Double.NaN;
    /** Coldest place of the pack (°C). */
    public double packColdC = Double.NaN;
    /** Charger temperature (°C). */
    public double chargerTempC = Double.NaN;
    /** Heater outlet temperature (°C). */
    public double heaterTempC = Double.NaN;
    /** Pack voltage (V). */
    public double packVoltageV = Double.NaN;
    /** Bus voltage (V). */
    public double busVoltageV = Double.NaN;
    /** Pack current (A), positive out of the pack. */
    public double packCurrentA = Double.NaN;
    /** Highest cell (V); NaN where not fitted or silent. */
    public double cellMaxV = Double.NaN;
    /** Lowest cell (V); NaN where not fitted or silent. */
    public double cellMinV = Double.NaN;
    /** 12 V supply (V). */
    public double lvSupplyV = Double.NaN;
    /** Whether the 12 V battery of a car on the cable needs the DC-DC converter. */
    public boolean lvSupport;
    /** What station, cable and inlet allow (A a.c., rms, per phase); 0 while nothing is offered. */
    public double allowedAcA;
    /** State of charge, 0 to 1; NaN until first known. */
    public double stateOfCharge = Double.NaN;
    /** How far the state of charge may be off, as a share. */
    public double stateOfChargeUncertainty = 1;

    /** The share of the regeneration that the pack takes before it is full, 0 to 1; NaN until first known. */
    public double regenShare = Double.NaN;
    /** The room for drive torque before the pack is empty, see {@link LowPack#room}; NaN while unknown. */
    public double driveRoom = Double.NaN;

    /** Starts with every quantity unknown. */
    public Conditioned() {}
}
