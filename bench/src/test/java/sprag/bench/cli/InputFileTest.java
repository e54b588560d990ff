package sprag.bench.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Whatever stands under the name, the answer comes at once and says what it is. */
class InputFileTest {
    @TempDir
    Path folder;

    private static InputFile.Refused refusal(Path file) {
        return assertTimeoutPreemptively(
                Duration.ofSeconds(30), () -> assertThrows(InputFile.Refused.class, () -> InputFile.bytes(file, 1000)));
    }

    private static void assertSays(String words, Path file) {
        InputFile.Refused refused = refusal(file);
        assertTrue(refused.getMessage().contains(words), refused.getMessage());
        assertTrue(refused.remedy().endsWith("."), refused.remedy());
    }

    @Test
    void fileAtTheLimit_isRead_oneByteMoreIsRefused() throws Exception {
        Path file = folder.resolve("wiring.csv");
        Files.write(file, new byte[1000]);
        assertArrayEquals(new byte[1000], InputFile.bytes(file, 1000));
        Files.write(file, new byte[1001]);
        assertSays("has 1001 bytes; at most 1000 are read", file);
    }

    @Test
    void folderAndMissingFile_sayWhatTheyAre() {
        assertSays("is a folder", folder);
        assertSays("does not exist", folder.resolve("no.csv"));
        assertFalse(InputFile.isThere(folder.resolve("no.csv")));
    }

    @Test
    void linkThatLeadsNowhereOrInARing_isThere_andIsRefused() throws Exception {
        Path nowhere = Files.createSymbolicLink(folder.resolve("a"), folder.resolve("no.csv"));
        Path ring = Files.createSymbolicLink(folder.resolve("b"), folder.resolve("c"));
        Files.createSymbolicLink(folder.resolve("c"), ring);
        assertTrue(InputFile.isThere(nowhere) && InputFile.isThere(ring));
        assertSays("is a link that leads to no file", nowhere);
        assertSays("is a link that leads to no file", ring);
    }

    @Test
    void endlessDevice_isRefused() throws Exception {
        Path zero = Path.of("/dev/zero");
        assumeTrue(Files.exists(zero), "this system has no such device");
        assertSays("is a device or a pipe", Files.createSymbolicLink(folder.resolve("wiring.csv"), zero));
    }

    @Test
    void pipeThatNobodyWrites_isRefused() throws Exception {
        Path pipe = folder.resolve("parts.csv");
        assumeTrue(Files.isExecutable(Path.of("/usr/bin/mkfifo")), "this system makes no pipes");
        assertEquals(
                0,
                new ProcessBuilder("/usr/bin/mkfifo", pipe.toString()).start().waitFor());
        assertSays("is a device or a pipe", pipe);
    }
}
