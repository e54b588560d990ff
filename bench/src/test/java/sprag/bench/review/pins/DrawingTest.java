package sprag.bench.review.pins;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.review.wiring.circuit.SwitchSupply;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.supervisor.vocabulary.Signal;

/** What a person at the car is told of a wire, a switch or a fuse of the shipped van, and what of a board that does not fit. */
class DrawingTest {
    @TempDir
    Path folder;

    private Drawing van;

    @BeforeEach
    void read() throws Exception {
        van = Drawing.read(Catalogue.installed().vehicle("parcel-van"));
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            key_on             | wire S002, black-red, key_switch.drive to supervisor.key_on                             | key_switch
            negative_contactor | wire L013, blue, contactor_negative.coil_minus to supervisor.negative_contactor         | contactor_negative
            lv_supply_v        | wire L007, red-white, node_control.2 to supervisor.supply (carries it with others)      | ''
            pedal_supply_v     | wire S015, red-violet, supervisor.sensor_supply to pedal.supply (carries it with others)| ''
            nothing_like_it    | the schedule has no wire for it                                                         | ''
            """)
    void wire_isToldWithItsColourAndItsEnds_andThePartAtTheFarEnd(String key, String wiring, String part) {
        assertEquals(wiring, van.wiring(key));
        assertEquals(part, van.farPart(key));
        assertEquals(!wiring.startsWith("the schedule"), van.has(key));
    }

    @ParameterizedTest
    @CsvSource({
        "key_on, TWELVE_VOLT",
        "brake_pressed, TWELVE_VOLT",
        "forward_switch, TWELVE_VOLT",
        "sensor_supply, SENSOR_SUPPLY",
        "ground, GROUND",
        "no_such_pin, UNKNOWN",
        "pedal_a_v, UNKNOWN"
    })
    void closedSwitch_joinsItsWireToWhatTheScheduleShows(String key, SwitchSupply supply) {
        assertEquals(supply, van.supplyOf(key));
    }

    @Test
    void fusesOfThe12VoltSide_areToldWithTheirRatingAndTheWireBehind() {
        List<Drawing.Fuse> fuses = van.lowFuses();
        assertEquals(
                List.of("fuse_12v", "fuse_dcdc_out", "fuse_control", "fuse_coils", "fuse_blower", "fuse_brake_lamps"),
                fuses.stream().map(Drawing.Fuse::name).toList(),
                "none of the traction side");
        assertEquals(new Drawing.Fuse("fuse_12v", 100, "wire L002, red, at post_12v.1"), fuses.get(0));
        assertEquals(new Drawing.Fuse("fuse_control", 10, "wire L006, red-white, at node_control.1"), fuses.get(2));
    }

    /** The same fuse with its wire written the other way round, and one with nothing behind it. */
    @Test
    void fuse_withItsWireTheOtherWayRound_orNoneBehind_isToldAllTheSame() throws Exception {
        Path vehicle = Catalogue.installed().vehicle("parcel-van");
        Files.copy(vehicle.resolve("parts.csv"), folder.resolve("parts.csv"));
        String text = Files.readString(vehicle.resolve("wiring.csv"))
                .replace("L006,fuse_control.out,node_control.1,", "L006,node_control.1,fuse_control.out,")
                .replaceAll("(?m)^L010,.*\n", "");
        Files.writeString(folder.resolve("wiring.csv"), text);
        List<Drawing.Fuse> fuses = Drawing.read(folder).lowFuses();
        assertEquals("wire L006, red-white, at node_control.1", fuses.get(2).behind());
        assertEquals("", fuses.get(3).behind());
    }

    @Test
    void watchdogRelay_inTheSupplyOfTheCoils_leavesNothingToTell_andItsLackIsTold() throws Exception {
        assertTrue(van.unguardedOutputs().isEmpty(), "the van has one: " + van.unguardedOutputs());
        Path vehicle = Catalogue.installed().vehicle("parcel-van");
        Files.copy(vehicle.resolve("parts.csv"), folder.resolve("parts.csv"));
        String text = Files.readString(vehicle.resolve("wiring.csv"));
        Files.writeString(folder.resolve("wiring.csv"), text.replaceAll("(?m)^L041,.*\n", ""));
        String told = Drawing.read(folder).unguardedOutputs().orElseThrow();
        assertTrue(told.contains("heartbeat"), told);
    }

    @Test
    void folderWithoutASchedule_isRefused_withTheRemedy() {
        BadInput refused = assertThrows(BadInput.class, () -> Drawing.read(folder));
        assertTrue(refused.getMessage().contains("wiring.csv")
                && refused.getMessage().contains("docs/checking.md"));
    }

    private BoardInputs board(String circuit) throws Exception {
        Path file = folder.resolve("board.toml");
        Files.writeString(
                file, "[board]\nprotocol = \"firmata\"\n\n[[input]]\nsignal = \"key_on\"\npin = 2\n" + circuit);
        return BoardInputs.read(file, van);
    }

    @ParameterizedTest
    @CsvSource({
        "to-ground, true, made for a switch to the ground",
        "supply-5v, true, made for a switch to the sensor supply of 5 V",
        "supply-12v, false, ''",
        "divider, false, ''",
        "optocoupler, false, ''"
    })
    void circuitOfAnInput_thatTheLoomsSwitchDoesNotFit_isToldAtItsLine(String circuit, boolean wrong, String words)
            throws Exception {
        BoardInputs inputs = board("circuit = \"" + circuit + "\"\n");
        assertEquals(wrong ? 1 : 0, inputs.contradictions().size());
        assertEquals(List.of(), inputs.unsaid());
        assertTrue(inputs.caution().isEmpty());
        if (wrong) {
            BoardInputs.Input input = inputs.contradictions().get(0);
            assertEquals(Signal.KEY_ON, input.signal());
            assertEquals(7, input.line());
            assertEquals(
                    "has circuit = \"" + circuit + "\", " + words
                            + ", but the schedule's switch closes to the 12 V supply",
                    input.words());
        }
    }

    @Test
    void inputWithoutACircuit_at12Volts_isACaution_onABarePinOnly() throws Exception {
        BoardInputs inputs = board("");
        assertEquals(List.of(), inputs.contradictions());
        assertEquals(
                "has no circuit, and the schedule's switch closes to the 12 V supply",
                inputs.unsaid().get(0).words());
        assertEquals(5, inputs.unsaid().get(0).line(), "the line of the signal");
        assertTrue(inputs.caution()
                .orElseThrow()
                .startsWith("The board's file does not say which circuit lies before key_on."));
        Path file = folder.resolve("module.toml");
        Files.writeString(file, Files.readString(folder.resolve("board.toml")).replace("firmata", "modbus"));
        assertEquals(List.of(), BoardInputs.read(file, van).unsaid(), "a module has circuits of its own");
    }

    @Test
    void measuredInput_hasNoSwitchToFit_andUnknownWordsAreRefused() throws Exception {
        Path file = folder.resolve("board.toml");
        Files.writeString(file, "[board]\nprotocol = \"firmata\"\n\n[[input]]\nsignal = \"pedal_a_v\"\npin = 14\n");
        BoardInputs inputs = BoardInputs.read(file, van);
        assertTrue(inputs.contradictions().isEmpty() && inputs.unsaid().isEmpty());
        assertFalse(inputs.caution().isPresent());
        assertTrue(assertThrows(BadInput.class, () -> board("circuit = \"plain\"\n"))
                .getMessage()
                .contains("to-ground"));
    }
}
