package sprag.bench.hand.commission;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.hand.board.BoardReader;
import sprag.bench.review.pins.Drawing;
import sprag.bench.vehicle.BadInput;

class BoardCircuitsTest {
    private static final Path VAN = Path.of("..", "config", "vehicles", "parcel-van");
    private static final Path BENCH = Path.of("..", "config", "boards", "usb-bench.toml");
    private static final Path LAUNCH =
            Path.of("src", "test", "resources", "sprag", "bench", "review", "wiring", "launch");

    @TempDir
    Path folder;

    private Path board(String replace, String by) throws Exception {
        String text = Files.readString(BENCH);
        assertTrue(text.contains(replace), replace);
        return Files.writeString(folder.resolve("board.toml"), text.replace(replace, by));
    }

    @Test
    void shippedBoard_fitsTheShippedVan() {
        assertDoesNotThrow(() -> BoardCircuits.check(BENCH, Drawing.read(VAN)));
    }

    @Test
    void boardForContactsToGround_onALoomOf12V_isRefusedForEachSwitch() throws Exception {
        Path board = board("circuit = \"optocoupler\"\nseries_ohm = 2200", "circuit = \"to-ground\"");
        BadInput refused = assertThrows(BadInput.class, () -> BoardCircuits.check(board, Drawing.read(VAN)));
        assertTrue(refused.getMessage().contains("key_on"), refused.getMessage());
        assertTrue(
                refused.getMessage().contains("the schedule's switch closes to the 12 V supply"), refused.getMessage());
        assertEquals(6, refused.problems().size(), "the inlet's switch is not drawn, so it is not judged");
    }

    @Test
    void boardForContactsToGround_onALoomThatSwitchesGround_fits() throws Exception {
        Path board = board("circuit = \"optocoupler\"\nseries_ohm = 2200", "circuit = \"to-ground\"");
        assertDoesNotThrow(() -> BoardCircuits.check(board, Drawing.read(LAUNCH)));
        assertThrows(BadInput.class, () -> BoardCircuits.check(BENCH, Drawing.read(LAUNCH)));
    }

    @ParameterizedTest(name = "{0} ohm: {1}")
    @CsvSource({"650, false", "700, true", "3800, true", "4000, false", "0, false"})
    void optocouplersResistor_isJudgedByItsCurrent(int ohm, boolean good) throws Exception {
        Path board = board("series_ohm = 2200", "series_ohm = " + ohm);
        if (good) {
            assertDoesNotThrow(() -> BoardReader.read(board));
        } else {
            assertTrue(assertThrows(BadInput.class, () -> BoardReader.read(board))
                    .getMessage()
                    .contains("series_ohm"));
        }
    }

    @ParameterizedTest(name = "{0} over {1}: {2}")
    @CsvSource({"22000, 11000, true", "20000, 11000, false", "23000, 11000, false", "0, 0, false"})
    void divider_isJudgedByTheVoltageAtThePin(int upper, int lower, boolean good) throws Exception {
        Path board = board(
                "kind = \"pull-up\"\ninvert = true\ncircuit = \"optocoupler\"\nseries_ohm = 2200",
                "kind = \"digital\"\ncircuit = \"divider\"\nupper_ohm = " + upper + "\nlower_ohm = " + lower);
        if (good) {
            assertDoesNotThrow(() -> BoardReader.read(board));
        } else {
            assertTrue(assertThrows(BadInput.class, () -> BoardReader.read(board))
                    .getMessage()
                    .contains("upper_ohm"));
        }
    }

    @Test
    void circuitThatDoesNotFitThePinsKind_isRefused() throws Exception {
        Path board = board("circuit = \"optocoupler\"\nseries_ohm = 2200", "circuit = \"supply-12v\"");
        assertTrue(assertThrows(BadInput.class, () -> BoardReader.read(board))
                .getMessage()
                .contains("needs kind"));
    }
}
