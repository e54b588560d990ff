package sprag.bench.trip;

import sprag.bench.trip.trace.SpeedTrace;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/**
 * An independent model that shares no code with the simulated car: it goes backwards from the speed to the force, the torque, the
 * losses and the current, second by second, without supervisor, driver or time constants (the usual textbook way, as in
 * Larminie and Lowry, Electric Vehicle Technology Explained).
 */
final class BackwardModel {
    private final Vehicle v;

    /** At the inverter's input. */
    double inverterJ;
    /** In the cells, with a constant power of other loads. */
    double cellsJ;

    BackwardModel(Vehicle vehicle) {
        v = vehicle;
    }

    private double get(sprag.supervisor.vocabulary.Row row) {
        return v.get(row);
    }

    /** The whole trace. */
    BackwardModel follow(SpeedTrace trace, double otherW, double openCellV) {
        for (int i = 1; i < trace.rows(); i++) {
            int pieces = 10;
            double dtS = (trace.timeS(i) - trace.timeS(i - 1)) / pieces;
            double accelerate = (trace.speedMps(i) - trace.speedMps(i - 1)) / (dtS * pieces);
            for (int k = 0; k < pieces; k++) {
                double mps = trace.speedMps(i - 1) + accelerate * dtS * (k + 0.5);
                double powerW = inverterW(mps, accelerate, trace.gradePercent(i - 1));
                inverterJ += powerW * dtS;
                cellsJ += cellsW(powerW + otherW, openCellV) * dtS;
            }
        }
        return this;
    }

    double inverterW(double mps, double mps2, double gradePercent) {
        double idleW = get(CarParameter.MACHINE_IDLE_W);
        if (mps <= 0) {
            return idleW;
        }
        double kg = get(CarParameter.BODY_MASS_KG);
        double sine = Math.sin(Math.atan(gradePercent / 100));
        double forceN = kg * (1 + get(CarParameter.BODY_ROTATING_SHARE)) * mps2
                + kg * 9.81 * (sine + get(CarParameter.BODY_ROLLING) * Math.sqrt(1 - sine * sine))
                + 0.5 * get(CarParameter.BODY_AIR_KG_PER_M3) * get(CarParameter.BODY_DRAG_AREA_M2) * mps * mps;
        double perMetre = get(Parameter.DRIVE_GEAR_RATIO) / get(Parameter.DRIVE_WHEEL_RADIUS_M);
        double efficiency = get(CarParameter.BODY_GEAR_EFFICIENCY);
        double nm = forceN >= 0
                ? forceN / perMetre / efficiency
                : -Math.min(-forceN / perMetre * efficiency, regenNm(mps, mps * perMetre));
        double krpm = mps * perMetre * 60 / (2 * Math.PI) / 1000;
        return nm * mps * perMetre
                + get(CarParameter.MACHINE_COPPER_W_PER_NM2) * nm * nm
                + get(CarParameter.MACHINE_IRON_W_PER_KRPM) * krpm
                + get(CarParameter.MACHINE_WINDAGE_W_PER_KRPM3) * krpm * krpm * krpm
                + idleW;
    }

    private double regenNm(double mps, double radps) {
        double fromKph = get(Parameter.REGEN_FADE_END_KPH);
        double fade = (mps * 3.6 - fromKph) / (get(Parameter.REGEN_FADE_START_KPH) - fromKph);
        double currentNm = get(Parameter.PACK_CHARGE_MAX_A) * get(Parameter.PACK_NOMINAL_V) / radps;
        return Math.min(get(Parameter.REGEN_TORQUE_NM), currentNm) * Math.max(0, Math.min(1, fade));
    }

    /** The voltage at the terminals once the cells have settled: V I = P and V = open voltage - R I. */
    double packV(double powerW, double openCellV) {
        double openV = openCellV * get(Parameter.PACK_CELLS);
        double ohm = ohm(1);
        return (openV + Math.sqrt(openV * openV - 4 * ohm * powerW)) / 2;
    }

    /** Of the whole pack at 21 degrees. */
    private double ohm(double polarShare) {
        double cold = Math.pow(get(CarParameter.CELLS_COLD_PER_10_K), 0.4);
        double cellMohm = get(CarParameter.CELLS_RESISTANCE_MOHM) + polarShare * get(CarParameter.CELLS_POLAR_MOHM);
        return get(Parameter.PACK_CELLS) * cellMohm / 1000 * cold;
    }

    /** What the chemistry gives for a power at the terminals: the current solves V I - R I2 = P. */
    private double cellsW(double powerW, double openCellV) {
        double ohm = ohm(0.5);
        double openV = openCellV * get(Parameter.PACK_CELLS);
        double amps = (openV - Math.sqrt(openV * openV - 4 * ohm * powerW)) / (2 * ohm);
        return openV * amps;
    }
}
