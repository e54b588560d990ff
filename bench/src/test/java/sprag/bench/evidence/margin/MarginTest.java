package sprag.bench.evidence.margin;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.Sprag;
import sprag.bench.cli.ExitCode;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.FrameColumns;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioReader;
import sprag.bench.scenario.ScenarioRun;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Tolerance;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Parameter;

/** Cars of one drawing: what they are made of, and that each can be played alone. */
class MarginTest {
    private static final Path CONFIG = Path.of("..", "config").toAbsolutePath().normalize();
    private static Vehicle van;

    /** A start, and a limit for it. */
    private static final String START = """
            [about]
            title = "A start"
            why = "The bus must be charged in time."
            duration_s = 4

            [[do]]
            at_s = 0.1
            set = { key = 1 }

            [[do]]
            name = "start"
            at_s = 0.5
            set = { brake = 0.3, direction = 1, start = 1 }

            [[expect]]
            text = "ready"
            state = "DRIVE_ENABLE"
            within_ms = %d
            after = "start"

            [[expect]]
            text = "nothing goes wrong"
            state = "FAULT"
            never = true
            """;

    @TempDir
    Path folder;

    @BeforeAll
    static void readVan() throws Exception {
        van = VehicleReader.read(CONFIG.resolve("vehicles/parcel-van"));
    }

    private Path start(int withinMs) throws Exception {
        return Files.writeString(folder.resolve("start.toml"), START.formatted(withinMs));
    }

    private Scenario scenario(Path file) throws Exception {
        return ScenarioReader.read(file, FrameColumns.VOCABULARY, van);
    }

    private Played played(Scenario scenario, int cars) {
        return Played.of(scenario, new Fleet(van, 1, cars), done -> {}, () -> false);
    }

    @Test
    void worstCar_playedAloneFromItsFile_givesTheSameFiguresToTheLastBit() throws Exception {
        Played played = played(scenario(start(1560)), 12);
        Spread spread = played.spreads().get(0);
        Path file = Files.writeString(
                folder.resolve("worst.toml"),
                WorstCar.scenario(played.scenario(), played.fleet(), spread.worst(), "the worst"));
        Scenario alone = scenario(file);
        ClosedLoop loop = ClosedLoop.on(alone.on(van), null, alone.seed());
        RunResult result = new ScenarioRun(alone, loop).play("van", (step, ms) -> {}, List.of(), () -> false);
        assertEquals(played.cars().get(spread.worst()), Verdicts.of(result));
        assertEquals(spread.quantile(0), result.judged().get(0).verdict().margin());
    }

    @Test
    void cars_ofAFleet_stayWithinTheirTolerances_andTheSupervisorIsTheSame() {
        Fleet fleet = new Fleet(van, 1, 50);
        double drawnOhm = van.get(CarParameter.PARTS_PRECHARGE_OHM);
        for (int car = 0; car < fleet.size(); car++) {
            Map<CarParameter, Double> rows = fleet.rows(car);
            assertEquals(drawnOhm, rows.get(CarParameter.PARTS_PRECHARGE_OHM), 0.05 * drawnOhm + 1e-9);
            assertEquals(0.55, rows.get(CarParameter.CELLS_START_SHARE), 0.35 + 1e-9);
            assertTrue(
                    rows.get(CarParameter.CELLS_CAPACITY_AH) >= 0.8 * van.get(CarParameter.CELLS_CAPACITY_AH) - 1e-9);
            assertEquals(van.settings(), van.withCar(rows).settings());
        }
    }

    private Vehicle vanWith(String name, String tolerances) throws Exception {
        Path own = Files.createDirectory(folder.resolve(name));
        String text = Files.readString(CONFIG.resolve("vehicles/parcel-van/vehicle.toml"));
        Files.writeString(own.resolve("vehicle.toml"), text + "\n[tolerance]\n" + tolerances);
        return VehicleReader.read(own);
    }

    @Test
    void car_withEveryToleranceAtNothing_isTheDrawingItself() throws Exception {
        String nothing = Arrays.stream(Tolerance.values())
                .filter(key -> key.min() == 0 && !key.key().contains("charge_"))
                .map(key -> key.key().replace("tolerance.", "") + " = 0\n")
                .collect(Collectors.joining());
        Vehicle exact = vanWith("exact", nothing);
        Set<CarParameter> chosenByTheDay =
                Set.of(CarParameter.DAY_AMBIENT_C, CarParameter.CELLS_START_SHARE, CarParameter.LV_START_SHARE);
        new Fleet(exact, 1, 3).rows(2).forEach((row, value) -> {
            if (!chosenByTheDay.contains(row)) {
                assertEquals(exact.get(row), value, row.key());
            }
        });
    }

    @Test
    void carsThatNeverStart_haveNoMargin_andTheWordsSayOfHowManyCarsTheySpeak() throws Exception {
        Vehicle leaning = vanWith("leaning", "pedal_v = 0.2\n");
        Played played = Played.of(scenario(start(3000)), new Fleet(leaning, 1, 120), done -> {}, () -> false);
        Spread spread = played.spreads().get(0);
        int missed = 120 - spread.met().count();
        assertTrue(missed > 0 && spread.margins().length == 120 - missed, missed + " cars miss it");
        String words = MarginText.figures(spread);
        assertTrue(
                words.startsWith(missed + " cars miss it; of the " + (120 - missed) + " that have a margin: "), words);
        assertFalse(words.contains("of the cars below"), words);
        assertTrue(spread.whyMissed().contains("pedal track explains"), spread.whyMissed());
        assertEquals(Set.of(Factor.values()), spread.misses().keySet());
    }

    @Test
    void marginThatIsTheSameOnEveryCar_isToldOnce_andNoCarIsBelowIt() throws Exception {
        Path file = Files.writeString(folder.resolve("dead.toml"), START.formatted(3000) + """

                [[expect]]
                text = "nothing arcs"
                quantity = "contactor_arc_j"
                at_most = 1
                always = true
                """);
        Spread spread = played(scenario(file), 4).spreads().get(2);
        assertEquals("margin 1 J on every car; as drawn 1 J", MarginText.figures(spread));
        assertEquals("", spread.whyMissed(), "all cars meet it");
    }

    @Test
    void timeToReady_dependsOnTheCapacitanceMost_andMoreOfItIsWorse() throws Exception {
        Spread spread = played(scenario(start(3000)), 150).spreads().get(0);
        assertEquals(Factor.CAPACITANCE, spread.strongest().get(0), spread.why());
        assertTrue(spread.influences().get(Factor.CAPACITANCE).rank() < -0.8, spread.why());
        assertTrue(spread.why().contains("more of it, less margin"), spread.why());
        assertTrue(spread.met().count() == 150 && spread.quantile(0) < spread.quantile(0.5), spread.why());
    }

    @Test
    void fewCars_tellNoToleranceThatMatters_andSaySo() throws Exception {
        Spread spread = played(scenario(start(3000)), 60).spreads().get(0);
        assertEquals(List.of(), spread.strongest());
        assertEquals("60 cars are too few to tell what matters", spread.why());
    }

    @Test
    void aLimitThatSomeCarsMiss_givesAShareBelowAll_andAFinding() throws Exception {
        StringWriter out = new StringWriter();
        int status = Sprag.commandLineFor("margin")
                .setOut(new PrintWriter(out))
                .execute(
                        "margin",
                        CONFIG.resolve("vehicles/parcel-van").toString(),
                        start(1560).toString(),
                        "--cars",
                        "100",
                        "--json",
                        "--out",
                        folder.resolve("o").toString());
        JsonNode scenario = new ObjectMapper().readTree(out.toString()).at("/scenarios/0");
        double share = scenario.at("/share").asDouble();
        assertEquals(ExitCode.FINDING, status);
        assertTrue(share > 0 && share < 1, out.toString());
        assertTrue(scenario.at("/share_low_95").asDouble() < share
                && share < scenario.at("/share_high_95").asDouble());
        assertTrue(scenario.at("/expectations/0/quantiles/0.0").asDouble() < 0, out.toString());
        String page = Files.readString(folder.resolve("o/margin.html"));
        assertTrue(page.contains("start.worst-1.toml") && page.contains("the bus capacitance"), page);
        assertTrue(Files.exists(folder.resolve("o/start.worst-1.toml")));
    }

    private int margin(StringWriter err, String... words) throws Exception {
        List<String> all = new ArrayList<>(List.of(
                "margin",
                CONFIG.resolve("vehicles/parcel-van").toString(),
                start(1560).toString()));
        all.addAll(List.of(words));
        return Sprag.commandLineFor("margin")
                .setOut(new PrintWriter(new StringWriter()))
                .setErr(new PrintWriter(err, true))
                .execute(all.toArray(String[]::new));
    }

    private String folder(String name) {
        return folder.resolve(name).toString();
    }

    private JsonNode result(String name) throws Exception {
        ObjectNode node = (ObjectNode) new ObjectMapper()
                .readTree(Files.readString(folder.resolve(name).resolve("margin.json")));
        return node.without(List.of("written_to"));
    }

    @Test
    void shares_joined_areTheWholeToTheLastBit() throws Exception {
        StringWriter err = new StringWriter();
        assertEquals(ExitCode.FINDING, margin(err, "--cars", "7", "--seed", "5", "--out", folder("all")));
        assertEquals(
                ExitCode.WELL,
                margin(err, "--cars", "7", "--seed", "5", "--shard", "1/2", "--out", folder("a")),
                "a share judges nothing");
        assertEquals(ExitCode.WELL, margin(err, "--cars", "7", "--seed", "5", "--shard", "2/2", "--out", folder("b")));
        assertEquals(
                ExitCode.FINDING,
                margin(err, "--out", folder("both"), "--merge", folder("b"), folder("a")),
                err.toString());
        assertEquals(result("all"), result("both"));
        assertEquals("", err.toString());
    }

    @Test
    void sharesThatAreNoWhole_areRefused_eachWithWhatIsWrong() throws Exception {
        StringWriter err = new StringWriter();
        margin(err, "--cars", "4", "--shard", "1/2", "--out", folder("a"));
        margin(err, "--cars", "4", "--shard", "2/2", "--seed", "3", "--out", folder("foreign"));
        assertEquals("", err.toString());
        assertEquals(ExitCode.USAGE, margin(err, "--merge", folder("a"), folder("foreign")));
        assertTrue(err.toString().contains("share 2/2 is of seed 3, 4 cars, not of seed 1"), err.toString());
        assertTrue(err.toString().contains("share 2/2 is missing"), err.toString());
        assertEquals(ExitCode.USAGE, margin(err, "--merge", folder("a"), folder("a")));
        assertTrue(err.toString().contains("share 1/2 is there twice"), err.toString());
        assertEquals(ExitCode.USAGE, margin(err, "--merge", folder("nothing")));
        assertTrue(err.toString().contains("is not there"), err.toString());
        Path file = folder.resolve("a").resolve(CarShare.NAME);
        String text = Files.readString(file);
        Files.writeString(file, text.replaceFirst("\\{\"car\":2", "{\"car\":3"));
        assertEquals(ExitCode.USAGE, margin(err, "--merge", folder("a")));
        assertTrue(err.toString().contains("share 1/2 is not whole, or is damaged: 2 of its 2 runs"), err.toString());
        for (String damaged :
                List.of("", "{}", "[", text.substring(0, 400), text.replace("\"of\":2", "\"of\":999999999"))) {
            Files.writeString(file, damaged);
            assertEquals(ExitCode.USAGE, margin(err, "--merge", folder("a")), damaged);
        }
        assertTrue(
                err.toString().replaceAll("\\s+", " ").contains("is no share of margin, or is damaged"),
                err.toString());
        assertFalse(err.toString().contains("xception"), err.toString());
    }

    @ParameterizedTest
    @ValueSource(strings = {"0/2", "3/2", "1", "1/2/3", "-1/2", "1/1001", "9999999/9999999"})
    void shardThatIsNone_isRefused(String shard) throws Exception {
        StringWriter err = new StringWriter();
        assertEquals(ExitCode.USAGE, margin(err, "--shard", shard));
        assertTrue(err.toString().contains("is not I/N"), err.toString());
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource({
        "--limits --faults,          --limits and --faults cannot be used together",
        "--faults,                   name no scenario with it",
        "--only pack,                use it with --faults",
        "--shard 1/2 --merge other,  --shard and --merge cannot be used together",
        "--shard 1/2 --limits,       cannot be used with --limits or --faults",
        "--limits --merge other,     cannot be used with --limits or --faults"
    })
    void optionsThatContradict_areRefused_andBothNamed(String options, String why) throws Exception {
        StringWriter err = new StringWriter();
        assertEquals(ExitCode.USAGE, margin(err, options.split(" ")));
        assertTrue(err.toString().replaceAll("\\s+", " ").contains(why), err.toString());
    }

    @Test
    void aScenarioOfOneCar_isRefused_withTheRemedy() throws Exception {
        Path file = Files.writeString(
                folder.resolve("one.toml"), START.formatted(900) + "\n[car.parts]\nprecharge_ohm = 49\n");
        StringWriter err = new StringWriter();
        int status = Sprag.commandLineFor("margin")
                .setErr(new PrintWriter(err))
                .execute("margin", CONFIG.resolve("vehicles/parcel-van").toString(), file.toString());
        assertEquals(ExitCode.USAGE, status);
        assertTrue(err.toString().contains("Play it with run"), err.toString());
    }

    @Test
    void carOfAScenario_outsideItsRange_orUnknown_isNamed() throws Exception {
        Path file = Files.writeString(
                folder.resolve("bad.toml"),
                START.formatted(900) + "\n[car.parts]\nprecharge_ohm = 0\nprecharge_om = 3\n\n[car]\nseed = 1.5e300\n");
        StringWriter err = new StringWriter();
        Sprag.commandLineFor("run")
                .setErr(new PrintWriter(err))
                .execute("run", CONFIG.resolve("vehicles/parcel-van").toString(), file.toString());
        assertTrue(err.toString().contains("car.parts.precharge_ohm = 0"), err.toString());
        assertTrue(err.toString().contains("precharge_om is not a known key"), err.toString());
        assertTrue(err.toString().contains("car.seed"), err.toString());
        assertFalse(err.toString().contains("xception"), err.toString());
    }

    @Test
    void sensorThatLeans_readsSo_andADayThatIsCold_coolsEveryPart() {
        Vehicle leaning = van.withCar(Map.of(
                CarParameter.SENSORS_PACK_SHARE,
                0.1,
                CarParameter.SENSORS_NOISE,
                0.0,
                CarParameter.DAY_AMBIENT_C,
                4.0));
        ClosedLoop loop = new ClosedLoop(leaning, 1);
        loop.tick();
        loop.tick();
        double truthV = loop.car().truth(sprag.bench.car.Quantity.PACK_VOLTAGE_V);
        double readV = loop.readings().get(sprag.supervisor.vocabulary.Signal.PACK_VOLTAGE_V);
        assertEquals(1.1, readV / truthV, 0.001);
        assertEquals(4, loop.car().truth(sprag.bench.car.Quantity.PACK_TEMP_C), 0.5);
    }

    @Test
    void timeLimit_belowWhatSoundCarsNeed_givesFalseAlarms_andFarAboveNone() throws Exception {
        Fleet fleet = new Fleet(van.with(Parameter.PRECHARGE_TIMEOUT_MS, 700), 1, 6);
        LimitCurve curve = LimitCurve.of(Limit.TIMEOUT, scenario(start(3000)), fleet, done -> {}, () -> false);
        LimitCurve.Point shortest = curve.points().get(0);
        LimitCurve.Point longest = curve.points().get(curve.points().size() - 1);
        assertTrue(shortest.alarms().count() > 0, curve.words());
        assertEquals(0, longest.alarms().count(), curve.words());
        assertTrue(longest.value() >= 2 * 700 && longest.noticed().count() == 6, curve.words());
    }

    /** Pedals that lean so far that some cars never start say nothing about the time of a precharge. */
    @Test
    void carsThatNeverGetThrough_forAnotherReason_areLeftOutOfALimit() throws Exception {
        Fleet fleet = new Fleet(vanWith("leaning", "pedal_v = 0.2\n"), 1, 8);
        LimitCurve curve = LimitCurve.of(Limit.TIMEOUT, scenario(start(3000)), fleet, done -> {}, () -> false);
        LimitCurve.Point longest = curve.points().get(curve.points().size() - 1);
        assertTrue(curve.aside() > 0 && curve.aside() < 8, curve.words());
        assertEquals(new Share(0, 8 - curve.aside()), longest.alarms(), curve.words());
        assertTrue(curve.words().startsWith(curve.aside() + " cars do not get through with any value"), curve.words());
    }

    @Test
    void aLimit_ofCarsOfWhichNoneStarts_isNotJudged() throws Exception {
        Fleet fleet = new Fleet(van, 1, 2);
        LimitCurve curve = LimitCurve.of(Limit.STALL, scenario(start(100)), fleet, done -> {}, () -> false);
        assertEquals(2, curve.aside());
        assertTrue(curve.words().startsWith("no car gets through"), curve.words());
        assertEquals("", curve.proposal());
    }

    @Test
    void waitingTime_madeLonger_isNoticedLater() throws Exception {
        Fleet fleet = new Fleet(van, 1, 2);
        LimitCurve curve = LimitCurve.of(Limit.STALL, scenario(start(3000)), fleet, done -> {}, () -> false);
        for (int i = 1; i < curve.points().size(); i++) {
            LimitCurve.Point before = curve.points().get(i - 1);
            LimitCurve.Point point = curve.points().get(i);
            assertTrue(!(point.medianMs() < before.medianMs()), curve.points().toString());
        }
        assertEquals(van.get(Parameter.PRECHARGE_STALL_MS), curve.now().value());
    }

    @Test
    void values_ofEveryLimit_areAllowedAndHoldThePresentOne() {
        for (Limit limit : Limit.values()) {
            java.util.List<Double> values = limit.values(van);
            assertTrue(values.contains(van.get(limit.parameter)), limit + " " + values);
            values.forEach(value ->
                    assertEquals(value, van.with(limit.parameter, value).get(limit.parameter)));
            assertTrue(LimitTrial.canBeTried(limit, van), limit + " needs " + limit.fault);
        }
    }
}
