package sprag.bench.begin;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import sprag.bench.cli.Trouble;
import sprag.bench.review.sizing.Calculation;
import sprag.bench.review.sizing.SizingCheck;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Signal;

/**
 * All values of a first vehicle file. What follows from the answers alone is suggested first. The times of precharge, weld
 * test and bleeding are then taken from the calculations of the review, so that both say the same.
 */
final class FirstVehicle {
    /** Signals of a car with the usual sensors. */
    private static final List<Signal> USUAL = List.of(
            Signal.PEDAL_B_V,
            Signal.PEDAL_SUPPLY_V,
            Signal.COVER_LOOP_CLOSED,
            Signal.NEGATIVE_AUX_CLOSED,
            Signal.POSITIVE_AUX_CLOSED,
            Signal.PRECHARGE_AUX_CLOSED,
            Signal.MOTOR_TEMP_V,
            Signal.INVERTER_TEMP_V,
            Signal.CELL_MAX_V,
            Signal.CELL_MIN_V);
    /** What a car with all sensors has besides. */
    private static final List<Signal> FURTHER =
            List.of(Signal.CRASH_LOOP_CLOSED, Signal.INVERTER_FAULT, Signal.ISOLATION_KOHM, Signal.CHARGER_TEMP_V);

    private FirstVehicle() {}

    /** The optional signals that the answers ask for. */
    static Set<Signal> signals(Answers answers) {
        Set<Signal> fitted = new LinkedHashSet<>();
        String sensors = answers.word(Question.SENSORS);
        if (!sensors.equals("few")) {
            fitted.addAll(USUAL);
        }
        if (sensors.equals("all")) {
            fitted.addAll(FURTHER);
        }
        if (!sensors.equals("few") && answers.word(Question.COOLING).equals("liquid")) {
            fitted.add(Signal.COOLANT_TEMP_V);
        }
        // In a car without a clutch a second speed is a sensor more; behind a clutch it alone tells whether the car
        // stands.
        if (sensors.equals("all") && answers.is(Question.GEARBOX, "clutch")) {
            fitted.add(Signal.WHEEL_SPEED_KPH);
        }
        inlet(answers, fitted);
        return fitted;
    }

    private static void inlet(Answers answers, Set<Signal> fitted) {
        String kind = answers.word(Question.INLET);
        if (kind.equals("none")) {
            return;
        }
        if (kind.equals("plain")) {
            if (!answers.is(Question.PLUG_SIGN, "charger")) {
                fitted.add(Signal.PLUG_PRESENT);
            }
            if (!answers.is(Question.PLUG_SIGN, "switch")) {
                fitted.add(Signal.CHARGER_1_OK);
            }
        }
        if (answers.get(Question.CHARGERS) >= 2) {
            fitted.add(Signal.CHARGER_2_OK);
        }
        if (answers.get(Question.CHARGERS) >= 3) {
            fitted.add(Signal.CHARGER_3_OK);
        }
    }

    /**
     * Every value that follows from the answers.
     *
     * @param file where the vehicle's file will stand
     * @throws BadInput when the answers contradict each other so that no vehicle can be read
     */
    static Map<Row, Suggestion> suggestions(Path file, Answers answers) throws BadInput {
        Map<Row, Suggestion> all = new LinkedHashMap<>(Suggestions.from(answers));
        Map<Row, Suggestion> draft = new LinkedHashMap<>(all);
        draft.put(Parameter.PRECHARGE_FAST_MS, new Suggestion(0, ""));
        draft.put(Parameter.PRECHARGE_MIN_MS, new Suggestion(1, ""));
        draft.put(Parameter.PRECHARGE_TIMEOUT_MS, new Suggestion(Parameter.PRECHARGE_TIMEOUT_MS.max(), ""));
        Map<String, Calculation> sums = SizingCheck.calculations(read(file, answers, draft)).stream()
                .collect(Collectors.toMap(Calculation::id, sum -> sum));
        double longestMs = resultMs(sums, "precharge-time");
        double shortestMs =
                Math.min(resultMs(sums, "precharge-called-too-fast"), resultMs(sums, "precharge-restart-too-fast"));
        double timeConstantMs = all.get(Parameter.PRECHARGE_RESISTANCE_OHM).value()
                * all.get(Parameter.BUS_CAPACITANCE_UF).value()
                / 1000;
        double timeoutMs = up(1.5 * longestMs, 10);
        put(all, Parameter.PRECHARGE_TIMEOUT_MS, timeoutMs, "1.5 x precharge-time of check");
        put(all, Parameter.PRECHARGE_FAST_MS, down(0.85 * shortestMs), "0.85 x precharge-restart-too-fast of check");
        put(
                all,
                Parameter.PRECHARGE_MIN_MS,
                Math.max(down(0.85 * shortestMs) + 1, Math.min(down(0.8 * timeoutMs), up(5 * timeConstantMs, 10))),
                "five time constants R C: then little inrush is left");
        put(
                all,
                Parameter.PRECHARGE_STALL_MS,
                Math.max(Parameter.PRECHARGE_STALL_MS.min(), Math.min(300, down(0.5 * timeoutMs))),
                "300 ms, or half of precharge.timeout_ms");
        put(
                all,
                Parameter.CONTACTOR_WELD_TEST_MS,
                Math.max(150, up(1.15 * resultMs(sums, "weld-test-time"), 10)),
                "1.15 x weld-test-time of check");
        put(
                all,
                Parameter.BUS_BLEED_MS,
                Math.max(Parameter.BUS_BLEED_MS.min(), up(1.1 * resultMs(sums, "bus-bleed-down"), 100)),
                "1.1 x bus-bleed-down of check");
        return all;
    }

    private static double resultMs(Map<String, Calculation> sums, String id) {
        return sums.get(id).result().value();
    }

    private static void put(Map<Row, Suggestion> all, Row row, double value, String because) {
        all.put(row, new Suggestion(Math.max(row.min(), Math.min(row.max(), value)), because));
    }

    private static double up(double value, double step) {
        return Math.ceil(value / step) * step;
    }

    private static double down(double value) {
        return Math.max(0, Math.floor(value / 10) * 10);
    }

    /** A vehicle is called as its folder. */
    static String name(Path file) {
        return String.valueOf(file.toAbsolutePath().normalize().getParent().getFileName());
    }

    /** The vehicle that a set of values makes, read as any other. What is wrong with it is told of the file that it is for. */
    private static Vehicle read(Path wanted, Answers answers, Map<Row, Suggestion> values) throws BadInput {
        try {
            Path folder = Files.createTempDirectory("sprag-new");
            Path file = folder.resolve(Catalogue.VEHICLE_FILE);
            try {
                Files.writeString(file, VehicleText.of(name(wanted), answers, values));
                return VehicleReader.read(folder);
            } catch (BadInput e) {
                throw new BadInput(
                        e.problems().stream().map(problem -> problem.in(wanted)).toList());
            } finally {
                Files.deleteIfExists(file);
                Files.deleteIfExists(folder);
            }
        } catch (IOException e) {
            throw new Trouble("cannot write", Path.of(System.getProperty("java.io.tmpdir")), e);
        }
    }
}
