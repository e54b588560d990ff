package sprag.bench.panel.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.bus.BusFile;
import sprag.bench.bus.BusReader;
import sprag.bench.loop.FrameColumns;
import sprag.bench.panel.PanelBench;
import sprag.bench.panel.session.Subject;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioReader;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.State;

/** A simulated data bus on the panel: its faults are among those of the car. */
class BusOnPanelTest {
    @TempDir
    Path folder;

    private final Vehicle vehicle = PanelBench.vehicle("parcel-van");
    private final BusFile bus = bus();
    private final PanelBench rig = new PanelBench(new Subject(vehicle, bus, null));

    private BusFile bus() {
        try {
            return BusReader.read(PanelBench.catalogue().bus("van-pair"), vehicle);
        } catch (sprag.bench.vehicle.BadInput e) {
            throw new IllegalStateException(e);
        }
    }

    private void say(String message) throws Refused {
        rig.order(((Message.Ordered) rig.panel.reader().read(message)).order()).run(100);
    }

    private List<String> faults() {
        return rig.panel.publisher().state().faults();
    }

    @Test
    void wiresCutWhileDriving_torqueIsGone_andTheNoteSaysWhat() throws Exception {
        rig.drive();
        assertEquals(State.DRIVE_ENABLE, rig.state());
        say("{\"do\":\"fault\",\"name\":\"data_bus.cut\"}");
        rig.run(1000);
        assertEquals(List.of("data_bus.cut"), faults());
        assertNotNull(rig.note("both wires of the data bus are cut"));
        assertTrue(rig.state() == State.FAULT || rig.state() == State.RUNDOWN, () -> "state " + rig.state());
    }

    @Test
    void lateMessage_brokenAndMended_comesAndGoes() throws Exception {
        say("{\"do\":\"fault\",\"name\":\"message.monitor_pack.late=40\"}");
        assertEquals(List.of("message.monitor_pack.late=40.0"), faults());
        say("{\"do\":\"mend\",\"name\":\"message.monitor_pack.late\"}");
        assertEquals(List.of(), faults());
        say("{\"do\":\"fault\",\"name\":\"message.monitor_pack.lost\"}");
        say("{\"do\":\"mend-all\"}");
        assertEquals(List.of(), faults());
    }

    @Test
    void faultOfNoMessage_asked_isRefusedWithTheNearest() {
        Refused refused =
                assertThrows(Refused.class, () -> say("{\"do\":\"fault\",\"name\":\"message.monitor.lost\"}"));
        assertTrue(refused.getMessage().contains("message.monitor_pack.lost"), refused.getMessage());
        PanelBench without = new PanelBench();
        assertThrows(Refused.class, () -> without.panel.reader().read("{\"do\":\"fault\",\"name\":\"data_bus.cut\"}"));
    }

    @Test
    void page_isTold_ofEveryFaultOfTheBus() throws Exception {
        JsonNode hello = new ObjectMapper().readTree(rig.panel.description());
        List<String> names = hello.path("faults").findValuesAsText("name");
        assertTrue(names.containsAll(List.of("data_bus.flooded", "message.charger_1_command.lost")), names::toString);
        assertTrue(!new PanelBench().panel.description().contains("data_bus."));
    }

    @Test
    void whatWasDone_keptAsAScenario_namesTheBusAndIsRead() throws Exception {
        say("{\"do\":\"fault\",\"name\":\"message.dash_lamps.lost\"}");
        Path file = Files.writeString(folder.resolve("kept.toml"), rig.bench.scenario());
        Scenario kept = ScenarioReader.read(file, FrameColumns.VOCABULARY, vehicle);
        assertEquals(bus.file(), kept.about().bus().file());
    }
}
