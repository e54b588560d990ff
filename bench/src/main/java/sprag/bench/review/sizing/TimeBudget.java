package sprag.bench.review.sizing;

import static sprag.supervisor.vocabulary.Parameter.BUDGET_ARC_MS;
import static sprag.supervisor.vocabulary.Parameter.BUDGET_HEAT_MS;
import static sprag.supervisor.vocabulary.Parameter.BUDGET_INLET_MS;
import static sprag.supervisor.vocabulary.Parameter.BUDGET_LATENT_MS;
import static sprag.supervisor.vocabulary.Parameter.BUDGET_PACK_MS;
import static sprag.supervisor.vocabulary.Parameter.BUDGET_SHOCK_MS;
import static sprag.supervisor.vocabulary.Parameter.BUDGET_TORQUE_MS;
import static sprag.supervisor.vocabulary.Parameter.BUS_BLEED_MS;
import static sprag.supervisor.vocabulary.Parameter.CELL_TRIP_MS;
import static sprag.supervisor.vocabulary.Parameter.CHARGE_OVER_MS;
import static sprag.supervisor.vocabulary.Parameter.CHARGE_STOP_MS;
import static sprag.supervisor.vocabulary.Parameter.CONTACTOR_RELEASE_MS;
import static sprag.supervisor.vocabulary.Parameter.HEATER_AIRFLOW_MS;
import static sprag.supervisor.vocabulary.Parameter.INLET_STALE_MS;
import static sprag.supervisor.vocabulary.Parameter.LOOP_BLIND_MS;
import static sprag.supervisor.vocabulary.Parameter.LOOP_STALE_MS;
import static sprag.supervisor.vocabulary.Parameter.LV_LOST_MS;
import static sprag.supervisor.vocabulary.Parameter.PACK_OVER_MS;
import static sprag.supervisor.vocabulary.Parameter.PACK_TRIP_MS;
import static sprag.supervisor.vocabulary.Parameter.PEDAL_DISAGREE_MS;
import static sprag.supervisor.vocabulary.Parameter.PEDAL_RANGE_MS;
import static sprag.supervisor.vocabulary.Parameter.PRECHARGE_STALL_MS;
import static sprag.supervisor.vocabulary.Parameter.RUNDOWN_WAIT_MS;
import static sprag.supervisor.vocabulary.Parameter.THERMISTOR_MS;

import java.util.List;
import java.util.Locale;
import sprag.bench.review.finding.Weight;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/**
 * From a fault to a safe state: time to detect it, time to react, against the time that the vehicle tolerates it. One row
 * each. Two ticks are added for sampling and deciding.
 */
enum TimeBudget {
    // @formatter:off
    //               what happens                        detection                              reaction                                   budget
    PEDAL_WIRE      ("a pedal wire breaks",              List.of(PEDAL_RANGE_MS),               List.of(),                                 BUDGET_TORQUE_MS),
    PEDAL_LIE       ("one pedal track lies",             List.of(PEDAL_DISAGREE_MS),            List.of(),                                 BUDGET_TORQUE_MS),
    BLIND           ("the samples stop coming",          List.of(LOOP_STALE_MS, LOOP_BLIND_MS), List.of(),                                 BUDGET_TORQUE_MS),
    CUT_OFF         ("the cut-off or a cover opens",     List.of(),                             List.of(CONTACTOR_RELEASE_MS),             BUDGET_SHOCK_MS),
    STALL           ("the bus stalls while charging",    List.of(PRECHARGE_STALL_MS),           List.of(CONTACTOR_RELEASE_MS),             BUDGET_ARC_MS),
    LV_LOST         ("the 12 V supply is lost",          List.of(LV_LOST_MS),                   List.of(CONTACTOR_RELEASE_MS),             BUDGET_ARC_MS),
    OVER_CURRENT    ("the pack gives too much current",  List.of(PACK_OVER_MS),                 List.of(RUNDOWN_WAIT_MS, CONTACTOR_RELEASE_MS), BUDGET_PACK_MS),
    CELL            ("a cell leaves its limits",         List.of(CELL_TRIP_MS),                 List.of(RUNDOWN_WAIT_MS, CONTACTOR_RELEASE_MS), BUDGET_PACK_MS),
    CHARGE_VOLTAGE  ("a charger overshoots",             List.of(CHARGE_OVER_MS),               List.of(CHARGE_STOP_MS),                   BUDGET_PACK_MS),
    PACK_HOT        ("the pack gets too hot",            List.of(THERMISTOR_MS, PACK_TRIP_MS),  List.of(RUNDOWN_WAIT_MS, CONTACTOR_RELEASE_MS), BUDGET_HEAT_MS),
    HEATER          ("the heater's blower stops",        List.of(HEATER_AIRFLOW_MS),            List.of(),                                 BUDGET_HEAT_MS),
    PILOT           ("the pilot goes away",              List.of(INLET_STALE_MS),               List.of(CHARGE_STOP_MS),                   BUDGET_INLET_MS),
    BUS_LIVE        ("the bus is open and stays live",   List.of(BUS_BLEED_MS),                 List.of(),                                 BUDGET_LATENT_MS);
    // @formatter:on

    private final String what;
    private final List<Parameter> detection;
    private final List<Parameter> reaction;
    private final Parameter budget;

    TimeBudget(String what, List<Parameter> detection, List<Parameter> reaction, Parameter budget) {
        this.what = what;
        this.detection = detection;
        this.reaction = reaction;
        this.budget = budget;
    }

    Calculation calculation(Vehicle vehicle) {
        Calculation sum = new Calculation(
                vehicle,
                "time-budget-" + name().toLowerCase(Locale.ROOT).replace('_', '-'),
                "the time from the moment that " + what + " to the safe state");
        double togetherMs = 2 * sum.in(Parameter.LOOP_TICK_MS);
        for (Parameter part : detection) {
            togetherMs += sum.in(part);
        }
        for (Parameter part : reaction) {
            togetherMs += sum.in(part);
        }
        if (budget == BUDGET_TORQUE_MS) {
            togetherMs += 3 * sum.in(CarParameter.MACHINE_LAG_MS);
        }
        boolean hidden = budget == BUDGET_LATENT_MS;
        return sum.formula("two ticks + detection + reaction")
                .gives(togetherMs, "ms")
                .atMost(budget.key(), sum.in(budget))
                .about(budget)
                .otherwise(
                        hidden ? Weight.NOTE : Weight.STOP,
                        hidden
                                ? "a first fault stays hidden for longer than the budget says; a smaller bleed resistor"
                                        + " shortens it"
                                : "the hazard is there before the supervisor has dealt with it")
                .source("ISO 26262-1: detection and reaction together below the fault-tolerant time");
    }
}
