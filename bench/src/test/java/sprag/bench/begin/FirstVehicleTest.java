package sprag.bench.begin;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import sprag.bench.drawing.draft.Drafter;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.FrameColumns;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.report.Checker;
import sprag.bench.review.sizing.SizingCheck;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioReader;
import sprag.bench.scenario.ScenarioRun;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Parameter;

/** A first vehicle must be sound as it is written: the review finds no stop, and it drives and charges. */
class FirstVehicleTest {
    @TempDir
    Path folder;

    private Vehicle vehicle(Answers answers) throws Exception {
        Files.writeString(
                folder.resolve("vehicle.toml"),
                VehicleText.of(
                        "first", answers, FirstVehicle.suggestions(folder.resolve(Catalogue.VEHICLE_FILE), answers)));
        return VehicleReader.read(folder);
    }

    private static List<Finding> stops(Vehicle vehicle) {
        return SizingCheck.calculations(vehicle).stream()
                .flatMap(sum -> sum.findings(key -> 1).stream())
                .filter(finding -> finding.weight() == Weight.STOP)
                .toList();
    }

    private static void plays(Vehicle vehicle, String name) throws Exception {
        Scenario scenario = ScenarioReader.read(Catalogue.installed().scenario(name), FrameColumns.VOCABULARY, vehicle);
        ClosedLoop loop = new ClosedLoop(vehicle, scenario.seed());
        RunResult result =
                new ScenarioRun(scenario, loop).play(vehicle.name(), (step, tick) -> {}, List.of(), () -> false);
        assertEquals(
                List.of(),
                result.judged().stream()
                        .filter(judged -> !judged.verdict().passed())
                        .map(judged -> judged.expectation().text())
                        .toList());
    }

    /** A car that could be built: power, torque, speed, current and capacity fit each other. */
    private static Answers random(long seed) throws Exception {
        Random dice = new Random(seed);
        String gearbox = Question.GEARBOX.choices().get((int) (seed % 3));
        boolean hub = gearbox.equals("hub");
        int motors = hub ? 2 : 1 + dice.nextInt(2);
        Answers answers = new Answers();
        boolean nmc = dice.nextBoolean();
        boolean magnets = dice.nextBoolean();
        int cells = 14 + dice.nextInt(90);
        double nominalV = cells * (nmc ? 3.65 : 3.2);
        double powerW = 3000 + dice.nextInt(80_000);
        double wheelM = 0.2 + dice.nextInt(15) / 100.0;
        double kph = 25 + dice.nextInt(110);
        double rpm = kph / 3.6 / wheelM * (hub ? 1 : 8) * 60 / 6.283 * 1.1;
        set(answers, "cells", cells);
        answers.set(Map.of("chemistry", nmc ? "nmc" : "lfp"));
        set(answers, "capacity_ah", 40 + dice.nextInt(250));
        set(answers, "discharge_max_a", Math.min(2000, Math.ceil(1.3 * motors * powerW / nominalV)));
        set(answers, "charge_max_a", 20 + dice.nextInt(100));
        answers.set(Map.of("motor_kind", magnets ? "permanent-magnet" : "induction"));
        set(answers, "motor_emf_v_per_krpm", magnets ? Math.floor(0.9 * nominalV / rpm * 1000) : 0);
        answers.set(Map.of("gearbox", gearbox));
        set(answers, "motors", motors);
        set(answers, "motor_torque_nm", Math.min(1000, Math.ceil(powerW / 250 * (hub ? 8 : 1))));
        set(answers, "motor_power_w", powerW);
        set(answers, "motor_max_rpm", Math.min(25_000, Math.ceil(rpm)));
        set(answers, "wheel_radius_m", wheelM);
        set(answers, "mass_kg", Math.ceil(300 + powerW / 60));
        set(answers, "max_kph", kph);
        double storedJ = 5 + dice.nextInt(70);
        set(answers, "capacitance_uf", Math.floor(Math.min(20_000, 2e6 * storedJ / nominalV / nominalV)));
        answers.set(Map.of("cooling", dice.nextBoolean() ? "liquid" : "air"));
        answers.set(Map.of("inlet", any(Question.INLET, dice)));
        answers.set(Map.of("plug_sign", any(Question.PLUG_SIGN, dice)));
        set(answers, "inlet_max_a", 10 + dice.nextInt(22));
        set(answers, "chargers", 1 + dice.nextInt(3));
        set(answers, "charger_max_w", 800 + dice.nextInt(5000));
        answers.set(Map.of("charger_side", dice.nextBoolean() ? "bus-side" : "pack-side"));
        answers.set(Map.of("dcdc_side", answers.word(Question.CHARGER_SIDE)));
        answers.set(Map.of("sensors", any(Question.SENSORS, dice)));
        assertEquals(List.of(), Contradiction.of(answers));
        return answers;
    }

    private static String any(Question question, Random dice) {
        return question.choices().get(dice.nextInt(question.choices().size()));
    }

    private static void set(Answers answers, String name, double value) throws Exception {
        answers.set(Map.of(name, String.valueOf(value)));
    }

    static LongStream seeds() {
        return LongStream.rangeClosed(1, Integer.getInteger("first.seeds", 12));
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void answersOfACarThatCouldBeBuilt_makeAVehicleWithoutAStop_thatDrives(long seed) throws Exception {
        Vehicle vehicle = vehicle(random(seed));
        assertEquals(List.of(), stops(vehicle));
        plays(vehicle, "drive-and-stop");
    }

    /** Two motors on 700 V: a bounce of the main contact at the end of precharge, with the resistor beside it, is no arc. */
    @Test
    void strongMotorsAtHighVoltage_drive_withoutAnArcAtTheStart() throws Exception {
        Answers answers = new Answers();
        answers.set(Map.of("chemistry", "nmc", "motor_kind", "permanent-magnet", "cooling", "liquid"));
        set(answers, "cells", 190);
        set(answers, "capacity_ah", 60);
        set(answers, "discharge_max_a", 300);
        set(answers, "motor_emf_v_per_krpm", 45);
        set(answers, "motors", 2);
        set(answers, "motor_torque_nm", 150);
        set(answers, "motor_power_w", 80_000);
        set(answers, "motor_max_rpm", 12_000);
        set(answers, "gear_ratio", 9);
        set(answers, "mass_kg", 1500);
        set(answers, "max_kph", 140);
        plays(vehicle(answers), "drive-and-stop");
    }

    /** A large bus at a high voltage: the resistor of the series lies below the bound, not above it. */
    @ParameterizedTest
    @CsvSource({"100, 2000", "90, 2000", "110, 1500", "60, 3300", "32, 2000"})
    void largeBus_bleedResistor_makesItDeadWithinTheTimeThatIsPromised(int cells, int microfarad) throws Exception {
        Answers answers = new Answers();
        answers.set(Map.of("chemistry", "nmc", "charger_side", "bus-side", "dcdc_side", "bus-side"));
        set(answers, "cells", cells);
        set(answers, "capacitance_uf", microfarad);
        Vehicle vehicle = vehicle(answers);
        double deadS = vehicle.get(CarParameter.PARTS_BLEED_OHM)
                * microfarad
                / 1e6
                * Math.log(vehicle.get(Parameter.PACK_MAX_V) / vehicle.get(Parameter.BUS_DISCHARGED_V));
        assertTrue(deadS <= 20, deadS + " s");
        assertEquals(List.of(), stops(vehicle));
        plays(vehicle, "charge-plug-pulled");
    }

    /** The pack gives half of what motor and inverter could take: torque is less then, and the car goes on. */
    @ParameterizedTest
    @CsvSource({"16, lfp, 30000, 400", "40, nmc, 60000, 200", "96, nmc, 150000, 250"})
    void packSmallForItsMotor_fullPedal_isHeldAtItsCurrent(int cells, String chemistry, int watts, int mostA)
            throws Exception {
        Answers answers = new Answers();
        answers.set(Map.of("chemistry", chemistry));
        set(answers, "cells", cells);
        set(answers, "motor_power_w", watts);
        set(answers, "discharge_max_a", mostA);
        plays(vehicle(answers), "full-pedal-to-top-speed");
    }

    @ParameterizedTest
    @CsvSource({"200, ''", "400, ''", "450, ''", "500, ''", "510, 'fuse-above-conductor'"})
    void firstVehicle_drafted_hasACableThatItsFuseGuards_orIsToldThatNoneIs(double mostA, String stop)
            throws Exception {
        Answers answers = new Answers();
        set(answers, "discharge_max_a", mostA);
        Vehicle vehicle = vehicle(answers);
        Drafter.Result draft =
                Drafter.draft(vehicle, sprag.bench.drawing.draft.Answers.read(folder), new byte[0], new byte[0]);
        Files.writeString(folder.resolve(Schedule.WIRES_FILE), draft.wires());
        Files.writeString(folder.resolve(Schedule.PARTS_FILE), draft.parts());
        assertEquals(
                stop,
                Checker.check(folder).findings().stream()
                        .map(judged -> judged.finding())
                        .filter(finding -> finding.weight() == Weight.STOP)
                        .map(Finding::id)
                        .distinct()
                        .collect(Collectors.joining(",")));
        assertEquals(stop.isEmpty(), Drafter.unguarded(vehicle).isEmpty(), Drafter.unguarded(vehicle));
    }

    @ParameterizedTest
    @CsvSource({"32, lfp, 3300", "96, nmc, 6600"})
    void firstVehicle_onTheCable_charges(int cells, String chemistry, int watts) throws Exception {
        Answers answers = new Answers();
        answers.set(Map.of("cells", String.valueOf(cells)));
        answers.set(Map.of("chemistry", chemistry));
        answers.set(Map.of("charger_max_w", String.valueOf(watts)));
        Vehicle vehicle = vehicle(answers);
        assertEquals(List.of(), stops(vehicle));
        plays(vehicle, "charge-cut-off");
    }

    @ParameterizedTest
    @CsvSource({
        "4.65, 4.7, between two values",
        "4.7,  4.7, a value of the series",
        "8.21, 10,  above the last of a decade",
        "118,  120, three digits",
        "0.95, 1,   below one"
    })
    void resistance_roundedUp_isTheNextOfTheSeriesOfIec60063(double ohm, double next, String because) {
        assertEquals(next, Suggestions.nextResistor(ohm), 1e-9, because);
    }

    @ParameterizedTest
    @CsvSource({"1234.5, 2, 1200", "0.01449, 2, 0.014", "-87.6, 1, -90", "0, 3, 0", "999.9, 2, 1000"})
    void value_rounded_keepsItsFirstDigits(double value, int digits, double rounded) {
        assertEquals(rounded, Suggestions.rounded(value, digits), 1e-9);
        assertTrue(Double.isFinite(rounded));
    }
}
