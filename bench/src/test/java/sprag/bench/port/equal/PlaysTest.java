package sprag.bench.port.equal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import sprag.bench.evidence.campaign.CampaignRuns;
import sprag.bench.port.translate.SharedTranslation;
import sprag.bench.run.ScenarioFiles;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/** What is said to be compared is played: every tick of it. */
class PlaysTest {
    private static Vehicle vehicle;
    private static CampaignRuns runs;

    @BeforeAll
    static void prepare() throws Exception {
        vehicle = VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
        runs = new CampaignRuns(vehicle);
    }

    @Test
    void scenarioAndRunOfTheCampaign_eachAlsoDisturbed_arePlayedToTheirLastTick() throws Exception {
        List<Scenario> drive = new ScenarioFiles(Catalogue.installed(), vehicle).take(List.of("drive-and-stop"));
        Plays plays = new Plays(drive, 1);
        assertEquals(1, plays.add(runs, runs.names().size()));
        assertEquals(4, plays.count());
        Map<String, Long> ticks = new LinkedHashMap<>();
        Material material = new Material(vehicle, SharedTranslation.whole().stateCells(vehicle.settings()), batch -> {
            assertEquals(batch.firstTick(), ticks.getOrDefault(batch.name(), 0L), "no tick is left out");
            assertEquals(batch.fresh(), batch.firstTick() == 0);
            ticks.merge(batch.name(), (long) batch.ticks(), Long::sum);
        });
        List<Integer> told = new ArrayList<>();
        plays.play(material, told::add);
        assertEquals(List.of(1, 2, 3, 4), told);
        long[] ofTheRun = {0};
        runs.play(0, (name, loop) -> {
            loop.loop().listen((tick, in, out) -> ofTheRun[0]++);
            return () -> {};
        });
        String run = runs.names().get(0);
        assertEquals(
                List.of(
                        "drive-and-stop",
                        "drive-and-stop disturbed by seed 1001",
                        run,
                        run + " disturbed by seed 2001"),
                List.copyOf(ticks.keySet()));
        assertEquals(ticks.get("drive-and-stop"), ticks.get("drive-and-stop disturbed by seed 1001"));
        assertTrue(ticks.get("drive-and-stop") > 1000, ticks.toString());
        assertEquals(ofTheRun[0], ticks.get(run));
        assertEquals(ofTheRun[0], ticks.get(run + " disturbed by seed 2001"));
    }

    @Test
    void everyRunOfTheCampaign_orEachThird_isAdded() {
        int all = runs.names().size();
        assertTrue(all > 100, "only " + all + " runs");
        assertEquals(all, new Plays(List.of(), 0).add(runs, 1));
        assertEquals((all + 2) / 3, new Plays(List.of(), 0).add(runs, 3));
    }
}
