package sprag.bench.begin;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringReader;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;

class InterviewTest {
    private final StringWriter out = new StringWriter();
    private final Answers answers = new Answers();

    private boolean typed(String lines) throws IOException {
        return new Interview(new BufferedReader(new StringReader(lines)), new PrintWriter(out, true)).ask(answers);
    }

    /** The prompt of a question, with the answer that an empty line takes. */
    private boolean offers(String range, String answer) {
        return out.toString().contains("  " + range + " [" + answer + "]: ");
    }

    @Test
    void emptyLines_typed_takeEveryDefault() throws IOException {
        assertTrue(typed("\n".repeat(40)));
        assertEquals(new Answers().asFile(), answers.asFile());
        assertTrue(out.toString().lines().allMatch(line -> line.length() <= 80), out::toString);
    }

    @Test
    void endOfInput_beforeTheLastQuestion_saysThatNothingWasWritten() throws IOException {
        assertFalse(typed("40\n\n"));
        assertTrue(out.toString().endsWith("nothing was written." + System.lineSeparator()), out::toString);
    }

    @Test
    void numberWithItsUnit_typed_isRefused_andTheNumberAloneIsAskedFor() throws IOException {
        assertTrue(typed("\n\n\n300 A\n300\n" + "\n".repeat(40)));
        assertTrue(
                out.toString().contains("\"300 A\" is no answer: write a number alone, 5 to 2000 A."), out::toString);
        assertEquals(300, answers.get(Question.DISCHARGE_MAX_A));
    }

    @Test
    void back_typed_asksTheQuestionBeforeAgain_withItsAnswer() throws IOException {
        assertTrue(typed("back\n40\nnmc\nback\nback\n50\n" + "\n".repeat(40)));
        assertTrue(offers("4 to 220", "40") && offers("lfp or nmc", "nmc"), out::toString);
        assertEquals(50, answers.get(Question.CELLS));
        assertEquals("nmc", answers.word(Question.CHEMISTRY));
    }

    @Test
    void answerThatContradicts_typed_isNotOfferedAgain() throws IOException {
        StringBuilder lines = new StringBuilder();
        for (Question each : Question.values()) {
            if (each.applies(answers)) {
                lines.append(each == Question.MAX_KPH ? "200\n\n" : "\n");
            }
        }
        assertTrue(typed(lines.toString()), out::toString);
        assertTrue(out.toString().contains("This cannot be: max_kph = 200"), out::toString);
        assertFalse(offers("3 to 200 km/h", "200"), out::toString);
        assertEquals(new Answers().get(Question.MAX_KPH), answers.get(Question.MAX_KPH));
    }
}
