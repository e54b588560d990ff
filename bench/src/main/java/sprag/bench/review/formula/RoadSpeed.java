package sprag.bench.review.formula;

/** Speeds of wheel and motor. */
public final class RoadSpeed {
    private RoadSpeed() {}

    /**
     * Motor speed for a road speed. 90 km/h, a wheel of 0.3 m and a ratio of 8.3 give 6605 rpm.
     *
     * @param gearRatio motor turns for one turn of the wheel
     */
    public static double motorRpm(double kph, double wheelRadiusM, double gearRatio) {
        return kph / 3.6 / wheelRadiusM * gearRatio * 30 / Math.PI;
    }

    /** Power of a torque at a speed: M 2 pi n / 60. 100 Nm at 3000 rpm give 31.42 kW. */
    public static double powerW(double torqueNm, double rpm) {
        return torqueNm * rpm * Math.PI / 30;
    }
}
