package sprag.bench.lesson;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.lesson.Exercise.Kind;
import sprag.bench.lesson.Exercise.Wrong;
import sprag.bench.lesson.Grader.Mark;
import sprag.bench.lesson.Lesson.Figure;
import sprag.bench.scenario.Scenario;

/** Every figure of every lesson exists in the runs of this version, every answer is right, and every known mistake is wrong. */
class LessonsTest {
    /** What never happens, and the lesson says so. */
    private static final List<String> NEVER = List.of("cart_seen", "ser_open_s", "van_lamp");

    private static final Map<Integer, Given> GIVEN = new TreeMap<>();

    static IntStream numbers() {
        return IntStream.rangeClosed(1, Lessons.NAMES.size());
    }

    private static Given given(int number) {
        return GIVEN.computeIfAbsent(number, n -> new Given(Lessons.of(n)));
    }

    @Test
    void course_isListed_everyLessonIsWhole() {
        for (Lesson lesson : Lessons.all()) {
            assertFalse(lesson.caution().isBlank(), lesson.name());
            assertFalse(lesson.exercises().isEmpty(), lesson.name());
            assertFalse(lesson.teacher().traps().isEmpty(), lesson.name());
            assertFalse(lesson.teacher().next().isEmpty(), lesson.name());
            assertTrue(lesson.minutes() >= 15 && lesson.minutes() <= 25, lesson.name());
            for (Exercise exercise : lesson.exercises()) {
                assertFalse(exercise.hints().isEmpty(), lesson.name() + ": " + exercise.question());
                assertFalse(exercise.solution().isBlank(), lesson.name() + ": " + exercise.question());
            }
        }
    }

    /** At the panel a lesson offers its own scenarios, not all that suit the car, and none that an exercise asks about. */
    @ParameterizedTest
    @MethodSource("numbers")
    void lesson_atThePanel_offersTheScenariosOfItsExplanationOnly(int number) throws Exception {
        Given given = new Given(Lessons.of(number));
        List<String> offered = given.shelf().stream().map(Scenario::name).toList();
        List<String> told = given.lesson().plays().stream()
                .filter(given::isExplained)
                .map(Lesson.Play::scenario)
                .toList();
        assertTrue(told.containsAll(offered), () -> offered + " of " + told);
        assertEquals(offered.size(), Set.copyOf(offered).size(), "each once");
    }

    @Test
    void lessonOnThePlug_atThePanel_offersThePlugPulledAndPutIn() throws Exception {
        List<String> offered = new Given(Lessons.of(Lessons.NAMES.indexOf("plug") + 1))
                .shelf().stream().map(Scenario::name).toList();
        assertTrue(offered.containsAll(List.of("plugged-in-while-driving", "charge-plug-pulled")), offered::toString);
    }

    @ParameterizedTest
    @MethodSource("numbers")
    void lesson_isGiven_everyFigureIsMeasuredAndUsed(int number) throws Exception {
        Given given = given(number);
        Lesson lesson = given.lesson();
        StringBuilder all = new StringBuilder(lesson.explain());
        List<Exercise> asked = new ArrayList<>(lesson.exercises());
        asked.add(lesson.predict());
        for (Exercise each : asked) {
            all.append(each.question()).append(each.solution()).append(each.right());
            all.append(each.hints())
                    .append(each.answers())
                    .append(each.replies())
                    .append(each.wrongs());
        }
        lesson.figures().forEach(figure -> all.append(figure.play().isEmpty() ? figure.ask() : ""));
        for (Figure figure : lesson.figures()) {
            String words = given.figure(figure.name()).words();
            assertEquals(NEVER.contains(figure.name()), words.equals("never"), figure.name() + " is " + words);
            assertFalse(words.equals("unknown"), figure.name());
            assertTrue(
                    all.toString().matches("(?s).*\\b" + figure.name() + "\\b.*"), figure.name() + " is used nowhere");
        }
        assertFalse(given.text(lesson.explain()).contains("{{"), lesson.explain());
    }

    @ParameterizedTest
    @MethodSource("numbers")
    void answer_right_isRight_andEveryKnownMistakeIsWrong(int number) throws Exception {
        Given given = given(number);
        Grader grader = new Grader(given);
        List<Exercise> all = new ArrayList<>(given.lesson().exercises());
        all.add(given.lesson().predict());
        for (Exercise each : all) {
            String where = given.lesson().name() + ": " + each.question();
            String right = each.kind() == Kind.VALUE ? String.valueOf(given.number(each.right())) : each.right();
            Mark mark = grader.mark(each, right);
            assertTrue(mark.right(), where + " " + right + ": " + mark.reply());
            for (Wrong wrong : each.wrongs()) {
                Mark other = grader.mark(each, String.valueOf(given.number(wrong.is())));
                assertFalse(other.right(), where + " " + wrong.is());
                assertTrue(other.reply().contains(given.text(wrong.reply())), where + " " + other.reply());
            }
            for (int i = 0; i < each.answers().size(); i++) {
                String letter = String.valueOf((char) ('a' + i));
                assertEquals(
                        letter.equals(each.right()), grader.mark(each, letter).right(), where + " " + letter);
            }
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                " ",
                "nan",
                "inf",
                "1e999",
                "zzz",
                "a,b,c,d,e,f,g,h",
                "\u0000\u001b[2J",
                "7.9.9",
                "ä",
                "/dev/zero",
                "${jndi}",
                "aa",
                "{{van_60}}",
                "plug-present plug-present",
                "no-such-interlock",
                "../../etc/passwd",
                "<script>alert(1)</script>"
            })
    void answer_absurd_isNeverRightAndGetsASentence(String absurd) throws Exception {
        for (int number = 1; number <= Lessons.NAMES.size(); number++) {
            Given given = given(number);
            for (Exercise exercise : given.lesson().exercises()) {
                Mark mark = new Grader(given).mark(exercise, absurd);
                assertFalse(mark.right(), given.lesson().name() + ": " + exercise.question() + " <- " + absurd);
                assertTrue(mark.reply().length() > 10, mark.reply());
                assertFalse(mark.reply().contains("Exception"), mark.reply());
            }
        }
    }

    /** A whole book that was pasted by mistake, of digits and of a scenario. */
    @Test
    void answer_hugePaste_isNeverRightAndGetsASentence() throws Exception {
        for (String paste : List.of("7".repeat(2_000_000), "[about]\n" + "# a\n".repeat(500_000))) {
            for (int number = 1; number <= Lessons.NAMES.size(); number++) {
                Given given = given(number);
                for (Exercise exercise : given.lesson().exercises()) {
                    Mark mark = new Grader(given).mark(exercise, paste);
                    assertFalse(mark.right(), given.lesson().name() + ": " + exercise.question());
                    assertTrue(mark.reply().length() < 300, "the reply repeats the paste");
                }
            }
        }
    }

    /** A guess at a value is told more than "wrong": three mistakes of their own, and what lies above or below. */
    @ParameterizedTest
    @MethodSource("numbers")
    void value_isAsked_threeMistakesAreKnown(int number) {
        for (Exercise exercise : Lessons.of(number).exercises()) {
            boolean isValue = exercise.kind() == Kind.VALUE;
            assertTrue(!isValue || exercise.wrongs().size() >= 3, exercise.question() + exercise.wrongs());
        }
    }

    /** What is missing besides the right interlock must not do as well: the story would then ask nothing. */
    @ParameterizedTest
    @MethodSource("numbers")
    void interlocks_eachOtherThatIsMissing_putBackAloneIsWrong(int number) throws Exception {
        Given given = given(number);
        for (Exercise each : given.lesson().exercises()) {
            for (String id : each.kind() == Kind.INTERLOCKS ? each.task().without() : List.<String>of()) {
                Mark mark = new Grader(given).mark(each, id);
                assertEquals(id.equals(each.right()), mark.right(), each.question() + id + ": " + mark.reply());
            }
        }
    }

    /** Several letters: each that does not belong there gets an answer of its own. */
    @ParameterizedTest
    @MethodSource("numbers")
    void choice_ofLetters_everyWrongLetterIsAnswered(int number) throws Exception {
        Given given = given(number);
        List<Exercise> all = new ArrayList<>(given.lesson().exercises());
        all.add(given.lesson().predict());
        for (Exercise each : all) {
            for (int i = 0; each.kind() == Kind.CHOICE && i < each.answers().size(); i++) {
                String letter = String.valueOf((char) ('a' + i));
                assertEquals(each.answers().size(), each.replies().size(), each.question());
                if (!each.right().contains(letter)) {
                    String typed = each.right().length() > 1 ? each.right() + letter : letter;
                    Mark mark = new Grader(given).mark(each, typed);
                    assertFalse(mark.right(), each.question() + typed);
                    assertTrue(mark.reply().contains(given.text(each.replies().get(i))), mark.reply());
                }
            }
        }
    }

    @ParameterizedTest(name = "{0}, exercise {1}: {2}")
    @CsvSource(delimiter = '|', textBlock = """
        shape-of-a-start | 1 | 2500            | true  | The program finds
        shape-of-a-start | 1 | 2500 \u00b5F   | true  | The program finds
        shape-of-a-start | 1 | 2500 \u03bcF   | true  | The program finds
        shape-of-a-start | 1 | 2500uF          | true  | The program finds
        shape-of-a-start | 1 | 2500 microfarad | true  | The program finds
        shape-of-a-start | 1 | 2500.0          | true  | The program finds
        shape-of-a-start | 1 | 2500 mF         | false | asked for in
        shape-of-a-start | 1 | 2500 V          | false | asked for in
        shape-of-a-start | 1 | 2,500           | false | A comma can mean two things
        shape-of-a-start | 1 | 0x9c4           | false | asked for in
        shape-of-a-start | 1 | 2.5             | false | The digits are right, the unit is not
        shape-of-a-start | 2 | 2,298           | false | A comma can mean two things
        shape-of-a-start | 2 | 2,3             | true  | The program finds
        shape-of-a-start | 2 | 2298 mA         | false | asked for in A
        timer            | 1 | 5               | true  | with 6 W it does not
        timer            | 1 | 5.5             | false | in steps of 1 W
        timer            | 1 | 5 kW            | false | asked for in W
        timer            | 2 | 850 ms          | true  | it goes as asked
        timer            | 2 | 0.85 s          | false | asked for in ms
        who-wins         | 1 | 0.25            | true  | it goes as asked
        who-wins         | 1 | 0.255           | false | in steps of 0.01
        """)
    void number_withUnitCommaOrBetweenTheSteps_isMarkedByWhatWasTyped(
            String lesson, int exercise, String typed, boolean right, String says) throws Exception {
        Given given = given(Lessons.NAMES.indexOf(lesson) + 1);
        Mark mark = new Grader(given).mark(given.lesson().exercises().get(exercise - 1), typed);
        assertEquals(right, mark.right(), mark.reply());
        assertTrue(mark.reply().contains(says), mark.reply());
    }

    /** Numbers that are played, and no lever or time can have them. */
    @ParameterizedTest
    @ValueSource(strings = {"-5", "99999999", "-0", "1e9"})
    void answer_numberFarOutside_isPlayedAndNotRight(String number) throws Exception {
        Given given = given(4);
        for (Exercise exercise : given.lesson().exercises()) {
            assertFalse(new Grader(given).mark(exercise, number).right(), exercise.question());
        }
    }
}
