package sprag.bench.trip.drive;

import sprag.bench.car.Lever;
import sprag.bench.car.Levers;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/**
 * A person on pedal and brake who knows the car: how far to press for a force, and by what it slows down more or less than
 * expected. A hand lever for regeneration is pulled before the brake is pressed. Acts twenty times a second. Looks at the speedometer and feels the acceleration; knows nothing else of the car's
 * inside.
 *
 * <p>The force that the car needs beside that for its inertia is not computed. It is what was felt and not asked for, over the
 * last half second: slope, air, rolling, and whatever the supervisor took away.
 */
final class Driver {
    /** How often it acts. */
    static final double EVERY_S = 0.05;

    /** So much speed error asks for 1 m/s2: one second to make it good. */
    private static final double PER_SECOND = 1.0;

    private static final double FEELS_AFTER_S = 0.4;
    private static final double CAR_FOLLOWS_S = 0.12;
    private static final double STANDS_MPS = 0.25;
    private static final double HOLDS_TRAVEL = 0.3;
    private static final double GRAVITY = 9.81;
    private static final double KPH_PER_MPS = 3.6;
    /** Smaller movements of a foot are not made. */
    private static final double LEAST_TRAVEL = 0.002;
    /** Slower than this, power says nothing about the force. */
    private static final double LEAST_MPS = 0.5;

    private final Levers levers;
    private final double massKg;
    private final double weightN;
    private final double rolling;
    private final double brakeN;
    private final double mostDriveN;
    private final double mostRegenN;
    private final double driveW;
    private final double regenW;
    private final double coastTravel;
    private final double coastPerMps;
    private final double perShape;
    private final double fadeStartMps;
    private final double fadeEndMps;
    private final boolean hasLever;

    private double feltN;
    private double expectedN;
    private double askedN;
    private double beforeMps;

    /**
     * A driver of one car.
     *
     * @param levers what the feet move
     * @param regenLevel where the lever for regeneration stands
     */
    Driver(Vehicle vehicle, Levers levers, int regenLevel) {
        this.levers = levers;
        double kg = vehicle.get(CarParameter.BODY_MASS_KG);
        massKg = kg * (1 + vehicle.get(CarParameter.BODY_ROTATING_SHARE));
        weightN = kg * GRAVITY;
        rolling = vehicle.get(CarParameter.BODY_ROLLING);
        brakeN = vehicle.get(CarParameter.BODY_BRAKE_N);
        double efficiency = vehicle.get(CarParameter.BODY_GEAR_EFFICIENCY);
        double perMetre = vehicle.get(Parameter.DRIVE_GEAR_RATIO) / vehicle.get(Parameter.DRIVE_WHEEL_RADIUS_M);
        double nominalV = vehicle.get(Parameter.PACK_NOMINAL_V);
        hasLever = vehicle.is(Parameter.REGEN_BY, "lever") && vehicle.settings().has(Signal.REGEN_DEMAND_V);
        double level = hasLever ? 1 : level(vehicle, regenLevel);
        mostDriveN = vehicle.get(Parameter.DRIVE_TORQUE_NM) * perMetre * efficiency;
        mostRegenN = level * vehicle.get(Parameter.REGEN_TORQUE_NM) * perMetre / efficiency;
        driveW = efficiency
                * Math.min(
                        vehicle.get(Parameter.DRIVE_POWER_W), vehicle.get(Parameter.PACK_DISCHARGE_MAX_A) * nominalV);
        regenW = level * vehicle.get(Parameter.PACK_CHARGE_MAX_A) * nominalV / efficiency;
        coastTravel = vehicle.get(Parameter.REGEN_COAST_TRAVEL);
        coastPerMps = KPH_PER_MPS / vehicle.get(Parameter.REGEN_COAST_FULL_KPH);
        perShape = 1 / vehicle.get(Parameter.DRIVE_SHAPE);
        fadeStartMps = vehicle.get(Parameter.REGEN_FADE_START_KPH) / KPH_PER_MPS;
        fadeEndMps = vehicle.get(Parameter.REGEN_FADE_END_KPH) / KPH_PER_MPS;
    }

    private static double level(Vehicle vehicle, int level) {
        return switch (level) {
            case 0 -> 0;
            case 1 -> vehicle.get(Parameter.REGEN_LEVEL_1_SHARE);
            case 2 -> vehicle.get(Parameter.REGEN_LEVEL_2_SHARE);
            case 3 -> vehicle.get(Parameter.REGEN_LEVEL_3_SHARE);
            case 4 -> vehicle.get(Parameter.REGEN_LEVEL_4_SHARE);
            default -> throw new IllegalArgumentException("there is no regeneration level " + level);
        };
    }

    /** Whether the pedal is on the floor. */
    boolean givesAll() {
        return levers.get(Lever.PEDAL) >= 1 - LEAST_TRAVEL;
    }

    /** Both feet as at standstill: the brake holds. */
    void hold() {
        press(Lever.PEDAL, 0);
        press(Lever.BRAKE, HOLDS_TRAVEL);
        press(Lever.REGEN_DEMAND, 0);
        expectedN = 0;
        askedN = 0;
        beforeMps = 0;
    }

    /**
     * Moves the feet.
     *
     * @param wantedMps the speed that is wanted
     * @param wantedMps2 by what it changes
     * @param gradePercent the slope that is seen
     */
    void act(double wantedMps, double wantedMps2, double speedMps, double gradePercent) {
        if (wantedMps <= 0 && wantedMps2 <= 0 && Math.abs(speedMps) < STANDS_MPS) {
            hold();
            return;
        }
        expectedN += (askedN - expectedN) * EVERY_S / CAR_FOLLOWS_S;
        if (Math.abs(speedMps) < STANDS_MPS) {
            feltN = -weightN * (gradePercent / 100 + rolling);
        } else {
            double unaskedN = massKg * (speedMps - beforeMps) / EVERY_S - expectedN;
            feltN += (unaskedN - feltN) * EVERY_S / FEELS_AFTER_S;
        }
        beforeMps = speedMps;
        double wantedN = massKg * (wantedMps2 + PER_SECOND * (wantedMps - speedMps)) - feltN;
        askedN = wantedN >= 0 ? drive(wantedN, speedMps) : brake(-wantedN, speedMps);
    }

    /** The force that was pressed for. */
    private double drive(double forceN, double speedMps) {
        double mostN = Math.min(mostDriveN, driveW / Math.max(LEAST_MPS, speedMps));
        double share = Math.min(1, forceN / mostN);
        double coast = coast(speedMps);
        press(Lever.BRAKE, 0);
        press(Lever.REGEN_DEMAND, 0);
        press(Lever.PEDAL, coast + (1 - coast) * Math.pow(share, perShape));
        return share * mostN;
    }

    private double brake(double forceN, double speedMps) {
        double fade = Math.max(0, Math.min(1, (speedMps - fadeEndMps) / (fadeStartMps - fadeEndMps)));
        double mostN = Math.min(mostRegenN, regenW / Math.max(LEAST_MPS, speedMps)) * fade;
        double coast = coast(speedMps);
        double share = mostN > 0 ? Math.min(1, forceN / mostN) : 1;
        double travel = Math.max(0, Math.min(1, (forceN - mostN) / brakeN));
        press(Lever.PEDAL, hasLever ? coast : coast * (1 - share));
        press(Lever.REGEN_DEMAND, hasLever ? share : 0);
        press(Lever.BRAKE, travel);
        return -share * mostN - travel * brakeN;
    }

    private double coast(double speedMps) {
        return coastTravel * Math.max(0, Math.min(1, speedMps * coastPerMps));
    }

    private void press(Lever pedal, double travel) {
        double now = levers.get(pedal);
        boolean atAnEnd = (travel == 0 || travel == 1) && now != travel;
        if (atAnEnd || Math.abs(travel - now) > LEAST_TRAVEL) {
            levers.set(pedal, travel);
        }
    }
}
