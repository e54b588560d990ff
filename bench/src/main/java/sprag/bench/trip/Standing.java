package sprag.bench.trip;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import sprag.bench.car.Lever;
import sprag.bench.car.Quantity;
import sprag.bench.cli.Numbers;
import sprag.bench.trip.drive.Ride;
import sprag.bench.trip.drive.Weather;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Response;

/** What a car does from a standing start and on hills, with what limits it. Every trial begins with a car as it sets out. */
public final class Standing {
    private static final double KPH_PER_MPS = 3.6;
    private static final double LONGEST_S = 180;
    private static final double STEADY_S = 10;
    private static final double STEADY_KPH = 0.05;
    private static final double STEEPEST_PERCENT = 40;
    private static final int HALVINGS = 9;
    private static final double NEARLY = 0.98;
    private static final double HILL_PERCENT = 10;

    /** One result. */
    record Trial(String id, String what, double value, String unit, String limitedBy) {}

    private final Vehicle vehicle;
    private final Weather weather;
    private final List<Trial> trials = new ArrayList<>();

    private Standing(Vehicle vehicle, Weather weather) {
        this.vehicle = vehicle;
        this.weather = weather;
    }

    static List<Trial> of(Vehicle vehicle, Weather weather) {
        Standing all = new Standing(vehicle, weather);
        if (!all.ready().ready()) {
            Ride ride = all.ready();
            all.trials.add(new Trial(
                    "start", "the car does not start", Double.NaN, "", ride.loop.state() + ", " + ride.loop.why()));
            return all.trials;
        }
        all.accelerate();
        all.steepest();
        all.regenerate();
        all.roll();
        return all.trials;
    }

    private Ride ready() {
        Ride ride = new Ride(vehicle, weather);
        ride.start();
        return ride;
    }

    /** Full pedal on the level: the times between speeds, and the speed that is reached. */
    private void accelerate() {
        Ride ride = ready();
        double[] atKph = new double[301];
        String[] by = new String[301];
        int reached = 0;
        double s = 0;
        double markKph = 0;
        double markS = 0;
        ride.levers.set(Lever.BRAKE, 0);
        ride.levers.set(Lever.PEDAL, 1);
        while (s < LONGEST_S && s - markS < STEADY_S && ride.ready()) {
            ride.loop.tick();
            s += ride.tickS;
            double kph = ride.truth(Quantity.SPEED_KPH);
            if (kph > markKph + STEADY_KPH) {
                markKph = kph;
                markS = s;
            }
            while (reached < 300 && kph >= reached + 1) {
                reached++;
                atKph[reached] = s;
                by[reached] = limit(ride);
            }
        }
        by[0] = ride.ready() ? "it reaches " + reached + " km/h only" : ended(ride);
        span("0-50", 0, 50, reached, atKph, by);
        span("0-100", 0, 100, reached, atKph, by);
        span("60-90", 60, 90, reached, atKph, by);
        trials.add(new Trial("top", "top speed on the level", markKph, "km/h", ride.ready() ? limit(ride) : by[0]));
    }

    /** A drive that the supervisor ends at full pedal is no limit: the car stands on the road. */
    private static String ended(Ride ride) {
        return String.format(
                Locale.ROOT,
                "the supervisor ended the drive at %.0f km/h: %s",
                ride.truth(Quantity.SPEED_KPH),
                ride.loop.why());
    }

    private void span(String id, int from, int to, int reached, double[] atKph, String... by) {
        boolean can = reached >= to;
        trials.add(new Trial(
                id, from + " to " + to + " km/h", can ? atKph[to] - atKph[from] : Double.NaN, "s", by[can ? to : 0]));
    }

    /** What holds the car back at this moment, at full pedal. */
    private String limit(Ride ride) {
        for (Interlock row : ride.loop.acting()) {
            if (row.response.compareTo(Response.LIMIT) <= 0) {
                return row.id() + ": " + row.cause;
            }
        }
        double torqueNm = ride.truth(Quantity.MOTOR_TORQUE_NM);
        double askedNm = ride.loop.commands().get(Output.TORQUE_REQUEST_NM);
        double kph = ride.truth(Quantity.SPEED_KPH);
        if (kph > 0.95 * vehicle.get(Parameter.DRIVE_MAX_KPH)) {
            return "speed (drive.max_kph = " + Numbers.text(vehicle.get(Parameter.DRIVE_MAX_KPH)) + ")";
        }
        if (askedNm >= NEARLY * vehicle.get(Parameter.DRIVE_TORQUE_NM)) {
            return "torque (drive.torque_nm = " + Numbers.text(vehicle.get(Parameter.DRIVE_TORQUE_NM)) + ")";
        }
        double askedW = askedNm * ride.truth(Quantity.MOTOR_SPEED_RPM) * Math.PI / 30;
        if (torqueNm < NEARLY * askedNm) {
            return "the inverter: the voltage of the pack has fallen";
        }
        return askedW >= NEARLY * vehicle.get(Parameter.DRIVE_POWER_W)
                ? "power (drive.power_w = " + Numbers.text(vehicle.get(Parameter.DRIVE_POWER_W)) + ")"
                : "current of the cells (pack.discharge_max_a = "
                        + Numbers.text(vehicle.get(Parameter.PACK_DISCHARGE_MAX_A)) + ")";
    }

    /** The steepest hill on which it starts, by halving. */
    private void steepest() {
        double can = -1;
        double cannot = STEEPEST_PERCENT + 1;
        double tried = STEEPEST_PERCENT;
        String by = "";
        for (int i = 0; i < HALVINGS && cannot - can > 0.1; i++) {
            String limit = startsOn(tried);
            if (limit.isEmpty()) {
                can = tried;
            } else {
                cannot = tried;
                by = limit;
            }
            tried = (Math.max(0, can) + Math.min(STEEPEST_PERCENT, cannot)) / 2;
            if (can >= STEEPEST_PERCENT) {
                by = "tyres were not asked; steeper is not tried";
                break;
            }
        }
        trials.add(new Trial("steepest", "steepest start", can < 0 ? Double.NaN : can, "%", by));
    }

    /** Whether it starts there. Returns empty when it does, otherwise what limits it. */
    private String startsOn(double gradePercent) {
        Ride ride = ready();
        ride.levers.set(Lever.GRADE_PERCENT, gradePercent);
        ride.pass(0.5);
        ride.levers.set(Lever.BRAKE, 0);
        ride.levers.set(Lever.PEDAL, 1);
        String limit = "torque";
        for (double s = 0; s < 12; s += ride.tickS) {
            ride.loop.tick();
            if (ride.truth(Quantity.SPEED_KPH) >= 5) {
                return "";
            }
            limit = s > 1 && s < 2 ? limit(ride) : limit;
        }
        return limit;
    }

    /** From 50 km/h, or nearly its top speed, both feet off; a lever for regeneration is pulled. */
    private void regenerate() {
        Ride ride = ready();
        double fromKph = Math.min(50, Math.floor(0.9 * vehicle.get(Parameter.DRIVE_MAX_KPH)));
        ride.levers.set(Lever.BRAKE, 0);
        ride.levers.set(Lever.PEDAL, 1);
        for (double s = 0; s < LONGEST_S && ride.truth(Quantity.SPEED_KPH) < fromKph && ride.ready(); s += ride.tickS) {
            ride.loop.tick();
        }
        boolean reached = ride.truth(Quantity.SPEED_KPH) >= fromKph;
        String not = ride.ready() ? "it does not reach that speed" : ended(ride);
        ride.levers.set(Lever.PEDAL, 0);
        boolean pulled = vehicle.is(Parameter.REGEN_BY, "lever");
        ride.levers.set(Lever.REGEN_DEMAND, pulled ? 1 : 0);
        double startM = ride.truth(Quantity.DISTANCE_M);
        double endKph = vehicle.get(Parameter.REGEN_FADE_START_KPH);
        double s = 0;
        for (; reached && s < LONGEST_S && ride.truth(Quantity.SPEED_KPH) > endKph; s += ride.tickS) {
            ride.loop.tick();
        }
        double metres = ride.truth(Quantity.DISTANCE_M) - startM;
        double mean = (fromKph - endKph) / KPH_PER_MPS / s;
        trials.add(new Trial(
                "regeneration",
                String.format(Locale.ROOT, "%.0f to %.0f km/h %s", fromKph, endKph, slowedBy(pulled)),
                reached && s < LONGEST_S ? metres : Double.NaN,
                "m",
                !reached
                        ? not
                        : Say.number(mean, 2) + " m/s² on average"
                                + (coasts(pulled)
                                        ? ": a released pedal does not brake this car"
                                        : " (regen.torque_nm, pack.charge_max_a); below that speed it fades, and the brake"
                                                + " stops the car")));
    }

    private String slowedBy(boolean pulled) {
        return coasts(pulled)
                ? "coasting, both feet off"
                : "by regeneration alone, " + (pulled ? "lever pulled" : "level " + weather.regenLevel());
    }

    private boolean coasts(boolean pulled) {
        return vehicle.get(Parameter.REGEN_TORQUE_NM) == 0 || !pulled && weather.regenLevel() == 0;
    }

    /** A released pedal is no parking brake. */
    private void roll() {
        Ride ride = ready();
        ride.levers.set(Lever.GRADE_PERCENT, HILL_PERCENT);
        ride.pass(0.5);
        ride.levers.set(Lever.BRAKE, 0);
        double startM = ride.truth(Quantity.DISTANCE_M);
        ride.pass(3);
        trials.add(new Trial(
                "roll",
                "rolls back on 10 % in 3 s, both feet off",
                startM - ride.truth(Quantity.DISTANCE_M),
                "m",
                "nothing holds it: regeneration ends at standstill. Use the brake"));
    }
}
