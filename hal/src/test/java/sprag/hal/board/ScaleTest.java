package sprag.hal.board;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ScaleTest {
    @ParameterizedTest(name = "{5}")
    @CsvSource(delimiter = '|', textBlock = """
        0.0977517 | 0    | 10 | false | 512   | 50.0489 | 10 bits on 5 V behind a divider of 20
        0.1       | 0    | 16 | true  | 65411 | -12.5   | FF83 is -125 in two's complement
        0.1       | 0    | 16 | true  | 32767 | 3276.7  | the greatest count with a sign
        0.1       | 0    | 16 | true  | 32768 | -3276.8 | the next is the least
        -0.01     | 5    | 10 | false | 100   | 4       | a negative scale turns the direction
        """)
    void countsToUnit(
            double perCount, double offset, int bits, boolean signed, long raw, double value, String because) {
        assertEquals(value, new Scale(perCount, offset, bits, signed).value(raw), 1e-3, because);
    }

    @ParameterizedTest(name = "{2}")
    @CsvSource(delimiter = '|', textBlock = """
        1.0   | 255 | full
        0.5   | 128 | half, rounded
        -1    | 0   | held at the least count
        2     | 255 | held at the greatest count
        NaN   | 0   | not a number is nothing
        """)
    void unitToCounts(double value, long raw, String because) {
        assertEquals(raw, new Scale(1.0 / 255, 0, 8, false).raw(value), because);
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3})
    void thereAndBack_isWithinHalfACount(long seed) {
        Random random = new Random(seed);
        for (int i = 0; i < 2000; i++) {
            boolean signed = random.nextBoolean();
            int bits = 2 + random.nextInt(15);
            Scale scale = new Scale(
                    (random.nextBoolean() ? 1 : -1) * (0.001 + random.nextDouble()),
                    random.nextDouble() * 10,
                    bits,
                    signed);
            long raw = random.nextLong(1L << bits);
            assertEquals(raw, scale.raw(scale.value(raw)), scale.toString());
        }
    }

    @ParameterizedTest
    @CsvSource({"16, true, -32768, 32767", "16, false, 0, 65535", "1, false, 0, 1", "32, true, -2147483648, 2147483647"
    })
    void counts_reachFromTheLeastToTheGreatest(int bits, boolean signed, long least, long greatest) {
        Scale scale = new Scale(1, 0, bits, signed);
        assertEquals(least, scale.leastCount());
        assertEquals(greatest, scale.greatestCount());
    }
}
