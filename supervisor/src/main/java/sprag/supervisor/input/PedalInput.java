package sprag.supervisor.input;

import sprag.supervisor.vocabulary.Bounds;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/**
 * One or two wipers to one travel, and everything that can be wrong with them.
 *
 * <pre>
 *  V ^  pedal.max_v ........................... open wire above
 *    |                              __--  track A
 *    |                      __--''
 *    |              __--''      __..--  track B: other slope or offset, so that
 *    |       __--''  __..--''           a short between the wipers fits no travel
 *    |  ''  ..--''
 *    |  pedal.min_v ........................... shorted wire below
 *    +----|----------------------------|-----&gt; travel
 *      released                      full
 * </pre>
 *
 * <p>A travel in doubt is unknown from the first tick, not zero: a released pedal brakes, and a broken wire must not. The
 * lower of two tracks drives; the higher one decides whether the pedal counts as released or as fighting the brake.
 */
final class PedalInput {
    /** Rounding must not turn a deviation of exactly the limit, which is plausible, into one above it, nor 5 % into less. */
    private static final double ROUNDING = 1e-9;
    /** How far below its limit a pedal must fall before it no longer fights the brake: a foot at the limit trembles. */
    private static final double BRAKE_BACK_SHARE = 0.03;
    /** What a track may move and still stands still: noise does that, a foot in a car moves more (chosen). */
    private static final double STILL_SHARE = 0.01;
    /** At rest the tracks must agree better than on the way: by this share of what is allowed there (chosen). */
    private static final double REST_SHARE = 0.5;

    private final boolean hasB;
    private final boolean hasSupply;
    private final double aReleasedV;
    private final double aPerV;
    private final double bReleasedV;
    private final double bPerV;
    private final double minV;
    private final double maxV;
    private final double shortV;
    private final double supplyMinV;
    private final double supplyMaxV;
    private final double disagreeShare;
    private final double deadbandShare;
    private final double perUsableShare;
    private final double releasedShare;
    private final double brakeShare;
    private boolean fightsBrake;
    private double stillAt = Double.NaN;

    PedalInput(Settings settings) {
        hasB = settings.has(Signal.PEDAL_B_V);
        hasSupply = settings.has(Signal.PEDAL_SUPPLY_V);
        aReleasedV = settings.get(Parameter.PEDAL_A_RELEASED_V);
        aPerV = 1 / (settings.get(Parameter.PEDAL_A_FULL_V) - aReleasedV);
        bReleasedV = settings.get(Parameter.PEDAL_B_RELEASED_V);
        bPerV = 1 / (settings.get(Parameter.PEDAL_B_FULL_V) - bReleasedV);
        minV = settings.get(Parameter.PEDAL_MIN_V);
        maxV = settings.get(Parameter.PEDAL_MAX_V);
        shortV = settings.get(Parameter.PEDAL_SHORT_V);
        supplyMinV = settings.get(Parameter.PEDAL_SUPPLY_MIN_V);
        supplyMaxV = settings.get(Parameter.PEDAL_SUPPLY_MAX_V);
        disagreeShare = settings.get(Parameter.PEDAL_DISAGREE_SHARE) + ROUNDING;
        deadbandShare = settings.get(Parameter.PEDAL_DEADBAND_SHARE);
        perUsableShare = 1 / (1 - 2 * deadbandShare);
        releasedShare = settings.get(Parameter.PEDAL_RELEASED_SHARE) - ROUNDING;
        brakeShare = settings.get(Parameter.PEDAL_BRAKE_SHARE) + ROUNDING;
    }

    void update(Readings in, TickFacts facts, Debounce debounce, Conditioned out) {
        double aV = in.get(Signal.PEDAL_A_V);
        double bV = hasB ? in.get(Signal.PEDAL_B_V) : Double.NaN;
        boolean aSound = aV >= minV && aV <= maxV;
        boolean bSound = !hasB || bV >= minV && bV <= maxV;
        boolean sound = aSound && bSound;
        double a = (aV - aReleasedV) * aPerV;
        double b = hasB ? (bV - bReleasedV) * bPerV : a;
        double lower = Bounds.least(a, b);
        double higher = Bounds.greatest(a, b);
        boolean shorted = hasB && sound && Math.abs(aV - bV) < shortV;
        boolean apart = sound && higher - lower > disagreeShare;
        debounce.into(facts, Fact.PEDAL_OUT_OF_RANGE, !sound);
        debounce.into(facts, Fact.PEDAL_SHORTED, shorted);
        debounce.into(facts, Fact.PEDAL_DISAGREES, apart);
        debounce.into(facts, Fact.PEDAL_REFERENCE_WRONG, hasSupply && !supplySound(in));
        facts.set(Fact.PEDAL_RELEASED, sound && !shorted && !apart && higher < releasedShare);
        boolean braking = !in.isOff(Signal.BRAKE_PRESSED);
        double limit = fightsBrake ? Math.max(releasedShare, brakeShare - BRAKE_BACK_SHARE) : brakeShare;
        fightsBrake = braking && sound && higher > limit;
        facts.set(Fact.PEDAL_WITH_BRAKE, fightsBrake);
        still(braking && sound && higher >= releasedShare, higher, facts, debounce);
        boolean drifted = higher - lower > disagreeShare * REST_SHARE || lower < -releasedShare;
        debounce.into(facts, Fact.PEDAL_REST_WRONG, sound && higher < releasedShare && drifted);
        out.travel = sound && !shorted && !apart ? travel(lower) : Double.NaN;
    }

    /** A pedal that moves, or is not under the brake, begins anew: only a time without any movement counts. */
    private void still(boolean underBrake, double share, TickFacts facts, Debounce debounce) {
        boolean moved = !(Math.abs(share - stillAt) <= STILL_SHARE);
        if (!underBrake || moved) {
            stillAt = underBrake ? share : Double.NaN;
            debounce.forget(facts, Fact.PEDAL_STILL);
        }
        if (underBrake) {
            debounce.into(facts, Fact.PEDAL_STILL, true);
        }
    }

    private boolean supplySound(Readings in) {
        double supplyV = in.get(Signal.PEDAL_SUPPLY_V);
        return supplyV >= supplyMinV && supplyV <= supplyMaxV;
    }

    /** Takes the dead bands off both ends. */
    private double travel(double raw) {
        double usable = (raw - deadbandShare) * perUsableShare;
        return Bounds.share(usable);
    }
}
