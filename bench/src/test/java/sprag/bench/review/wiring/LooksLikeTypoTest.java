package sprag.bench.review.wiring;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LooksLikeTypoTest {
    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        ONE         | OTHER       | SLIP  | BECAUSE
        brake_lamp  | brake_lmp   | true  | a letter missing
        brake_lamp  | brake_lampp | true  | a letter too many
        brake_lamp  | brake_lomp  | true  | another letter
        brake_lamp  | barke_lamp  | true  | two letters swapped
        HV_plus     | hv_plus     | true  | capitals
        key_on      | keyon       | true  | a separator left out
        hv_1        | hv_2        | false | numbers differ on purpose
        lamp1       | lamp12      | false | numbers differ on purpose
        pedal_a_v   | pedal_b_v   | false | parts of one letter differ on purpose
        phase_u     | phase_v     | false | the same
        coil_plus   | coil_minus  | false | other words
        net         | net         | false | the same name
        forward_on  | reverse_on  | false | other words
        """)
    void names(String one, String other, boolean slip, String because) {
        assertEquals(slip, LooksLikeTypo.looksLikeASlip(one, other), because);
        assertEquals(slip, LooksLikeTypo.looksLikeASlip(other, one), "either way round: " + because);
    }
}
