package sprag.bench.loop.bus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.bench.bus.BusFile;
import sprag.bench.bus.BusReader;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.FrameColumns;
import sprag.bench.scenario.ScenarioReader;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.hal.Samples;
import sprag.hal.board.InputPin;
import sprag.hal.board.PinSink;
import sprag.hal.bus.BusDecoder;
import sprag.hal.bus.CanFrame;
import sprag.supervisor.vocabulary.Signal;

/** Signals that pass a simulated bus, and every fault of it. */
class SimulatedBusTest {
    private final BusFile bus;
    private final Vehicle van;

    SimulatedBusTest() throws BadInput {
        van = VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
        bus = BusReader.read(Catalogue.installed().bus("van-pair"), van);
    }

    private ClosedLoop afterOneSecond() {
        ClosedLoop loop = ClosedLoop.on(van, bus, 1);
        run(loop, 1000);
        return loop;
    }

    private static void run(ClosedLoop loop, long ms) {
        for (long passed = 0; passed < ms; passed += loop.tickMs()) {
            loop.tick();
        }
    }

    @Test
    void soundBus_everySignal_isThatOfTheCarToAFewCounts() {
        ClosedLoop direct = ClosedLoop.on(van, null, 1);
        run(direct, 1000);
        ClosedLoop loop = afterOneSecond();
        for (Signal signal : van.fitted()) {
            double expected = direct.readings().get(signal);
            double seen = loop.readings().get(signal);
            double count = signal.isSwitch()
                    ? 0
                    : bus.map().pins().inputs().stream()
                            .filter(pin -> pin.signal() == signal)
                            .mapToDouble(pin -> pin.scale().perCount())
                            .findFirst()
                            .orElse(0);
            assertEquals(expected, seen, 5 * count + 0.02 * Math.abs(expected) * Math.signum(count), signal.key());
        }
    }

    /** A device says more than the vehicle reads. What is read of it must not get lost with the rest. */
    @Test
    void messageWithASignalThatTheCarLacks_itsOtherSignalsAreKnown(@TempDir Path folder) throws Exception {
        String text = Files.readString(Catalogue.installed().bus("van-pair"));
        String changed = text.replace("\"charger_1_voltage_v\"", "\"charger_3_voltage_v\"");
        BusFile more = BusReader.read(Files.writeString(folder.resolve("bus.toml"), changed), van);
        ClosedLoop loop = ClosedLoop.on(van, more, 1);
        run(loop, 1000);
        assertTrue(more.map().pins().signals().contains(Signal.CHARGER_3_VOLTAGE_V));
        assertTrue(loop.readings().isOn(Signal.CHARGER_1_OK));
        assertEquals(0, loop.readings().get(Signal.CHARGER_1_CURRENT_A), 0.5);
    }

    @Test
    void everyFault_injected_isFeltOrHarmlessAndNeverThrows() {
        for (String fault : BusFaults.names(bus.map())) {
            ClosedLoop loop = afterOneSecond();
            loop.inject(fault);
            run(loop, 1000);
            boolean harmless = fault.endsWith(".doubled")
                    || fault.endsWith(".late")
                    || fault.contains("_command.")
                    || fault.contains("_lamps.");
            long unknown = van.fitted().stream()
                    .filter(s -> Double.isNaN(loop.readings().get(s)))
                    .count();
            boolean felt = unknown > 0 || loop.readings().isOn(Signal.LINK_LOST);
            assertTrue(felt || harmless, () -> fault + " changes nothing that the supervisor sees");
            loop.clear(fault);
            run(loop, 500);
        }
    }

    /** A node that does not know says so by the code of its field. Zero would be a pack without voltage, or one without current. */
    @ParameterizedTest
    @EnumSource(names = {"PACK_VOLTAGE_V", "PACK_CURRENT_A", "CELL_MIN_V", "CELL_MAX_V", "DISCHARGE_PERMIT"})
    void nodeThatDoesNotKnow_isUnknownBehindTheBus(Signal signal) {
        Samples samples = new Samples();
        for (Signal each : van.fitted()) {
            samples.put(each, each == signal ? Double.NaN : Math.max(1, each.min), 0);
        }
        BusNodes nodes = new BusNodes(bus.map(), van.fitted());
        Map<Signal, Double> heard = new EnumMap<>(Signal.class);
        PinSink sink = new PinSink() {
            @Override
            public void put(int input, long raw, long arrivedNs) {
                InputPin pin = bus.map().pins().inputs().get(input);
                heard.put(pin.signal(), pin.value(raw));
            }

            @Override
            public void putUnknown(int input, long nowNs) {
                heard.put(bus.map().pins().inputs().get(input).signal(), Double.NaN);
            }
        };
        BusDecoder decoder = new BusDecoder(bus.map());
        for (int m = 0; m < bus.map().messages().size(); m++) {
            CanFrame frame = new CanFrame();
            if (!bus.map().messages().get(m).isSent() && nodes.compose(m, false, samples, 0, frame)) {
                decoder.accept(frame, 0, sink);
            }
        }
        assertTrue(heard.containsKey(signal), signal + " is not in " + heard.keySet());
        assertEquals(Double.NaN, heard.get(signal));
    }

    @Test
    void lateMessage_isOlderButKnown() {
        ClosedLoop loop = afterOneSecond();
        loop.inject("message.monitor_pack.late=40");
        run(loop, 500);
        assertEquals(98, loop.readings().get(Signal.PACK_VOLTAGE_V), 3);
    }

    @Test
    void commandOfASecondSender_losesTheLink() {
        ClosedLoop loop = afterOneSecond();
        loop.inject("message.torque_command.two_senders");
        run(loop, 50);
        assertTrue(loop.readings().isOn(Signal.LINK_LOST));
    }

    @Test
    void names_ofAllFaults_areDifferentAndUnderstood() {
        List<String> names = BusFaults.names(bus.map());
        assertEquals(names.size(), new HashSet<>(names).size());
        for (String name : names) {
            assertTrue(BusFaults.isOne(name));
            assertEquals("", BusFaults.complaint(name, bus.map()));
        }
        assertTrue(BusFaults.complaint("message.monitor_pack.lst", bus.map()).contains("message.monitor_pack.lost"));
        assertTrue(
                !BusFaults.complaint("message.monitor_pack.lost=3", bus.map()).isEmpty(), "lost takes no number");
        assertTrue(
                !BusFaults.complaint("message.monitor_pack.late=0", bus.map()).isEmpty(), "late takes 1 ms at least");
    }

    @Test
    void carWithoutABus_faultOfABus_isRefused() {
        ClosedLoop loop = ClosedLoop.on(van, null, 1);
        assertThrows(IllegalArgumentException.class, () -> loop.inject("data_bus.cut"));
    }

    @Test
    void scenario_faultOfABusItDoesNotName_isRefusedWithTheRemedy() {
        String text = """
            [about]
            title = "t"
            why = "w"
            duration_s = 1
            [[do]]
            at_s = 0
            fault = "data_bus.cut"
            [[expect]]
            text = "x"
            output = "buzzer"
            is = 0
            """;
        BadInput bad = assertThrows(
                BadInput.class, () -> ScenarioReader.parse(Path.of("s.toml"), text, FrameColumns.VOCABULARY));
        assertTrue(bad.getMessage().contains("about.bus"), bad.getMessage());
    }

    @Test
    void scenario_namesABusByAPath_itIsReadFromTheFolderOfTheScenario(@TempDir Path folder) throws Exception {
        String shipped = Files.readString(Catalogue.installed().bus("van-pair"));
        Path bus = Files.writeString(folder.resolve("bus.toml"), shipped);
        Path file = Files.createDirectory(folder.resolve("scenarios")).resolve("own.toml");
        String text = """
                [about]
                title = "t"
                why = "w"
                bus = "../bus.toml"
                duration_s = 1
                [[expect]]
                text = "off"
                state = "OFF"
                by_s = 1
                """;
        assertEquals(
                bus.toRealPath(),
                ScenarioReader.parse(file, text, FrameColumns.VOCABULARY)
                        .about()
                        .bus()
                        .file()
                        .toRealPath());
    }
}
