package sprag.bench.review.sizing;

import static sprag.bench.review.finding.Weight.CAUTION;
import static sprag.bench.review.finding.Weight.NOTE;
import static sprag.bench.review.finding.Weight.STOP;
import static sprag.bench.vehicle.CarParameter.CELLS_COLD_PER_10_K;
import static sprag.bench.vehicle.CarParameter.CELLS_POLAR_MOHM;
import static sprag.bench.vehicle.CarParameter.CELLS_RESISTANCE_MOHM;
import static sprag.bench.vehicle.CarParameter.MACHINE_TRIP_V;
import static sprag.bench.vehicle.SizingParameter.SENSOR_SPEED_MARGIN;
import static sprag.bench.vehicle.Tolerance.COLD_C;
import static sprag.supervisor.vocabulary.Parameter.BUS_MAX_V;
import static sprag.supervisor.vocabulary.Parameter.DRIVE_GEAR_RATIO;
import static sprag.supervisor.vocabulary.Parameter.DRIVE_MAX_KPH;
import static sprag.supervisor.vocabulary.Parameter.DRIVE_POWER_W;
import static sprag.supervisor.vocabulary.Parameter.DRIVE_WHEEL_RADIUS_M;
import static sprag.supervisor.vocabulary.Parameter.ISOLATION_MIN_OHM_PER_V;
import static sprag.supervisor.vocabulary.Parameter.MOTOR_EMF_V_PER_KRPM;
import static sprag.supervisor.vocabulary.Parameter.MOTOR_KIND;
import static sprag.supervisor.vocabulary.Parameter.MOTOR_MAX_RPM;
import static sprag.supervisor.vocabulary.Parameter.PACK_CELLS;
import static sprag.supervisor.vocabulary.Parameter.PACK_CHARGE_MAX_A;
import static sprag.supervisor.vocabulary.Parameter.PACK_COOL_SHARE;
import static sprag.supervisor.vocabulary.Parameter.PACK_DISCHARGE_MAX_A;
import static sprag.supervisor.vocabulary.Parameter.PACK_MAX_V;
import static sprag.supervisor.vocabulary.Parameter.PACK_MIN_V;
import static sprag.supervisor.vocabulary.Parameter.PACK_NOMINAL_V;
import static sprag.supervisor.vocabulary.Parameter.REGEN_FULL_FRACTION;
import static sprag.supervisor.vocabulary.Parameter.REGEN_TORQUE_NM;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.review.formula.RoadSpeed;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.FullPack;
import sprag.supervisor.vocabulary.LowPack;

/** Motor, gear, regeneration, isolation. */
final class DriveCalculations {
    /** What reaches the motor of what the pack gives: common practice. */
    private static final double LEFT_AFTER_LOSSES = 0.9;

    private final Vehicle vehicle;

    DriveCalculations(Vehicle vehicle) {
        this.vehicle = vehicle;
    }

    List<Calculation> all() {
        List<Calculation> all = new ArrayList<>(List.of(
                speed(), drivePower(), coldPack(), regenWarm(), regenCool(), regenFull(), regenEnd(), busTrip()));
        if (vehicle.is(MOTOR_KIND, "permanent-magnet")) {
            all.add(emf());
        }
        all.add(isolation());
        return all;
    }

    private Calculation sum(String id, String title) {
        return new Calculation(vehicle, id, title);
    }

    private static double topRpm(Calculation sum) {
        return RoadSpeed.motorRpm(sum.in(DRIVE_MAX_KPH), sum.in(DRIVE_WHEEL_RADIUS_M), sum.in(DRIVE_GEAR_RATIO));
    }

    private Calculation speed() {
        Calculation sum = sum("gear-speed", "the motor speed at the speed limit, with the margin for downhill");
        return sum.formula("v / (2 pi r) times the gear ratio, plus the margin")
                .gives(topRpm(sum) * (1 + sum.in(SENSOR_SPEED_MARGIN)), "rpm")
                .atMost("motor.max_rpm", sum.in(MOTOR_MAX_RPM))
                .about(DRIVE_MAX_KPH)
                .otherwise(STOP, "the rotor is driven beyond what it stands")
                .source("kinematics of a wheel; the margin for downhill is common practice, no rule is known");
    }

    private static double fullPowerA(Calculation sum) {
        return sum.in(DRIVE_POWER_W) / LEFT_AFTER_LOSSES / sum.in(PACK_NOMINAL_V);
    }

    private Calculation drivePower() {
        Calculation sum = sum("drive-power-pack-current", "the pack current at full power and nominal voltage");
        return sum.formula("drive.power_w / (0.9 pack.nominal_v), a tenth for the losses")
                .gives(fullPowerA(sum), "A")
                .atMost("pack.discharge_max_a", sum.in(PACK_DISCHARGE_MAX_A))
                .about(DRIVE_POWER_W)
                .otherwise(CAUTION, "the supervisor must cut torque below what the pedal asks, every time")
                .source("power over voltage; the tenth for losses is common practice, no rule is known");
    }

    /** What regeneration can put into the pack at most, losses left aside: they make it less. */
    private static double regenW(Calculation sum) {
        return Math.min(RoadSpeed.powerW(sum.in(REGEN_TORQUE_NM), topRpm(sum)), sum.in(DRIVE_POWER_W));
    }

    /** Where the resistance is known at 25 C; warmer it stays, as in the simulated car. */
    private Calculation coldPack() {
        Calculation sum = sum("cold-pack-current", "the current of a new pack on the coldest day before torque falls");
        double cold = Math.pow(sum.in(CELLS_COLD_PER_10_K), Math.max(0, 25 - sum.in(COLD_C)) / 10);
        double cellOhm = (sum.in(CELLS_RESISTANCE_MOHM) + sum.in(CELLS_POLAR_MOHM)) / 1000;
        double endV = LowPack.end(sum.in(PACK_MIN_V), sum.in(PACK_MAX_V));
        return sum.formula("(pack.nominal_v - V) / R: V is 5 % of the pack's range above pack.min_v, R all cells at"
                        + " tolerance.cold_c; an old or empty pack gives less")
                .gives((sum.in(PACK_NOMINAL_V) - endV) / (sum.in(PACK_CELLS) * cellOhm * cold), "A")
                .atLeast("full power at nominal voltage, a tenth lost", fullPowerA(sum))
                .about(CELLS_RESISTANCE_MOHM)
                .otherwise(
                        NOTE,
                        "in the cold the supervisor takes torque away at full pedal, so that the pack stays above"
                                + " pack.min_v")
                .source(
                        "Ohm's law; the growth of the resistance in the cold is car.cells.cold_per_10_k of vehicle.toml");
    }

    private Calculation regenWarm() {
        Calculation sum = sum("regeneration-current", "the greatest current that regeneration could send back");
        return sum.formula("min(torque at top speed, drive power) / nominal voltage, losses left aside")
                .gives(regenW(sum) / sum.in(PACK_NOMINAL_V), "A")
                .atMost("pack.charge_max_a", sum.in(PACK_CHARGE_MAX_A))
                .about(REGEN_TORQUE_NM)
                .otherwise(NOTE, "at speed the supervisor gives less regeneration than the torque suggests")
                .source("power over voltage, with nothing lost");
    }

    private Calculation regenCool() {
        Calculation sum = sum("regeneration-cold", "the regeneration power that a cool pack takes");
        double watts = sum.in(PACK_COOL_SHARE) * sum.in(PACK_CHARGE_MAX_A) * sum.in(PACK_NOMINAL_V);
        return sum.formula("pack.cool_share of pack.charge_max_a at nominal voltage; below pack.cold_c and above"
                        + " pack.hot_c none")
                .gives(watts / 1000, "kW")
                .about(PACK_COOL_SHARE)
                .source(Calculation.OWN_VALUES);
    }

    private Calculation regenFull() {
        Calculation sum = sum("regeneration-full", "the pack voltage from which regeneration falls");
        return sum.formula("regen.full_fraction of pack.max_v")
                .gives(FullPack.from(sum.in(REGEN_FULL_FRACTION), sum.in(PACK_MAX_V)), "V")
                .atLeast("pack.nominal_v", sum.in(PACK_NOMINAL_V))
                .about(REGEN_FULL_FRACTION)
                .otherwise(CAUTION, "there would hardly ever be any regeneration")
                .source(Calculation.OWN_VALUES);
    }

    private Calculation regenEnd() {
        Calculation sum = sum("regeneration-end", "the pack voltage from which there is no regeneration");
        double fromV = FullPack.from(sum.in(REGEN_FULL_FRACTION), sum.in(PACK_MAX_V));
        return sum.formula("three quarters of the way from regen.full_fraction of pack.max_v to pack.max_v; a high cell"
                        + " or a full charge ends it sooner")
                .gives(FullPack.end(fromV, sum.in(PACK_MAX_V)), "V")
                .atMost("pack.max_v", sum.in(PACK_MAX_V))
                .about(REGEN_FULL_FRACTION)
                .otherwise(STOP, "a descent would overcharge the pack")
                .source(Calculation.OWN_VALUES);
    }

    private Calculation busTrip() {
        Calculation sum = sum("bus-limit-below-trip", "the bus voltage at which the supervisor acts");
        return sum.formula("bus.max_v as written")
                .gives(sum.in(BUS_MAX_V), "V")
                .atMost("the inverter's own trip", sum.in(MACHINE_TRIP_V))
                .about(BUS_MAX_V)
                .otherwise(CAUTION, "the inverter trips first, and torque is gone without warning")
                .source(Calculation.DATA_SHEET);
    }

    private Calculation emf() {
        Calculation sum = sum("motor-voltage-spinning", "the voltage that the spinning motor makes at the speed limit");
        return sum.formula("motor.emf_v_per_krpm times the motor speed at drive.max_kph")
                .gives(sum.in(MOTOR_EMF_V_PER_KRPM) * topRpm(sum) / 1000, "V")
                .atMost("bus.max_v", sum.in(BUS_MAX_V))
                .about(MOTOR_EMF_V_PER_KRPM)
                .otherwise(STOP, "with the contactors open at speed, the motor breaks down the inverter's capacitors")
                .source("hazard H17");
    }

    private Calculation isolation() {
        Calculation sum = sum("isolation-limit", "the insulation resistance at which the supervisor acts");
        double packV = sum.in(PACK_MAX_V);
        return sum.formula("isolation.min_ohm_per_v times the full pack")
                .gives(sum.in(ISOLATION_MIN_OHM_PER_V) * packV / 1000, "kohm")
                .atLeast("500 ohm per volt, for buses joined to an inverter", 0.5 * packV)
                .about(ISOLATION_MIN_OHM_PER_V)
                .otherwise(CAUTION, "less is only allowed where the a.c. side has double insulation (100 ohm per volt)")
                .source("UN R100, 5.1.3.2: 500 ohm per volt for joined a.c. and d.c. buses");
    }
}
