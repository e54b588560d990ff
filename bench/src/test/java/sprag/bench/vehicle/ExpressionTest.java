package sprag.bench.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.supervisor.vocabulary.Parameter;

/** Numbers that a scenario works out from the vehicle. */
class ExpressionTest {
    private static final Path VAN = Path.of("..", "config", "vehicles", "parcel-van");

    private static Figures figures() throws BadInput {
        return Figures.of(VehicleReader.read(VAN).with(Parameter.DRIVE_MAX_KPH, 14));
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(delimiter = '|', textBlock = """
        1 + 2 * 3                         | 7     | products before sums
        (1 + 2) * 3                       | 9     | brackets first
        8 / 4 / 2                         | 1     | from the left
        1 - 2 - 3                         | -4    | from the left
        -2 * -(1 + 0.5)                   | 3     | signs
        min(15, 0.8 * drive.max_kph)      | 11.2  | a car of 14 km/h
        max(15, drive.max_kph)            | 15    | the greater
        min(1, max(2, 3)) + half          | 1.5   | nested, and a name of the file's own
        charger.1_max_w                   | 3300  | a digit in a name
        """)
    void expression_isWorkedOutByTheRulesOfArithmetic(String text, double value, String because) throws BadInput {
        Figures figures = figures();
        figures.name("half", 0.5);
        assertEquals(value, figures.value(text), 1e-9, because);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(delimiter = '|', quoteCharacter = '~', textBlock = """
        ~~                | At letter 1, its end, a number, a name or a bracket was expected
        1 +               | its end, a number
        (1                | its end, ")" was expected
        min(1)            | ")", "," was expected
        1 2               | "2", an operator was expected
        1 / 0             | no finite value
        drive.max_kmh     | "drive.max_kmh" is no number of vehicle.toml. Did you mean drive.max_kph?
        motor.kind        | is no number of vehicle.toml
        2 ^ 3             | "^", an operator was expected
        """)
    void wrongExpression_saysWhereAndWhat(String text, String says) throws BadInput {
        Figures figures = figures();
        String said = assertThrows(IllegalArgumentException.class, () -> figures.value(text))
                .getMessage();
        assertTrue(said.contains(says), said);
        assertTrue(said.matches("(?s).*[.?]"), said);
    }

    @Test
    void tooLongOrWithoutAVehicle_isRefused() throws BadInput {
        Figures figures = figures();
        assertThrows(IllegalArgumentException.class, () -> figures.value("(".repeat(100_000)));
        String said = assertThrows(
                        IllegalArgumentException.class, () -> Figures.none().value("1"))
                .getMessage();
        assertTrue(said.contains("none is given"), said);
    }
}
