package sprag.bench.begin;

import static sprag.bench.begin.Question.CAPACITANCE_UF;
import static sprag.bench.begin.Question.CAPACITY_AH;
import static sprag.bench.begin.Question.CELLS;
import static sprag.bench.begin.Question.CHARGERS;
import static sprag.bench.begin.Question.CHARGER_MAX_W;
import static sprag.bench.begin.Question.CHARGE_MAX_A;
import static sprag.bench.begin.Question.CHEMISTRY;
import static sprag.bench.begin.Question.COOLING;
import static sprag.bench.begin.Question.DCDC_MAX_A;
import static sprag.bench.begin.Question.DISCHARGE_MAX_A;
import static sprag.bench.begin.Question.MASS_KG;
import static sprag.bench.begin.Question.MOTORS;
import static sprag.bench.begin.Question.MOTOR_POWER_W;
import static sprag.bench.begin.Question.MOTOR_TORQUE_NM;
import static sprag.bench.begin.Question.REGEN_SHARE;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import sprag.bench.review.formula.Ampacity;
import sprag.bench.review.formula.DangerousVoltage;
import sprag.bench.review.formula.FuseRatings;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.SizingParameter;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Row;

/**
 * What follows from the answers. The figures of a cell are the usual ones of its chemistry; what describes the simulated car
 * is of the size that such parts have, in proportion to power, mass and capacity, and no more than that.
 */
final class Suggestions {
    /** First current through the precharge resistor that a small relay breaks with ease. */
    private static final double PRECHARGE_A = 2.5;
    /** Time constant that keeps a start short and the resistor's current low. */
    private static final double SLOWEST_RC_S = 0.15;
    /** Time constant below which a sound charge is not told from a bus without capacitors. */
    private static final double FASTEST_RC_S = 0.03;

    /** Time in which an open bus shall fall below the touchable voltage. */
    static final double DEAD_WITHIN_S = 20;
    /** The E24 series (IEC 60063), and a little more than its widest step. */
    private static final double[] E24 = {
        1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5,
        8.2, 9.1
    };

    private static final double E24_STEP = 1.16;
    private static final double[] E12 = {1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2};
    private static final String SIZE = "the usual size of such parts; replace it by data sheet or measurement";

    private final Answers answers;
    private final Map<Row, Suggestion> all = new LinkedHashMap<>();

    /** Temperature classes of insulation that are sold for traction cables. */
    private static final double[] INSULATION_C = {105, 125, 150, 200};

    /** Usual voltages of one cell. */
    private enum Cell {
        LFP(3.2, 2.6, 3.6, 3.5, 2.5, 2.8, 3.55, 3.65),
        NMC(3.65, 3.0, 4.2, 4.15, 2.9, 3.2, 4.17, 4.22);

        private final double nominalV;
        private final double emptyV;
        private final double fullV;
        private final double chargeV;
        private final double minV;
        private final double lowV;
        private final double highV;
        private final double maxV;

        Cell(double nominalV, double emptyV, double fullV, double chargeV, double... limitsV) {
            this.nominalV = nominalV;
            this.emptyV = emptyV;
            this.fullV = fullV;
            this.chargeV = chargeV;
            this.minV = limitsV[0];
            this.lowV = limitsV[1];
            this.highV = limitsV[2];
            this.maxV = limitsV[3];
        }
    }

    private Suggestions(Answers answers) {
        this.answers = answers;
    }

    /** Everything that follows from the answers alone, by row. */
    static Map<Row, Suggestion> from(Answers answers) {
        Suggestions made = new Suggestions(answers);
        made.answered();
        made.pack();
        made.bus();
        made.drive();
        made.charge();
        made.cable();
        made.simulatedCar();
        return made.all;
    }

    private double of(Question question) {
        return answers.get(question);
    }

    private double of(Row row) {
        return all.get(row).value();
    }

    private void put(Row row, double value, String because) {
        all.put(row, new Suggestion(value, because));
    }

    /** Rounds to some significant digits, so that a person can read it. */
    static double rounded(double value, int digits) {
        if (value == 0) {
            return 0;
        }
        double step = Math.pow(10, Math.floor(Math.log10(Math.abs(value))) + 1 - digits);
        return Double.parseDouble(String.format(java.util.Locale.ROOT, "%.6g", Math.rint(value / step) * step));
    }

    /** The next value of the E12 series (IEC 60063) that is not smaller. */
    static double nextResistor(double ohm) {
        return next(E12, ohm);
    }

    private static double next(double[] series, double ohm) {
        double decade = Math.pow(10, Math.floor(Math.log10(ohm)));
        for (double step : series) {
            if (step * decade >= ohm * 0.999) {
                return rounded(step * decade, 3);
            }
        }
        return rounded(10 * decade, 3);
    }

    private void answered() {
        Map<Row, Question> same = new LinkedHashMap<>();
        same.put(Parameter.PACK_CELLS, CELLS);
        same.put(Parameter.PACK_CHEMISTRY, CHEMISTRY);
        same.put(Parameter.PACK_CAPACITY_AH, CAPACITY_AH);
        same.put(Parameter.PACK_DISCHARGE_MAX_A, DISCHARGE_MAX_A);
        same.put(Parameter.PACK_CHARGE_MAX_A, CHARGE_MAX_A);
        same.put(Parameter.BUS_CAPACITANCE_UF, CAPACITANCE_UF);
        same.put(Parameter.DRIVE_GEAR_RATIO, Question.GEAR_RATIO);
        same.put(Parameter.DRIVE_WHEEL_RADIUS_M, Question.WHEEL_RADIUS_M);
        same.put(Parameter.DRIVE_MASS_KG, MASS_KG);
        same.put(Parameter.DRIVE_MAX_KPH, Question.MAX_KPH);
        same.put(Parameter.MOTOR_KIND, Question.MOTOR_KIND);
        same.put(Parameter.MOTOR_EMF_V_PER_KRPM, Question.MOTOR_EMF_V_PER_KRPM);
        same.put(Parameter.MOTOR_MAX_RPM, Question.MOTOR_MAX_RPM);
        same.put(Parameter.INLET_KIND, Question.INLET);
        same.put(Parameter.INLET_MAX_A, Question.INLET_MAX_A);
        same.put(Parameter.INLET_SUPPLY_V, Question.SUPPLY_V);
        same.put(Parameter.CHARGER_SIDE, Question.CHARGER_SIDE);
        same.put(Parameter.CHARGER_CONTROL, Question.CHARGER_CONTROL);
        same.put(Parameter.CHARGER_COUNT, CHARGERS);
        same.put(Parameter.CHARGER_1_MAX_W, CHARGER_MAX_W);
        same.put(Parameter.DCDC_SIDE, Question.DCDC_SIDE);
        same.put(CarParameter.THERMAL_COOLING, COOLING);
        same.put(CarParameter.LV_DCDC_MAX_A, DCDC_MAX_A);
        same.forEach((row, question) -> put(row, of(question), "the answer " + question.key()));
        put(Parameter.DRIVE_TORQUE_NM, torqueNm(), ofAll("motor_torque_nm"));
        put(Parameter.DRIVE_POWER_W, powerW(), ofAll("motor_power_w"));
        put(
                Parameter.DRIVE_GEARBOX,
                Parameter.DRIVE_GEARBOX.choices().indexOf(answers.is(Question.GEARBOX, "clutch") ? "clutch" : "fixed"),
                "the answer gearbox");
        if (of(CHARGERS) >= 2) {
            put(Parameter.CHARGER_2_MAX_W, of(CHARGER_MAX_W), "the answer charger_max_w");
        }
        if (of(CHARGERS) >= 3) {
            put(Parameter.CHARGER_3_MAX_W, of(CHARGER_MAX_W), "the answer charger_max_w");
        }
    }

    private double torqueNm() {
        return of(MOTORS) * of(MOTOR_TORQUE_NM);
    }

    private double powerW() {
        return of(MOTORS) * of(MOTOR_POWER_W);
    }

    private String ofAll(String answer) {
        return of(MOTORS) > 1 ? "motors x the answer " + answer : "the answer " + answer;
    }

    private void pack() {
        Cell cell = Cell.values()[(int) of(CHEMISTRY)];
        double cells = of(CELLS);
        put(Parameter.PACK_NOMINAL_V, rounded(cells * cell.nominalV, 4), "cells x " + cell.nominalV + " V");
        put(Parameter.PACK_MIN_V, rounded(cells * cell.emptyV, 4), "cells x " + cell.emptyV + " V under load");
        put(Parameter.PACK_MAX_V, rounded(cells * cell.fullV, 4), "cells x " + cell.fullV + " V");
        String usual = "usual for " + answers.word(CHEMISTRY) + " cells; the data sheet decides";
        put(Parameter.CELL_MIN_V, cell.minV, usual);
        put(Parameter.CELL_LOW_V, cell.lowV, usual);
        put(Parameter.CELL_HIGH_V, cell.highV, usual);
        put(Parameter.CELL_MAX_V, cell.maxV, usual);
        put(Parameter.CHARGE_VOLTAGE_V, rounded(cells * cell.chargeV, 4), "cells x " + cell.chargeV + " V");
        put(
                Parameter.CHARGE_OVER_V,
                rounded(Math.max(0.1, 0.008 * cells * cell.chargeV), 2),
                "0.8 % of charge.voltage_v");
    }

    private void bus() {
        double minV = of(Parameter.PACK_MIN_V);
        double maxV = of(Parameter.PACK_MAX_V);
        double farad = of(CAPACITANCE_UF) * 1e-6;
        put(
                Parameter.BUS_DISCHARGED_V,
                rounded(Math.min(DangerousVoltage.ABOVE_V, 0.48 * minV), 2),
                "60 V, or 0.48 pack.min_v when that is less");
        put(Parameter.BUS_MAX_V, Math.ceil(1.15 * maxV), "1.15 pack.max_v; the weakest part on the bus decides");
        put(
                CarParameter.MACHINE_TRIP_V,
                Math.ceil(1.02 * of(Parameter.BUS_MAX_V)),
                "1.02 bus.max_v; the inverter's manual decides");
        double ohm = nextResistor(
                Math.max(5, Math.max(FASTEST_RC_S / farad, Math.min(maxV / PRECHARGE_A, SLOWEST_RC_S / farad))));
        put(
                Parameter.PRECHARGE_RESISTANCE_OHM,
                ohm,
                "E12 value from pack.max_v / 2.5 A, or 0.15 s / C when that is less; at least 0.03 s / C");
        double pulseJ = farad * 1.2 * maxV * maxV / 2;
        double shortedJ = maxV * maxV / (0.95 * ohm) * 0.35;
        put(
                Parameter.PRECHARGE_ENERGY_J,
                Math.ceil(Math.max(4 * pulseJ, shortedJ)),
                "four charges of 1.2 C V2 / 2, or a shorted bus for 0.35 s; the resistor must be rated for that pulse");
        put(Parameter.PRECHARGE_COOLING_S, 60, "usual for a wire-wound resistor on metal; measure it");
        put(
                Parameter.CONTACTOR_OPEN_A,
                rounded(Math.max(3, Math.min(5, 0.01 * of(DISCHARGE_MAX_A))), 1),
                "a hundredth of discharge_max_a, 3 to 5 A");
        double slowestOhm = DEAD_WITHIN_S / (farad * Math.log(maxV / of(Parameter.BUS_DISCHARGED_V)));
        double leastOhm = Math.max(60 * ohm, Math.min(maxV * maxV / 10, slowestOhm / E24_STEP));
        put(
                CarParameter.PARTS_BLEED_OHM,
                Math.min(1e6, next(E24, leastOhm)),
                "10 W, or dead in 20 s when that asks for more; at least 60 times the precharge resistor");
    }

    private void drive() {
        double torqueNm = torqueNm();
        if (of(Question.MAX_KPH) <= Parameter.DRIVE_REVERSE_MAX_KPH.byDefault()) {
            put(
                    Parameter.DRIVE_REVERSE_MAX_KPH,
                    Math.max(Parameter.DRIVE_REVERSE_MAX_KPH.min(), rounded(0.7 * of(Question.MAX_KPH), 2)),
                    "0.7 max_kph");
        }
        put(Parameter.PEDAL_A_RELEASED_V, 0.9, "to be measured at the pedal");
        put(Parameter.PEDAL_A_FULL_V, 4.2, "to be measured at the pedal");
        put(Parameter.DRIVE_RISE_NM_PER_S, rounded(torqueNm / 0.3, 2), "full torque in 0.3 s");
        put(Parameter.DRIVE_FALL_NM_PER_S, rounded(torqueNm / 0.08, 2), "gone in 0.08 s");
        double dcdcA = of(DCDC_MAX_A) * 13.8 / 0.92 / of(Parameter.PACK_MIN_V);
        put(Parameter.DRIVE_UNASKED_A, rounded(10 + 2 * dcdcA, 2), "10 A and twice what the DC-DC converter takes");
        put(Parameter.REGEN_TORQUE_NM, rounded(torqueNm * of(REGEN_SHARE), 2), "regen_share of the torque");
    }

    private void charge() {
        double chargersA = of(CHARGERS) * of(CHARGER_MAX_W) / of(Parameter.PACK_MAX_V);
        double currentA = rounded(Math.min(0.9 * of(CHARGE_MAX_A), chargersA), 2);
        put(Parameter.CHARGE_CURRENT_A, currentA, "what the chargers give into a full pack, or 0.9 charge_max_a");
        put(
                Parameter.CHARGE_END_A,
                rounded(Math.min(of(CAPACITY_AH) / 20, currentA / 4), 2),
                "a twentieth of the capacity, or a quarter of the current");
        put(
                Parameter.CHARGE_MAX_MIN,
                Math.min(
                        Parameter.CHARGE_MAX_MIN.max(),
                        Math.max(60, Math.ceil(90 * of(CAPACITY_AH) / currentA / 30) * 30)),
                "one and a half times capacity / current");
    }

    /** The insulation that lets the largest cable of the table carry the main fuse; the default where that is enough. */
    private void cable() {
        double fuseA = FuseRatings.atLeast(of(DISCHARGE_MAX_A));
        double airC = SizingParameter.CABLE_AMBIENT_C.byDefault();
        double bundled = SizingParameter.CABLE_BUNDLED.byDefault();
        double leastC = SizingParameter.CABLE_INSULATION_C.byDefault();
        double wantedC = Arrays.stream(INSULATION_C)
                .filter(c -> Ampacity.ampacityA(Ampacity.LARGEST_MM2, c, airC, bundled) >= fuseA)
                .findFirst()
                .orElse(INSULATION_C[INSULATION_C.length - 1]);
        if (wantedC > leastC) {
            put(
                    SizingParameter.CABLE_INSULATION_C,
                    wantedC,
                    "the class in which one cable of 107 mm2 carries a fuse for discharge_max_a (33 CFR 183.425)");
        }
    }

    private void simulatedCar() {
        double rootW = of(MOTORS) * Math.sqrt(of(MOTOR_POWER_W));
        double energyWh = of(Parameter.PACK_NOMINAL_V) * of(CAPACITY_AH);
        boolean liquid = answers.is(COOLING, "liquid");
        boolean magnets = answers.is(Question.MOTOR_KIND, "permanent-magnet");
        double torqueNm = torqueNm();
        put(CarParameter.BODY_DRAG_AREA_M2, of(MASS_KG) < 600 ? 0.9 : of(MASS_KG) < 1300 ? 0.7 : 1.2, SIZE);
        put(CarParameter.BODY_BRAKE_N, rounded(7.5 * of(MASS_KG), 2), "7.5 m/s2 of braking");
        double cellMohm = (answers.word(CHEMISTRY).equals("lfp") ? 100 : 60) / of(CAPACITY_AH);
        put(CarParameter.CELLS_RESISTANCE_MOHM, rounded(Math.max(0.01, cellMohm), 2), SIZE);
        put(CarParameter.CELLS_POLAR_MOHM, rounded(Math.max(0.01, 0.75 * cellMohm), 2), SIZE);
        put(CarParameter.CELLS_HEAT_J_PER_K, rounded(Math.max(100, 6 * energyWh), 2), SIZE);
        put(
                CarParameter.BOX_FUSE_A,
                of(DISCHARGE_MAX_A),
                "discharge_max_a; check compares it with cable and contactors");
        put(
                CarParameter.MACHINE_COPPER_W_PER_NM2,
                rounded((magnets ? 0.08 : 0.15) * powerW() / (torqueNm * torqueNm), 2),
                SIZE);
        put(CarParameter.MACHINE_IRON_W_PER_KRPM, rounded(0.45 * rootW, 2), SIZE);
        put(CarParameter.MACHINE_WINDAGE_W_PER_KRPM3, 1, SIZE);
        put(
                CarParameter.MACHINE_MIN_V,
                rounded(0.72 * of(Parameter.PACK_MIN_V), 2),
                "0.72 pack.min_v; the inverter's manual decides");
        put(CarParameter.THERMAL_MOTOR_J_PER_K, rounded(90 * rootW, 2), SIZE);
        put(CarParameter.THERMAL_MOTOR_W_PER_K, rounded((liquid ? 0.4 : 0.29) * rootW, 2), SIZE);
        put(CarParameter.THERMAL_INVERTER_J_PER_K, rounded(20 * rootW, 2), SIZE);
        put(CarParameter.THERMAL_INVERTER_W_PER_K, rounded((liquid ? 0.8 : 0.32) * rootW, 2), SIZE);
        put(
                CarParameter.LV_DCDC_MIN_V,
                rounded(0.8 * of(Parameter.PACK_MIN_V), 2),
                "0.8 pack.min_v; its label decides");
    }
}
