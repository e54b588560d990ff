package sprag.bench.hand.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.review.report.Checker;
import sprag.bench.review.sizing.Calculation;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.BoardReference;
import sprag.bench.vehicle.Catalogue;
import sprag.hal.board.BoardSpec;
import sprag.hal.board.InputPin;
import sprag.supervisor.vocabulary.Signal;

/** The voltage that a board measures against: measured, or taken as it should be. */
class BoardReferenceTest {
    @TempDir
    Path folder;

    private Path file(String board, String line) throws Exception {
        String text = Files.readString(BoardFiles.find(Catalogue.installed(), board));
        Path file = folder.resolve("board.toml");
        Files.writeString(file, text.replaceFirst("\\n(baud = )", "\n" + line + "\n$1"));
        return file;
    }

    private static InputPin input(BoardSpec board, Signal signal) {
        return board.map().inputs().stream()
                .filter(pin -> pin.signal() == signal)
                .findFirst()
                .orElseThrow();
    }

    @Test
    void referenceMeasured_readingsFollowIt_andNothingElseDoes() throws Exception {
        BoardSpec nominal = BoardReader.read(file("usb-bench", ""));
        BoardSpec measured = BoardReader.read(file("usb-bench", "reference_v = 4.8"));
        // 1023 counts are the reference itself, and 512 counts are 2.4 V and not 2.5 V.
        assertEquals(5.0, input(nominal, Signal.PEDAL_A_V).value(1023), 1e-4);
        assertEquals(4.8, input(measured, Signal.PEDAL_A_V).value(1023), 1e-4);
        assertEquals(4.8 * 512 / 1023, input(measured, Signal.PEDAL_A_V).value(512), 1e-4);
        assertEquals(28.5 * 0.96, input(measured, Signal.LV_SUPPLY_V).value(1023), 1e-3);
        assertEquals(
                input(nominal, Signal.KEY_ON).value(0),
                input(measured, Signal.KEY_ON).value(0));
        assertEquals(nominal.map().outputs(), measured.map().outputs(), "no output is scaled by it");
    }

    @ParameterizedTest(name = "{0}: {2}")
    @CsvSource(delimiter = '|', textBlock = """
        reference_v = 4.25                                 | true  | at the least, 15 % below 5 V
        reference_v = 4.24                                 | false | below it
        reference_v = 5.75                                 | true  | at the most
        reference_v = 5.76                                 | false | above it
        reference_v = 3.3                                  | false | a board of another voltage
        reference_nominal_v = 3.3\\nreference_v = 3.28     | true  | said so
        reference_nominal_v = 3.3\\nreference_v = 2.80     | false | 15 % below 3.3 V are 2.805 V
        reference_v = 0                                    | false | zero is no measurement
        reference_v = nan                                  | false | nor is this
        reference_v = "5"                                  | false | a text
        reference_nominal_v = 12                           | false | no converter has that
        """)
    void reference_bothSidesOfEachLimit(String lines, boolean good, String because) throws Exception {
        Path file = file("usb-bench", lines.replace("\\n", "\n"));
        if (good) {
            assertTrue(BoardReader.reference(file).orElseThrow().isMeasured(), because);
        } else {
            BadInput refused = assertThrows(BadInput.class, () -> BoardReader.read(file), because);
            assertTrue(refused.getMessage().contains("board.reference_"), refused.getMessage());
            assertTrue(refused.getMessage().contains("a number within"), refused.getMessage());
        }
    }

    @Test
    void moduleWithItsOwnReference_refusesTheKey_andNeedsNone() throws Exception {
        Path file = file("rail-module", "reference_v = 5");
        BadInput refused = assertThrows(BadInput.class, () -> BoardReader.read(file));
        assertTrue(refused.getMessage().contains("reference of its own"), refused.getMessage());
        assertEquals(Optional.empty(), BoardReader.reference(file("rail-module", "")));
    }

    @Test
    void notMeasured_saysSoWithTheErrorInPercent() throws Exception {
        String said = BoardReader.reference(file("usb-bench", "")).orElseThrow().text();
        assertTrue(said.contains("Nobody has measured the reference"), said);
        assertTrue(said.contains("13.64 % too high or 4.762 % too low"), said);
        String done = BoardReader.reference(file("usb-bench", "reference_v = 4.87"))
                .orElseThrow()
                .text();
        assertTrue(done.contains("4.87 V") && !done.contains("Nobody"), done);
    }

    /** A file for check alone: the vehicle's folder with a board in it. */
    @Test
    void check_ofAVehicleWithABoard_tellsWhetherItsReferenceIsMeasured() throws Exception {
        Path van = Catalogue.installed().vehicle("parcel-van");
        assertEquals("", verdict(van), "no board, no word");
        Files.copy(van.resolve("vehicle.toml"), folder.resolve("vehicle.toml"));
        file("usb-bench", "");
        assertEquals("BROKEN", verdict(folder));
        file("usb-bench", "reference_v = 4.95");
        assertEquals("KEPT", verdict(folder));
        file("rail-module", "");
        assertEquals("", verdict(folder), "a module measures against a reference of its own");
        Files.writeString(folder.resolve("board.toml"), "[board]\nprotocol = \"firmata\"\n");
        assertEquals("", verdict(folder), "nothing is measured");
        assertFalse(BoardReference.of(van).isPresent());
    }

    private static String verdict(Path vehicle) throws Exception {
        return Checker.check(vehicle).calculations().stream()
                .filter(c -> c.id().equals("board-reference"))
                .map(Calculation::verdict)
                .map(Enum::name)
                .findFirst()
                .orElse("");
    }
}
