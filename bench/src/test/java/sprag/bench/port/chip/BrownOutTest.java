package sprag.bench.port.chip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.port.tool.Tool;
import sprag.bench.port.translate.SharedTranslation;
import sprag.bench.port.translate.Translation;

/** The power goes while the example of a board writes its latch, and goes again while it writes after that. */
class BrownOutTest {
    private static final String MAKES_UNSOUND = "place->check = ~check_of(place);";

    /** Compiles the trial with a memory and runs it. */
    private static Tool.Ended trial(Path folder, String memory) throws Exception {
        assumeTrue(Tool.GCC.find().isPresent(), Tool.GCC.missing());
        Map<String, String> files =
                new LinkedHashMap<>(SharedTranslation.whole().code());
        files.put("memory.h", Translation.resource("firmware/memory.h"));
        files.put("memory.c", memory);
        try (InputStream in = BrownOutTest.class.getResourceAsStream("/sprag/bench/port/brown_out.c")) {
            files.put("brown_out.c", new String(in.readAllBytes(), StandardCharsets.UTF_8));
        }
        for (Map.Entry<String, String> file : files.entrySet()) {
            Files.writeString(folder.resolve(file.getKey()), file.getValue());
        }
        compile(
                folder,
                "-std=c99",
                "-O1",
                "-fsanitize=thread",
                "--param=tsan-distinguish-volatile=1",
                "-c",
                "memory.c");
        compile(folder, "-std=c99", "-c", "brown_out.c");
        compile(folder, "memory.o", "brown_out.o", "-o", "brown_out");
        Process process = new ProcessBuilder(folder.resolve("brown_out").toString())
                .redirectErrorStream(true)
                .start();
        String out = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        return new Tool.Ended(process.waitFor(), out);
    }

    private static void compile(Path folder, String... words) {
        Tool.Ended ended = Tool.GCC.run(folder, List.of(words));
        assertEquals(0, ended.status(), ended.out());
    }

    @Test
    void latchIsWritten_powerGoesAtAnyWrite_andAgainAtAnyWriteAfterTheStart_latchStays(@TempDir Path folder)
            throws Exception {
        Tool.Ended told = trial(folder, Translation.resource("firmware/memory.c"));
        assertEquals(0, told.status(), told.out());
        assertTrue(told.out().matches("[4-9]\\d losses of power, 0 latches lost\n"), told.out());
    }

    /** A copy that was unsound when the power went would look sound again for a moment. */
    @Test
    void checksumIsTurnedOverInstead_powerGoesTwice_trialFindsIt(@TempDir Path folder) throws Exception {
        String memory = Translation.resource("firmware/memory.c");
        assertTrue(memory.contains(MAKES_UNSOUND), memory);
        Tool.Ended told = trial(folder, memory.replace(MAKES_UNSOUND, "place->check = ~place->check;"));
        assertEquals(1, told.status(), told.out());
        assertTrue(told.out().contains("a new memory: the latch is lost after 1 and 1 writes"), told.out());
    }
}
