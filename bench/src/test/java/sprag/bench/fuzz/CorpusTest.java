package sprag.bench.fuzz;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Every input that a fuzzer found worth keeping is tried again in each build. */
class CorpusTest {
    private static final Path CORPUS = Path.of("src/test/resources/fuzz");

    private static Set<Path> inputs(FuzzTarget target) throws IOException {
        try (Stream<Path> files = Files.list(CORPUS.resolve(target.corpus()))) {
            return files.collect(Collectors.toCollection(TreeSet::new));
        }
    }

    @ParameterizedTest
    @EnumSource
    void keptInput_triedAgain_isReadOrRefused(FuzzTarget target, @TempDir Path folder) throws IOException {
        Set<Path> inputs = inputs(target);
        assertTrue(inputs.size() >= 3, target + " has " + inputs.size() + " kept inputs");
        for (Path input : inputs) {
            try {
                target.take(folder, Files.readAllBytes(input));
            } catch (RuntimeException | StackOverflowError e) {
                throw new AssertionError(target + " fails on " + input, e);
            }
        }
    }

    @Test
    void corpus_hasAFolderForEachTargetAndNoOther() throws IOException {
        try (Stream<Path> folders = Files.list(CORPUS)) {
            assertEquals(
                    Stream.of(FuzzTarget.values()).map(FuzzTarget::corpus).collect(Collectors.toSet()),
                    folders.map(folder -> folder.getFileName().toString()).collect(Collectors.toSet()));
        }
    }
}
