package sprag.supervisor.vocabulary;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class BoundsTest {
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            A         | B    | LEAST     | GREATEST
            1         | 2    | 1         | 2
            2         | 1    | 1         | 2
            1         | 1    | 1         | 1
            NaN       | 1    | NaN       | NaN
            1         | NaN  | NaN       | NaN
            NaN       | NaN  | NaN       | NaN
            -Infinity | 1    | -Infinity | 1
            Infinity  | 1    | 1         | Infinity
            """)
    void twoValues_asTheLibrarySays(double a, double b, double least, double greatest) {
        assertEquals(least, Bounds.least(a, b));
        assertEquals(greatest, Bounds.greatest(a, b));
        assertEquals(Math.min(a, b), Bounds.least(a, b));
        assertEquals(Math.max(a, b), Bounds.greatest(a, b));
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            VALUE | LOWEST | HIGHEST | HELD | BECAUSE
            5     | 0      | 10      | 5    | between
            0     | 0      | 10      | 0    | at the lower limit
            -1    | 0      | 10      | 0    | below
            10    | 0      | 10      | 10   | at the upper limit
            11    | 0      | 10      | 10   | above
            5     | 10     | 0       | 0    | the upper limit wins over a lower one that contradicts
            NaN   | 0      | 10      | NaN  | unknown stays unknown
            5     | NaN    | 10      | NaN  | an unknown limit limits everything
            5     | 0      | NaN     | NaN  | this one as well
            """)
    void value_isHeldBetween(double value, double lowest, double highest, double held, String because) {
        assertEquals(held, Bounds.between(value, lowest, highest), because);
    }

    @Test
    void count_upToWhatTheBitsTellApart_isTaken() {
        assertEquals(64, Bounds.counted(64, 64, "signals"));
        String message = assertThrows(IllegalStateException.class, () -> Bounds.counted(65, 64, "signals"))
                .getMessage();
        assertTrue(message.startsWith("65 signals") && message.contains("64"), message);
    }
}
