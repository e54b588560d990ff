package sprag.bench.car.drive;

import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/**
 * The car along the road: traction, slope, rolling, drag, brakes.
 *
 * <p>Rolling resistance and brakes are friction: they never push. Where they are strong enough the car comes to an exact stop
 * and stays there until something pulls harder.
 *
 * <p>With a clutch the motor may be in another gear, or free: then it turns on its own inertia, {@value #FREE_SHARE} of the car's seen at
 * the shaft. Slip of the clutch is left out: the motor takes the speed of a gear at once.
 */
public final class Road {
    private static final double GRAVITY = 9.81;
    /** The inertia of a motor as a share of the car's, seen at the shaft: common size. */
    private static final double FREE_SHARE = 0.03;

    private static final double RPM_PER_RADPS = 60 / (2 * Math.PI);

    private final double massKg;
    private final double inertiaKg;
    private final double perInertia;
    private final double perGearEfficiency;
    private final double dragNPerMps2;
    private final double rolling;
    private final double gearEfficiency;
    private final double brakeN;
    private final double lowestRadpsPerMps;
    private final double perFreeInertia;
    private double radpsPerMps;
    private boolean free;
    private double freeRadps;
    private double freeMeanRadps;

    /** Speed, positive forward, and what it was on the mean of the last step. */
    public double speedMps;

    public double meanMps;
    private double changeMps;
    private double stepS = 1;
    /** Wind against the car when it drives forward. */
    public double windMps;

    public double distanceM;
    public double altitudeM;
    /** Heat so far. */
    public double gearLossJ;

    public double rollingJ;
    public double dragJ;
    public double brakeJ;
    /** Work of the shaft so far. */
    public double shaftJ;

    private double slopeSin;
    private double slopeN;
    private double rollingN;
    private double pressedN;

    public Road(Vehicle vehicle) {
        massKg = vehicle.get(CarParameter.BODY_MASS_KG);
        inertiaKg = massKg * (1 + vehicle.get(CarParameter.BODY_ROTATING_SHARE));
        perInertia = 1 / inertiaKg;
        dragNPerMps2 = vehicle.get(CarParameter.BODY_AIR_KG_PER_M3) * vehicle.get(CarParameter.BODY_DRAG_AREA_M2) / 2;
        rolling = vehicle.get(CarParameter.BODY_ROLLING);
        gearEfficiency = vehicle.get(CarParameter.BODY_GEAR_EFFICIENCY);
        perGearEfficiency = 1 / gearEfficiency;
        brakeN = vehicle.get(CarParameter.BODY_BRAKE_N);
        lowestRadpsPerMps = vehicle.get(Parameter.DRIVE_GEAR_RATIO) / vehicle.get(Parameter.DRIVE_WHEEL_RADIUS_M);
        radpsPerMps = lowestRadpsPerMps;
        perFreeInertia = lowestRadpsPerMps * lowestRadpsPerMps / (FREE_SHARE * massKg);
        set(0, 0);
    }

    /** Takes over slope and brake pedal. */
    public void set(double gradePercent, double brakeTravel) {
        double rise = gradePercent / 100;
        double slopeCos = 1 / Math.sqrt(1 + rise * rise);
        slopeSin = rise * slopeCos;
        slopeN = massKg * GRAVITY * slopeSin;
        rollingN = massKg * GRAVITY * slopeCos * rolling;
        pressedN = brakeN * brakeTravel;
    }

    /** Puts in a gear: a share of the ratio in the vehicle's file, 0 for none. */
    public void shift(double share) {
        if (share == 0 && !free) {
            freeRadps = speedMps * radpsPerMps;
            freeMeanRadps = freeRadps;
        }
        free = share == 0;
        radpsPerMps = free ? radpsPerMps : lowestRadpsPerMps * share;
    }

    /** Force against the motion at a speed on the present slope: slope, rolling and drag, without brakes. */
    double resistanceN(double atMps) {
        return slopeN + Math.signum(atMps) * rollingN + airN(atMps);
    }

    /** Force of the air against the forward direction. */
    private double airN(double atMps) {
        double throughAirMps = atMps + windMps;
        return dragNPerMps2 * throughAirMps * Math.abs(throughAirMps);
    }

    /** Acceleration, mean of the last step. */
    public double accelerationMps2() {
        return changeMps / stepS;
    }

    public double radps() {
        return free ? freeRadps : speedMps * radpsPerMps;
    }

    public double meanRadps() {
        return free ? freeMeanRadps : meanMps * radpsPerMps;
    }

    public double rpm() {
        return radps() * RPM_PER_RADPS;
    }

    public double kineticJ() {
        return inertiaKg * speedMps * speedMps / 2;
    }

    public double potentialJ() {
        return massKg * GRAVITY * altitudeM;
    }

    /** Whether it stands and nothing can move it. */
    public boolean isHeld() {
        return speedMps == 0 && (!free || freeRadps == 0) && Math.abs(slopeN + airN(0)) <= rollingN + pressedN;
    }

    /** Passes time for a car that stands. */
    public void stand() {
        meanMps = 0;
        freeMeanRadps = 0;
        changeMps = 0;
    }

    /** One step under the torque of the shaft. */
    public void step(double shaftNm, double dtS) {
        double v0 = speedMps;
        double shaftN = free ? 0 : shaftNm * radpsPerMps;
        if (free) {
            turn(shaftNm, dtS);
        }
        double drives = shaftN * v0 >= 0 ? gearEfficiency : perGearEfficiency;
        double frictionN = rollingN + pressedN;
        double airN = airN(v0);
        double pullN = shaftN * drives - slopeN - airN;
        double direction = v0 > 0 || v0 == 0 && pullN > 0 ? 1 : -1;
        double v1 = v0;
        if (v0 != 0 || Math.abs(pullN) > frictionN) {
            v1 = v0 + (pullN - direction * frictionN) * perInertia * dtS;
            if (v0 * v1 < 0) {
                v1 = 0;
            }
        }
        speedMps = v1;
        meanMps = (v0 + v1) / 2;
        changeMps = v1 - v0;
        stepS = dtS;
        book(shaftN, drives, airN, dtS);
    }

    /** The motor alone; its own drag, which is part of the torque, does not turn it the other way round. */
    private void turn(double shaftNm, double dtS) {
        double before = freeRadps;
        freeRadps += shaftNm * perFreeInertia * dtS;
        if (before * freeRadps < 0) {
            freeRadps = 0;
        }
        freeMeanRadps = (before + freeRadps) / 2;
        shaftJ += shaftNm * freeMeanRadps * dtS;
    }

    /** Each loss by its own law, so that their sum can be checked against the change of energy. */
    private void book(double shaftN, double drives, double airN, double dtS) {
        double wayM = meanMps * dtS;
        distanceM += wayM;
        altitudeM += wayM * slopeSin;
        double workJ = shaftN * wayM;
        shaftJ += workJ;
        gearLossJ += workJ * (1 - drives);
        double metres = Math.abs(wayM);
        rollingJ += rollingN * metres;
        dragJ += airN * wayM;
        brakeJ += pressedN * metres;
    }
}
