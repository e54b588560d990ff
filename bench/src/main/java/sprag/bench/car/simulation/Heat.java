package sprag.bench.car.simulation;

import sprag.bench.car.charge.Chargers;
import sprag.bench.car.drive.Machine;
import sprag.bench.car.electric.Circuit;
import sprag.bench.car.electric.Pack;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;

/**
 * Where the losses go: motor and inverter into the coolant or the air, the coolant into the radiator, pack, chargers, heater
 * and precharge resistor into the air.
 *
 * <pre>
 *  motor    --- flow ---+
 *                       +-- coolant --- radiator, fan, speed --- air
 *  inverter --- flow ---+
 * </pre>
 *
 * <p>Each part is one lump; each step is implicit for the part itself, so that no value of the file makes it unstable.
 */
public final class Heat {
    private static final double FULL_WIND_MPS = 15;

    private final boolean liquid;
    private final double motorJPerK;
    private final double motorWPerK;
    private final double inverterJPerK;
    private final double inverterWPerK;
    private final double stillShare;
    private final double coolantJPerK;
    private final double radiatorWPerK;
    private final double radiatorStillWPerK;
    private final double packJPerK;
    private final double packWPerK;
    private final double chargerJPerK;
    private final double chargerWPerK;
    private final double resistorJPerK;
    private final double resistorWPerK;
    private final double warmerJPerK;
    private final double warmerAirWPerK;
    private final double warmerStillWPerK;

    double motorC;
    double inverterC;
    double coolantC;
    double chargerC;
    double resistorC;
    double warmerC;

    // sums at the last step, to know what came since
    private double motorJ;
    private double inverterJ;
    private double packJ;
    private double chargerJ;
    private double resistorJ;
    private double warmerJ;

    Heat(Vehicle vehicle, double ambientC) {
        liquid = vehicle.is(CarParameter.THERMAL_COOLING, "liquid");
        motorJPerK = vehicle.get(CarParameter.THERMAL_MOTOR_J_PER_K);
        motorWPerK = vehicle.get(CarParameter.THERMAL_MOTOR_W_PER_K);
        inverterJPerK = vehicle.get(CarParameter.THERMAL_INVERTER_J_PER_K);
        inverterWPerK = vehicle.get(CarParameter.THERMAL_INVERTER_W_PER_K);
        stillShare = vehicle.get(CarParameter.THERMAL_STILL_SHARE);
        coolantJPerK = vehicle.get(CarParameter.THERMAL_COOLANT_J_PER_K);
        radiatorWPerK = vehicle.get(CarParameter.THERMAL_RADIATOR_W_PER_K);
        radiatorStillWPerK = vehicle.get(CarParameter.THERMAL_RADIATOR_STILL_W_PER_K);
        packJPerK = vehicle.get(CarParameter.CELLS_HEAT_J_PER_K);
        packWPerK = vehicle.get(CarParameter.CELLS_COOL_W_PER_K);
        chargerJPerK = vehicle.get(CarParameter.THERMAL_CHARGER_J_PER_K);
        chargerWPerK = vehicle.get(CarParameter.THERMAL_CHARGER_W_PER_K);
        resistorJPerK = vehicle.get(CarParameter.PARTS_RESISTOR_J_PER_K);
        resistorWPerK = vehicle.get(CarParameter.PARTS_RESISTOR_W_PER_K);
        warmerJPerK = vehicle.get(CarParameter.WARMER_J_PER_K);
        warmerAirWPerK = vehicle.get(CarParameter.WARMER_AIR_W_PER_K);
        warmerStillWPerK = vehicle.get(CarParameter.WARMER_STILL_W_PER_K);
        motorC = ambientC;
        inverterC = ambientC;
        coolantC = ambientC;
        chargerC = ambientC;
        resistorC = ambientC;
        warmerC = ambientC;
    }

    /** What moves the air and the coolant during a step. */
    static final class Flow {
        double ambientC;
        double speedMps;
        boolean pump;
        double fan;
        boolean blower;
    }

    /** Motor, inverter and coolant. */
    public void drive(Machine machine, Flow flow, double dtS) {
        double wind = Math.min(1, Math.abs(flow.speedMps) / FULL_WIND_MPS);
        double moved = liquid ? (flow.pump ? 1 : 0) : wind;
        double share = stillShare + (1 - stillShare) * moved;
        double aroundC = liquid ? coolantC : flow.ambientC;
        double motorNowWPerK = motorWPerK * share;
        double inverterNowWPerK = inverterWPerK * share;
        double newMotorC = lump(motorC, machine.motorLossJ - motorJ, motorJPerK, motorNowWPerK, aroundC, dtS);
        double newInverterC =
                lump(inverterC, machine.inverterLossJ - inverterJ, inverterJPerK, inverterNowWPerK, aroundC, dtS);
        motorJ = machine.motorLossJ;
        inverterJ = machine.inverterLossJ;
        if (liquid) {
            double inJ = (motorNowWPerK * (newMotorC - coolantC) + inverterNowWPerK * (newInverterC - coolantC)) * dtS;
            double air = Math.max(flow.fan, wind);
            double radiator = radiatorStillWPerK + (radiatorWPerK - radiatorStillWPerK) * air;
            double outWPerK = flow.pump ? radiator : radiator * stillShare;
            coolantC = lump(coolantC, inJ, coolantJPerK, outWPerK, flow.ambientC, dtS);
        } else {
            coolantC = flow.ambientC;
        }
        motorC = newMotorC;
        inverterC = newInverterC;
    }

    /** Pack, chargers, heater and precharge resistor. */
    void rest(Pack pack, Chargers chargers, Circuit circuit, Flow flow, double dtS) {
        double airC = flow.ambientC;
        pack.tempC = lump(pack.tempC, pack.lossJ - packJ, packJPerK, packWPerK, airC, dtS);
        chargerC = lump(chargerC, chargers.lossJ - chargerJ, chargerJPerK, chargerWPerK, airC, dtS);
        resistorC = lump(resistorC, circuit.box.resistorJ - resistorJ, resistorJPerK, resistorWPerK, airC, dtS);
        double warmerNowWPerK = flow.blower ? warmerAirWPerK : warmerStillWPerK;
        warmerC = lump(warmerC, circuit.loads.heaterJ - warmerJ, warmerJPerK, warmerNowWPerK, airC, dtS);
        packJ = pack.lossJ;
        chargerJ = chargers.lossJ;
        resistorJ = circuit.box.resistorJ;
        warmerJ = circuit.loads.heaterJ;
    }

    private static double lump(double tempC, double inJ, double jPerK, double wPerK, double aroundC, double dtS) {
        double flowJPerK = wPerK * dtS;
        return (jPerK * tempC + inJ + flowJPerK * aroundC) / (jPerK + flowJPerK);
    }
}
