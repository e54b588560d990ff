package sprag.bench.panel;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import sprag.bench.bus.BusFile;
import sprag.bench.bus.BusReader;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Vehicle;

class PlayableScenariosTest {
    private final Vehicle vehicle = PanelBench.vehicle("parcel-van");

    private List<String> offered(BusFile bus) throws BadInput {
        return PlayableScenarios.suiting(PanelBench.catalogue(), vehicle, bus).stream()
                .map(Scenario::name)
                .toList();
    }

    @Test
    void scenarios_onlyThoseOfTheSameBus_areOffered() throws BadInput {
        List<String> onBus = offered(BusReader.read(PanelBench.catalogue().bus("van-pair"), vehicle));
        assertTrue(onBus.contains("data-bus-cut") && !onBus.contains("drive-and-stop"), onBus::toString);
        List<String> without = offered(null);
        assertTrue(!without.contains("data-bus-cut") && without.contains("drive-and-stop"), without::toString);
    }
}
