package sprag.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a person sees who waits. */
class ProgressBarTest {
    @ParameterizedTest(name = "{0} of {1} after {2} s: {4}")
    @CsvSource(delimiter = '|', textBlock = """
            1 | 4      | runs                             | 10  | [#######                       ] 1 of 4 runs, 30 s left | a quarter took 10 s
            4 | 4      | runs                             | 10  | [##############################] 4 of 4 runs, 0 s left  | all is done
            1 | 13     | runs                             | 10  | [##                            ] 1 of 13 runs, 2 min left | two minutes are told as such
            1 | 100000 | runs                             | 0.1 | [                              ] 1 of 100,000 runs, 2 h left | so are two hours
            1 | 100000 | runs                             | 9e6 | [                              ] 1 of 100,000 runs, 249997500 h left | it never ends
            87 | 118   | interlocks and waits left out    | 3   | [###############      ] 87 of 118 interlocks and waits left out, 1 s left | words before bar
            9999 | 10000 | things with a name of great length too | 1 | [##### ] 9,999 of 10,000 things with a name of great length too, 0 s left | the bar has little left
            5 | 4 | runs | 10 | [##############################] 5 of 4 runs, 0 s left | more came than was said
            1 | 2147483647 | things that are counted, each with its name and place | 9 | [] 1 of 2,147,483,647 things that are counted, each with its name and place, 5 | longer than a line
            """)
    void line_tellsTimeLeftFromThePaceSoFar(
            int done, int count, String what, double afterS, String line, String because) {
        ProgressBar bar = new ProgressBar(new PrintWriter(new StringWriter()), true, count, what);
        assertEquals(line, bar.line(done, afterS).stripTrailing(), because);
        assertEquals(78, bar.line(done, afterS).length(), "covers an earlier, longer line");
    }

    @Test
    void withoutATerminal_nothingIsPrinted() {
        StringWriter told = new StringWriter();
        try (ProgressBar bar = new ProgressBar(new PrintWriter(told), false, 2, "runs")) {
            bar.accept(1);
            bar.accept(2);
        }
        assertEquals("", told.toString());
    }
}
