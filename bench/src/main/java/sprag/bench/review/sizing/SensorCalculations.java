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
import java.util.List;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/** Thermistors and the pedal. */
final class SensorCalculations {
    private static final double NOMINAL_SUPPLY_V = 5;
    private static final String BETA = "beta model of a thermistor; some per cent off real parts far from 25 °C";

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
        if (vehicle.get(Parameter.THERMISTOR_STEINHART_B) > 0) {
            all.add(modelError("pack-hot", PACK_HOT_C));
            all.add(modelError("pack-cold", PACK_COLD_C));
        }
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

    private static Thermistor thermistor(Calculation sum) {
        return new Thermistor(
                sum.in(THERMISTOR_R25_OHM),
                sum.in(THERMISTOR_BETA_K),
                sum.in(THERMISTOR_PULLUP_OHM),
                sum.in(THERMISTOR_SUPPLY_V));
    }

    /** What the three coefficients are worth: the supervisor reads by them, and not by the beta model any more. */
    private Calculation modelError(String id, Parameter limitC) {
        Calculation sum = sum(
                "thermistor-model-" + id,
                "what the beta model alone would misread at " + limitC.key() + ", corrected here");
        double[] abc = {
            sum.in(Parameter.THERMISTOR_STEINHART_A),
            sum.in(Parameter.THERMISTOR_STEINHART_B),
            sum.in(Parameter.THERMISTOR_STEINHART_C)
        };
        double errorK =
                Thermistor.betaErrorK(sum.in(limitC), sum.in(THERMISTOR_R25_OHM), sum.in(THERMISTOR_BETA_K), abc);
        return sum.formula("temperature by R25 and beta less temperature by 1/T = A + B ln R + C (ln R)^3")
                .gives(errorK, "K")
                .about(limitC)
                .source("equation of Steinhart and Hart (1968)");
    }

    private Calculation resolution(String id, String place, Parameter limitC) {
        Calculation sum = sum("thermistor-resolution-" + id, "one step of the converter " + place);
        double stepK = thermistor(sum).stepK(sum.in(limitC), sum.in(SENSOR_ADC_BITS));
        return sum.formula("supply / 2 to the power of bits / slope of the divider there")
                .gives(stepK, "K")
                .atMost("the resolution wanted", sum.in(SENSOR_RESOLUTION_K))
                .about(limitC)
                .otherwise(CAUTION, "the limit cannot be told to a degree: choose another pull-up")
                .source(BETA);
    }

    private Calculation window(String id, Parameter hotC) {
        Calculation sum = sum("thermistor-window-" + id, "the divider's voltage 10 K above the " + id + "'s hot limit");
        double volts = thermistor(sum).volts(sum.in(hotC) + 10);
        return sum.formula("supply R / (R + pull-up)")
                .gives(volts, "V")
                .atLeast("thermistor.short_v", sum.in(THERMISTOR_SHORT_V))
                .about(THERMISTOR_SHORT_V)
                .otherwise(STOP, "a hot part would be taken for a shorted wire")
                .source(BETA);
    }

    private Calculation openWindow() {
        Calculation sum = sum("thermistor-window-cold", "the divider's voltage at -30 °C");
        double volts = thermistor(sum).volts(-30);
        return sum.formula("supply R / (R + pull-up)")
                .gives(volts, "V")
                .atMost("thermistor.open_v", sum.in(THERMISTOR_OPEN_V))
                .about(THERMISTOR_OPEN_V)
                .otherwise(CAUTION, "a winter morning would be taken for a broken wire")
                .source(BETA);
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
