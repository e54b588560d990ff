package sprag.bench.port.equal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
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
import sprag.supervisor.vocabulary.Signal;

/** Comparisons of the C are met where both numbers are equal, and it shows what they make of that. */
class EdgesTest {
    /** Of 271; what one vehicle has not, it does not reach. */
    private static final int LEAST_SHOWN = 150;

    private static final int LEAST_BESIDE = 100;
    private static final int LEAST_STRADDLED = 30;

    @Test
    void comparison_isToldWithBothItsOperands() {
        String code = """
                /* a < b is no code here. */
                bool f(const X *x, double y) {
                    for (int i = 0; i < 3; i++) {
                        g(x->a[sprag_index(i, x->length)] >= (double)y * 2.0,
                                h(i + 1 > 2 || y < 0.0));
                    }
                    return !(y <= x->most) && x->open
                            && fabs(y) > -x->least;
                }
                """;
        String told = """
                #include "edge.h"
                /* a < b is no code here. */
                bool f(const X *x, double y) {
                    for (int i = 0; i < 3; i++) {
                        g(edge_met(0, '>', true, x->a[sprag_index(i, x->length)], (double)y * 2.0),
                                h(edge_met(1, '>', false, i + 1, 2) || edge_met(2, '<', false, y, 0.0)));
                    }
                    return !(edge_met(3, '<', true, y, x->most)) && x->open
                            && edge_met(4, '>', false, fabs(y), -x->least);
                }
                """;
        Edges.Told all = Edges.in(Map.of("some.c", code));
        assertEquals(told, all.code().get("some.c"));
        assertEquals(5, all.edges().size());
        assertEquals("return !(y {<=} x->most) && x->open", all.edges().get(3).words());
    }

    /** Whatever can be planted at a comparison by size has its comparison here. */
    @Test
    void everyComparisonThatCanBeMistaken_isFollowed() throws Exception {
        Map<String, String> code = SharedTranslation.whole().code();
        Set<String> followed = new HashSet<>();
        Edges.in(code).edges().forEach(edge -> followed.add(edge.file() + ": " + edge.words()));
        for (Mutants.Mutant mutant : Mutants.some(code, Integer.MAX_VALUE, 0)) {
            String words = mutant.words().replaceFirst(", \\w+: ", ": ").replaceFirst(", no function: ", ": ");
            if (words.matches(".*\\{[<>]=? made [<>]=?}.*")) {
                String edge = words.replaceFirst("\\{([<>]=?) made [<>]=?}", "{$1}");
                assertTrue(followed.contains(edge), edge);
            }
        }
        assertTrue(followed.size() > 200, followed.size() + " are followed");
    }

    @Test
    @Tag("long")
    void comparisonsOfTheCode_areMetAtEquality_andJavaAgreesThere(@TempDir Path folder) throws Exception {
        assumeTrue(Tool.GCC.find().isPresent(), Tool.GCC.missing());
        Catalogue catalogue = Catalogue.installed();
        Vehicle vehicle = VehicleReader.read(catalogue.vehicle("parcel-van"));
        Twin twin = SharedTwin.of(vehicle, folder.resolve("twin"));
        List<Batch> tape = new ArrayList<>();
        Material material = new Material(vehicle, twin.cells(), tape::add);
        List<String> names = List.of("drive-and-stop", "reverse", "charge-plug-pulled");
        for (Scenario scenario : new ScenarioFiles(catalogue, vehicle).take(names)) {
            material.play(scenario, 0);
        }
        EdgeSearch.Found found =
                EdgeSearch.search(twin, tape, twin.cases(tape, 2_000), Set.of(), folder.resolve("edges"));
        EdgeSearch.Coverage coverage = new EdgeSearch.Coverage();
        coverage.add(found.rows());
        System.out.println(coverage.words());
        assertTrue(coverage.those(EdgeSearch.Row::isShown).size() >= LEAST_SHOWN, coverage.words());
        List<String> straddled = straddled(found.cases());
        System.out.println("readings at a limit and on both sides of it: " + straddled);
        assertTrue(straddled.size() >= LEAST_STRADDLED, straddled.toString());
        assertTrue(coverage.those(row -> row.beside() > 0).size() >= LEAST_BESIDE, coverage.words());
        try (HostProgram program = HostProgram.start(twin.folder())) {
            Comparison comparison = new Comparison(program, twin.cells());
            for (Cases cases : found.cases()) {
                assertEquals(Optional.empty(), comparison.differs(cases));
            }
        }
    }

    /** Readings that are met as they are, and as the next number above and below: which of them the search comes upon is chance. */
    private static List<String> straddled(List<Cases> all) {
        List<String> straddled = new ArrayList<>();
        for (Signal signal : Signal.values()) {
            Set<Double> met = new TreeSet<>();
            for (Cases cases : all) {
                for (int i = 0; i < cases.count(); i++) {
                    met.add(cases.readings()[i * Signal.COUNT + signal.ordinal()]);
                }
            }
            for (double reading : met) {
                boolean both = met.contains(Math.nextUp(reading)) && met.contains(Math.nextDown(reading));
                if (both && Double.isFinite(reading) && !signal.isSwitch()) {
                    straddled.add(signal + " " + reading);
                }
            }
        }
        return straddled;
    }
}
