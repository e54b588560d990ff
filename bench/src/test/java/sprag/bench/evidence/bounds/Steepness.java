package sprag.bench.evidence.bounds;

import java.util.Locale;
import sprag.supervisor.vocabulary.Parameter;

/** How steeply torque can follow the speed, by formulas that look at the vehicle's values and not at the code. */
final class Steepness {
    private static final double KPH_PER_MPS = 3.6;
    /** The cells of the pedal's curve. */
    private static final int CELLS = 256;
    /** The share of the top speed over which driving torque fades. */
    private static final double SPEED_FADE = 0.05;

    private Steepness() {}

    /** The curve of the pedal: a power, which is steepest at its end, or in its first cell where it bends the other way. */
    static double ofTheCurve(Cars car) {
        double shape = car.get(Parameter.DRIVE_SHAPE);
        return shape >= 1 ? shape : Math.pow(CELLS, 1 - shape);
    }

    /** The share that brakes: the coast point moves, and the fade lets go. */
    static double brakingPerKph(Cars car) {
        double startKph = car.get(Parameter.REGEN_FADE_START_KPH);
        return 1 / startKph + 1 / (startKph - car.get(Parameter.REGEN_FADE_END_KPH));
    }

    /** The share that drives: the coast point moves. */
    static double drivingPerKph(Cars car) {
        double coast = car.get(Parameter.REGEN_COAST_TRAVEL);
        return ofTheCurve(car) * coast / car.get(Parameter.REGEN_COAST_FULL_KPH) / (1 - coast);
    }

    /** The limit to drive: power or current takes over, and the fade at top speed. */
    static double driveNmPerKph(Cars car) {
        double outW = Math.min(car.get(Parameter.DRIVE_POWER_W), car.get(Parameter.PACK_DISCHARGE_MAX_A) * leastV(car));
        double driveNm = car.get(Parameter.DRIVE_TORQUE_NM);
        return bent(car, driveNm, outW) + driveNm / (SPEED_FADE * car.get(Parameter.DRIVE_MAX_KPH));
    }

    /** The limit to regenerate: the pack's current takes over. */
    static double regenNmPerKph(Cars car) {
        return bent(car, car.get(Parameter.REGEN_TORQUE_NM), car.get(Parameter.PACK_CHARGE_MAX_A) * leastV(car));
    }

    /** The less voltage the pack has, the earlier its current takes over, and the steeper. */
    private static double leastV(Cars car) {
        return car.get(Parameter.PACK_MIN_V);
    }

    /** At the speed where a power begins to be the lesser one. */
    private static double bent(Cars car, double torqueNm, double powerW) {
        if (torqueNm == 0) {
            return 0;
        }
        double perKph = car.get(Parameter.DRIVE_GEAR_RATIO) / car.get(Parameter.DRIVE_WHEEL_RADIUS_M) / KPH_PER_MPS;
        return torqueNm / (Math.max(powerW / torqueNm, 1) / perKph);
    }

    /** A row of the table on the page. */
    static String row(Cars car) {
        return String.format(
                Locale.ROOT,
                "| %s | %.3f | %.4f | %.1f | %.1f | %.1f | %.1f | %.2f |%n",
                car.name(),
                brakingPerKph(car),
                drivingPerKph(car),
                driveNmPerKph(car),
                regenNmPerKph(car),
                car.get(Parameter.DRIVE_RISE_NM_PER_S) * car.settings().tickS(),
                car.get(Parameter.DRIVE_FALL_NM_PER_S) * car.settings().tickS(),
                car.get(Parameter.CHARGE_RAMP_A_PER_S) * car.settings().tickS());
    }
}
