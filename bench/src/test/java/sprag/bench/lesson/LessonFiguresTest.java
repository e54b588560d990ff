package sprag.bench.lesson;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What a lesson concludes from its figures must follow from the figures of this version's runs. A figure that is measured on
 * another run, or at another moment, than its sentence says is found here: by the law of the circuit, or by the order that the
 * sentence claims.
 */
class LessonFiguresTest {
    private static final Map<String, Given> GIVEN = new TreeMap<>();

    @ParameterizedTest(name = "{0}: {1}, {4}")
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
        still-live           | van_60 / van_formula                                        | 0.97 | 1.03  | a capacitor over a resistor: t = R C ln(U / 60)
        still-live           | times_t / times_u                                           | 0.4  | 0.95  | the logarithm of U counts, and each car's own R C
        still-live           | slow_60 / van_60 * car.parts.bleed_ohm                      | 4600 | 4800  | the time goes with the bleed resistor
        shape-of-a-start     | van_63 / van_rc                                             | 1    | 1.1   | a little later than R C
        shape-of-a-start     | coupe_63 / coupe_rc                                         | 1    | 1.15  | a little later than R C
        shape-of-a-start     | cart_63 / cart_rc                                           | 1    | 1.1   | a little later than R C
        shape-of-a-start     | van_95 / van_rc                                             | 3    | 3.6   | 3 to 3.5 time constants
        shape-of-a-start     | coupe_95 / coupe_rc                                         | 3    | 3.6   | 3 to 3.5 time constants
        shape-of-a-start     | cart_95 / cart_rc                                           | 3    | 3.6   | 3 to 3.5 time constants
        shape-of-a-start     | van_a * precharge.resistance_ohm                            | 97   | 102   | at first the whole pack lies over the resistor
        shape-of-a-start     | pack_a - van_a                                              | 3    | 30    | most of the pack's current is not the precharge
        inrush               | van_j_b / half                                              | 0.9  | 1.1   | half C U squared is burnt
        inrush               | van_peak_b / van_peak                                       | 8    | 100   | the precharge avoids it
        inrush               | coupe_j_b / coupe_j                                         | 10   | 1e6   | the precharge avoids it
        timer                | open_j / (bus.capacitance_uf / 2000000 * pack_u * pack_u)   | 0.9  | 1.1   | an empty bus: half C U squared
        timer                | short_j - open_j                                            | 1    | 100   | a short burns more than an empty bus
        timer                | load_j                                                      | 0.1  | 0.999 | the prediction: less than 1 J
        timer                | fast_j                                                      | 0    | 0.1   | the prediction: less than 1 J
        timer                | sup_open_j + sup_short_j + sup_load_j + sup_fast_j          | 0    | 0.001 | the supervisor closes onto none of them
        timer                | sup_good_j / good_j                                         | 0.5  | 0.95  | both are right when everything is right
        weld-test            | pos_j - neg_j                                               | 1    | 1e6   | the gentle half comes first
        gently-or-at-once    | drop_arc - cover_arc                                        | 1    | 1e5   | under load costs an arc, gently does not
        gently-or-at-once    | lv_arc - cut_arc                                            | 1    | 1e5   | nobody could take the current away first
        gently-or-at-once    | cut_60 / (car.parts.bleed_ohm * bus.capacitance_uf / 1000000 * ln(100 / 60)) | 0.9 | 1.1 | the bus bleeds through its resistor
        two-for-safety       | par_closed_j / ser_closed_j                                 | 100  | 1e6   | parallel is worse when one is stuck closed
        two-for-safety       | par_closed_j / one_closed_j                                 | 0.99 | 1.01  | as bad as one timer stuck closed
        two-for-safety       | ser_resistor_j / one_closed_j                               | 0.9  | 1.1   | two timers know no more than one
        take-it-out          | brake_without - brake_with                                  | 10   | 1000  | torque under the brake
        take-it-out          | plug_without                                                | 0    | 0.5   | the gate takes the torque away
        who-wins             | before - most                                               | 10   | 1000  | none until the pedal was released
        who-wins             | back - let_go                                               | 0.5  | 60    | it comes back after the second press only
        nobody-knows         | stale_s * 1000 / (loop.stale_ms + loop.blind_ms)            | 0.9  | 1.1   | both times follow each other
        cold-and-full        | cold_nm - warm_nm                                           | 5    | 1000  | cold cells are not charged
        cold-and-full        | full_nm - warm_nm                                           | 5    | 1000  | full cells are not charged
        pedal-tracks         | cart_m - van_m                                              | 1    | 1000  | one track alone creeps
        body-and-twelve-volt | lv_arc                                                      | 0    | 1     | on purpose, before the coils let go
        plug                 | latch_arc - arc                                             | -100 | 0     | the latch gives time to end the current
        """)
    void conclusion_ofALesson_followsFromTheFiguresOfTheRun(
            String lesson, String expression, double least, double most, String because) throws Exception {
        Given given = GIVEN.computeIfAbsent(lesson, name -> new Given(Lessons.of(Lessons.NAMES.indexOf(name) + 1)));
        double is = given.number(expression);
        assertTrue(is >= least && is <= most, () -> lesson + ": " + expression + " is " + is + ", and " + because);
    }
}
