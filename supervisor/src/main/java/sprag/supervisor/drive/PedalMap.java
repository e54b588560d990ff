package sprag.supervisor.drive;

import sprag.supervisor.vocabulary.Bounds;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;

/**
 * From pedal travel to a share of the torque limits: the regeneration map.
 *
 * <pre>
 *  share ^
 *   +1   |                                  __-- drive: ((t - c) / (1 - c)) ^ shape
 *        |                          ___--''
 *    0   +--------__-----+___---''----------------> travel t
 *        |    __--       c                      1
 *   -L   |_--  regeneration: -(c - t) / c * level share
 * </pre>
 *
 * <p>The coast point {@code c} grows with the speed along the chosen direction, so that at standstill the whole travel
 * drives and at speed a lifted foot brakes. Level 0 coasts below it. Regeneration fades to nothing towards standstill and
 * does not exist when the car rolls the other way: it can never push.
 */
final class PedalMap {
    private static final int POINTS = 256;
    /** Below this the coast point is taken as zero: dividing by it would make noise of a released pedal. */
    private static final double LEAST_COAST = 1e-6;

    private final double[] from = new double[POINTS + 1];
    private final double[] curve = new double[POINTS + 1];
    private final double[] slope = new double[POINTS + 1];
    private final double[] levelShare;
    private final double coastTravel;
    private final double coastPerKph;
    private final double fadeStartKph;
    private final double fadeEndKph;

    PedalMap(Settings settings) {
        double shape = settings.get(Parameter.DRIVE_SHAPE);
        for (int i = 0; i <= POINTS; i++) {
            from[i] = (double) i / POINTS;
            curve[i] = StrictMath.pow(from[i], shape);
        }
        for (int i = 0; i < POINTS; i++) {
            slope[i] = (curve[i + 1] - curve[i]) * POINTS;
        }
        levelShare = new double[] {
            0,
            settings.get(Parameter.REGEN_LEVEL_1_SHARE),
            settings.get(Parameter.REGEN_LEVEL_2_SHARE),
            settings.get(Parameter.REGEN_LEVEL_3_SHARE),
            settings.get(Parameter.REGEN_LEVEL_4_SHARE)
        };
        coastTravel = settings.get(Parameter.REGEN_COAST_TRAVEL);
        coastPerKph = 1 / settings.get(Parameter.REGEN_COAST_FULL_KPH);
        fadeStartKph = settings.get(Parameter.REGEN_FADE_START_KPH);
        fadeEndKph = settings.get(Parameter.REGEN_FADE_END_KPH);
    }

    /** The coast point: the travel at which the car neither drives nor brakes.
     *
     * @param alongKph speed along the chosen direction (km/h); negative when rolling against it
     * @return travel, 0 to {@code regen.coast_travel}
     */
    double coastPoint(double alongKph) {
        return coastTravel * Bounds.share(alongKph * coastPerKph);
    }

    /** The share of the torque limits.
     *
     * @param travel pedal travel, 0 to 1
     * @param alongKph speed along the chosen direction (km/h)
     * @param level regeneration level, 0 to 4
     * @return 0 to 1 of the driving limit, or -1 to 0 of the regeneration limit
     */
    double share(double travel, double alongKph, int level) {
        double coast = coastPoint(alongKph);
        if (travel >= coast) {
            return shaped((travel - coast) / (1 - coast));
        }
        return coast < LEAST_COAST ? 0 : -(coast - travel) / coast * levelShare[level] * fade(alongKph);
    }

    private double shaped(double share) {
        int cell = (int) (share * POINTS);
        return curve[cell] + (share - from[cell]) * slope[cell];
    }

    /** The share of the regeneration that is left near standstill; none when rolling against the chosen direction.
     *
     * @param alongKph speed along the chosen direction (km/h)
     * @return 0 to 1
     */
    double fade(double alongKph) {
        return Bounds.share((alongKph - fadeEndKph) / (fadeStartKph - fadeEndKph));
    }
}
