package sprag.hal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** Two boards that are used as one device. */
class DeviceGroupTest {
    private final List<String> calls = new ArrayList<>();
    private final Part cabin = new Part("cabin", Signal.KEY_ON, Output.READY_LAMP);
    private final Part pack = new Part("pack", Signal.BUS_VOLTAGE_V, Output.POSITIVE_CONTACTOR);
    private final DeviceGroup group = new DeviceGroup(List.of(cabin, pack));

    /** One board: gives 1 for its signal, and notes what it is told. */
    private final class Part extends PinnedDevice {
        private Health health = Health.OK;

        Part(String name, Signal signal, Output output) {
            super(name, EnumSet.of(signal), EnumSet.of(output));
        }

        @Override
        public void sample(Samples into, long nowNs) {
            samples().forEach(signal -> into.put(signal, 1, nowNs));
        }

        @Override
        public void command(Commands commands, long nowNs) {
            drives().forEach(output -> calls.add(name() + " " + commands.get(output) + " at " + nowNs));
        }

        @Override
        public void release() {
            calls.add(name() + " released");
        }

        @Override
        public Health health() {
            return health;
        }

        @Override
        public void close() {
            calls.add(name() + " closed");
        }
    }

    @Test
    void twoBoards_areOneDeviceWithTheSignalsAndOutputsOfBoth() {
        assertEquals("cabin and pack", group.name());
        assertEquals(Set.of(Signal.KEY_ON, Signal.BUS_VOLTAGE_V), group.samples());
        assertEquals(Set.of(Output.READY_LAMP, Output.POSITIVE_CONTACTOR), group.drives());
        Samples samples = new Samples();
        group.sample(samples, 5);
        assertEquals(1, samples.get(Signal.KEY_ON));
        assertEquals(1, samples.get(Signal.BUS_VOLTAGE_V));
    }

    @Test
    void commands_reachEveryBoard() {
        Commands commands = new Commands();
        commands.set(Output.POSITIVE_CONTACTOR, true);
        group.command(commands, 7);
        assertEquals(List.of("cabin 0.0 at 7", "pack 1.0 at 7"), calls);
    }

    @Test
    void release_reachesEveryBoard() {
        group.release();
        assertEquals(List.of("cabin released", "pack released"), calls);
    }

    /** Closing a board may take a second; the others must not stay on for so long. */
    @Test
    void close_releasesEveryBoardBeforeItClosesTheFirst() {
        group.close();
        assertEquals(List.of("cabin released", "pack released", "cabin closed", "pack closed"), calls);
    }

    @Test
    void health_isThatOfTheFirstBoardThatIsUnwell() {
        assertSame(Health.OK, group.health());
        pack.health = Health.lost("pack is gone");
        assertEquals("pack is gone", group.health().reason());
        cabin.health = Health.lost("cabin is gone");
        assertEquals("cabin is gone", group.health().reason());
    }

    @Test
    void oneSignalFromTwoBoards_isRefusedByItsName() {
        IllegalArgumentException twice =
                assertThrows(IllegalArgumentException.class, () -> new DeviceGroup(List.of(cabin, pack, cabin)));
        assertTrue(twice.getMessage().startsWith("key_on comes from two devices"), twice.getMessage());
    }
}
