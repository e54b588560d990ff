package sprag.bench.port.equal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.port.tool.Tool;
import sprag.bench.port.translate.SharedTranslation;
import sprag.bench.port.translate.Translation;
import sprag.bench.run.ScenarioFiles;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** Java and C side by side. {@code -Dport.mutants=N} plants so many mistakes instead of a few. */
class EqualityTest {
    private static final Catalogue CATALOGUE = Catalogue.installed();
    private static final List<String> SOME =
            List.of("drive-and-stop", "charge-plug-pulled", "plugged-in-while-driving", "reverse", "data-bus-cut");
    private static final int MUTANTS = Integer.getInteger("port.mutants", 6);
    /** The least share of planted mistakes that must be found. Of a few, more may be such that change nothing. */
    private static final double LEAST_FOUND = MUTANTS < 50 ? 0.5 : 0.85;

    @TempDir
    static Path folder;

    private static Vehicle vehicle;
    private static Equality equality;

    @BeforeAll
    static void compile() throws Exception {
        assumeTrue(Tool.GCC.find().isPresent(), Tool.GCC.missing());
        vehicle = VehicleReader.read(CATALOGUE.vehicle("parcel-van"));
        equality = new Equality(SharedTranslation.whole(), vehicle, folder);
    }

    private static List<Scenario> scenarios(Vehicle vehicle, List<String> names) throws Exception {
        return new ScenarioFiles(CATALOGUE, vehicle).take(names);
    }

    @Test
    void scenariosAndTheWholeLogic_inC_areAsInJava() throws Exception {
        Equality.Compared compared =
                equality.compare(scenarios(vehicle, SOME), new Equality.Amount(2, 20_000), name -> {});
        assertTrue(compared.ticks() > 10_000, compared.toString());
        assertTrue(compared.transitions() > 50_000, compared.toString());
        assertTrue(compared.remembered() > 300, compared.toString());
    }

    /** A switch that is not quite on is on once it is rounded: that must be seen, and the reading named. */
    @Test
    void singlePrecision_decidesAsDouble_butWhereALimitIsNear(@TempDir Path folder) throws Exception {
        Twin rounded = Twin.compile(new Translation(CATALOGUE.home(), true), vehicle.settings(), folder);
        List<Batch> drive = new ArrayList<>();
        new Material(vehicle, rounded.cells(), drive::add)
                .play(scenarios(vehicle, SOME).get(0), 0);
        try (HostProgram program = HostProgram.start(folder)) {
            SinglePrecision single = new SinglePrecision(rounded, program);
            drive.forEach(single::take);
            assertEquals(List.of(), single.differences());
            single.most().forEach((output, away) -> assertTrue(away <= Equality.Rounded.bound(output), output.key()));
            Supervisor supervisor = new Supervisor(vehicle.settings());
            BatchMaker maker = new BatchMaker("a drive", supervisor, rounded.cells(), single::take);
            Readings in = new Readings();
            Commands out = new Commands();
            for (int tick = 0; tick < 1000; tick++) {
                Batch batch = drive.get(tick / BatchMaker.TICKS);
                for (Signal signal : Signal.values()) {
                    in.set(signal, batch.readings()[tick % BatchMaker.TICKS * Signal.COUNT + signal.ordinal()]);
                }
                if (tick >= 900) {
                    in.set(Signal.BRAKE_PRESSED, Math.nextDown(1.0));
                }
                supervisor.step(tick, in, out);
                maker.ticked(tick, in, out);
            }
            maker.flush();
            List<SinglePrecision.Difference> found = single.differences();
            assertTrue(found.toString().contains("tick 900: "), found.toString());
            assertTrue(found.get(0).limit().orElse("none").contains("brake_pressed = 0.99999"), found.toString());
        }
    }

    /** Half of the mistakes show only where a vehicle has what the others lack, so there are vehicles of all kinds. */
    @Test
    void plantedMistakes_areFound() throws Exception {
        MutantHunt hunt = new MutantHunt();
        hunt.add(equality, scenarios(vehicle, SOME), MUTANTS < 50 ? 2_000 : 20_000);
        if (MUTANTS >= 50) {
            for (String name : List.of("coupe", "yard-cart")) {
                Vehicle other = VehicleReader.read(CATALOGUE.vehicle(name));
                Equality its = new Equality(SharedTranslation.whole(), other, folder.resolve(name));
                hunt.add(its, scenarios(other, List.of("drive-and-stop", "reverse")), 20_000);
            }
            for (long seed = 1; seed <= 6; seed++) {
                Settings any = anySettings(seed);
                hunt.add(Twin.compile(SharedTranslation.whole(), any, folder.resolve("any" + seed)), 20_000);
            }
        }
        assertEquals(Optional.empty(), hunt.sound());
        List<String> undetected = hunt.undetected(
                MUTANTS,
                17,
                Pattern.compile(System.getProperty("port.mutants.like", "")).asPredicate());
        assertTrue(undetected.size() <= MUTANTS * (1 - LEAST_FOUND), String.join("\n", undetected));
    }

    /** Values within their ranges and signals that no vehicle has together. */
    private static Settings anySettings(long seed) {
        Random chance = new Random(seed);
        double[] values = new double[Parameter.COUNT];
        for (Parameter parameter : Parameter.values()) {
            double value = vehicle.settings().get(parameter);
            if (!parameter.choices().isEmpty()) {
                value = chance.nextInt(parameter.choices().size());
            } else if (chance.nextInt(8) == 0 && parameter != Parameter.LOOP_TICK_MS && parameter.max() < 1e9) {
                value = parameter.min() + (parameter.max() - parameter.min()) * chance.nextInt(64) / 64;
            } else if (chance.nextInt(3) == 0 && parameter != Parameter.LOOP_TICK_MS) {
                double changed = value * (0.5 + chance.nextDouble());
                value = Math.min(parameter.max(), Math.max(parameter.min(), Math.rint(changed * 8) / 8));
            }
            values[parameter.ordinal()] = value;
        }
        Set<Signal> fitted = EnumSet.allOf(Signal.class);
        fitted.removeIf(signal -> signal.optional && chance.nextInt(3) == 0);
        return Settings.of(values, fitted);
    }
}
