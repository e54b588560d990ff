package sprag.bench.review.sizing;

import static sprag.bench.review.finding.Weight.CAUTION;
import static sprag.bench.review.finding.Weight.STOP;
import static sprag.bench.vehicle.SizingParameter.SENSOR_ADC_BITS;
import static sprag.bench.vehicle.SizingParameter.SENSOR_RESOLUTION_K;
import static sprag.supervisor.vocabulary.Parameter.INVERTER_HOT_C;
import static sprag.supervisor.vocabulary.Parameter.MOTOR_HOT_C;
import static sprag.supervisor.vocabulary.Parameter.MOTOR_SENSOR;
import static sprag.supervisor.vocabulary.Parameter.PACK_COLD_C;
import static sprag.supervisor.vocabulary.Parameter.PACK_HOT_C;
import static sprag.supervisor.vocabulary.Parameter.PEDAL_MAX_V;
import static sprag.supervisor.vocabulary.Parameter.PEDAL_MIN_V;
import static sprag.supervisor.vocabulary.Parameter.PEDAL_SUPPLY_MAX_V;
import static sprag.supervisor.vocabulary.Parameter.PEDAL_SUPPLY_MIN_V;
import static sprag.supervisor.vocabulary.Parameter.THERMISTOR_BETA_K;
import static sprag.supervisor.vocabulary.Parameter.THERMISTOR_OPEN_V;
import static sprag.supervisor.vocabulary.Parameter.THERMISTOR_PULLUP_OHM;
import static sprag.supervisor.vocabulary.Parameter.THERMISTOR_R25_OHM;
import static sprag.supervisor.vocabulary.Parameter.THERMISTOR_SHORT_V;
import static sprag.supervisor.vocabulary.Parameter.THERMISTOR_SUPPLY_V;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import sprag.bench.review.formula.Thermistor;
import sprag.bench.vehicle.ThermistorTable;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/** Thermistors and the pedal. */
final class SensorCalculations {
    private static final double NOMINAL_SUPPLY_V = 5;
    private static final String BETA = "beta model of a thermistor; some per cent off real parts far from 25 °C";
    private static final String CURVE = "equation of Steinhart and Hart (1968)";
    /**
     * A 10 kohm part of beta 3435: the curve through the table of the part in the Linux kernel's ntc_thermistor.c, which it meets
     * within 0.1 K from -40 to 125 °C.
     */
    private static final double[] COMMON_PART = {8.776890e-4, 2.531365e-4, 1.855406e-7};

    private static final double COMMON_OHM = 10_000;
    private static final double COMMON_BETA_K = 3_435;

    private final Vehicle vehicle;

    SensorCalculations(Vehicle vehicle) {
        this.vehicle = vehicle;
    }

    List<Calculation> all() {
        List<Calculation> all = new ArrayList<>();
        all.add(resolution("pack-hot", "at the pack's hot limit", PACK_HOT_C));
        all.add(resolution("pack-cold", "at the pack's cold limit", PACK_COLD_C));
        if (vehicle.settings().has(Signal.MOTOR_TEMP_V) && vehicle.is(MOTOR_SENSOR, "ntc")) {
            all.add(resolution("motor-hot", "at the motor's hot limit", MOTOR_HOT_C));
            all.add(window("motor", MOTOR_HOT_C));
        }
        if (vehicle.settings().has(Signal.INVERTER_TEMP_V)) {
            all.add(window("inverter", INVERTER_HOT_C));
        }
        all.add(openWindow());
        limits().forEach((id, limitC) -> {
            all.add(hasCurve() ? modelError(id, limitC) : commonError(id, limitC));
            vehicle.thermistors().ifPresent(table -> all.addAll(tableError(id, limitC, table)));
        });
        all.add(pedal("a-released", Parameter.PEDAL_A_RELEASED_V));
        all.add(pedal("a-full", Parameter.PEDAL_A_FULL_V));
        if (vehicle.settings().has(Signal.PEDAL_B_V)) {
            all.add(pedal("b-released", Parameter.PEDAL_B_RELEASED_V));
            all.add(pedal("b-full", Parameter.PEDAL_B_FULL_V));
        }
        return all;
    }

    private Calculation sum(String id, String title) {
        return new Calculation(vehicle, id, title);
    }

    /** The limits that a thermistor guards, by the name of the place. */
    private Map<String, Parameter> limits() {
        Map<String, Parameter> limits = new LinkedHashMap<>();
        limits.put("pack-hot", PACK_HOT_C);
        limits.put("pack-cold", PACK_COLD_C);
        if (vehicle.settings().has(Signal.MOTOR_TEMP_V) && vehicle.is(MOTOR_SENSOR, "ntc")) {
            limits.put("motor-hot", MOTOR_HOT_C);
        }
        if (vehicle.settings().has(Signal.INVERTER_TEMP_V)) {
            limits.put("inverter-hot", INVERTER_HOT_C);
        }
        return limits;
    }

    private boolean hasCurve() {
        return vehicle.get(Parameter.THERMISTOR_STEINHART_B) > 0;
    }

    private Thermistor thermistor(Calculation sum) {
        return new Thermistor(
                sum.in(THERMISTOR_R25_OHM),
                sum.in(THERMISTOR_BETA_K),
                hasCurve() ? coefficients(sum) : new double[3],
                sum.in(THERMISTOR_PULLUP_OHM),
                sum.in(THERMISTOR_SUPPLY_V));
    }

    private static double[] coefficients(Calculation sum) {
        return new double[] {
            sum.in(Parameter.THERMISTOR_STEINHART_A),
            sum.in(Parameter.THERMISTOR_STEINHART_B),
            sum.in(Parameter.THERMISTOR_STEINHART_C)
        };
    }

    private String model() {
        return hasCurve() ? CURVE : BETA;
    }

    /** What the three coefficients are worth: the supervisor reads by them, and not by the beta model any more. */
    private Calculation modelError(String id, Parameter limitC) {
        Calculation sum = sum(
                "thermistor-model-" + id,
                "what the beta model alone would misread at " + limitC.key() + ", corrected here");
        double[] abc = coefficients(sum);
        double errorK =
                Thermistor.betaErrorK(sum.in(limitC), sum.in(THERMISTOR_R25_OHM), sum.in(THERMISTOR_BETA_K), abc);
        return sum.formula("temperature by R25 and beta less temperature by 1/T = A + B ln R + C (ln R)^3")
                .gives(errorK, "K")
                .about(limitC)
                .source(CURVE);
    }

    /** What the beta model costs: the vehicle's own part is not known further than that, so a common one stands for it. */
    private Calculation commonError(String id, Parameter limitC) {
        Calculation sum = sum(
                "thermistor-model-" + id,
                "what the beta model misreads at " + limitC.key()
                        + " with a common 10 kohm part; for yours, give thermistor.table");
        double errorK = Thermistor.betaErrorK(sum.in(limitC), COMMON_OHM, COMMON_BETA_K, COMMON_PART);
        return sum.formula("temperature by R25 and beta 3435 less temperature by the part's own table")
                .gives(errorK, "K")
                .about(limitC)
                .source("table of a 10 kohm part in drivers/hwmon/ntc_thermistor.c of the Linux kernel");
    }

    /** Whether the table reaches the limit, and how far the curve through it misses its rows there. */
    private List<Calculation> tableError(String id, Parameter limitC, ThermistorTable table) {
        Calculation reach =
                sum("thermistor-table-end-" + id, "the end of thermistor.table on the side of " + limitC.key());
        boolean cold = limitC == PACK_COLD_C;
        double limit = reach.in(limitC);
        reach.formula("temperature of the " + (cold ? "first" : "last") + " row")
                .gives(table.rangeC()[cold ? 0 : 1], "°C");
        (cold ? reach.atMost(limitC.key(), limit) : reach.atLeast(limitC.key(), limit))
                .about(limitC)
                .otherwise(CAUTION, "beyond its rows nobody knows what the thermistor reads: add rows")
                .source(Calculation.OWN_VALUES);
        double missesK = table.missesNearK(limit);
        if (Double.isNaN(missesK)) {
            return List.of(reach);
        }
        Calculation misses = sum(
                "thermistor-table-" + id,
                "how far the curve misses the rows of thermistor.table around " + limitC.key());
        misses.in(limitC);
        misses.formula("greater difference of the two rows to 1/T = A + B ln R + C (ln R)^3")
                .gives(missesK, "K")
                .about(limitC)
                .source(CURVE);
        return List.of(reach, misses);
    }

    private Calculation resolution(String id, String place, Parameter limitC) {
        Calculation sum = sum("thermistor-resolution-" + id, "one step of the converter " + place);
        double stepK = thermistor(sum).stepK(sum.in(limitC), sum.in(SENSOR_ADC_BITS));
        return sum.formula("supply / 2 to the power of bits / slope of the divider there")
                .gives(stepK, "K")
                .atMost("the resolution wanted", sum.in(SENSOR_RESOLUTION_K))
                .about(limitC)
                .otherwise(CAUTION, "the limit cannot be told to a degree: choose another pull-up")
                .source(model());
    }

    private Calculation window(String id, Parameter hotC) {
        Calculation sum = sum("thermistor-window-" + id, "the divider's voltage 10 K above the " + id + "'s hot limit");
        double volts = thermistor(sum).volts(sum.in(hotC) + 10);
        return sum.formula("supply R / (R + pull-up)")
                .gives(volts, "V")
                .atLeast("thermistor.short_v", sum.in(THERMISTOR_SHORT_V))
                .about(THERMISTOR_SHORT_V)
                .otherwise(STOP, "a hot part would be taken for a shorted wire")
                .source(model());
    }

    private Calculation openWindow() {
        Calculation sum = sum("thermistor-window-cold", "the divider's voltage at -30 °C");
        double volts = thermistor(sum).volts(-30);
        return sum.formula("supply R / (R + pull-up)")
                .gives(volts, "V")
                .atMost("thermistor.open_v", sum.in(THERMISTOR_OPEN_V))
                .about(THERMISTOR_OPEN_V)
                .otherwise(CAUTION, "a winter morning would be taken for a broken wire")
                .source(model());
    }

    /** The pedal's voltages follow its supply; at the ends of the supply's tolerance they must still be inside the window. */
    private Calculation pedal(String id, Parameter end) {
        Calculation sum =
                sum("pedal-window-" + id, "the pedal's voltage at " + end.key() + " with the supply at its limit");
        double nominalV = sum.in(end);
        boolean low = nominalV < NOMINAL_SUPPLY_V / 2;
        double supplyV = sum.in(low ? PEDAL_SUPPLY_MIN_V : PEDAL_SUPPLY_MAX_V);
        sum.formula("calibrated voltage times supply limit / 5 V").gives(nominalV * supplyV / NOMINAL_SUPPLY_V, "V");
        return (low ? sum.atLeast("pedal.min_v", sum.in(PEDAL_MIN_V)) : sum.atMost("pedal.max_v", sum.in(PEDAL_MAX_V)))
                .about(end)
                .otherwise(STOP, "a good pedal counts as a broken wire when the 5 V supply is at its limit")
                .source("a potentiometer's voltage is in proportion to its supply");
    }
}
