package sprag.hal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.List;
import org.junit.jupiter.api.Test;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** A board for key and brake, a simulation for everything. */
class MixedDeviceTest {
    private final SimulatedDevice board = new SimulatedDevice(EnumSet.of(Signal.KEY_ON, Signal.BRAKE_PRESSED));
    private final SimulatedDevice simulation = new SimulatedDevice(EnumSet.allOf(Signal.class));
    private final MixedDevice mixed = new MixedDevice(board, simulation);
    private final Samples samples = new Samples();

    MixedDeviceTest() {
        for (Signal signal : Signal.values()) {
            simulation.set(signal, 7);
        }
        board.set(Signal.KEY_ON, 1);
        board.set(Signal.BRAKE_PRESSED, 0);
    }

    @Test
    void boardSignals_comeFromTheBoardTheRestFromTheSimulation() {
        mixed.sample(samples, 10);
        assertEquals(1, samples.get(Signal.KEY_ON));
        assertEquals(0, samples.get(Signal.BRAKE_PRESSED));
        assertEquals(7, samples.get(Signal.BUS_VOLTAGE_V));
        assertEquals(EnumSet.allOf(Signal.class), mixed.samples());
        assertEquals(EnumSet.allOf(Output.class), mixed.drives());
        assertEquals("levers", mixed.sourceOf(Signal.KEY_ON));
        assertEquals("levers with levers", mixed.name());
    }

    @Test
    void source_isTheBoardForItsSignalsAndTheSimulationForTheRest() {
        DeviceGroup named = new DeviceGroup(List.of(board, new SimulatedDevice(EnumSet.of(Signal.PLUG_PRESENT))));
        MixedDevice other = new MixedDevice(named, simulation);
        assertEquals("levers and levers", other.sourceOf(Signal.PLUG_PRESENT));
        assertEquals("levers", other.sourceOf(Signal.BUS_VOLTAGE_V));
    }

    @Test
    void boardFallsSilent_itsSignalsGrowOldAndAreNotSimulated() {
        mixed.sample(samples, 10);
        board.freeze(Signal.KEY_ON, true);
        mixed.sample(samples, 1_000);
        assertEquals(990, samples.ageNs(Signal.KEY_ON, 1_000));
        assertEquals(1, samples.get(Signal.KEY_ON));
        assertEquals(0, samples.ageNs(Signal.BUS_VOLTAGE_V, 1_000));
        board.freeze(Signal.KEY_ON, false);
        mixed.sample(samples, 2_000);
        assertEquals(0, samples.ageNs(Signal.KEY_ON, 2_000));
    }

    @Test
    void boardNeverAnswered_signalStaysUnknown() {
        board.freeze(Signal.KEY_ON, true);
        mixed.sample(samples, 10);
        assertEquals(Double.NaN, samples.get(Signal.KEY_ON));
    }

    @Test
    void simulationFallsSilent_itsSamplesKeepTheirAge() {
        mixed.sample(samples, 10);
        simulation.freeze(Signal.BUS_VOLTAGE_V, true);
        mixed.sample(samples, 500);
        assertEquals(490, samples.ageNs(Signal.BUS_VOLTAGE_V, 500));
    }

    @Test
    void commands_goToBoth_andReleaseReachesBoth() {
        Commands commands = new Commands();
        commands.set(Output.NEGATIVE_CONTACTOR, true);
        mixed.command(commands, 0);
        assertTrue(board.commands().isOn(Output.NEGATIVE_CONTACTOR));
        assertTrue(simulation.commands().isOn(Output.NEGATIVE_CONTACTOR));
        mixed.release();
        assertFalse(board.commands().isOn(Output.NEGATIVE_CONTACTOR));
        assertFalse(simulation.commands().isOn(Output.NEGATIVE_CONTACTOR));
        mixed.command(commands, 0);
        mixed.close();
        assertFalse(board.commands().isOn(Output.NEGATIVE_CONTACTOR));
        assertFalse(simulation.commands().isOn(Output.NEGATIVE_CONTACTOR));
    }

    @Test
    void health_isWellOnlyWhenBothAre() {
        assertTrue(mixed.health().isWell());
        simulation.setHealth(Health.lost("simulation stopped"));
        assertEquals("simulation stopped", mixed.health().reason());
        board.setHealth(Health.lost("cable out"));
        assertEquals("cable out", mixed.health().reason(), "the board's trouble first");
        simulation.setHealth(Health.OK);
        assertFalse(mixed.health().isWell());
    }

    @Test
    void health_tellsItselfInWords() {
        assertEquals("well", Health.OK.toString());
        assertEquals("", Health.OK.reason());
        assertEquals("cable out", Health.lost("cable out").toString());
        assertThrows(NullPointerException.class, () -> Health.lost(null));
    }

    @Test
    void leversUnset_areUnknown() {
        SimulatedDevice fresh = new SimulatedDevice(EnumSet.of(Signal.KEY_ON));
        fresh.sample(samples, 3);
        assertEquals(Double.NaN, samples.get(Signal.KEY_ON));
        assertEquals(0, samples.ageNs(Signal.KEY_ON, 3), "fresh, but unknown");
        assertEquals(EnumSet.of(Signal.KEY_ON), fresh.samples());
        assertThrows(UnsupportedOperationException.class, () -> fresh.samples().add(Signal.BRAKE_PRESSED));
    }
}
