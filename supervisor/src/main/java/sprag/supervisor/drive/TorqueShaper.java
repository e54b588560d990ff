package sprag.supervisor.drive;

import java.util.EnumSet;
import java.util.Set;
import sprag.supervisor.vocabulary.Bounds;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Facts;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Permissions;
import sprag.supervisor.vocabulary.Settings;

/** From pedal travel to the torque request: the map, the limits, and how quickly it may change. */
public final class TorqueShaper {
    private final PedalMap map;
    private final TorqueLimits limits;
    private final double riseNmPerTick;
    private final double fallNmPerTick;
    private double torqueNm;

    /** Makes a shaper whose last request was 0 Nm.
     *
     * @param settings the vehicle's values
     */
    public TorqueShaper(Settings settings) {
        this(settings, EnumSet.noneOf(Interlock.class));
    }

    /** Makes one that some interlocks do not limit, to show in a simulation what each is needed for.
     *
     * @param settings the vehicle's values
     * @param without the interlocks taken out
     */
    public TorqueShaper(Settings settings, Set<Interlock> without) {
        map = new PedalMap(settings);
        limits = new TorqueLimits(settings, without);
        riseNmPerTick = settings.get(Parameter.DRIVE_RISE_NM_PER_S) * settings.tickS();
        fallNmPerTick = settings.get(Parameter.DRIVE_FALL_NM_PER_S) * settings.tickS();
    }

    /** Shapes one tick's torque. Without permission it is zero at once; a fault never waits for a ramp.
     *
     * @param p what is permitted
     * @param f what limits
     * @param c travel, speed, temperatures
     * @param out where the request goes
     */
    public void shape(Permissions p, Facts f, Conditioned c, Commands out) {
        torqueNm = switch (p.torque) {
            case NONE -> 0;
            case RAMP_TO_ZERO -> towards(0);
            case FOLLOW_PEDAL -> follow(p, f, c);
        };
        out.set(Output.INVERTER_ENABLE, p.inverterEnabled);
        out.set(Output.TORQUE_REQUEST_NM, torqueNm);
    }

    private double follow(Permissions p, Facts f, Conditioned c) {
        int sign = p.engaged.sign;
        double alongKph = c.speedKph * sign;
        if (sign == 0 || alongKph != alongKph) {
            return 0;
        }
        limits.update(p, f, c);
        double share = c.travel == c.travel ? map.share(c.travel, alongKph, c.regenLevel) : 0;
        if (c.regenAsked > 0) {
            // Whoever asks to be braked is not driven, whatever the pedal says.
            share = Bounds.least(share, 0 - c.regenAsked * map.fade(alongKph));
        }
        double wantedNm = share >= 0 ? share * limits.driveNm : share * limits.regenNm;
        return kept(towards(wantedNm * sign) * sign, torqueNm * sign) * sign;
    }

    /**
     * A low pack decides how quickly driving torque grows or falls, and so where it ends; never quicker than it may fall. A step that is
     * unknown, because the voltage is while the current is high, falls too.
     */
    private double kept(double alongNm, double beforeNm) {
        double stepNm = limits.driveStepNm > -fallNmPerTick ? limits.driveStepNm : -fallNmPerTick;
        return alongNm > 0 ? Bounds.least(alongNm, Bounds.greatest(Bounds.greatest(beforeNm, 0) + stepNm, 0)) : alongNm;
    }

    /** One tick's step from the present torque: quick towards zero, gentler away from it. */
    private double towards(double wantedNm) {
        boolean back = torqueNm > 0 ? wantedNm < torqueNm : wantedNm > torqueNm;
        if (torqueNm != 0 && back) {
            double nearZeroNm = torqueNm > 0 ? Bounds.greatest(wantedNm, 0) : Bounds.least(wantedNm, 0);
            return Bounds.between(nearZeroNm, torqueNm - fallNmPerTick, torqueNm + fallNmPerTick);
        }
        return Bounds.between(wantedNm, torqueNm - riseNmPerTick, torqueNm + riseNmPerTick);
    }
}
