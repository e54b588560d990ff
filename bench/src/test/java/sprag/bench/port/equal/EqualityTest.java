package sprag.bench.port.equal;

import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.port.tool.Tool;
import sprag.bench.port.translate.SharedTranslation;
import sprag.bench.run.ScenarioFiles;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/** Java and C side by side. {@code -Dport.mutants=N} plants so many mistakes instead of a few. */
class EqualityTest {
    private static final Catalogue CATALOGUE = Catalogue.installed();
    private static final List<String> SOME =
            List.of("drive-and-stop", "charge-plug-pulled", "plugged-in-while-driving", "reverse", "data-bus-cut");
    private static final List<String> MORE = List.of(
            "drive-and-stop",
            "charge-plug-pulled",
            "plugged-in-while-driving",
            "reverse",
            "data-bus-cut",
            "inverter-overheats",
            "hill-start",
            "charge-cold-pack",
            "precharge-stalled",
            "heater-without-air",
            "low-voltage-sags",
            "direction-change-while-rolling",
            "pack-warm");
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

    private static List<Scenario> scenarios(List<String> names) throws Exception {
        return new ScenarioFiles(CATALOGUE, vehicle).take(names);
    }

    @Test
    void scenariosAndTheWholeLogic_inC_areAsInJava() throws Exception {
        Equality.Compared compared = equality.compare(scenarios(SOME), 4, name -> {});
        assertTrue(compared.ticks() > 10_000, compared.toString());
        assertTrue(compared.transitions() > 50_000, compared.toString());
        assertTrue(compared.remembered() > 300, compared.toString());
    }

    @Test
    void plantedMistakes_areFound() throws Exception {
        List<String> names = MUTANTS < 50 ? SOME : MORE;
        List<String> undetected = equality.undetected(scenarios(names), MUTANTS, 17);
        assertTrue(undetected.size() <= MUTANTS * (1 - LEAST_FOUND), String.join("\n", undetected));
    }
}
