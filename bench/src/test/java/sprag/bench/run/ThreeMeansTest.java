package sprag.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioRun;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/** Hazard H09: three means cut a charge by message. Each cuts it alone; with that one taken away too, the current goes on. */
class ThreeMeansTest {
    private static final long FROM_THE_START_MS = 22_000;

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            SCENARIO                    | TAKES AWAY                                      | BECAUSE
            charge-cut-by-limits        | charger_1.keeps_limit charger_2.keeps_limit     | the limits go to zero, and nobody heeds them
            charge-cut-by-disable-frame | charger_1.stays_enabled charger_2.stays_enabled | the disable frame is sent, and nobody heeds it
            charge-cut-by-contactor     | station.stuck_closed                            | the station does not open
            """)
    void chargeCutByOneMeans_thatOneTakenAwayToo_currentGoesOn(String name, String faults, String because)
            throws Exception {
        Catalogue catalogue = Catalogue.installed();
        Vehicle van = VehicleReader.read(catalogue.vehicle("parcel-van"));
        Scenario scenario =
                new ScenarioFiles(catalogue, van).take(List.of(name)).get(0);
        assertEquals(List.of(), failed(van, scenario, ""), "as shipped");
        List<String> failed = failed(van, scenario, faults);
        assertTrue(failed.contains("no current flows in"), because + ": " + failed);
    }

    private static List<String> failed(Vehicle van, Scenario scenario, String faults) throws Exception {
        ClosedLoop loop = ClosedLoop.on(van, scenario.about().bus(), scenario.seed());
        ScenarioRun.Observer meddling = frame -> {
            if (frame.timeMs == FROM_THE_START_MS && !faults.isEmpty()) {
                Stream.of(faults.split(" ")).forEach(loop::inject);
            }
        };
        RunResult result =
                new ScenarioRun(scenario, loop).play(van.name(), (step, at) -> {}, List.of(meddling), () -> false);
        return result.judged().stream()
                .filter(each -> !each.verdict().passed())
                .map(each -> each.expectation().text())
                .toList();
    }
}
