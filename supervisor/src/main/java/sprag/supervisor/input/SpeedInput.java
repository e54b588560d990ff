package sprag.supervisor.input;

import sprag.supervisor.vocabulary.Bounds;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/**
 * From the raw motor speed to a speed that can be believed, or none.
 *
 * <p>A pulse sensor with a broken wire reads 0 rpm, and one that hangs reads what was true once. Both are valid numbers. So a
 * reading is held against what a car can do:
 *
 * <pre>
 *  km/h ^        rises faster than spinning wheels can      -&gt; jumped
 *       |  ------.  :
 *       |         \ :.... drive.brake_mps2                  (tyres cannot slow a car faster)
 *       |          \ '..
 *       |           |   '..  margin
 *       |           |______'...   reading 0: below the line -&gt; fell
 *       +------------------------&gt; s
 *
 *  held:  the torque that was asked for must have changed the speed, and the reading has not moved
 *  power: more current flows than torque and reading explain ({@link DriveInput} says so)
 *  wheel: where a second speed is fitted, both differ by more than slip explains, for {@value #WHEEL_MS} ms
 * </pre>
 *
 * <p>A motor behind a clutch is not tied to the road: its speed may jump and fall, so neither is held against it, and a second speed is
 * that of the road, in a gear that nobody knows. Such a car stands when the motor does and the second speed says so; where there is
 * none, when the motor stands and the brake is pressed.
 *
 * <p>A doubted speed is unknown to everybody: no torque, no direction change. It is believed again
 * <ul>
 *   <li>when the motor is seen to turn, moving, for {@value #STEADY_MS} ms: wheels that were locked or spun; never after a jump,
 *   <li>or when the reading is at standstill and the brake has been held without a break until the car must stand,
 *   <li>or when the key is turned off and on.
 * </ul>
 * Time alone never ends a doubt: a car on a slope rolls on.
 */
final class SpeedInput {
    private static final double KPH_PER_MPS = 3.6;
    private static final double SECONDS_PER_MINUTE = 60;
    /** The share by which the speed may pass its limit before it counts: the limiter works up to the limit itself. */
    private static final double OVERSPEED_SHARE = 1.05;
    /** How far beyond its greatest speed a motor can be, rolling downhill; a reading beyond that is no speed. */
    private static final double MOST_SHARE = 1.25;
    /** How far a reading may lie beyond what a car can do: a sensor that reports ten to twenty times a second moves in steps. */
    private static final double MARGIN_KPH = 3;
    /** Spinning wheels and rotor have the inertia of some 4 % of the car, so they gain speed up to 25 times as fast (chosen). */
    private static final double SPIN_FACTOR = 25;
    /** The least rise that is allowed: locked wheels that roll again do not wait for the motor. */
    private static final double LEAST_RISE_MPS2 = 50;
    /** A reading that stays within this is held. A speed sensor that works shows more than this at once under torque. */
    private static final double HELD_KPH = 0.3;
    /** The change of speed that the torque must have made before a reading that was held while rolling is doubted. */
    private static final double HELD_LIMIT_KPH = 2;
    /** How long a reading must be held before the torque that keeps the speed counts as known. */
    private static final double SETTLE_S = 0.3;
    /** While the smoothed slope is steeper than this, what keeps the speed is not known either. */
    private static final double SETTLED_MPS2 = 0.3;
    /** How slowly that torque is learned from then on: longer than a driver's foot, shorter than a hill. */
    private static final double BALANCE_S = 3;
    /** Rolling resistance of any car, at least in this order (1.5 %, common practice). */
    private static final double ROLLING_MPS2 = 0.15;
    /** What the brake makes of a speed in the worst case: wet ice (about 0.1 g; from memory, common practice). */
    private static final double ICE_MPS2 = 1;
    /** Added to the time for which the brake must be held. */
    private static final double BRAKE_SLACK_S = 1;
    /** How long a turning motor must be seen to be believed again. */
    static final int STEADY_MS = 300;
    /** The share of drive.unasked_ms after which the power says that the speed is wrong: before torque-unasked acts. */
    private static final double POWER_SHARE = 0.6;
    /** How long both speeds may differ: longer than a wheel on a bump, short enough for the torque to end in time. */
    static final int WHEEL_MS = 150;
    /** What a driven tyre may slip, and what wheels differ in a bend, as a share of the faster one (from memory, common practice). */
    private static final double SLIP_SHARE = 0.15;
    /** Time constant of slope and acceleration: long against the ticks of a speed sensor, short against a driver. */
    private static final double ACCELERATION_S = 0.2;
    /** Less is none: a filter that fades for ever ends in numbers so small that a processor is slow with them. */
    private static final double NOTHING = 1e-9;

    private final double kphPerRpm;
    private final double standstillKph;
    private final double maxRpm;
    private final double maxKph;
    private final double mostRpm;
    private final double fallKph;
    private final double riseKph;
    private final double kphPerNm;
    private final double mps2PerNm;
    private final double rollingKph;
    private final double iceKph;
    private final double balanceShare;
    private final double launchKph;
    private final int settleTicks;
    private final int steadyTicks;
    private final int powerTicks;
    private final boolean hasWheel;
    private final boolean hasClutch;
    private final int wheelTicks;
    private final double tickS;
    private final double mps2PerKphTick;
    private final double accelerationShare;

    /** What the reading is held against, signed (km/h): it follows the reading as fast as a car can. */
    private double followedKph = Double.NaN;
    /** For how many ticks there was no reading to follow. */
    private int gapTicks;

    private double heldKph;
    private int heldTicks;
    private double lastKph = Double.NaN;
    /** Slope of the reading, and the torque that was asked for, both smoothed alike (m/s², Nm). */
    private double slopeMps2;

    private double pullNm;
    /** What the torque must have made of the speed since the reading has been held (km/h). */
    private double owedKph;
    /** The torque that keeps the held speed. */
    private double balanceNm;

    private boolean doubted;
    private boolean jumped;
    private boolean moved;
    private int turningTicks;
    private int brakedTicks;
    private int mustBrakeTicks;
    private int powerCount;
    /** Both speeds differ in this tick, and for how many they have. */
    private boolean apart;

    private int apartTicks;
    private boolean keyWasOff;
    private double lastSpeedKph = Double.NaN;

    SpeedInput(Settings settings) {
        double metresPerTurn = 2 * Math.PI * settings.get(Parameter.DRIVE_WHEEL_RADIUS_M);
        double ratio = settings.get(Parameter.DRIVE_GEAR_RATIO);
        mps2PerNm = ratio / settings.get(Parameter.DRIVE_WHEEL_RADIUS_M) / settings.get(Parameter.DRIVE_MASS_KG);
        tickS = settings.tickS();
        double kphPerMps2 = KPH_PER_MPS * tickS;
        kphPerRpm = metresPerTurn / ratio / SECONDS_PER_MINUTE * KPH_PER_MPS;
        standstillKph = settings.get(Parameter.DRIVE_STANDSTILL_KPH);
        maxRpm = settings.get(Parameter.MOTOR_MAX_RPM);
        double topKph = settings.get(Parameter.DRIVE_MAX_KPH);
        maxKph = topKph * OVERSPEED_SHARE;
        mostRpm = Math.min(Signal.MOTOR_SPEED_RPM.max, MOST_SHARE * Math.max(maxRpm, topKph / kphPerRpm));
        fallKph = settings.get(Parameter.DRIVE_BRAKE_MPS2) * kphPerMps2;
        double spinMps2 = SPIN_FACTOR * settings.get(Parameter.DRIVE_TORQUE_NM) * mps2PerNm;
        riseKph = Math.max(LEAST_RISE_MPS2, spinMps2) * kphPerMps2;
        kphPerNm = mps2PerNm * kphPerMps2;
        rollingKph = ROLLING_MPS2 * kphPerMps2;
        iceKph = ICE_MPS2 * kphPerMps2;
        balanceShare = tickS / BALANCE_S;
        launchKph = settings.get(Parameter.DRIVE_LAUNCH_KPH);
        settleTicks = (int) Math.ceil(SETTLE_S / tickS);
        steadyTicks = (int) Math.ceil(STEADY_MS / (tickS * 1000));
        powerTicks = (int) Math.ceil(settings.ticks(Parameter.DRIVE_UNASKED_MS) * POWER_SHARE);
        hasWheel = settings.has(Signal.WHEEL_SPEED_KPH);
        hasClutch = settings.is(Parameter.DRIVE_GEARBOX, "clutch");
        wheelTicks = (int) Math.ceil(WHEEL_MS / (tickS * 1000));
        mps2PerKphTick = 1 / kphPerMps2;
        accelerationShare = tickS / (ACCELERATION_S + tickS);
    }

    void update(Readings in, Commands last, TickFacts facts, Debounce debounce, Conditioned out) {
        double rpm = in.get(Signal.MOTOR_SPEED_RPM);
        boolean known = Math.abs(rpm) <= mostRpm;
        debounce.into(facts, Fact.SPEED_LOST, !known);
        key(facts);
        out.roadKph = Math.abs(rpm * kphPerRpm);
        out.shownKph = known ? out.roadKph : 0;
        compare(rpm * kphPerRpm, in, facts, debounce, out);
        if (known) {
            look(rpm * kphPerRpm, last.get(Output.TORQUE_REQUEST_NM), facts.is(Fact.BRAKE_PRESSED));
            gapTicks = 0;
        } else {
            gapTicks++;
            turningTicks = 0;
            brakedTicks = 0;
        }
        tell(known && !doubted ? rpm : Double.NaN, facts, debounce, out);
    }

    /** Holds the reading against the second speed, whose sign nobody knows. An unknown second speed says nothing. */
    private void compare(double kph, Readings in, TickFacts facts, Debounce debounce, Conditioned out) {
        if (!hasWheel) {
            return;
        }
        double wheelKph = in.get(Signal.WHEEL_SPEED_KPH);
        double size = Math.abs(kph);
        boolean wheelKnown = wheelKph >= 0 && wheelKph <= Signal.WHEEL_SPEED_KPH.max;
        debounce.into(facts, Fact.WHEEL_SPEED_LOST, !wheelKnown);
        out.shownKph = wheelKnown ? Bounds.greatest(out.shownKph, wheelKph) : out.shownKph;
        double slipKph = MARGIN_KPH + SLIP_SHARE * Bounds.greatest(size, wheelKph);
        apart = !hasClutch && Math.abs(size - wheelKph) > slipKph;
        out.roadKph = hasClutch ? wheelKph : size;
        apartTicks = apart ? Math.min(apartTicks + 1, wheelTicks + 1) : 0;
        if (apartTicks > wheelTicks && !doubted) {
            doubt(Bounds.greatest(size, wheelKph));
        }
    }

    /** Turning the key off and on again ends a doubt. The key alone, turned off, does not: the car may still roll. */
    private void key(TickFacts facts) {
        if (keyWasOff && facts.is(Fact.KEY_ON)) {
            believe();
            followedKph = Double.NaN;
        }
        keyWasOff = facts.is(Fact.KEY_OFF);
    }

    private void look(double kph, double askedNm, boolean braked) {
        if (followedKph != followedKph) {
            followedKph = kph;
            heldKph = kph;
        }
        if (gapTicks > 0 || lastKph != lastKph) {
            lastKph = kph;
        }
        int ticks = gapTicks + 1;
        double size = Math.abs(kph);
        double followed = Math.abs(followedKph);
        boolean turnedOver = kph * followedKph < 0;
        boolean fell = !hasClutch && followed > (turnedOver ? 0 : size) + fallKph * ticks + MARGIN_KPH;
        boolean rose = !hasClutch && size > (turnedOver ? 0 : followed) + riseKph * ticks + MARGIN_KPH;
        if (doubted) {
            prove(kph, size, fell || rose, braked);
            follow(kph, askedNm, braked);
        } else if (fell || rose) {
            jumped = rose;
            doubt(Bounds.greatest(size, followed));
            followedKph = kph;
        } else {
            followedKph = size < followed && !turnedOver ? slower(size, followed, ticks) : kph;
            held(kph, askedNm, braked);
        }
    }

    /** The reading itself, or what a car that brakes as hard as it can still has of its speed. */
    private double slower(double size, double followed, int ticks) {
        double least = followed - fallKph * ticks;
        return Math.copySign(Bounds.greatest(size, least), followedKph);
    }

    /** Whether the torque that was asked for should have moved the reading by more than it has moved. */
    private void held(double kph, double askedNm, boolean braked) {
        follow(kph, askedNm, braked);
        double limitKph = Math.abs(heldKph) < standstillKph ? launchKph : HELD_LIMIT_KPH;
        if (Math.abs(owedKph) > limitKph) {
            doubt(Math.abs(heldKph) + Math.abs(owedKph));
        }
    }

    /** Adds up what the torque owes. At standstill any torque must move the car; while it rolls, a change of torque must change
     * the speed: the torque that keeps it is what was asked for less what speeds the car up. */
    private void follow(double kph, double askedNm, boolean braked) {
        slopeMps2 = smooth(slopeMps2, (kph - lastKph) * mps2PerKphTick);
        pullNm = smooth(pullNm, askedNm);
        lastKph = kph;
        double keepsNm = pullNm - slopeMps2 / mps2PerNm;
        heldTicks = Math.min(heldTicks + 1, settleTicks);
        if (!(Math.abs(kph - heldKph) <= HELD_KPH)) {
            heldKph = kph;
            heldTicks = 0;
            owedKph = 0;
            moved = true;
        } else if (Math.abs(kph) < standstillKph) {
            double lostKph = rollingKph + (braked ? iceKph : 0);
            owedKph = Bounds.greatest(Math.abs(owedKph) + Math.abs(askedNm) * kphPerNm - lostKph, 0);
        } else if (heldTicks < settleTicks || Math.abs(slopeMps2) > SETTLED_MPS2) {
            balanceNm = keepsNm;
        } else {
            owedKph += (askedNm - balanceNm) * kphPerNm;
            balanceNm += (keepsNm - balanceNm) * balanceShare;
        }
    }

    /** The speed is in doubt: the car may have had a speed, and the brake must be held until that is gone. */
    private void doubt(double speedKph) {
        doubted = true;
        moved = false;
        turningTicks = 0;
        brakedTicks = 0;
        double brakeS = Bounds.least(speedKph, MOST_SHARE * maxKph) / KPH_PER_MPS / ICE_MPS2 + BRAKE_SLACK_S;
        mustBrakeTicks = (int) Math.ceil(brakeS / tickS);
    }

    /** Looks for a proof that a doubted reading is true again. */
    private void prove(double kph, double size, boolean strange, boolean braked) {
        followedKph = kph;
        boolean stands = size < standstillKph;
        turningTicks = stands || strange || apart || !moved ? 0 : turningTicks + 1;
        brakedTicks = stands && braked && !apart ? brakedTicks + 1 : 0;
        if (turningTicks >= steadyTicks && !jumped || brakedTicks >= mustBrakeTicks) {
            believe();
        }
    }

    private void believe() {
        doubted = false;
        jumped = false;
        owedKph = 0;
        powerCount = 0;
    }

    /** Takes over that more current flows than torque and speed explain, while torque is asked for.
     *
     * @param contradicts whether it is so in this tick
     * @param speedKph the speed that would explain the current (km/h)
     * @param facts where the doubt is told
     * @param out where the speed becomes unknown
     */
    void power(boolean contradicts, double speedKph, TickFacts facts, Debounce debounce, Conditioned out) {
        powerCount = contradicts ? powerCount + 1 : 0;
        if (powerCount > powerTicks && !doubted) {
            doubt(speedKph);
            tell(Double.NaN, facts, debounce, out);
        }
    }

    private void tell(double rpm, TickFacts facts, Debounce debounce, Conditioned out) {
        out.motorSpeedRpm = rpm;
        out.speedKph = rpm * kphPerRpm;
        double speedKph = Math.abs(out.speedKph);
        facts.set(Fact.SPEED_DOUBTED, doubted);
        boolean roadStands = !hasClutch || (hasWheel ? out.roadKph < standstillKph : facts.is(Fact.BRAKE_PRESSED));
        out.roadKph = rpm == rpm || hasClutch && hasWheel ? Bounds.greatest(out.roadKph, speedKph) : Double.NaN;
        facts.set(Fact.STANDSTILL, speedKph < standstillKph && owedKph < MARGIN_KPH && roadStands);
        boolean fast = Math.abs(rpm) > maxRpm || speedKph > maxKph;
        debounce.into(facts, Fact.OVERSPEED, fast);
        double along = out.speedKph * facts.direction().sign;
        debounce.into(facts, Fact.ROLLING_AWAY, along < -standstillKph);
        double step = (out.speedKph - lastSpeedKph) * mps2PerKphTick;
        lastSpeedKph = out.speedKph;
        out.accelerationMps2 = step == step ? smooth(out.accelerationMps2, step) : 0;
    }

    private double smooth(double before, double now) {
        double after = before + (now - before) * accelerationShare;
        return Math.abs(after) < NOTHING ? 0 : after;
    }
}
