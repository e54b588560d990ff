package sprag.bench.port.equal;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.port.tool.Tool;
import sprag.bench.port.translate.SharedTranslation;
import sprag.bench.run.ScenarioFiles;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.Transition;

/** What is written is what the supervisor decides, and crosses every way from state to state. */
class VectorsTest {
    @TempDir
    static Path folder;

    private static Vehicle vehicle;
    private static Vectors vectors;

    @BeforeAll
    static void make() throws Exception {
        vehicle = VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
        vectors = new Vectors(vehicle);
        List<String> names = List.of("drive-and-stop", "plugged-in-while-driving");
        List<Integer> done = new ArrayList<>();
        vectors.play(new ScenarioFiles(Catalogue.installed(), vehicle).take(names), done::add);
        assertEquals(IntStream.rangeClosed(1, names.size()).boxed().toList(), done, "whoever waits is told of each");
        vectors.walkLogic();
        VectorFiles.write(vectors, folder);
    }

    @Test
    void everyTransition_isCrossed() {
        assertTrue(
                vectors.crossed().containsAll(Set.of(Transition.values())),
                vectors.crossed().toString());
    }

    /** Another supervisor, fed with what was read back, gives what was written. */
    @Test
    void bytes_readBack_areWhatASupervisorDecides() throws Exception {
        List<Vectors.Sequence> read = VectorFiles.read(folder.resolve("ticks.bin"));
        assertEquals(vectors.sequences().size(), read.size());
        for (Vectors.Sequence sequence : read) {
            Supervisor supervisor = new Supervisor(vehicle.settings());
            Readings in = new Readings();
            Commands out = new Commands();
            double[] decided = new double[sequence.ticks() * Output.COUNT];
            for (int tick = 0; tick < sequence.ticks(); tick++) {
                for (Signal signal : Signal.values()) {
                    in.set(signal, sequence.readings()[tick * Signal.COUNT + signal.ordinal()]);
                }
                supervisor.step(tick, in, out);
                out.copyTo(decided, tick * Output.COUNT);
                assertEquals(sequence.states()[tick], supervisor.state().pack());
            }
            assertArrayEquals(sequence.outputs(), decided);
        }
    }

    @Test
    void text_hasARowForEachTickAndEachBranch() throws Exception {
        int ticks =
                vectors.sequences().stream().mapToInt(Vectors.Sequence::ticks).sum();
        assertEquals(ticks + 1, Files.readAllLines(folder.resolve("ticks.csv")).size());
        assertEquals(
                vectors.logicRows() + 1,
                Files.readAllLines(folder.resolve("logic.csv")).size());
        List<String> wakes = Files.readAllLines(folder.resolve("wake.csv"));
        Supervisor lost = new Supervisor(vehicle.settings());
        lost.wake(1022);
        assertTrue(wakes.contains("1022," + lost.state().pack()), wakes.toString());
    }

    /** Branches of Logic that no vector takes are named with the reason; none of them could be taken. */
    @Test
    @Tag("long")
    void branchesOfLogic_areAllTaken_butForThoseThatCannot() throws Exception {
        assumeTrue(Tool.GCOV.find().isPresent(), Tool.GCOV.missing());
        List<String> words = Coverage.words(
                SharedTranslation.whole(), vehicle, vectors, folder.resolve("counted"), SharedTwin.code());
        assertTrue(words.get(0).matches("1\\d\\d of 1\\d\\d branches of logic.c; the rest:"), words.get(0));
        assertTrue(words.stream().noneMatch(word -> word.contains("NOT CROSSED")), String.join("\n", words));
        assertTrue(words.size() < 20, String.join("\n", words));
    }

    /** What is said to be taken is counted, not believed: without the rows of Logic only what waking up takes is left. */
    @Test
    @Tag("long")
    void branchesOfLogic_withoutItsRows_areToldAsNotCrossed() throws Exception {
        assumeTrue(Tool.GCOV.find().isPresent(), Tool.GCOV.missing());
        Vectors few = new Vectors(vehicle);
        few.play(new ScenarioFiles(Catalogue.installed(), vehicle).take(List.of("drive-and-stop")), done -> {});
        List<String> words =
                Coverage.words(SharedTranslation.whole(), vehicle, few, folder.resolve("few"), SharedTwin.code());
        assertTrue(words.get(0).matches("[1-9] of 1\\d\\d branches of logic.c; the rest:"), words.get(0));
        assertTrue(words.stream().filter(word -> word.contains("NOT CROSSED")).count() > 50, String.join("\n", words));
    }

    /** Some ten seconds more than the build has. */
    @Test
    void vectorsAndAllOfLogic_onTheEmulatedChip_pass() throws Exception {
        assumeTrue(Boolean.getBoolean("port.whole"), "only with -Dport.whole=true");
        assumeTrue(Tool.QEMU.find().isPresent(), Tool.QEMU.missing());
        String told = VectorPlay.onChip(SharedTranslation.whole(), vehicle, vectors, folder.resolve("chip"));
        assertTrue(told.startsWith("on an emulated Cortex-M4F: "), told);
    }
}
