package sprag.bench.trip.drive;

/**
 * How the car sets out.
 *
 * @param soc state of charge, 0 to 1
 * @param ambientC temperature of the air and of the whole car
 * @param headwindKph wind against the car, negative from behind
 * @param heater whether cabin heat is asked for all the way
 * @param regenLevel where the lever for regeneration stands
 */
public record Weather(double soc, double ambientC, double headwindKph, boolean heater, int regenLevel) {
    /** The same with another charge. */
    public Weather withSoc(double otherSoc) {
        return new Weather(otherSoc, ambientC, headwindKph, heater, regenLevel);
    }
}
