package sprag.bench.car.electric;

import sprag.bench.car.Faults;
import sprag.bench.car.PartFault;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/** The 12 V side: battery behind a resistance, loads, and the DC-DC converter that holds its voltage up to its current. */
public final class LowSide {
    private static final double SECONDS_PER_HOUR = 3600;
    /** Below this charge the voltage falls away in proportion. */
    private static final double KNEE = 0.05;
    /** From here to full a lead-acid battery takes less and less at the same voltage; chosen. */
    private static final double FULL_BAND = 0.1;

    private static final double PER_FULL_BAND = 1 / FULL_BAND;

    private final double perCapacity;
    private final double emptyV;
    private final double fullV;
    private final double batteryOhm;
    private final double batterySiemens;
    private final double sleepA;
    private final double awakeA;
    private final double pumpA;
    private final double fanA;
    private final double blowerA;
    private final double converterV;
    private final double converterMaxA;
    private final double perEfficiency;
    private final double converterMinV;
    private final boolean packSide;

    public double soc;
    /** Voltage at the supervisor and the coils. */
    public double supplyV;
    /** What the loads take, and what the converter gives. */
    public double loadA;

    public double converterA;
    /** What the converter takes from the traction side. */
    public double converterW;

    // inputs
    public boolean converterOn;
    public boolean awake;
    public double coilsA;
    public boolean pump;
    public double fan;
    public boolean blower;
    /** Whether wires lead from the battery to the loads. */
    public boolean batteryWired = true;

    public LowSide(Vehicle vehicle) {
        perCapacity = 1 / (vehicle.get(CarParameter.LV_CAPACITY_AH) * SECONDS_PER_HOUR);
        emptyV = vehicle.get(CarParameter.LV_EMPTY_V);
        fullV = vehicle.get(CarParameter.LV_FULL_V);
        batteryOhm = vehicle.get(CarParameter.LV_RESISTANCE_MOHM) / 1000;
        batterySiemens = 1 / batteryOhm;
        soc = vehicle.get(CarParameter.LV_START_SHARE);
        sleepA = vehicle.get(CarParameter.LV_SLEEP_A);
        awakeA = vehicle.get(CarParameter.LV_AWAKE_A);
        pumpA = vehicle.get(CarParameter.LV_PUMP_A);
        fanA = vehicle.get(CarParameter.LV_FAN_A);
        blowerA = vehicle.get(CarParameter.LV_BLOWER_A);
        converterV = vehicle.get(CarParameter.LV_DCDC_V);
        converterMaxA = vehicle.get(CarParameter.LV_DCDC_MAX_A);
        perEfficiency = 1 / vehicle.get(CarParameter.LV_DCDC_EFFICIENCY);
        converterMinV = vehicle.get(CarParameter.LV_DCDC_MIN_V);
        packSide = vehicle.is(Parameter.DCDC_SIDE, "pack-side");
        loadA = sleepA;
        stand();
    }

    /** No current worth mention flows. */
    public void stand() {
        supplyV = restV();
    }

    public boolean onPackSide() {
        return packSide;
    }

    private double restV() {
        double restV = emptyV + (fullV - emptyV) * soc;
        return soc < KNEE ? restV * Math.max(0, soc) / KNEE : restV;
    }

    /** One step at the traction voltage the converter sees. */
    public void step(double tractionV, Faults faults, double dtS) {
        double restV = restV();
        loadA = (awake ? awakeA : sleepA) + coilsA + (pump ? pumpA : 0) + fanA * fan + (blower ? blowerA : 0);
        boolean runs = converterOn && tractionV >= converterMinV && !faults.has(PartFault.DCDC_DEAD);
        if (!batteryWired) {
            converterAlone(runs, faults);
            return;
        }
        double taper = Math.min(1, (1 - soc) * PER_FULL_BAND);
        double toHoldA = (converterV - restV) * batterySiemens * taper + loadA;
        converterA = runs ? Math.max(0, Math.min(converterMaxA, toHoldA)) : 0;
        boolean holds = runs && toHoldA <= converterMaxA;
        double terminalV = holds ? converterV : restV - batteryOhm * (loadA - converterA);
        converterW = terminalV * converterA * perEfficiency;
        soc = Math.min(1, Math.max(0, soc - (loadA - converterA) * dtS * perCapacity));
        supplyV = Math.max(0, terminalV - faults.of(PartFault.LV_DIP, 0));
    }

    /** Without a battery the converter holds the voltage, or nothing does. */
    private void converterAlone(boolean runs, Faults faults) {
        boolean holds = runs && loadA <= converterMaxA;
        converterA = holds ? loadA : 0;
        converterW = converterV * converterA * perEfficiency;
        supplyV = holds ? Math.max(0, converterV - faults.of(PartFault.LV_DIP, 0)) : 0;
    }
}
