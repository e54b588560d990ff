package sprag.bench.panel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.hand.board.DecisiveReading;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.panel.bench.NoteBook;
import sprag.bench.panel.bench.Order;
import sprag.bench.panel.session.BoardLink;
import sprag.bench.panel.web.Panel;
import sprag.hal.SimulatedDevice;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** What must be said and be so before real outputs follow the supervisor; held on the server, whatever a page sends. */
final class ArmingTest {
    private static final long PAGE = 3;

    private final ManualClock clock = new ManualClock();
    private Panel panel;

    /** Arms a board that has these signals and drives every output. */
    private boolean arms(SimulatedDevice pins, Order.Arm order) {
        FakeBoard board = new FakeBoard(pins);
        panel = new Panel(PanelBench.vehicle("parcel-van"), board, clock, List.of());
        panel.lease().ask(PAGE, true, clock.nowNs());
        run(20);
        panel.thread().order(order);
        run(20);
        return board.stage() == BoardLink.Stage.ARMED;
    }

    private void run(int ticks) {
        ClosedLoop loop = panel.bench().session().loop;
        long end = loop.loop().ticks() + ticks;
        loop.run(
                () -> {
                    panel.lease().heard(PAGE, clock.nowNs());
                    return panel.thread().beforeRealTick() && loop.loop().ticks() < end;
                },
                panel.bench()::seen);
    }

    private static SimulatedDevice withBus(double volts) {
        SimulatedDevice pins = new SimulatedDevice(EnumSet.of(Signal.KEY_ON, Signal.BUS_VOLTAGE_V));
        pins.set(Signal.KEY_ON, 0);
        pins.set(Signal.BUS_VOLTAGE_V, volts);
        return pins;
    }

    private static SimulatedDevice withoutBus() {
        SimulatedDevice pins = new SimulatedDevice(EnumSet.of(Signal.KEY_ON));
        pins.set(Signal.KEY_ON, 0);
        return pins;
    }

    @ParameterizedTest
    @CsvSource({"false, false, false", "true, false, false", "false, true, false", "true, true, true"})
    void contactorsOnAnInventedBus_armOnlyWithPackAbsentAndCautionsTaken(boolean absent, boolean taken, boolean arms) {
        assertEquals(arms, arms(withoutBus(), new Order.Arm(absent, taken)));
    }

    @Test
    void contactorsOnTheirOwnBus_packMayBeThere() {
        assertTrue(arms(withBus(100), new Order.Arm(false, true)));
        assertFalse(arms(withBus(100), new Order.Arm(false, false)), "the cautions all the same");
    }

    @ParameterizedTest
    @CsvSource({"60, true", "61, false", "-61, false", "NaN, false"})
    void packSaidToBeAbsent_theBoardsOwnReadingDecides_bothSides(double busV, boolean arms) {
        assertEquals(arms, arms(withBus(busV), new Order.Arm(true, true)));
    }

    @ParameterizedTest
    @CsvSource({"60, true", "61, false", "-61, false", "NaN, false"})
    void packSaidToBeAbsent_boardReadsThePackOnly_decidesToo(double packV, boolean arms) {
        SimulatedDevice pins = new SimulatedDevice(EnumSet.of(Signal.KEY_ON, Signal.PACK_VOLTAGE_V));
        pins.set(Signal.KEY_ON, 0);
        pins.set(Signal.PACK_VOLTAGE_V, packV);
        assertEquals(arms, arms(pins, new Order.Arm(true, true)));
    }

    @Test
    void lampsOnly_needNoAbsentPack() {
        assertFalse(DecisiveReading.needsPackAbsent(Set.of(), Set.of(Output.READY_LAMP, Output.FAULT_LAMP)));
        for (Output contactor : List.of(Output.NEGATIVE_CONTACTOR, Output.PRECHARGE_RELAY, Output.POSITIVE_CONTACTOR)) {
            assertTrue(DecisiveReading.needsPackAbsent(Set.of(), Set.of(contactor)), contactor.key());
            assertFalse(DecisiveReading.needsPackAbsent(Set.of(Signal.BUS_VOLTAGE_V), Set.of(contactor)));
        }
    }

    /** The page shows each of them; what the vehicle does not have is not invented, what the board has is real. */
    @Test
    void description_namesEachInventedReading() throws Exception {
        panel = new Panel(PanelBench.vehicle("parcel-van"), new FakeBoard(withoutBus()), clock, List.of());
        JsonNode hello = new ObjectMapper().readTree(panel.description());
        String invented = hello.path("boardInvented").toString();
        for (Signal signal : List.of(
                Signal.BUS_VOLTAGE_V,
                Signal.PACK_VOLTAGE_V,
                Signal.PACK_CURRENT_A,
                Signal.NEGATIVE_AUX_CLOSED,
                Signal.POSITIVE_AUX_CLOSED)) {
            boolean fitted = PanelBench.vehicle("parcel-van").settings().has(signal);
            assertEquals(fitted, invented.contains(signal.key() + " is simulated"), signal.key());
        }
        assertTrue(hello.path("boardNeedsPackAbsent").asBoolean());
        assertEquals(
                List.of(),
                DecisiveReading.invented(s -> true, EnumSet.allOf(Signal.class)),
                "a board that has all of them invents none");
    }

    @Test
    void everyDecisiveReading_boardHasNone_eachIsNamedOnce() {
        List<String> invented = DecisiveReading.invented(s -> true, Set.of());
        for (Signal signal : List.of(
                Signal.BUS_VOLTAGE_V,
                Signal.PACK_VOLTAGE_V,
                Signal.PACK_CURRENT_A,
                Signal.NEGATIVE_AUX_CLOSED,
                Signal.PRECHARGE_AUX_CLOSED,
                Signal.POSITIVE_AUX_CLOSED)) {
            long named = invented.stream()
                    .filter(line -> line.startsWith(signal.key() + " is simulated"))
                    .count();
            assertEquals(1, named, signal.key());
        }
    }

    @Test
    void armed_event_namesWhatIsInvented() {
        assertTrue(arms(withoutBus(), new Order.Arm(true, true)));
        NoteBook notes = panel.bench().notes();
        String said = LongStream.range(0, notes.count())
                .mapToObj(i -> notes.get(i).toString())
                .filter(note -> note.contains("armed: its outputs follow"))
                .findFirst()
                .orElseThrow();
        assertTrue(said.contains("bus_voltage_v is simulated"), said);
        assertTrue(said.contains("pack_current_a is simulated"), said);
    }
}
