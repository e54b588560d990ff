package sprag.bench.port.equal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.port.tool.Tool;
import sprag.bench.port.translate.SharedTranslation;
import sprag.bench.run.ScenarioFiles;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;

/** Java and C side by side. */
class EqualityTest {
    private static final Catalogue CATALOGUE = Catalogue.installed();
    private static final List<String> SOME =
            List.of("drive-and-stop", "charge-plug-pulled", "plugged-in-while-driving", "reverse", "data-bus-cut");
    private static Vehicle vehicle;
    private static Equality equality;

    @BeforeAll
    static void compile(@TempDir Path folder) throws Exception {
        assumeTrue(Tool.GCC.find().isPresent(), Tool.GCC.missing());
        vehicle = VehicleReader.read(CATALOGUE.vehicle("parcel-van"));
        equality = new Equality(vehicle, SharedTwin.of(vehicle, folder));
    }

    private static List<Scenario> scenarios(Vehicle vehicle, List<String> names) throws Exception {
        return new ScenarioFiles(CATALOGUE, vehicle).take(names);
    }

    @Test
    void scenariosAndTheWholeLogic_inC_areAsInJava() throws Exception {
        Equality.Compared compared = equality.compare(new Plays(scenarios(vehicle, SOME), 2), 20_000, done -> {});
        assertTrue(compared.ticks() > 10_000, compared.toString());
        assertTrue(compared.transitions() > 50_000, compared.toString());
        assertTrue(compared.remembered() > 300, compared.toString());
    }

    /** A switch that is not quite on is on once it is rounded: that must be seen, and the reading named. */
    @Test
    @Tag("long")
    void singlePrecision_decidesAsDouble_butWhereALimitIsNear(@TempDir Path folder) throws Exception {
        Twin rounded = Twin.compile(SharedTranslation.single(), vehicle.settings(), folder);
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
}
