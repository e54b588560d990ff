package sprag.bench.evidence.campaign;

import java.util.List;
import java.util.function.BiFunction;
import sprag.bench.evidence.campaign.play.SupervisedRig;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.vehicle.Vehicle;

/** Every run of a vehicle's campaign, for somebody who looks at its ticks and not at its outcome. */
public final class CampaignRuns {
    private final Campaign campaign;
    private final List<Campaign.Run> runs;
    private final List<String> names;

    /** Plays the two runs without a fault, which say when each moment comes.
     *
     * @param vehicle one with a supervisor
     */
    public CampaignRuns(Vehicle vehicle) {
        campaign = new Campaign(vehicle, 1);
        runs = campaign.runs();
        names = runs.stream().map(run -> run.id(vehicle)).toList();
    }

    /** Their names, in the order in which {@code campaign} plays them. */
    public List<String> names() {
        return names;
    }

    /** Plays one run.
     *
     * @param index its place among the names
     * @param watch given the name and the loop before the first tick; what it returns is called after the last
     */
    public void play(int index, BiFunction<String, ClosedLoop, Runnable> watch) {
        SupervisedRig rig = (SupervisedRig) campaign.rig();
        Runnable end = watch.apply(names.get(index), rig.loop());
        campaign.feel(runs.get(index), rig, nobody -> {});
        end.run();
    }
}
