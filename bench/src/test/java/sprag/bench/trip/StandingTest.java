package sprag.bench.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.trip.drive.Weather;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/** Standing starts beside mechanics on paper. */
class StandingTest {
    private static Standing.Trial trial(List<Standing.Trial> all, String id) {
        return all.stream().filter(each -> each.id().equals(id)).findFirst().orElseThrow();
    }

    /** Force at the wheels at full torque. */
    private static double pullN(Vehicle vehicle) {
        return vehicle.get(Parameter.DRIVE_TORQUE_NM)
                * vehicle.get(Parameter.DRIVE_GEAR_RATIO)
                / vehicle.get(Parameter.DRIVE_WHEEL_RADIUS_M)
                * vehicle.get(CarParameter.BODY_GEAR_EFFICIENCY);
    }

    @ParameterizedTest
    @CsvSource({"parcel-van, 3", "yard-cart, 2"})
    void hill_steepestStart_isALittleLessThanTheTorqueHolds(String name, int level) throws BadInput {
        Vehicle vehicle = Trips.vehicle(name);
        List<Standing.Trial> all = Standing.of(vehicle, new Weather(0.9, 20, 0, false, level));
        double share = pullN(vehicle) / (vehicle.get(CarParameter.BODY_MASS_KG) * 9.81);
        double holds = 100 * Math.tan(Math.asin(share - vehicle.get(CarParameter.BODY_ROLLING)));
        double starts = trial(all, "steepest").value();
        assertTrue(starts < holds && starts > 0.9 * holds, starts + " % against " + holds);
        assertTrue(trial(all, "steepest").limitedBy().contains("drive.torque_nm"));
        assertTrue(trial(all, "top").limitedBy().contains("drive.max_kph"), trial(all, "top")::toString);
        double rollM = (9.81 * (0.0995 - vehicle.get(CarParameter.BODY_ROLLING))) / 1.05 * 9 / 2;
        assertEquals(rollM, trial(all, "roll").value(), 0.05 * rollM);
    }

    /** To 50 km/h the coupe has its full torque all the way: m v / F, and the time in which the torque rises. */
    @Test
    void coupe_to50_isMassTimesSpeedOverForce() throws BadInput {
        Vehicle coupe = Trips.vehicle("coupe");
        List<Standing.Trial> all = Standing.of(coupe, new Weather(0.9, 20, 0, false, 4));
        double massKg = coupe.get(CarParameter.BODY_MASS_KG);
        double forceN = pullN(coupe) - massKg * 9.81 * coupe.get(CarParameter.BODY_ROLLING) - 25;
        double riseS = coupe.get(Parameter.DRIVE_TORQUE_NM) / coupe.get(Parameter.DRIVE_RISE_NM_PER_S);
        double expectedS = massKg * 1.05 * (50 / 3.6) / forceN + riseS / 2;
        assertEquals(expectedS, trial(all, "0-50").value(), 0.05 * expectedS);
        assertTrue(trial(all, "0-100").limitedBy().contains("drive.power_w"));
    }

    /** Rolling takes mass times gravity times its share: a car that only coasts says so, and names no limit of regeneration. */
    @Test
    void handThrottle_feetOff_coastsAndSaysSo() throws BadInput {
        Vehicle cart = Trips.kind("hand-throttle");
        Standing.Trial slows = trial(Standing.of(cart, new Weather(0.9, 20, 0, false, 0)), "regeneration");
        assertTrue(slows.what().contains("coasting") && !slows.limitedBy().contains("regen."), slows::toString);
    }

    /** From 50 to 8 km/h the lever gives at most its torque at the wheels, less where the current into the cells ends it. */
    @Test
    void leverForRegeneration_pulled_slowsTheCarWithTheLevelAtZero() throws BadInput {
        Vehicle van = Trips.kind("regen-lever");
        Standing.Trial slows = trial(Standing.of(van, new Weather(0.9, 20, 0, false, 0)), "regeneration");
        double forceN = van.get(Parameter.REGEN_TORQUE_NM)
                * van.get(Parameter.DRIVE_GEAR_RATIO)
                / van.get(Parameter.DRIVE_WHEEL_RADIUS_M)
                / van.get(CarParameter.BODY_GEAR_EFFICIENCY);
        double massKg = van.get(CarParameter.BODY_MASS_KG);
        double leastM = 1.05 * massKg * (50 * 50 - 8 * 8) / 3.6 / 3.6 / 2 / (1.3 * forceN);
        assertTrue(slows.what().contains("lever pulled"), slows::toString);
        assertTrue(slows.value() > leastM && slows.value() < 2 * leastM, slows + " against " + leastM);
    }

    @Test
    void emptyPack_standing_tellsWhyItDoesNotStart() throws BadInput {
        List<Standing.Trial> all = Standing.of(Trips.vehicle("parcel-van"), new Weather(0, 20, 0, false, 3));
        assertEquals(1, all.size());
        assertTrue(Double.isNaN(all.get(0).value()));
    }
}
