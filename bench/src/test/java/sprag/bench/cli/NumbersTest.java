package sprag.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.supervisor.vocabulary.Unit;

/** One value has one text, wherever the bench prints it. */
class NumbersTest {
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        VALUE      | TEXT      | BECAUSE
        0          | 0         | no decimals
        -0.0       | 0         | nothing has no sign
        0.29957    | 0.2996    | four significant digits
        9.9996     | 10        | rounded up to the next size, without zeros
        93.207     | 93.21     | two of four digits behind the point
        359.5      | 359.5     | one behind the point
        100.0      | 100       | the zeros of a whole number stay
        123456.7   | 123457    | a whole number keeps all its digits
        0.0000123  | 0.000012  | six decimals are the most
        -0.0000001 | 0         | less than that is nothing
        NaN        | unknown   | no reading
        Infinity   | infinite  | no limit
        -Infinity  | -infinite | no limit downwards
        """)
    void anyNumber_asText_fewDigitsAndNoExponent(double value, String text, String because) {
        assertEquals(text, Numbers.text(value), because);
    }

    @Test
    void unitAndValue_shown_symbolOnlyBehindANumber() {
        assertEquals("42.5 km/h", Numbers.show(42.5, Unit.KPH));
        assertEquals("on", Numbers.show(1, Unit.SWITCH));
        assertEquals("off", Numbers.show(0, Unit.SWITCH));
        assertEquals("unknown", Numbers.show(Double.NaN, Unit.SWITCH));
        assertEquals("unknown", Numbers.show(Double.NaN, Unit.VOLT));
        assertEquals("0.5", Numbers.show(0.5, Unit.NUMBER));
    }

    @ParameterizedTest
    @EnumSource(Unit.class)
    void everyUnit_symbol_isTheKeysEndingOrItsUsualForm(Unit unit) {
        String plain = Numbers.symbol(unit)
                .replace("°C", "c")
                .replace("µ", "u")
                .replace("km/h", "kph")
                .replace("m/s²", "mps2");
        assertEquals(unit.symbol, plain.toLowerCase(java.util.Locale.ROOT));
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3})
    void anyNumber_inATrace_readsBackWithinHalfOfItsLastPlace(long seed) {
        Random random = new Random(seed);
        for (int i = 0; i < 2000; i++) {
            double value = (random.nextDouble() - 0.5) * Math.pow(10, random.nextInt(12));
            assertEquals(value, Double.parseDouble(traced(value)), 0.5e-4 + Math.abs(value) * 1e-15, () -> "" + value);
        }
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource({
        "0,0",
        "-0.00001,0",
        "1.5,1.5",
        "-1.5,-1.5",
        "0.0001,0.0001",
        "0.1001,0.1001",
        "0.02,0.02",
        "-7.003,-7.003",
        "12.34567,12.3457",
        "1e15,1.0E15",
        "NaN,NaN"
    })
    void someNumbers_inATrace_areShort(double value, String expected) {
        assertEquals(expected, traced(value));
    }

    private static String traced(double value) {
        StringBuilder text = new StringBuilder();
        Numbers.append(text, value);
        return text.toString();
    }
}
