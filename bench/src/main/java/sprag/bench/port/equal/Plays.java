package sprag.bench.port.equal;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntConsumer;
import sprag.bench.evidence.campaign.CampaignRuns;
import sprag.bench.scenario.Scenario;

/** What is played to compare: scenarios and runs of the campaign, each as it is and some times with disturbed readings. */
public final class Plays {
    private static final int SEEDS = 1000;

    private final List<Scenario> scenarios;
    private final int disturbed;
    private final List<Play> plays = new ArrayList<>();

    /** One play. */
    private interface Play {
        /** Plays it.
         *
         * @param seed 0 for the readings as they are
         */
        void play(Material material, long seed) throws IOException;
    }

    /** Scenarios alone.
     *
     * @param disturbed how often each is played again with disturbed readings
     */
    public Plays(List<Scenario> scenarios, int disturbed) {
        this.scenarios = scenarios;
        this.disturbed = disturbed;
        scenarios.forEach(scenario -> plays.add((material, seed) -> material.play(scenario, seed)));
    }

    /** Adds the runs of a campaign.
     *
     * @param every 1 for each of them, 2 for every second, and so on
     * @return how many were added
     */
    public int add(CampaignRuns runs, int every) {
        int before = plays.size();
        for (long i = 0; i < runs.names().size(); i += every) {
            int index = (int) i;
            plays.add((material, seed) -> material.play(runs, index, seed));
        }
        return plays.size() - before;
    }

    List<Scenario> scenarios() {
        return scenarios;
    }

    /** How many there are, with those that are disturbed. */
    public int count() {
        return plays.size() * (disturbed + 1);
    }

    void play(Material material, IntConsumer progress) throws IOException {
        int done = 0;
        for (int play = 0; play < plays.size(); play++) {
            for (int i = 0; i <= disturbed; i++) {
                plays.get(play).play(material, i == 0 ? 0 : (play + 1L) * SEEDS + i);
                progress.accept(++done);
            }
        }
    }
}
