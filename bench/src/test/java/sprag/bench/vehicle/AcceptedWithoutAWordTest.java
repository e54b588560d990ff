package sprag.bench.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.supervisor.vocabulary.Parameter;

/** Values that contradict themselves and were once taken as they stood. */
class AcceptedWithoutAWordTest {
    private static final Path VAN = Path.of("..", "config", "vehicles", "parcel-van", "vehicle.toml");

    @TempDir
    Path folder;

    /** Coefficients for kilohm instead of ohm, or one of three, or of another part; then those of the 10 kohm part. */
    @ParameterizedTest(name = "{arguments}")
    @CsvSource({
        "0.00113, 0, 0, false",
        "0.001129148, 0.000234125, 0, false",
        "0.00277, 0.000252, 3.3e-7, false",
        "0.001129148, 0.000234125, 8.76741e-8, true"
    })
    void thermistorCoefficients_thatDoNotMeet25DegreesAtR25_areRefused(String a, String b, String c, boolean fits)
            throws Exception {
        String text = Files.readString(VAN)
                + "%n[thermistor]%nsteinhart_a = %s%nsteinhart_b = %s%nsteinhart_c = %s%n".formatted(a, b, c);
        assertFalse(Files.readString(VAN).contains("[thermistor]"), "the shipped van has a section of its own now");
        Files.writeString(folder.resolve("vehicle.toml"), text);
        if (fits) {
            assertEquals(0.000234125, VehicleReader.read(folder).get(Parameter.THERMISTOR_STEINHART_B), 0);
        } else {
            BadInput refused = assertThrows(BadInput.class, () -> VehicleReader.read(folder));
            assertTrue(refused.getMessage().contains("thermistor.steinhart_a"), refused.getMessage());
        }
    }

    @ParameterizedTest(name = "{0} -> {1}")
    @CsvSource(delimiter = '|', quoteCharacter = '~', textBlock = """
        "pedal_b_v", | "pedal_b_v", "pedal_b_v", | holds "pedal_b_v" twice
        "pedal_b_v", | "pedal_b_v", "coolant_temp_v", | cooling = "air" has no coolant
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
