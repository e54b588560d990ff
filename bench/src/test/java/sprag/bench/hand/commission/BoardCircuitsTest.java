package sprag.bench.hand.commission;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.hand.board.BoardReader;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.pins.Drawing;
import sprag.bench.review.report.Checker;
import sprag.bench.review.report.JudgedFinding;
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
    void boardInTheVehiclesFolder_isComparedByCheckToo_eachInputAtItsLine() throws Exception {
        for (String file : List.of("vehicle.toml", "wiring.csv", "parts.csv", "accepted.toml")) {
            if (Files.exists(VAN.resolve(file))) {
                Files.copy(VAN.resolve(file), folder.resolve(file));
            }
        }
        String opto = "circuit = \"optocoupler\"\nseries_ohm = 2200";
        board(opto, opto);
        assertEquals(List.of(), boardFindings(), "the shipped board fits the shipped van");
        board(opto, "circuit = \"to-ground\"");
        List<Finding> wrong = boardFindings();
        assertEquals(6, wrong.size(), wrong.toString());
        assertEquals("board-circuit", wrong.get(0).id());
        assertEquals(Weight.STOP, wrong.get(0).weight());
        List<String> lines = Files.readAllLines(folder.resolve("board.toml"));
        assertEquals("circuit = \"to-ground\"", lines.get(wrong.get(0).place().line() - 1));
        board(opto, "");
        List<Finding> unsaid = boardFindings();
        assertEquals(6, unsaid.size(), unsaid.toString());
        assertEquals(Weight.CAUTION, unsaid.get(0).weight());
        assertTrue(unsaid.get(0).sentence().contains("key_on has no circuit"), unsaid.toString());
    }

    private List<Finding> boardFindings() throws Exception {
        return Checker.check(folder).findings().stream()
                .map(JudgedFinding::finding)
                .filter(finding -> finding.id().startsWith("board-circuit"))
                .toList();
    }

    @Test
    void boardWithoutAnyCircuit_onALoomOf12V_isTold() throws Exception {
        Path board = board("circuit = \"optocoupler\"\nseries_ohm = 2200", "");
        String told = BoardCircuits.check(board, Drawing.read(VAN)).orElseThrow();
        assertTrue(told.contains("does not say which circuit lies before key_on"), told);
        assertTrue(BoardCircuits.check(BENCH, Drawing.read(VAN)).isEmpty());
        assertTrue(BoardCircuits.check(board, Drawing.read(LAUNCH)).isEmpty(), "that loom switches ground");
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
