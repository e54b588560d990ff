package sprag.bench.hand.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.ResourceLock;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import picocli.CommandLine;
import sprag.bench.hand.emulated.LockstepClock;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.hal.board.Board;
import sprag.hal.board.OutputPin;
import sprag.hal.board.PinKind;
import sprag.hal.board.Scale;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;

/** The command against a piece of wire, in virtual time: outputs answer at once on the input of the same number. */
@ResourceLock(WireDriver.LOCK)
class ProbeCommandTest {
    private static final String FILE = """
            [board]
            name = "piece of wire"
            protocol = "wire"
            port = "none"
            baud = 9600
            connect_ms = 200
            retry_ms = 100
            [[input]]
            signal = "positive_aux_closed"
            pin = "3"
            kind = "digital"
            [[input]]
            signal = "pedal_a_v"
            pin = "0"
            kind = "analogue"
            unit = "v"
            scale = 0.00488758
            [[output]]
            output = "positive_contactor"
            pin = "3"
            kind = "digital"
            [[output]]
            output = "radiator_fan_duty"
            pin = "4"
            kind = "pwm"
            scale = 0.01
            """;

    @TempDir
    Path folder;

    private final LockstepClock clock = new LockstepClock();
    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();
    private InputStream keyboard = InputStream.nullInputStream();
    private Path file;

    @BeforeEach
    void newWire() throws Exception {
        file = Files.writeString(folder.resolve("wire.toml"), FILE);
        WireDriver.analogue = 512;
        WireDriver.dead = false;
        WireDriver.everDriven = 0;
    }

    @Test
    void once_showsEveryPinWithinEightyColumns() {
        assertEquals(0, probe("--once"));
        String text = out.toString();
        assertTrue(text.contains("piece of wire: a piece of wire"), text);
        assertTrue(text.matches("(?s).*0 +pedal_a_v +512 +2\\.502 v +\\d+ ms.*"), text);
        assertTrue(text.matches("(?s).*3 +positive_aux_closed +0 +off.*"), text);
        assertTrue(text.contains("output (released, not armed)"), text);
        assertTrue(text.lines().allMatch(l -> l.length() <= 80), text);
        assertEquals(0, WireDriver.everDriven, "looking drives nothing");
    }

    @Test
    void readingOutsideItsRange_isMarked() {
        WireDriver.analogue = 1023;
        probe("--once");
        assertTrue(out.toString().matches("(?s).*5\\.000 v +\\d+ ms\\R.*"), "5.000 is the last sound value: " + out);
        out.getBuffer().setLength(0);
        WireDriver.analogue = 1024;
        probe("--once");
        assertTrue(out.toString().matches("(?s).*5\\.005 v +\\d+ ms !\\R.*"), out.toString());
    }

    @Test
    void json_isForPrograms() throws Exception {
        assertEquals(0, probe("--json"));
        JsonNode all = new ObjectMapper().readTree(out.toString());
        assertEquals(true, all.get("well").asBoolean());
        assertEquals("pedal_a_v", all.get("inputs").get(1).get("signal").asText());
        assertEquals(2.5024, all.get("inputs").get(1).get("value").asDouble(), 1e-3);
        assertEquals("ready", all.get("state").asText());
    }

    @Test
    void boardIsGone_saysWhyAndEndsWithThree() {
        WireDriver.dead = true;
        assertEquals(3, probe("--once"));
        assertTrue(err.toString().contains("piece of wire: the wire is cut"), err.toString());
    }

    @Test
    void pulse_withoutTheNameTyped_drivesNothing() {
        type("yes");
        assertEquals(1, probe("--pulse", "positive_contactor"));
        assertTrue(out.toString().contains("Left alone."), out.toString());
        assertEquals(0, WireDriver.everDriven);
    }

    @Test
    void pulse_nobodyAtTheKeyboard_drivesNothing() {
        type();
        assertEquals(1, probe("--pulse", "positive_contactor"));
        assertEquals(0, WireDriver.everDriven);
    }

    @Test
    void pulse_withTheNameTyped_drivesItAndSaysWhoAnswered() {
        type("positive_contactor");
        assertEquals(0, probe("--pulse", "positive_contactor", "--ms", "500"));
        String text = out.toString();
        assertTrue(text.indexOf("CAUTION") < text.indexOf("Type the output's name"), "cautions come first: " + text);
        assertTrue(text.contains("absence of voltage"), text);
        assertTrue(text.matches("(?s).*positive_aux_closed on 3 went on \\d+ ms after on\\R.*"), text);
        assertTrue(text.matches("(?s).*positive_aux_closed on 3 went off \\d+ ms after off\\R.*"), text);
        assertTrue(text.lines().allMatch(l -> l.length() <= 80), text);
    }

    @Test
    void pulse_theContactOfAnotherContactorAnswers_isCalledTheWrongContact() throws Exception {
        Files.writeString(file, FILE.replace("output = \"positive_contactor\"", "output = \"negative_contactor\""));
        assertEquals(1, probe("--pulse", "negative_contactor", "--ms", "500", "--confirm", "negative_contactor"));
        String text = out.toString();
        assertTrue(text.contains("The wrong contact moved: negative_contactor was pulsed and"), text);
        assertTrue(text.lines().allMatch(l -> l.length() <= 80), text);
    }

    @Test
    void pulse_confirmedOnTheCommandLine_printsTheCautionsAllTheSame() {
        assertEquals(0, probe("--pulse", "positive_contactor", "--ms", "500", "--confirm", "positive_contactor"));
        assertTrue(out.toString().contains("CAUTION"), out.toString());
        assertEquals(1, WireDriver.everDriven);
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(delimiter = '|', textBlock = """
        --pulse buzzer                                | is no output of piece of wire; it has [positive_contactor, radiator_fan_duty]
        --pulse radiator_fan_duty                     | is a quantity: say how much with --value
        --pulse positive_contactor --ms 9             | --ms 9 is outside 10..5000
        --pulse positive_contactor --ms 5001          | --ms 5001 is outside 10..5000
        --calibrate pedal_b_v --vehicle parcel-van    | must be pedal_a_v or pedal_b_v, and an input of piece of wire
        --calibrate pedal_a_v                         | needs --vehicle
        """)
    void wrongUsage_isToldBeforeAnythingIsOpened(String args, String expected) {
        assertEquals(2, probe(args.trim().split(" ")));
        assertTrue(err.toString().contains(expected), err.toString());
    }

    @ParameterizedTest
    @EnumSource(Output.class)
    void everyOutput_hasCautionsAndTheDangerousOnesNameTheDanger(Output output) throws Exception {
        OutputPin pin = new OutputPin(output, "3", PinKind.DIGITAL, false, Scale.SWITCH, 0);
        String text = String.join(" ", PulseCautions.of(pin, BoardReader.read(file)));
        assertTrue(text.contains("Local electrical and vehicle codes"), text);
        boolean traction =
                List.of("contactor", "precharge", "torque", "inverter", "charge", "dcdc", "heater_element").stream()
                        .anyMatch(w -> output.key().contains(w) && output != Output.CHARGE_LAMP);
        assertEquals(traction, text.contains("absence of voltage"), output.key());
    }

    @Test
    void calibrate_typedThrough_writesTheTrackAndKeepsEveryComment() throws Exception {
        Path vehicle = copyOfTheVan();
        String before = Files.readString(vehicle.resolve("vehicle.toml"));
        keyboard = new PedalHand(200, 850, "write");
        assertEquals(0, probe("--calibrate", "pedal_a_v", "--vehicle", vehicle.toString()), () -> out + " " + err);
        String after = Files.readString(vehicle.resolve("vehicle.toml"));
        Vehicle read = VehicleReader.read(vehicle);
        assertEquals(200 * 0.00488758, read.get(Parameter.PEDAL_A_RELEASED_V), 1e-3);
        assertEquals(850 * 0.00488758, read.get(Parameter.PEDAL_A_FULL_V), 1e-3);
        List<String> gone = new ArrayList<>(before.lines().toList());
        gone.removeAll(after.lines().toList());
        assertEquals(List.of("a_released_v = 0.9", "a_full_v = 4.2"), gone);
    }

    @Test
    void calibrate_notConfirmed_leavesTheFileAsItWas() throws Exception {
        Path vehicle = copyOfTheVan();
        String before = Files.readString(vehicle.resolve("vehicle.toml"));
        keyboard = new PedalHand(200, 850, "no");
        assertEquals(1, probe("--calibrate", "pedal_a_v", "--vehicle", vehicle.toString()));
        assertEquals(before, Files.readString(vehicle.resolve("vehicle.toml")));
    }

    @Test
    void calibrate_pedalNotMoved_isNotWritten() throws Exception {
        Path vehicle = copyOfTheVan();
        type("", "", "", "write");
        assertEquals(1, probe("--calibrate", "pedal_a_v", "--vehicle", vehicle.toString()));
        assertTrue(out.toString().contains("the wiper moved only 0.000 V"), out.toString());
    }

    @Test
    void calibrate_valuesThatContradictTheFile_areNotWritten() throws Exception {
        Path vehicle = copyOfTheVan();
        // 110 counts are 0.538 V, within pedal.short_v = 0.15 of the second track's 0.5 V.
        keyboard = new PedalHand(110, 850, "write");
        assertEquals(1, probe("--calibrate", "pedal_a_v", "--vehicle", vehicle.toString()));
        assertTrue(out.toString().contains("would not be good any more"), out.toString());
    }

    @Test
    void healthOfABoard_isToldByTheCommandAloneAndNotLoggedBesides() {
        org.slf4j.Logger log = org.slf4j.LoggerFactory.getLogger(Board.class);
        assertTrue(log.isErrorEnabled(), "a driver that breaks still speaks up");
        assertEquals(false, log.isWarnEnabled());
        WireDriver.dead = true;
        assertEquals(3, probe("--once"));
        assertEquals(
                1,
                err.toString()
                        .lines()
                        .filter(l -> l.contains("the wire is cut"))
                        .count(),
                err.toString());
    }

    private Path copyOfTheVan() throws Exception {
        Path vehicle = Files.createDirectory(folder.resolve("van"));
        Path shipped = Catalogue.installed().vehicle("parcel-van");
        Files.copy(shipped.resolve("vehicle.toml"), vehicle.resolve("vehicle.toml"));
        return vehicle;
    }

    private int probe(String... args) {
        List<String> all = new ArrayList<>(List.of("--board", file.toString()));
        all.addAll(List.of(args));
        CommandLine line = new CommandLine(new ProbeCommand(
                (spec, time) -> {
                    clock.announceThread();
                    return new Board(spec, new NoPort(), time);
                },
                keyboard,
                clock,
                400));
        line.setOut(new PrintWriter(out, true)).setErr(new PrintWriter(err, true));
        return line.execute(all.toArray(new String[0]));
    }

    private void type(String... lines) {
        keyboard = new ByteArrayInputStream(String.join("\n", lines).getBytes(StandardCharsets.UTF_8));
    }

    /** A foot and a hand: moves the pedal, then presses Enter, three times; then types the last word. */
    private static final class PedalHand extends InputStream {
        private final long[] counts;
        private final String last;
        private int line;

        PedalHand(long released, long full, String last) {
            this.counts = new long[] {released, full, released};
            this.last = last;
        }

        @Override
        public int read(byte[] into, int from, int length) {
            if (line > counts.length) {
                return -1;
            }
            if (line < counts.length) {
                WireDriver.analogue = counts[line];
            }
            byte[] typed = ((line < counts.length ? "" : last) + "\n").getBytes(StandardCharsets.UTF_8);
            line++;
            System.arraycopy(typed, 0, into, from, typed.length);
            return typed.length;
        }

        @Override
        public int read() {
            throw new UnsupportedOperationException("one byte at a time, line " + line);
        }
    }
}
