package sprag.bench.evidence.bounds;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.TorquePermission;

/**
 * The torque of one tick, for every torque of the tick before, every fact and every quantity at once, NaN and infinities among them. What
 * holds after each tick if it held before it, and holds at the start, holds for ever.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
abstract class TorqueBounds {
    private static final double INF = Double.POSITIVE_INFINITY;
    private static final double RAD_PER_S_PER_RPM = 2 * Math.PI / 60;
    /** Every number that a speed can be. */
    private static final Reals ANY_SPEED = Reals.between(-Double.MAX_VALUE, Double.MAX_VALUE);

    private static final Reals UNKNOWN_OR_NEGATIVE = Reals.between(-INF, -0.0).orNan();

    /** The vehicles that it is shown for. */
    abstract Stream<Cars> cars();

    /** The greatest driving torque of a direction. */
    private static double mostNm(Cars car, Direction direction) {
        double share = direction == Direction.REVERSE ? car.get(Parameter.DRIVE_REVERSE_SHARE) : 1;
        return car.get(Parameter.DRIVE_TORQUE_NM) * share;
    }

    private static double perTick(Cars car, Parameter perS) {
        return car.get(perS) * car.settings().tickS();
    }

    private static void assertWithin(double lo, double hi, Reals value, String what) {
        assertTrue(value.isEmpty() || value.lo() >= lo && value.hi() <= hi, what + ": " + value);
        assertFalse(value.nan(), what + ": " + value);
    }

    private static void assertZero(Reals value, String what) {
        assertWithin(0, 0, value, what);
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void anyTick_torqueStaysWithinTheGreatest(Cars car) {
        for (TorquePermission permission : TorquePermission.values()) {
            for (Direction direction : Direction.values()) {
                for (boolean limited : new boolean[] {false, true}) {
                    Drive drive =
                            new Drive(car).torque(permission).engaged(direction).limited(limited);
                    assertWithin(-drive.most(), drive.most(), drive.kept(), permission + " " + direction);
                }
            }
        }
    }

    /** In reverse, and where the motor may brake less than it drives: a torque within the limits of its direction stays there. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void followingThePedal_staysWithinItsOwnLimits(Cars car) {
        for (Direction direction : new Direction[] {Direction.FORWARD, Direction.REVERSE}) {
            double driveNm = mostNm(car, direction);
            double regenNm = car.get(Parameter.REGEN_TORQUE_NM);
            Reals before = Reals.between(-regenNm, driveNm);
            Drive drive = new Drive(car).engaged(direction);
            drive.before(direction == Direction.REVERSE ? before.negate() : before);
            assertWithin(-regenNm, driveNm, drive.along(), direction.toString());
        }
    }

    /** Without permission, without a direction, without what must be known: nothing, whatever else is so. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void nothingPermittedOrNoDirectionOrNoSpeed_isNoTorqueAtOnce(Cars car) {
        for (Direction direction : Direction.values()) {
            assertZero(
                    new Drive(car)
                            .torque(TorquePermission.NONE)
                            .engaged(direction)
                            .after(),
                    "not permitted");
        }
        assertZero(new Drive(car).engaged(Direction.NEUTRAL).after(), "no direction");
        assertZero(new Drive(car).quantity("speedKph", Reals.NAN).after(), "unknown speed");
    }

    /** These end by the ramp; so what begins at nothing stays there. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void nothingLeft_staysAtNoTorque(Cars car) {
        for (Direction direction : new Direction[] {Direction.FORWARD, Direction.REVERSE}) {
            boolean reverse = direction == Direction.REVERSE;
            double maxKph = car.get(reverse ? Parameter.DRIVE_REVERSE_MAX_KPH : Parameter.DRIVE_MAX_KPH);
            double fadeEndKph = car.get(Parameter.REGEN_FADE_END_KPH);
            Drive still = new Drive(car).engaged(direction).before(Reals.of(0));
            Reals slow = Reals.between(-INF, fadeEndKph);
            notDriven(still.but().quantity("packVoltageV", UNKNOWN_OR_NEGATIVE), "unknown pack");
            notBraked(still.but().quantity("packVoltageV", UNKNOWN_OR_NEGATIVE), "unknown pack");
            notDriven(still.but().at(Reals.between(maxKph, INF)), "top speed");
            notDriven(still.but().fact(Fact.OVERSPEED, 1), "too fast");
            notDriven(still.but().quantity("travel", Reals.of(0)), "a released pedal");
            notDriven(still.but().quantity("travel", Reals.NAN), "an unknown pedal");
            notDriven(still.but().quantity("regenAsked", Reals.between(Double.MIN_VALUE, 1)), "asked to brake");
            notBraked(still.but().at(slow), "near standstill, or rolling the other way");
            notBraked(still.but().quantity("regenShare", Reals.of(0).orNan()), "a full pack, or nobody knows");
            notBraked(still.but().quantity("travel", Reals.NAN).quantity("regenAsked", Reals.of(0)), "unknown");
            notBraked(still.but().level(0).quantity("regenAsked", Reals.of(0)), "level 0 coasts");
            notBraked(still.but().fact(Fact.CHARGE_WITHDRAWN, 1), "the monitor allows no charge");
            notBraked(still.but().fact(Fact.PACK_SENSOR_LOST, 1), "unknown temperature");
            notBraked(still.but().fact(Fact.MONITOR_SILENT, 1), "unknown cells");
            warm(car, still);
        }
    }

    private void warm(Cars car, Drive still) {
        hot(still, "motorTempC", Fact.MOTOR_WARM, car.get(Parameter.MOTOR_HOT_C));
        hot(still, "inverterTempC", Fact.INVERTER_WARM, car.get(Parameter.INVERTER_HOT_C));
        hot(still, "coolantTempC", Fact.COOLANT_WARM, car.get(Parameter.COOLANT_HOT_C));
        hot(still, "packHotC", Fact.PACK_WARM, car.get(Parameter.PACK_HOT_C));
        Reals cold = Reals.between(-INF, car.get(Parameter.PACK_COLD_C)).orNan();
        notBraked(still.but().fact(Fact.PACK_COOL, 1).quantity("packColdC", cold), "a cold pack");
    }

    private void hot(Drive still, String quantity, Fact warm, double hotC) {
        Drive hot = still.but().fact(warm, 1).quantity(quantity, Reals.between(hotC, INF));
        notDriven(hot, quantity);
        notBraked(hot, quantity);
    }

    private void notDriven(Drive drive, String what) {
        assertWithin(-INF, 0, drive.along(), what);
    }

    private void notBraked(Drive drive, String what) {
        assertWithin(0, INF, drive.along(), what);
    }

    /** From tick to tick: away from nothing by the rise at most, towards it by the fall, and never through it. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void anyTick_changesByItsRampAtMost(Cars car) {
        double riseNm = perTick(car, Parameter.DRIVE_RISE_NM_PER_S);
        double fallNm = perTick(car, Parameter.DRIVE_FALL_NM_PER_S);
        Drive drive = new Drive(car).quantity("speedKph", ANY_SPEED);
        double mostNm = drive.most();
        double pieceNm = mostNm / car.pieces();
        assertWithin(-riseNm, riseNm, drive.but().before(Reals.of(0)).towardsAnything(), "from nothing");
        for (int i = -car.pieces(); i < car.pieces(); i++) {
            double from = i == 0 ? Double.MIN_VALUE : Math.max(i * pieceNm, -mostNm);
            double to = i == -1 ? -Double.MIN_VALUE : Math.min((i + 1) * pieceNm, mostNm);
            Reals before = Reals.between(from, to);
            Reals after = drive.but().before(before).towardsAnything();
            double up = from >= 0 ? riseNm : fallNm;
            double down = to <= 0 ? riseNm : fallNm;
            // to the end of the piece: what begins inside it can be that much nearer
            assertWithin(from - down, to + up, after, "from " + before);
            boolean through = from > 0 && after.lo() < 0 || to < 0 && after.hi() > 0;
            assertFalse(through, "from " + before + " through nothing to " + after);
            Reals ramped = drive.but()
                    .torque(TorquePermission.RAMP_TO_ZERO)
                    .before(before)
                    .after();
            double least = from > 0 ? Math.max(from - fallNm, 0) : to < 0 ? from + 0 : Math.min(from, 0);
            double most = to < 0 ? Math.min(to + fallNm, 0) : to;
            assertWithin(Math.min(least, 0), Math.max(most, 0), ramped, "ramped to zero from " + before);
            double farNm = Math.max(Math.abs(from), Math.abs(to));
            double leftNm = Math.max(farNm - fallNm, 0) + pieceNm * 1e-9;
            assertWithin(-leftNm, leftNm, ramped, "ramped to zero from " + before);
        }
    }

    /** The ramp alone neither turns an order around nor makes more of a difference than there was: the slope is from 0 to 1. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void ramp_followsWhatIsWantedWithASlopeFromNothingToOne(Cars car) {
        Drive drive = new Drive(car);
        double mostNm = drive.most();
        Reals all = drive.towards(Reals.between(-mostNm, mostNm).watched());
        assertTrue(all.fall() >= 0 && all.rise() <= 1, all.toString());
        double pieceNm = mostNm / car.pieces();
        for (int i = -car.pieces(); i < car.pieces(); i++) {
            Reals here = Reals.between(i * pieceNm, (i + 1) * pieceNm);
            Reals stays = drive.but().before(here).towards(here);
            // where what is wanted is what there is, the two branches meet
            assertWithin(here.lo() - 1e-9, here.hi() + 1e-9, stays, "at rest at " + here);
        }
    }

    /** What each limit leaves, by its own formula written once more here; all else is anything. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void limits_neverPassPowerCurrentAndSpeed(Cars car) {
        double maxRpm = 1.2 * car.get(Parameter.MOTOR_MAX_RPM);
        for (Direction direction : new Direction[] {Direction.FORWARD, Direction.REVERSE}) {
            Drive drive = new Drive(car).engaged(direction).limited(false);
            assertWithin(0, mostNm(car, direction), drive.limit("driveNm"), "torque");
            assertWithin(0, car.get(Parameter.REGEN_TORQUE_NM), drive.limit("regenNm"), "regeneration");
            for (int i = 0; i < car.pieces(); i++) {
                double fromRpm = maxRpm * i / car.pieces();
                Reals rpm = Reals.between(fromRpm, maxRpm * (i + 1) / car.pieces());
                power(car, drive.but().quantity("motorSpeedRpm", rpm), fromRpm);
                power(car, drive.but().quantity("motorSpeedRpm", rpm.negate()), fromRpm);
            }
            double maxKph =
                    car.get(direction == Direction.REVERSE ? Parameter.DRIVE_REVERSE_MAX_KPH : Parameter.DRIVE_MAX_KPH);
            for (int i = 0; i < car.pieces(); i++) {
                double share = i / (double) car.pieces();
                Reals kph = Reals.between(
                        maxKph * (0.95 + 0.05 * share), maxKph * (0.95 + 0.05 * (share + 1.0 / car.pieces())));
                double mostNm = mostNm(car, direction) * (1 - share) * (1 + 1e-9) + 1e-9;
                assertWithin(0, mostNm, drive.but().at(kph).limit("driveNm"), "near top speed " + kph);
            }
        }
    }

    private void power(Cars car, Drive drive, double fromRpm) {
        double radPerS = fromRpm * RAD_PER_S_PER_RPM;
        if (radPerS <= 1) {
            return;
        }
        double slack = 1 + 1e-12;
        double powerNm = car.get(Parameter.DRIVE_POWER_W) / radPerS;
        assertWithin(0, powerNm * slack, drive.limit("driveNm"), "power from " + fromRpm + " rpm");
        for (double packV : new double[] {1, car.get(Parameter.PACK_MIN_V), car.get(Parameter.PACK_MAX_V)}) {
            drive.quantity("packVoltageV", Reals.between(-INF, packV).orNan());
            double outNm = car.get(Parameter.PACK_DISCHARGE_MAX_A) * packV / radPerS;
            double inNm = car.get(Parameter.PACK_CHARGE_MAX_A) * packV / radPerS;
            assertWithin(0, outNm * slack, drive.limit("driveNm"), "current out");
            assertWithin(0, inNm * slack, drive.limit("regenNm"), "current in");
        }
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void limits_neverPassWhatTemperaturesAndPackLeave(Cars car) {
        Drive drive = new Drive(car);
        double limp = car.get(Parameter.DRIVE_LIMP_SHARE);
        falling(drive, "motorTempC", Fact.MOTOR_WARM, car.get(Parameter.MOTOR_WARM_C), car.get(Parameter.MOTOR_HOT_C));
        falling(
                drive,
                "inverterTempC",
                Fact.INVERTER_WARM,
                car.get(Parameter.INVERTER_WARM_C),
                car.get(Parameter.INVERTER_HOT_C));
        falling(
                drive,
                "coolantTempC",
                Fact.COOLANT_WARM,
                car.get(Parameter.COOLANT_WARM_C),
                car.get(Parameter.COOLANT_HOT_C));
        falling(drive, "packHotC", Fact.PACK_WARM, car.get(Parameter.PACK_WARM_C), car.get(Parameter.PACK_HOT_C));
        for (Fact fact : new Fact[] {
            Fact.COOLING_LOST,
            Fact.DRIVE_SENSOR_LOST,
            Fact.CURRENTS_APART,
            Fact.LV_LOW,
            Fact.ISOLATION_LOW,
            Fact.ISOLATION_SILENT,
            Fact.PACK_SENSOR_LOST,
            Fact.MONITOR_SILENT
        }) {
            leaves(drive.but().fact(fact, 1), limp, fact.toString());
        }
        double fullA = car.get(Parameter.PACK_DISCHARGE_MAX_A);
        drive.quantity("packCurrentA", Reals.between(fullA, INF));
        assertWithin(-INF, 0, notUnknown(drive.limit("driveStepNm")), "torque grows beyond the pack's current");
        Drive low = new Drive(car)
                .fact(Fact.PACK_LOW, 1)
                .quantity("driveRoom", Reals.between(-INF, 0).orNan());
        assertWithin(-INF, 0, notUnknown(low.limit("driveStepNm")), "torque grows without room");
    }

    /** An unknown step falls: {@code anyTick_torqueStaysWithinTheGreatest} sees none of it. */
    private Reals notUnknown(Reals stepNm) {
        return stepNm.meet(-INF, INF, false);
    }

    private void leaves(Drive drive, double share, String what) {
        double driveNm = drive.car.get(Parameter.DRIVE_TORQUE_NM) * share;
        double regenNm = drive.car.get(Parameter.REGEN_TORQUE_NM) * share;
        assertWithin(0, driveNm * (1 + 1e-9), drive.limit("driveNm"), what);
        assertWithin(0, regenNm * (1 + 1e-9), drive.limit("regenNm"), what);
    }

    private void falling(Drive drive, String quantity, Fact warm, double fromC, double toC) {
        int pieces = drive.car.pieces() / 4;
        for (int i = 0; i < pieces; i++) {
            double share = i / (double) pieces;
            Reals piece = Reals.between(fromC + (toC - fromC) * share, INF);
            leaves(drive.but().fact(warm, 1).quantity(quantity, piece), 1 - share, quantity + " " + piece);
        }
    }

    /** More pedal is never less torque, whatever else is so: no piece of the formula falls, and where two meet nothing jumps. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void morePedal_isNeverLessTorque(Cars car) {
        Reals pedal = Reals.between(0, 1).watched();
        for (int level = 0; level <= 4; level++) {
            Reals share = new Drive(car).share(pedal, ANY_SPEED, level);
            assertWithin(-1, 1, share, "level " + level);
            assertTrue(share.fall() >= 0, "level " + level + ": " + share);
        }
        for (Direction direction : new Direction[] {Direction.FORWARD, Direction.REVERSE}) {
            Reals along =
                    new Drive(car).engaged(direction).quantity("travel", pedal).along();
            assertTrue(along.fall() >= 0, direction + ": " + along);
        }
    }

    /** The curve of the pedal is a table. Each of its cells ends where the next begins, to the rounding. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void cellsOfTheCurve_meet(Cars car) {
        Drive drive = new Drive(car);
        int cells = 256;
        double beforeEnd = 0;
        for (int k = 0; k < cells; k++) {
            Reals cell = Reals.between((double) k / cells, Math.nextDown((k + 1.0) / cells));
            Reals share = drive.share(cell, Reals.between(-INF, 0), 0);
            assertTrue(Math.abs(share.lo() - beforeEnd) < 1e-12, "cell " + k + " begins at " + share.lo());
            beforeEnd = share.hi();
        }
        assertTrue(Math.abs(1 - beforeEnd) < 1e-12, "the last cell ends at " + beforeEnd);
        assertWithin(1, 1, drive.share(Reals.of(1), ANY_SPEED.meet(-INF, 0, false), 0), "all of the pedal");
    }

    /** At the coast point neither side leaves more than what a piece of the grid makes: there the two branches meet at nothing. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void driveAndRegeneration_meetAtNothing(Cars car) {
        Drive drive = new Drive(car);
        double shape = Math.min(car.get(Parameter.DRIVE_SHAPE), 1);
        for (Reals kph : speedsToCoast(car)) {
            Reals coast = drive.coast(kph);
            Reals near = Reals.between(Math.max(coast.lo() - 1e-6, 0), coast.hi() + 1e-6);
            Reals share = drive.share(near, kph, 4);
            double byPedal = near.width() / (1 - coast.hi());
            double driveShare = Math.max(Math.pow(byPedal, shape), 2 * byPedal * Steepness.ofTheCurve(car)) + 1e-9;
            Reals fade = drive.fade(kph);
            double regenShare = fade.hi() == 0 ? 0 : near.width() / coast.lo() * fade.hi() + 1e-9;
            assertWithin(-regenShare, driveShare, share, "at the coast point of " + kph);
        }
    }

    /** The speeds up to where the coast point no longer grows, in pieces with the ends of the fade among their ends. */
    private static List<Reals> speedsToCoast(Cars car) {
        TreeSet<Double> ends = new TreeSet<>();
        double fullKph = car.get(Parameter.REGEN_COAST_FULL_KPH);
        for (int i = 0; i <= 4 * car.pieces(); i++) {
            ends.add(fullKph * i / (4 * car.pieces()));
        }
        ends.add(car.get(Parameter.REGEN_FADE_END_KPH));
        ends.add(car.get(Parameter.REGEN_FADE_START_KPH));
        List<Reals> pieces = new ArrayList<>();
        Double from = null;
        for (double to : ends) {
            if (from != null) {
                pieces.add(Reals.between(from, to));
            }
            from = to;
        }
        pieces.add(Reals.between(from, Double.MAX_VALUE));
        return pieces;
    }

    /** The pedal's share follows the speed with a slope that two formulas bound: the fade, and the coast point that moves. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void shareOfThePedal_isContinuousOverSpeed(Cars car) {
        Drive drive = new Drive(car);
        double regenPerKph = Steepness.brakingPerKph(car);
        double drivePerKph = Steepness.drivingPerKph(car);
        int i = 0;
        for (Reals kph : speedsToCoast(car)) {
            Reals coast = drive.coast(kph);
            if (coast.lo() > 0) {
                Reals braking = drive.share(Reals.between(0, Math.nextDown(coast.lo())), kph.watched(), 4);
                double blur = coast.hi() / coast.lo();
                assertSlope(regenPerKph * blur * blur, braking, "braking at " + kph);
            }
            if (i++ % 16 == 0) {
                Reals driving = drive.share(Reals.between(coast.hi(), 1), kph.watched(), 4);
                double blur = (1 - coast.lo()) / (1 - coast.hi());
                assertSlope(drivePerKph * blur * blur * (1 + 1e-9), driving, "driving at " + kph);
            }
        }
    }

    /** The limits follow the speed with a slope that their own corners bound: where power or current takes over, and the fade at top speed. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void limits_areContinuousOverSpeed(Cars car) {
        double perKph = car.get(Parameter.DRIVE_GEAR_RATIO) / car.get(Parameter.DRIVE_WHEEL_RADIUS_M) / 3.6;
        double minV = car.get(Parameter.PACK_MIN_V);
        double maxKph = car.get(Parameter.DRIVE_MAX_KPH);
        double drivePerKph = Steepness.driveNmPerKph(car);
        double regenPerKph = Steepness.regenNmPerKph(car);
        // the less voltage the pack has, the earlier its current takes over, and the steeper
        Drive drive = new Drive(car).limited(false).quantity("packVoltageV", Reals.of(minV));
        int pieces = 8 * car.pieces();
        for (int i = -pieces; i < pieces; i++) {
            Reals kph = Reals.between(1.2 * maxKph * i / pieces, 1.2 * maxKph * (i + 1) / pieces)
                    .watched();
            Reals rpm = kph.times(Reals.of(perKph / RAD_PER_S_PER_RPM));
            drive.quantity("speedKph", kph).quantity("motorSpeedRpm", rpm);
            double near = Math.max(Math.min(Math.abs(kph.lo()), Math.abs(kph.hi())), 1e-9);
            double blur = 1 + kph.width() / near;
            // where power takes over inside a piece, both of its ends count: hence the blur
            assertSlope(drivePerKph * blur * blur, drive.limit("driveNm"), "to drive at " + kph);
            assertSlope(regenPerKph * blur * blur + 1e-9, drive.limit("regenNm"), "to brake at " + kph);
        }
    }

    private static void assertSlope(double most, Reals value, String what) {
        assertTrue(
                value.fall() >= -most && value.rise() <= most, what + ": no steeper than " + most + ", but " + value);
    }
}
