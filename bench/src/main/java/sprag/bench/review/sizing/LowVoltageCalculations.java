package sprag.bench.review.sizing;

import static sprag.bench.review.finding.Weight.CAUTION;
import static sprag.bench.review.finding.Weight.NOTE;
import static sprag.bench.review.finding.Weight.STOP;
import static sprag.bench.vehicle.CarParameter.BOX_COIL_A;
import static sprag.bench.vehicle.CarParameter.LV_AWAKE_A;
import static sprag.bench.vehicle.CarParameter.LV_BLOWER_A;
import static sprag.bench.vehicle.CarParameter.LV_CAPACITY_AH;
import static sprag.bench.vehicle.CarParameter.LV_DCDC_MAX_A;
import static sprag.bench.vehicle.CarParameter.LV_FAN_A;
import static sprag.bench.vehicle.CarParameter.LV_PUMP_A;
import static sprag.bench.vehicle.CarParameter.LV_SLEEP_A;
import static sprag.bench.vehicle.CarParameter.WARMER_POWER_W;
import static sprag.bench.vehicle.SizingParameter.SUPPLY_ASSIST_A;
import static sprag.bench.vehicle.SizingParameter.SUPPLY_LIGHTS_A;
import static sprag.bench.vehicle.SizingParameter.SUPPLY_PARKING_DAYS;
import static sprag.bench.vehicle.SizingParameter.SUPPLY_WIPERS_A;
import static sprag.supervisor.vocabulary.Parameter.CHARGER_SIDE;
import static sprag.supervisor.vocabulary.Parameter.CHARGE_CURRENT_A;
import static sprag.supervisor.vocabulary.Parameter.DCDC_SIDE;
import static sprag.supervisor.vocabulary.Parameter.INLET_KIND;
import static sprag.supervisor.vocabulary.Parameter.PACK_CAPACITY_AH;
import static sprag.supervisor.vocabulary.Parameter.PACK_MAX_V;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Signal;

/** The 12 V side: while driving, while charging, on the cable after a charge, and parked for weeks. */
final class LowVoltageCalculations {
    /** What a lead battery gives without harm, as a share of its capacity. */
    private static final double USABLE_SHARE = 0.5;

    private static final double DAY_H = 24;
    private static final String HALF =
            "charge over current; that half of a lead battery's capacity is usable is common practice, no rule is"
                    + " known";

    private final Vehicle vehicle;

    LowVoltageCalculations(Vehicle vehicle) {
        this.vehicle = vehicle;
    }

    List<Calculation> all() {
        boolean inlet = !vehicle.is(INLET_KIND, "none");
        return inlet
                ? List.of(lowVoltageBudget(), charging(), onTheCable(), parked())
                : List.of(lowVoltageBudget(), parked());
    }

    private Calculation sum(String id, String title) {
        return new Calculation(vehicle, id, title);
    }

    private boolean onBus() {
        return vehicle.is(DCDC_SIDE, "bus-side");
    }

    private static double usableAh(Calculation sum) {
        return USABLE_SHARE * sum.in(LV_CAPACITY_AH);
    }

    /** A charger beside the pack leaves the contactors open; a converter behind them is dead all that time. */
    private Calculation charging() {
        boolean bus = vehicle.is(CHARGER_SIDE, "bus-side");
        if (onBus() && !bus) {
            return chargingWithoutConverter();
        }
        Calculation sum = sum("dcdc-budget-charging", "what the 12 V side draws while charging");
        sum.in(DCDC_SIDE);
        return sum.formula("computers, cooling, and the contactor coils where charging closes them")
                .gives(chargingA(sum) + (bus ? 2 * sum.in(BOX_COIL_A) : 0), "A")
                .atMost("what the DC-DC converter gives", sum.in(LV_DCDC_MAX_A))
                .about(LV_DCDC_MAX_A)
                .otherwise(STOP, "the 12 V battery runs down while charging, and the charge ends with it")
                .source("sum of the loads in vehicle.toml; no outside source is needed");
    }

    private double chargingA(Calculation sum) {
        double drawnA = sum.in(LV_AWAKE_A);
        if (vehicle.is(CarParameter.THERMAL_COOLING, "liquid")) {
            drawnA += sum.in(LV_PUMP_A) + sum.in(LV_FAN_A);
        }
        return drawnA;
    }

    private Calculation chargingWithoutConverter() {
        Calculation sum = sum("lv-while-charging", "the time for a full charge, a fifth added for the taper");
        double chargeA =
                Math.min(sum.in(CHARGE_CURRENT_A), ChargeCalculations.chargersW(vehicle, sum) / sum.in(PACK_MAX_V));
        sum.in(DCDC_SIDE);
        return sum.formula("1.2 capacity / charge current; the chargers are beside the pack, so the converter is dead"
                        + " meanwhile")
                .gives(1.2 * sum.in(PACK_CAPACITY_AH) / chargeA, "h")
                .atMost("what half of the 12 V battery lasts", usableAh(sum) / chargingA(sum))
                .about(DCDC_SIDE)
                .otherwise(
                        STOP,
                        "the 12 V battery is flat before the pack is full: put the converter beside the pack"
                                + " (dcdc.side) or give the 12 V battery a charger of its own")
                .source(HALF);
    }

    /** A converter behind the contactors helps only where the charge can begin again for it: with chargers behind them, too. */
    private Calculation onTheCable() {
        Calculation sum = sum("lv-on-the-cable", "the time that the 12 V battery lasts on the cable after a charge");
        boolean helped = !onBus() || vehicle.is(CHARGER_SIDE, "bus-side");
        double aloneH = usableAh(sum) / sum.in(LV_AWAKE_A);
        sum.in(DCDC_SIDE);
        sum.in(CHARGER_SIDE);
        return sum.formula(
                        "half the capacity / what the car draws awake; without an end where the converter is beside the"
                                + " pack, or chargers and converter are both behind the contactors: then the charge begins again")
                .gives(helped ? Double.POSITIVE_INFINITY : aloneH, "h")
                .atLeast("a day", DAY_H)
                .about(DCDC_SIDE)
                .otherwise(
                        NOTE,
                        "left on the cable for longer, the 12 V battery runs flat and the car does not start: unplug it in"
                                + " time, or give the 12 V battery a charger of its own; the converter is behind the"
                                + " contactors, the chargers are not, and a charge does not close them")
                .source(HALF);
    }

    private Calculation parked() {
        Calculation sum = sum("lv-parked", "the time that the 12 V battery lasts while the car sleeps");
        return sum.formula("half the capacity / what the car draws asleep")
                .gives(usableAh(sum) / sum.in(LV_SLEEP_A) / DAY_H, "days")
                .atLeast("design.supply.parking_days", sum.in(SUPPLY_PARKING_DAYS))
                .about(LV_SLEEP_A)
                .otherwise(CAUTION, "after a holiday the car does not wake up")
                .source(HALF);
    }

    private Calculation lowVoltageBudget() {
        Calculation sum = sum("dcdc-budget", "what the 12 V side draws on a wet winter night");
        double drawnA = 0;
        for (CarParameter row : loads()) {
            drawnA += sum.in(row);
        }
        drawnA += 2 * sum.in(BOX_COIL_A) + sum.in(SUPPLY_LIGHTS_A) + sum.in(SUPPLY_WIPERS_A) + sum.in(SUPPLY_ASSIST_A);
        return sum.formula("sum of all that runs at once, two contactor coils included")
                .gives(drawnA, "A")
                .atMost("what the DC-DC converter gives", sum.in(LV_DCDC_MAX_A))
                .about(LV_DCDC_MAX_A)
                .otherwise(STOP, "the 12 V battery runs down while driving, and the contactors with it")
                .source("sum of the loads in vehicle.toml; that all run at once is common practice, no rule is known");
    }

    private List<CarParameter> loads() {
        List<CarParameter> loads = new ArrayList<>(List.of(LV_AWAKE_A));
        if (vehicle.is(CarParameter.THERMAL_COOLING, "liquid")) {
            loads.add(LV_PUMP_A);
        }
        if (vehicle.settings().has(Signal.COOLANT_TEMP_V) || vehicle.settings().has(Signal.INVERTER_TEMP_V)) {
            loads.add(LV_FAN_A);
        }
        if (vehicle.get(WARMER_POWER_W) > 0) {
            loads.add(LV_BLOWER_A);
        }
        return loads;
    }
}
