package sprag.bench.evidence.prove;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.TypingTest;
import sprag.bench.evidence.prove.export.Export;
import sprag.bench.evidence.prove.export.PromelaModel;
import sprag.bench.evidence.prove.export.StateGraph;
import sprag.bench.evidence.prove.promise.HistoryPromise;
import sprag.bench.evidence.prove.promise.Promise;
import sprag.bench.evidence.prove.promise.Tick;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.State;

class ExportTest extends TypingTest {
    private static final Set<String> HISTORIES =
            Stream.of(HistoryPromise.values()).map(Enum::name).collect(Collectors.toSet());

    /** The yard cart at the longest tick: fewer ticks in each wait, so fewer states. */
    static Settings cart() throws Exception {
        return Shipped.vehicle("yard-cart").with(Parameter.LOOP_TICK_MS, 50);
    }

    private static StateGraph graph(Set<Interlock> without) throws Exception {
        Settings settings = cart();
        return StateGraph.explore(new Tick(settings, settings, without, false), 1_000_000, () -> false, done -> {})
                .orElseThrow();
    }

    private static LabelledSystem readBack(Set<Interlock> without) throws Exception {
        StringBuilder text = new StringBuilder();
        graph(without).write(text, done -> {});
        return new LabelledSystem(text.toString().lines());
    }

    @Test
    void graph_readBack_hasTheStatesOfTheProofAllReachableAndNoneIsTheEnd() throws Exception {
        LabelledSystem read = readBack(Set.of());

        assertEquals(new Prover(cart()).ignoring(HISTORIES).prove().states(), read.from.size());
        assertTrue(Arrays.stream(read.distances()).allMatch(steps -> steps >= 0), "every state can be reached");
        assertTrue(read.from.stream().noneMatch(List::isEmpty), "Logic can always go on");
        assertEquals(Map.of(), read.breaks());
        for (List<LabelledSystem.Way> ways : read.from) {
            Set<String> labels = ways.stream().map(LabelledSystem.Way::label).collect(Collectors.toSet());
            assertEquals(ways.size(), labels.size(), "one decision is one line: " + ways);
        }
    }

    @ParameterizedTest(name = "without {0}")
    @CsvSource({"PLUG_PRESENT", "BRAKE_NOT_PRESSED", "CUT_LOOP_OPEN", "PEDAL_WITH_BRAKE", "POSITIVE_WELD_FOUND"})
    void graph_interlockLeftOut_breaksWhatTheProverBreaksAsShortly(Interlock row) throws Exception {
        Map<String, Integer> proved = new TreeMap<>();
        Prover prover = new Prover(cart()).ignoring(HISTORIES).without(EnumSet.of(row));
        for (Proof.Verdict verdict : prover.prove().broken()) {
            proved.put(verdict.id(), verdict.story().orElseThrow().ticks().size());
        }
        assertFalse(proved.isEmpty(), "something must break");
        assertEquals(proved, readBack(EnumSet.of(row)).breaks());
    }

    @Test
    void graph_tooManyStatesOrStopped_isNotGiven() throws Exception {
        Settings settings = cart();
        Tick tick = new Tick(settings, settings, Set.of(), false);
        assertEquals(Optional.empty(), StateGraph.explore(tick, 10, () -> false, done -> {}));
        assertEquals(Optional.empty(), StateGraph.explore(tick, 1_000_000, () -> true, done -> {}));
    }

    /** Each promise stands in the model, or in the list of those that do not; and nothing else does. */
    @Test
    void model_written_statesEveryPromiseOrSaysWhyNot() throws Exception {
        String model = PromelaModel.of("any", cart(), cart(), Set.of());
        Set<String> promises = Stream.concat(Stream.of(Promise.values()), Stream.of(HistoryPromise.values()))
                .map(Enum::name)
                .collect(Collectors.toCollection(TreeSet::new));
        Set<String> stated = new TreeSet<>(PromiseLines.of(model).values());
        assertEquals(new HashSet<>(), intersection(stated, PromelaModel.NOT_STATED.keySet()));
        stated.addAll(PromelaModel.NOT_STATED.keySet());
        assertEquals(promises, stated);
        String document = Files.readString(Path.of("../docs/prove.md"));
        PromelaModel.NOT_STATED.forEach((name, why) -> assertTrue(document.contains("`" + name + "`: " + why), name));
    }

    private static Set<String> intersection(Set<String> one, Set<String> other) {
        Set<String> both = new HashSet<>(one);
        both.retainAll(other);
        return both;
    }

    @Test
    void model_written_asksTheRowsOfEachStateInTheirOrder() throws Exception {
        List<String> model = PromelaModel.of("any", cart(), cart(), EnumSet.of(Interlock.CRASH_SEEN))
                .lines()
                .toList();
        for (State state : State.values()) {
            int from = model.indexOf("    :: state == " + state + " ->");
            List<String> asked = model.subList(from + 1, model.size()).stream()
                    .takeWhile(line -> line.contains("(") && line.contains("/*"))
                    .map(line -> line.replaceAll(".*/\\* (.*) \\*/", "$1"))
                    .toList();
            List<String> rows = Stream.of(Interlock.values())
                    .filter(row -> row.where.contains(state) && row.cause.isFact() && row.response != Response.WARN)
                    .filter(row -> row != Interlock.CRASH_SEEN)
                    .map(Interlock::id)
                    .toList();
            assertEquals(rows, asked, state.name());
        }
        for (Fact fact : Fact.values()) {
            String name = fact.name().toLowerCase(Locale.ROOT);
            assertTrue(model.stream().anyMatch(line -> line.startsWith("unsigned " + name + " : 2")), name);
        }
    }

    @Test
    void model_vehicleNameEndsAComment_isHarmless() throws Exception {
        String model = PromelaModel.of("a */ b\n#include", cart(), cart(), Set.of());
        assertTrue(
                model.lines().skip(1).findFirst().orElseThrow().contains("a * / b #include"), model.substring(0, 200));
    }

    /** The van with the flawed wiring is the parcel van to Logic: what SPIN says of one, it says of the other. */
    @Test
    void flawedVan_hasTheModelOfTheParcelVan() throws Exception {
        Settings van = Shipped.vehicle("parcel-van");
        Settings flawed = Shipped.vehicle("flawed-van");
        assertEquals(PromelaModel.of("van", van, van, Set.of()), PromelaModel.of("van", flawed, flawed, Set.of()));
    }

    @Test
    void command_exportTooLarge_modelIsWrittenAndTheGraphIsSaidToBeMissing(@TempDir Path folder) throws Exception {
        Files.writeString(folder.resolve(Export.GRAPH), "of another day");
        assertEquals(
                1, sprag("prove", "../config/vehicles/yard-cart", "--max-states", "10", "--export", folder.toString()));
        assertTrue(out.toString().contains("no logic.aut: not every state was visited"), out.toString());
        assertTrue(Files.exists(folder.resolve(Export.MODEL)) && Files.notExists(folder.resolve(Export.GRAPH)));
    }
}
