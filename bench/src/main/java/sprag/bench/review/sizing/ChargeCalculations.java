package sprag.bench.review.sizing;

import static sprag.bench.review.finding.Weight.CAUTION;
import static sprag.bench.review.finding.Weight.NOTE;
import static sprag.bench.review.finding.Weight.STOP;
import static sprag.bench.vehicle.CarParameter.STATION_MAX_A;
import static sprag.bench.vehicle.SizingParameter.STATION_BREAKER_A;
import static sprag.bench.vehicle.SizingParameter.STATION_CABLE_A;
import static sprag.supervisor.vocabulary.Parameter.CHARGER_1_MAX_W;
import static sprag.supervisor.vocabulary.Parameter.CHARGER_2_MAX_W;
import static sprag.supervisor.vocabulary.Parameter.CHARGER_3_MAX_W;
import static sprag.supervisor.vocabulary.Parameter.CHARGER_COUNT;
import static sprag.supervisor.vocabulary.Parameter.CHARGER_EFFICIENCY;
import static sprag.supervisor.vocabulary.Parameter.CHARGER_POWER_FACTOR;
import static sprag.supervisor.vocabulary.Parameter.CHARGE_CURRENT_A;
import static sprag.supervisor.vocabulary.Parameter.CHARGE_MAX_MIN;
import static sprag.supervisor.vocabulary.Parameter.CHARGE_OVER_V;
import static sprag.supervisor.vocabulary.Parameter.CHARGE_VOLTAGE_V;
import static sprag.supervisor.vocabulary.Parameter.INLET_MAX_A;
import static sprag.supervisor.vocabulary.Parameter.INLET_PHASES;
import static sprag.supervisor.vocabulary.Parameter.INLET_SUPPLY_V;
import static sprag.supervisor.vocabulary.Parameter.PACK_CAPACITY_AH;
import static sprag.supervisor.vocabulary.Parameter.PACK_CELLS;
import static sprag.supervisor.vocabulary.Parameter.PACK_CHARGE_MAX_A;
import static sprag.supervisor.vocabulary.Parameter.PACK_MAX_V;
import static sprag.supervisor.vocabulary.Parameter.PACK_MIN_V;

import java.util.List;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.formula.Supply;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/** Inlet, station and chargers. */
final class ChargeCalculations {
    private final Vehicle vehicle;

    ChargeCalculations(Vehicle vehicle) {
        this.vehicle = vehicle;
    }

    List<Calculation> all() {
        return List.of(
                continuousLoad(),
                cable(),
                station(),
                inletShare(),
                packCurrent(),
                chargeCurrent(),
                chargeVoltage(),
                cellVoltage(),
                chargeTime());
    }

    private Calculation sum(String id, String title) {
        return new Calculation(vehicle, id, title);
    }

    static double chargersW(Vehicle vehicle, Calculation sum) {
        Parameter[] each = {CHARGER_1_MAX_W, CHARGER_2_MAX_W, CHARGER_3_MAX_W};
        double together = 0;
        for (int i = 0; i < vehicle.get(CHARGER_COUNT); i++) {
            together += sum.in(each[i]);
        }
        return together;
    }

    private double chargersA(Calculation sum) {
        return Supply.phaseA(
                chargersW(vehicle, sum),
                sum.in(CHARGER_EFFICIENCY),
                sum.in(CHARGER_POWER_FACTOR),
                sum.in(INLET_SUPPLY_V),
                sum.in(INLET_PHASES));
    }

    private boolean takesLimit() {
        return vehicle.is(Parameter.CHARGER_CONTROL, "limited");
    }

    /** What is only held back by the supervisor's limit is held back by nothing when the chargers take none. */
    private Weight unlimited() {
        return takesLimit() ? CAUTION : STOP;
    }

    /** What the car can draw: as much as the chargers take, but never more than the inlet's own limit. */
    private double drawnA(Calculation sum) {
        return Math.min(chargersA(sum), sum.in(INLET_MAX_A));
    }

    private Calculation continuousLoad() {
        Calculation sum = sum("supply-continuous-load", "the least over-current device for the charging current");
        return sum.formula("1.25 times what the car draws for hours")
                .gives(Supply.leastBreakerA(drawnA(sum)), "A")
                .atMost("the supply circuit's over-current device", sum.in(STATION_BREAKER_A))
                .about(STATION_BREAKER_A)
                .otherwise(STOP, "the breaker trips, or the wiring behind it overheats for hours; local codes decide")
                .source("NEC 625.42 (2023) with 210.20(A): charging is a continuous load");
    }

    private Calculation cable() {
        Calculation sum = sum("charging-cable", "the current through the charging cable");
        return sum.formula("what the car draws")
                .gives(drawnA(sum), "A")
                .atMost("what the cable is made for", sum.in(STATION_CABLE_A))
                .about(STATION_CABLE_A)
                .otherwise(STOP, "the cable overheats where it is coiled up")
                .source("IEC 61851-1: cable coding 13, 20, 32, 63 A");
    }

    private Calculation station() {
        Calculation sum = sum("station-offers", "what the car would draw if nobody limited it");
        return sum.formula("P / (efficiency power-factor V phases)")
                .gives(chargersA(sum), "A")
                .atMost("what the station offers", sum.in(STATION_MAX_A))
                .about(STATION_MAX_A)
                .otherwise(
                        NOTE, "the supervisor holds the chargers back; charging takes longer than their power suggests")
                .source("power of an a.c. load; the station's offer is the one of vehicle.toml");
    }

    private Calculation inletShare() {
        Calculation sum = sum("chargers-share-inlet", "all chargers together at full power, at the inlet");
        return sum.formula("P / (efficiency power-factor V phases)")
                .gives(chargersA(sum), "A")
                .atMost("inlet.max_a", sum.in(INLET_MAX_A))
                .about(INLET_MAX_A)
                .otherwise(
                        unlimited(),
                        takesLimit()
                                ? "only the supervisor's sharing keeps the inlet cool"
                                : "the chargers take no limit (charger.control), so the inlet and its supply overheat")
                .source("power of an a.c. load; the inlet's limit is the one of vehicle.toml");
    }

    private Calculation packCurrent() {
        Calculation sum = sum("chargers-pack-current", "all chargers together into an empty pack");
        return sum.formula("P / pack.min_v")
                .gives(chargersW(vehicle, sum) / sum.in(PACK_MIN_V), "A")
                .atMost("pack.charge_max_a", sum.in(PACK_CHARGE_MAX_A))
                .about(PACK_CHARGE_MAX_A)
                .otherwise(
                        unlimited(),
                        takesLimit()
                                ? "only the supervisor's limit keeps the cells from being charged too fast"
                                : "the chargers take no limit (charger.control), so the cells are charged too fast")
                .source(Calculation.OWN_VALUES);
    }

    private Calculation chargeCurrent() {
        Calculation sum = sum("charge-current-reachable", "the charge current that is asked for");
        return sum.formula("held against what the chargers give into an empty pack")
                .gives(sum.in(CHARGE_CURRENT_A), "A")
                .atMost("P / pack.min_v", chargersW(vehicle, sum) / sum.in(PACK_MIN_V))
                .about(CHARGE_CURRENT_A)
                .otherwise(NOTE, "the chargers never deliver it")
                .source(Calculation.OWN_VALUES);
    }

    private Calculation chargeVoltage() {
        Calculation sum = sum("charge-voltage", "the highest voltage before a charge is broken off");
        return sum.formula("charge.voltage_v + charge.over_v")
                .gives(sum.in(CHARGE_VOLTAGE_V) + sum.in(CHARGE_OVER_V), "V")
                .atMost("pack.max_v", sum.in(PACK_MAX_V))
                .about(CHARGE_OVER_V)
                .otherwise(STOP, "the trip comes after the pack is overcharged")
                .source(Calculation.OWN_VALUES);
    }

    private Calculation cellVoltage() {
        Calculation sum = sum("charge-cell-voltage", "the mean cell voltage at the end of a charge");
        return sum.formula("charge.voltage_v / pack.cells")
                .gives(sum.in(CHARGE_VOLTAGE_V) / sum.in(PACK_CELLS), "V")
                .atMost("cell.high_v", sum.in(Parameter.CELL_HIGH_V))
                .about(CHARGE_VOLTAGE_V)
                .otherwise(STOP, "the cells are overcharged, or the charge is pulled back before it is full")
                .source(Calculation.OWN_VALUES);
    }

    private Calculation chargeTime() {
        Calculation sum = sum("charge-time-limit", "the time for a full charge, a fifth added for the taper");
        double chargeA = Math.min(sum.in(CHARGE_CURRENT_A), chargersW(vehicle, sum) / sum.in(PACK_MAX_V));
        return sum.formula("1.2 capacity / charge current")
                .gives(72 * sum.in(PACK_CAPACITY_AH) / chargeA, "min")
                .atMost("charge.max_min", sum.in(CHARGE_MAX_MIN))
                .about(CHARGE_MAX_MIN)
                .otherwise(CAUTION, "every long charge ends by the time limit, not full")
                .source("charge over current; a fifth for the taper is common practice, no rule is known");
    }
}
