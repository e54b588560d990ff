package sprag.bench.car.electric;

import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;

/** The battery monitor: withdraws a permit when a cell or a temperature has passed its own limit for long enough. */
public final class BatteryMonitor {
    private static final int STEP_MS = 10;
    private static final double HYSTERESIS_K = 2;

    private final double cellMaxV;
    private final double cellMinV;
    private final double hysteresisV;
    private final double hotC;
    private final double coldC;
    private final int delayMs;

    public boolean dischargePermit = true;
    public boolean chargePermit = true;

    private int badToDischargeMs;
    private int badToChargeMs;

    public BatteryMonitor(Vehicle vehicle) {
        cellMaxV = vehicle.get(CarParameter.MONITOR_CELL_MAX_V);
        cellMinV = vehicle.get(CarParameter.MONITOR_CELL_MIN_V);
        hysteresisV = vehicle.get(CarParameter.MONITOR_HYSTERESIS_V);
        hotC = vehicle.get(CarParameter.MONITOR_HOT_C);
        coldC = vehicle.get(CarParameter.MONITOR_COLD_CHARGE_C);
        delayMs = (int) vehicle.get(CarParameter.MONITOR_DELAY_MS);
    }

    /** Ten milliseconds. */
    public void step(Pack pack, double hottestC, double coldestC, boolean silent) {
        double lowV = dischargePermit ? cellMinV : cellMinV + hysteresisV;
        double highV = chargePermit ? cellMaxV : cellMaxV - hysteresisV;
        double hot = dischargePermit ? hotC : hotC - HYSTERESIS_K;
        double cold = chargePermit ? coldC : coldC + HYSTERESIS_K;
        boolean badToDischarge = pack.cellMinV < lowV || hottestC > hot;
        boolean badToCharge = pack.cellMaxV > highV || hottestC > hot || coldestC < cold;
        badToDischargeMs = badToDischarge ? Math.min(badToDischargeMs + STEP_MS, delayMs) : 0;
        badToChargeMs = badToCharge ? Math.min(badToChargeMs + STEP_MS, delayMs) : 0;
        boolean trippedDischarge = badToDischarge && (badToDischargeMs >= delayMs || !dischargePermit);
        boolean trippedCharge = badToCharge && (badToChargeMs >= delayMs || !chargePermit);
        dischargePermit = !silent && !trippedDischarge;
        chargePermit = !silent && !trippedCharge;
    }
}
