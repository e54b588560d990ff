package sprag.bench.hand.board;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TomlEditTest {
    private static final String FILE = """
            # the owner's own words
            [pedal]   # two tracks
            a_released_v = 0.9     # measured cold
              a_full_v=4.2

            [drive]
            a_released_v = 7
            """;

    @Test
    void aNumberIsChanged_everyOtherCharacterStays() {
        assertEquals(FILE.replace("0.9", "0.875"), TomlEdit.with(FILE, "pedal", "a_released_v", 0.875));
        assertEquals(FILE.replace("4.2", "4.1"), TomlEdit.with(FILE, "pedal", "a_full_v", 4.1));
        assertEquals(FILE.replace("= 7", "= 7.5"), TomlEdit.with(FILE, "drive", "a_released_v", 7.5));
    }

    @Test
    void aKeyThatIsNotThere_isAddedToItsSection() {
        assertEquals(
                FILE.replace("# two tracks\n", "# two tracks\ndeadband_share = 0.04\n"),
                TomlEdit.with(FILE, "pedal", "deadband_share", 0.04));
    }

    @Test
    void aSectionThatIsNotThere_isAddedAtTheEnd() {
        assertEquals(FILE + "\n[loop]\ntick_ms = 10.0\n", TomlEdit.with(FILE, "loop", "tick_ms", 10));
    }

    @Test
    void aDottedKeyBeforeAnySection_isChangedInPlace() {
        assertEquals("pedal.a_full_v = 4.0 # x\n", TomlEdit.with("pedal.a_full_v = 4.2 # x\n", "pedal", "a_full_v", 4));
    }

    @Test
    void linesThatEndInCarriageReturns_keepThem() {
        assertEquals(
                "[pedal]\r\na_full_v = 4.0\r\n",
                TomlEdit.with("[pedal]\r\na_full_v = 4.2\r\n", "pedal", "a_full_v", 4));
    }

    @ParameterizedTest
    @CsvSource({"4.2, 4.2", "4, 4.0", "0.8751, 0.875", "0.0004, 0.0", "1.2345, 1.235"})
    void number_isWrittenAsAPersonWould(double value, String text) {
        assertEquals(text, TomlEdit.number(value));
    }
}
