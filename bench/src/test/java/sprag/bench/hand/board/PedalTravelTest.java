package sprag.bench.hand.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PedalTravelTest {
    @Test
    void cleanTravel_givesBothEndsAndTheLeastBand() {
        PedalTravel travel = travel(0.9, 0.9, 4.2, 4.2, 0.9, 0.9);
        assertEquals(List.of(), travel.objections());
        assertEquals("{a_released_v=0.9, a_full_v=4.2}", travel.values('a').toString());
        assertEquals(0.02, travel.deadbandShare());
    }

    @Test
    void fallingTrack_isATravelToo() {
        PedalTravel travel = travel(2.3, 2.3, 0.6, 0.6, 2.3, 2.3);
        assertEquals(List.of(), travel.objections());
        assertEquals("{b_released_v=2.3, b_full_v=0.6}", travel.values('b').toString());
    }

    @Test
    void pedalComesBackElsewhere_theBandCoversBothPlaces() {
        // 0.90 before and 0.96 after: middle 0.93, spread 0.06 of 3.27 V of travel is 1.83 %, one and a half times 2.75
        // %.
        PedalTravel travel = travel(0.90, 0.90, 4.2, 4.2, 0.96, 0.96);
        assertEquals(0.93, travel.values('a').get("a_released_v"), 1e-9);
        assertEquals(0.03, travel.deadbandShare(), 1e-9);
    }

    @ParameterizedTest(name = "{7}")
    @CsvSource(delimiter = '|', textBlock = """
        0.9 | 0.9  | 1.39 | 1.39 | 0.9 | 0.9  | the wiper moved only 0.490 V  | just too short
        0.9 | 1.01 | 4.2  | 4.2  | 0.9 | 0.9  | released, the wiper moved     | not held still
        0.9 | 0.9  | 4.0  | 4.2  | 0.9 | 0.9  | fully pressed, the wiper moved| not held still at the end
        0.9 | 0.9  | 4.2  | 4.2  | 1.7 | 1.7  | the pedal sticks              | comes back elsewhere by a quarter
        """)
    void doubtfulTravel_isNotWritten(
            double a, double b, double c, double d, double e, double f, String expected, String because) {
        List<String> found = travel(a, b, c, d, e, f).objections();
        assertTrue(found.stream().anyMatch(o -> o.contains(expected)), because + ": " + found);
    }

    @Test
    void justLongEnough_isWritten() {
        assertEquals(List.of(), travel(0.9, 0.9, 1.41, 1.41, 0.9, 0.9).objections());
    }

    private static PedalTravel travel(double a, double b, double c, double d, double e, double f) {
        return new PedalTravel(
                PedalTravel.Plateau.of(List.of(a, b)),
                PedalTravel.Plateau.of(List.of(c, d)),
                PedalTravel.Plateau.of(List.of(e, f)));
    }
}
