package sprag.bench.evidence.margin;

import java.io.IOException;
import java.util.EnumSet;
import java.util.List;
import sprag.bench.car.FaultSpec;
import sprag.bench.loop.Rig;
import sprag.bench.loop.relay.Rigs;
import sprag.bench.loop.trace.Frame;
import sprag.bench.scenario.RunResult;
import sprag.bench.scenario.Scenario;
import sprag.bench.scenario.ScenarioRun;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Interlock;

/** One car with one value of a limit: sound, or with the fault that the limit is there for. */
final class LimitTrial implements ScenarioRun.Observer {
    /** Nothing acted. */
    static final double NEVER = Double.POSITIVE_INFINITY;
    /** Nothing of the limit acted, and yet the sound car did not get through the scenario. */
    static final double HINDERED = Double.MAX_VALUE;

    private final Limit limit;
    private final Rig rig;
    private final boolean broken;
    private int ticksInState;
    private double faultMs = -1;
    private double actedMs = NEVER;

    private LimitTrial(Limit limit, Rig rig, boolean broken) {
        this.limit = limit;
        this.rig = rig;
        this.broken = broken;
    }

    /** Whether a vehicle can have the fault. */
    static boolean canBeTried(Limit limit, Vehicle vehicle) {
        return FaultSpec.all(vehicle).stream().anyMatch(fault -> fault.name().equals(limit.fault));
    }

    /** Plays it.
     *
     * @param broken whether the fault comes
     * @return with the fault, the time from it to the first interlock of the limit; without, the time of the false alarm,
     *     or {@link #HINDERED}; {@link #NEVER} otherwise
     */
    static double play(Limit limit, Scenario scenario, Vehicle car, long seed, boolean broken) {
        Rig rig = Rigs.of(car, scenario.about().bus(), seed, EnumSet.noneOf(Interlock.class));
        LimitTrial trial = new LimitTrial(limit, rig, broken);
        try {
            RunResult result = new ScenarioRun(scenario, rig)
                    .play(car.name(), (step, timeMs) -> {}, List.of(trial), () -> trial.actedMs < NEVER);
            boolean hindered = !broken && !result.interrupted() && !result.passed();
            return hindered ? HINDERED : trial.actedMs;
        } catch (IOException e) {
            throw new IllegalStateException("nothing is written here, yet " + scenario.name() + " could not be", e);
        }
    }

    @Override
    public void tick(Frame frame) {
        boolean acts = false;
        for (Interlock row : limit.interlocks) {
            acts |= frame.acting[row.ordinal()];
        }
        if (acts && actedMs == NEVER) {
            actedMs = broken && faultMs >= 0 ? frame.timeMs - faultMs : frame.timeMs;
        }
        ticksInState = frame.state == limit.state.ordinal() ? ticksInState + 1 : 0;
        if (broken && faultMs < 0 && ticksInState == limit.ticks + 1) {
            faultMs = frame.timeMs;
            rig.inject(limit.fault);
        }
    }
}
