package sprag.bench.begin;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import sprag.bench.Sprag;
import sprag.bench.WrongValues;
import sprag.bench.cli.ExitCode;
import sprag.bench.vehicle.VehicleReader;

/** A file of answers that somebody damaged makes a vehicle that can be read, or is refused with what to do; nothing in between. */
class DamagedAnswersTest {
    private static final int TRIALS = Integer.getInteger("damaged.trials", 20);

    @TempDir
    Path folder;

    private static String damaged(String sound, Random dice) {
        List<String> lines = new ArrayList<>(sound.lines().toList());
        List<Integer> answers = new ArrayList<>();
        for (int i = 0; i < lines.size(); i++) {
            if (lines.get(i).matches("[a-z_0-9]+ = .*")) {
                answers.add(i);
            }
        }
        int at = answers.get(dice.nextInt(answers.size()));
        String name = lines.get(at).substring(0, lines.get(at).indexOf(' '));
        switch (dice.nextInt(8)) {
            case 0, 1, 2 -> lines.set(at, name + " = " + WrongValues.TOML.get(dice.nextInt(WrongValues.TOML.size())));
            case 3 -> lines.set(at, lines.get(at) + "\n" + lines.get(at));
            case 4 -> lines.set(at, name.substring(1) + lines.get(at).substring(name.length()));
            case 5 -> lines.set(at, "[" + name + "]");
            case 6 -> {
                String whole = String.join("\n", lines);
                return whole.substring(0, dice.nextInt(whole.length()));
            }
            default -> lines.set(at, name + " = 1\u0000\u0007");
        }
        return String.join("\n", lines) + "\n";
    }

    @Test
    void answers_damagedBySeed_makeAVehicle_orAreRefusedWithTheRemedy() throws Exception {
        Random dice = new Random(6);
        String sound = new Answers().asFile();
        TreeMap<Integer, Integer> endings = new TreeMap<>();
        for (int trial = 0; trial < TRIALS; trial++) {
            String text = damaged(sound, dice);
            Path answers = folder.resolve("answers-" + trial + ".toml");
            Files.write(answers, text.getBytes(StandardCharsets.UTF_8));
            Path car = folder.resolve("car-" + trial);
            StringWriter err = new StringWriter();
            CommandLine line = Sprag.commandLineFor("new");
            line.setOut(new PrintWriter(new StringWriter(), true)).setErr(new PrintWriter(err, true));
            int ending = line.execute("new", car.toString(), "--answers", answers.toString());
            endings.merge(ending, 1, Integer::sum);
            String because = "trial " + trial + ": " + err + "\n" + text;
            if (ending == ExitCode.WELL) {
                assertTrue(VehicleReader.read(car).name().startsWith("car-"), because);
            } else {
                assertEquals(ExitCode.USAGE, ending, because);
                assertFalse(Files.exists(car), "refused, and written all the same: " + because);
                assertTrue(err.toString().contains(answers + ":"), "the file is not named: " + because);
                assertTrue(
                        err.toString().lines().findFirst().orElse("").matches(".*[.?] [A-Z].*[.?]"),
                        "no remedy: " + because);
                assertFalse(err.toString().contains("Exception"), because);
            }
        }
        assertEquals(new TreeSet<>(List.of(ExitCode.WELL, ExitCode.USAGE)), endings.keySet(), "both were tried");
    }
}
