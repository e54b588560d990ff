package sprag.bench.lesson;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import picocli.CommandLine;
import sprag.bench.Sprag;
import sprag.bench.car.FaultSpec;
import sprag.bench.loop.FrameColumns;
import sprag.bench.vehicle.Vehicle;

/** A pupil at the terminal, and a teacher with what was handed in. */
class LessonCommandTest {
    @TempDir
    Path folder;

    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();

    private int sprag(String... args) {
        out.getBuffer().setLength(0);
        err.getBuffer().setLength(0);
        CommandLine line =
                Sprag.commandLineFor(args).setOut(new PrintWriter(out, true)).setErr(new PrintWriter(err, true));
        return line.execute(args);
    }

    private Path progress() {
        return folder.resolve("progress.toml");
    }

    /** Does lesson 2 with these lines typed. */
    private boolean typed(String lines) throws Exception {
        out.getBuffer().setLength(0);
        ByteArrayInputStream in = new ByteArrayInputStream(lines.getBytes(StandardCharsets.UTF_8));
        Dialogue dialogue = new Dialogue(in, new PrintWriter(out, true), true);
        return new Session(new Given(Lessons.of(2)), dialogue, Progress.of(progress(), "Ada"), progress()).give();
    }

    @Test
    void list_beforeAnything_namesAllLessonsWithin80Columns() {
        assertEquals(0, sprag("lesson", "--progress", progress().toString()));
        assertTrue(out.toString().contains("12  Take it out and see"), out::toString);
        assertTrue(out.toString().lines().allMatch(line -> line.length() <= 80), out::toString);
    }

    @Test
    void lesson_rightAnswers_isDoneAndKept() throws Exception {
        assertTrue(typed("b\n2500\n2.3\n"));
        assertTrue(out.toString().contains("The lesson is done."), out::toString);
        sprag("lesson", "--progress", progress().toString());
        assertTrue(out.toString().contains("done"), out::toString);
        assertEquals(0, sprag("lesson", "check", progress().toString()));
        assertTrue(out.toString().contains("Ada"), out::toString);
        assertTrue(out.toString().contains("2 of "), out::toString);
    }

    @Test
    void lesson_wrongAnswerHintAndSkip_tellsTheMistakeTheHintAndTheSolution() throws Exception {
        assertFalse(typed("c\n25\nhint\nhint\nhint\nabc\nskip\nquit\n"));
        String said = out.toString();
        assertTrue(said.contains("That takes three times as long."), said);
        assertTrue(said.contains("You multiplied."), said);
        assertTrue(said.contains("Hint 2 of 2."), said);
        assertTrue(said.contains("There is no further hint."), said);
        assertTrue(said.contains("\"abc\" is no number."), said);
        assertTrue(said.contains("0.0025 F = 2500"), said);
        assertTrue(said.contains("Left here."), said);
        assertTrue(said.contains("Answer: 2500"), said);
        assertEquals(
                3,
                Progress.of(progress(), null)
                        .of("shape-of-a-start", 1)
                        .orElseThrow()
                        .hints(),
                "two and the answer");
    }

    @Test
    void handedIn_oneOfThreeDamaged_othersAreMarkedAndItIsNamed() throws Exception {
        typed("b\n2500\n2.3\n");
        Path cut = folder.resolve("cut.toml");
        Files.writeString(cut, Files.readString(progress()).substring(0, 150));
        assertEquals(1, sprag("lesson", "check", cut.toString(), progress().toString(), "nosuch.toml"));
        assertTrue(out.toString().contains("Ada"), out::toString);
        assertTrue(out.toString().contains("2 of "), out::toString);
        String not = out.toString().substring(out.toString().indexOf("Not marked"));
        assertTrue(not.contains("cut.toml:") && not.contains("nosuch.toml"), not);
    }

    @Test
    void handedIn_hintsWithoutAnAnswer_areCountedAndNothingIsRight() throws Exception {
        typed("b\nhint\nquit\n");
        assertEquals(0, sprag("lesson", "check", progress().toString()));
        assertTrue(out.toString().contains("0 of "), out::toString);
        assertEquals(
                1,
                Progress.of(progress(), null)
                        .of("shape-of-a-start", 1)
                        .orElseThrow()
                        .hints());
    }

    @Test
    void lesson_inputEnds_isLeftAndKeptWithoutWaiting() throws Exception {
        assertFalse(typed(""));
        assertTrue(out.toString().contains("Left here."), out::toString);
        assertFalse(typed("b\n2500\n"));
        assertEquals(1, Progress.of(progress(), null).done("shape-of-a-start"));
    }

    @Test
    void sheet_ofEveryOption_fitsTheTerminal() {
        assertEquals(
                0, sprag("lesson", "1", "--teacher", "--progress", progress().toString()));
        assertTrue(out.toString().contains("Answer: "), out::toString);
        assertTrue(out.toString().lines().allMatch(line -> line.length() <= 80), out::toString);
        assertEquals(0, sprag("lesson", "1", "--show", "--progress", progress().toString()));
        assertFalse(out.toString().contains("Answer: "), out::toString);
        assertFalse(Files.exists(progress()));
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        7.9  | 1 | 0 | Right.
        3.7  | 1 | 1 | the resistor of 2200 ohm
        ba   | 2 | 0 | Right.
        a    | 2 | 1 | 2 in all are right
        """)
    void answer_onTheCommandLine_isMarked(String answer, String exercise, int status, String says) {
        String[] args = {
            "lesson",
            "1",
            "--exercise",
            exercise,
            "--answer",
            answer,
            "--progress",
            progress().toString()
        };
        assertEquals(status, sprag(args) == 2 ? 2 : out.toString().startsWith("Right.") ? 0 : 1, err::toString);
        assertTrue(out.toString().contains(says), out::toString);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        lesson 0                            | 0 is outside 1..15
        lesson 16                           | 16 is outside 1..15
        lesson x                            | is not
        lesson 1 --exercise 9 --answer 3    | --exercise 9 is outside 1..2
        lesson 1 --panel --port 99999       | --port 99999 is outside 0..65535
        lesson exam --seed -1               | --seed -1 is outside
        lesson exam --vehicle nosuch        | is neither the name
        lesson check /dev/zero              | is a device or a pipe
        lesson check nosuch.toml            | does not exist
        value nosuch 'state at end'         | does not exist
        value /dev/zero 'state at end'      | is a device or a pipe
        """)
    void wrongArgument_isWrongUsage(String args, String says) {
        int status = sprag(args.replace("'state at end'", "state_at_end").split(" "));
        if (args.startsWith("value")) {
            status = sprag("value", args.split(" ")[1], "state at end");
        }
        assertEquals(2, status, out::toString);
        assertTrue(err.toString().contains(says), err::toString);
    }

    @Test
    void handedIn_changedByHand_isToldAndMarkedAgain() throws Exception {
        typed("b\n25\n2500\n2.3\n");
        String sound = Files.readString(progress());
        Files.writeString(progress(), sound.replace("tries = 2", "tries = 1"));
        assertEquals(1, sprag("lesson", "check", progress().toString()));
        assertTrue(out.toString().contains("changed by hand"), out::toString);
        Files.writeString(progress(), sound.replace("answer = \"2500\"", "answer = \"7\""));
        assertEquals(1, sprag("lesson", "check", progress().toString()));
        assertTrue(out.toString().contains("shape-of-a-start 1 is called right and is not"), out::toString);
    }

    @Test
    void handedIn_damagedInAnyByte_isRefusedOrToldOrHarmless() throws Exception {
        typed("b\n2500\n2.3\n");
        byte[] sound = Files.readAllBytes(progress());
        for (int at = 0; at < sound.length; at += 7) {
            byte[] damaged = sound.clone();
            damaged[at] ^= 0x15;
            Files.write(progress(), damaged);
            int status = sprag("lesson", "check", progress().toString());
            String said = out.toString() + err;
            boolean isComment = new String(sound, 0, at, StandardCharsets.UTF_8).indexOf('\n') < 0;
            assertTrue(status > 0 || isComment, at + ": " + said);
            assertFalse(said.contains("Exception"), said);
        }
    }

    @Test
    void progress_scenarioWithQuotesAndLines_comesBackAsItWas() throws Exception {
        Progress progress = Progress.of(progress(), "B\u00f6 \"x\" \\");
        String text = "[about]\ntitle = \"a \\\\ b\"\n\twhy = '''x'''\n";
        progress.answered("plug", 2, text, true, 1);
        progress.write(progress());
        Progress again = Progress.of(progress(), null);
        assertTrue(again.isSound());
        assertEquals(text, again.of("plug", 2).orElseThrow().answer());
        assertEquals("B\u00f6 \"x\" \\", again.name());
    }

    @Test
    void exam_sameSeed_isTheSameCaseAndItsAnswerIsRight() throws Exception {
        Vehicle van = new Sandbox().vehicle("parcel-van", Map.of());
        Exam exam = Exam.of(van, 3);
        Exam again = Exam.of(van, 3);
        assertEquals(exam.answer(), again.answer());
        assertEquals(exam.symptoms(), again.symptoms());
        assertTrue(exam.symptoms().stream().allMatch(line -> line.length() <= 78), exam.symptoms()::toString);
        assertTrue(exam.explains(exam.answer().replaceAll(",.*", "")));
        assertFalse(exam.explains("charger_1.dead"));
        assertThrows(IllegalArgumentException.class, () -> exam.explains("nonsense"));
        assertEquals(
                List.of("car.positive_closed"), Exam.hiddenColumns("car.positive_closed at 3", FrameColumns.CHANNELS));
        assertEquals(List.of(), Exam.hiddenColumns("car.bus_voltage_v at 3", FrameColumns.CHANNELS));
    }

    @Test
    void exam_typedStrangely_twinsOfTheFaultAndRightAnswer_eachGetsItsOwnWords() throws Exception {
        Vehicle van = new Sandbox().vehicle("parcel-van", Map.of());
        Exam exam = Exam.hiding(van, FaultSpec.parse("cell_min_v.short_low", van), "at_s = 0.1");
        StringWriter said = new StringWriter();
        String typed =
                "hint\nis nonsense\ncolumns cell\ncolumns positive_closed\nis cell_min_v.stale\nis cell_min_v.open\n";
        InputStream in = new ByteArrayInputStream(typed.getBytes(StandardCharsets.UTF_8));
        assertTrue(new LessonExamCommand().ask(van, exam, new Dialogue(in, new PrintWriter(said, true), false)));
        List<String> answers = List.of(said.toString().split("measure, or is FAULT >"));
        assertTrue(answers.get(1).contains("Type columns and a word"), answers::toString);
        assertTrue(answers.get(2).contains("no such fault"), answers::toString);
        assertTrue(answers.get(3).contains("cell_min_v"), answers::toString);
        assertFalse(answers.get(4).contains("car.positive_closed"), "no meter shows where a contact is");
        assertTrue(answers.get(5).contains("The driver would have seen the same"), answers::toString);
        assertTrue(answers.get(6).replaceAll("\\s+", " ").contains("tells it from cell_min_v.open"), answers::toString);
    }

    @Test
    void value_ofARun_isReadFromItsTrace() throws IOException {
        Path run = folder.resolve("run");
        assertEquals(0, sprag("run", "parcel-van", "drive-and-stop", "--out", run.toString()), err::toString);
        assertTrue(out.toString().contains("The contactors carried at most "), out::toString);
        String folderOfRun = run.resolve("drive-and-stop").toString();
        assertEquals(0, sprag("value", folderOfRun, "state at end", "time state DRIVE_ENABLE"), err::toString);
        assertTrue(out.toString().startsWith("OFF"), out::toString);
        assertEquals(1, sprag("value", folderOfRun, "time state FAULT"));
        assertEquals("never", out.toString().strip());
        assertEquals(2, sprag("value", folderOfRun, "most nonsense"));
        Path trace = run.resolve("drive-and-stop").resolve("trace.csv");
        Files.writeString(trace, "time_s,state\n0,OFF,3\n");
        assertEquals(2, sprag("value", folderOfRun, "state at end"));
    }
}
