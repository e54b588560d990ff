package sprag.bench.review.sizing;

import static sprag.bench.review.finding.Weight.CAUTION;
import static sprag.bench.review.finding.Weight.STOP;
import static sprag.bench.vehicle.CarParameter.BOX_BOUNCE_MS;
import static sprag.bench.vehicle.CarParameter.BOX_CLOSE_MS;
import static sprag.bench.vehicle.CarParameter.BOX_HOLD_V;
import static sprag.bench.vehicle.CarParameter.BOX_PULL_IN_V;
import static sprag.bench.vehicle.CarParameter.BOX_RELEASE_MS;
import static sprag.bench.vehicle.SizingParameter.CABLE_LASTING_A;
import static sprag.bench.vehicle.SizingParameter.CONTACTS_BREAKS_A;
import static sprag.bench.vehicle.SizingParameter.CONTACTS_CARRIES_A;
import static sprag.bench.vehicle.SizingParameter.CONTACTS_RATED_V;
import static sprag.supervisor.vocabulary.Parameter.BUS_MAX_V;
import static sprag.supervisor.vocabulary.Parameter.CONTACTOR_CLOSE_MS;
import static sprag.supervisor.vocabulary.Parameter.CONTACTOR_OVERLAP_MS;
import static sprag.supervisor.vocabulary.Parameter.CONTACTOR_RELEASE_MS;
import static sprag.supervisor.vocabulary.Parameter.LV_LOST_V;
import static sprag.supervisor.vocabulary.Parameter.LV_LOW_V;
import static sprag.supervisor.vocabulary.Parameter.PACK_DISCHARGE_MAX_A;
import static sprag.supervisor.vocabulary.Parameter.PACK_OVER_FACTOR;

import java.util.List;
import sprag.bench.vehicle.Tolerance;
import sprag.bench.vehicle.Vehicle;

/** The main contactors against what the sequence can ask of them. */
final class ContactorCalculations {
    private final Vehicle vehicle;

    ContactorCalculations(Vehicle vehicle) {
        this.vehicle = vehicle;
    }

    List<Calculation> all() {
        return List.of(voltage(), carry(), breaks(), close(), overlap(), release(), pullIn(), hold());
    }

    private Calculation sum(String id, String title) {
        return new Calculation(vehicle, id, title);
    }

    private Calculation voltage() {
        Calculation sum = sum("contactor-voltage", "the greatest voltage across the open contactors");
        return sum.formula("bus.max_v: what the bus may come to while regenerating")
                .gives(sum.in(BUS_MAX_V), "V")
                .atMost("the contactor's d.c. rating", sum.in(CONTACTS_RATED_V))
                .about(CONTACTS_RATED_V)
                .otherwise(STOP, "the arc does not go out")
                .source(Calculation.DATA_SHEET);
    }

    private Calculation carry() {
        Calculation sum = sum("contactor-carries", "the lasting current through the contactors");
        return sum.formula("root mean square over the hardest half hour")
                .gives(sum.in(CABLE_LASTING_A), "A")
                .atMost("what the contactor carries", sum.in(CONTACTS_CARRIES_A))
                .about(CONTACTS_CARRIES_A)
                .otherwise(STOP, "the contacts overheat and weld")
                .source(Calculation.DATA_SHEET);
    }

    private Calculation breaks() {
        Calculation sum = sum("contactor-breaks", "the most that the contactors can be asked to interrupt");
        return sum.formula("pack.discharge_max_a times pack.over_factor: the cut-off pressed at full power")
                .gives(sum.in(PACK_DISCHARGE_MAX_A) * sum.in(PACK_OVER_FACTOR), "A")
                .atMost("what the contactor breaks", sum.in(CONTACTS_BREAKS_A))
                .about(CONTACTS_BREAKS_A)
                .otherwise(STOP, "the cut-off pressed at full power does not cut")
                .source(Calculation.DATA_SHEET);
    }

    private static double closeMs(Calculation sum) {
        return (sum.in(BOX_CLOSE_MS) + sum.in(BOX_BOUNCE_MS)) * (1 + sum.in(Tolerance.TIMES));
    }

    private Calculation close() {
        Calculation sum = sum("contactor-closes-in-time", "the time a contactor takes to close, bounce included");
        return sum.formula("operate time + bounce, both from the data sheet, and the tolerance of times")
                .gives(closeMs(sum), "ms")
                .atMost("contactor.close_ms", sum.in(CONTACTOR_CLOSE_MS))
                .about(CONTACTOR_CLOSE_MS)
                .otherwise(STOP, "a good contactor would be called failed")
                .source(Calculation.DATA_SHEET);
    }

    private Calculation overlap() {
        Calculation sum = sum("contactor-overlap", "the time that precharge goes on while the main contactor closes");
        return sum.formula("contactor.overlap_ms")
                .gives(sum.in(CONTACTOR_OVERLAP_MS), "ms")
                .atLeast("the time a contactor takes to close", closeMs(sum))
                .about(CONTACTOR_OVERLAP_MS)
                .otherwise(CAUTION, "the bus sags in the gap and the contactor closes onto the difference")
                .source(Calculation.DATA_SHEET);
    }

    private Calculation release() {
        Calculation sum = sum("contactor-releases-in-time", "the time a contactor takes to open");
        return sum.formula("release time from the data sheet, with its suppression, and the tolerance of times")
                .gives(sum.in(BOX_RELEASE_MS) * (1 + sum.in(Tolerance.TIMES)), "ms")
                .atMost("contactor.release_ms", sum.in(CONTACTOR_RELEASE_MS))
                .about(CONTACTOR_RELEASE_MS)
                .otherwise(STOP, "a good contactor would be called welded")
                .source(Calculation.DATA_SHEET);
    }

    private Calculation pullIn() {
        Calculation sum = sum("coil-pulls-in", "the voltage from which the coils pull in");
        return sum.formula("pull-in voltage, raised by a fifth for a hot coil")
                .gives(1.2 * sum.in(BOX_PULL_IN_V), "V")
                .atMost("lv.low_v, from which the supervisor still starts", sum.in(LV_LOW_V))
                .about(BOX_PULL_IN_V)
                .otherwise(CAUTION, "on a weak 12 V battery the contactors hang half-way")
                .source("copper has 0.39 % per kelvin, so 50 K make a fifth");
    }

    private Calculation hold() {
        Calculation sum = sum("coil-holds", "the voltage down to which the coils hold");
        return sum.formula("hold voltage from the data sheet")
                .gives(sum.in(BOX_HOLD_V), "V")
                .atMost("lv.lost_v, at which the supervisor opens them in order", sum.in(LV_LOST_V))
                .about(BOX_HOLD_V)
                .otherwise(STOP, "the contactors drop out under load before the supervisor has let go of the torque")
                .source(Calculation.DATA_SHEET);
    }
}
