package sprag.bench.vehicle;

import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Values that contradict themselves and were once taken as they stood. */
class AcceptedWithoutAWordTest {
    private static final Path VAN = Path.of("..", "config", "vehicles", "parcel-van", "vehicle.toml");

    @TempDir
    Path folder;

    @ParameterizedTest(name = "{0} -> {1}")
    @CsvSource(delimiter = '|', quoteCharacter = '~', textBlock = """
        "pedal_b_v", | "pedal_b_v", "pedal_b_v", | holds "pedal_b_v" twice
        point_2_a    | point_1_a                 | point_
        point_2_s    | point_3_s                 | point_
        """)
    void contradiction_isRefusedWithKeyAndRemedy(String one, String other, String says) throws Exception {
        String text = Files.readString(VAN);
        assertTrue(text.contains(one), one);
        String spoilt = one.startsWith("point")
                ? text.replaceAll("\\b" + one + "\\b", "moved")
                        .replaceAll("\\b" + other + "\\b", one)
                        .replace("moved", other)
                : text.replace(one, other);
        Files.writeString(folder.resolve("vehicle.toml"), spoilt);
        BadInput refused = assertThrows(BadInput.class, () -> VehicleReader.read(folder));
        assertTrue(refused.getMessage().contains(says), refused.getMessage());
    }
}
