package sprag.bench.hand.commission;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.cli.Numbers;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.State;

/** Start and stop with the pack absent, and the plug's lock-out. */
final class SequenceSteps {
    private static final long LOCKED_MS = 2000;
    private static final long GONE_MS = 5000;

    private SequenceSteps() {}

    static List<BringUpStep> all(StepContext f) {
        List<BringUpStep> steps = new ArrayList<>();
        if (Supervised.COILS.stream().noneMatch(f.wired().outputs()::contains)) {
            return steps;
        }
        String minMs = Numbers.text(f.vehicle().get(Parameter.PRECHARGE_MIN_MS));
        String maxMs = Numbers.text(f.vehicle().get(Parameter.PRECHARGE_TIMEOUT_MS));
        steps.add(new BringUpStep(
                "sequence.start_stop",
                BringUpStep.Part.SEQUENCE,
                "key, start, precharge, contactors in order; key off opens them",
                List.of(
                        "the traction side is simulated: pack and bus voltage are not real",
                        "do what is said when it is said: brake and key on, start, then key off"),
                "precharge for " + minMs + " to " + maxMs
                        + " ms, then the positive contactor; after key off all open within "
                        + Numbers.text(stopMs(f)) + " ms",
                BringUpStep.Need.PROVED,
                SequenceSteps::startStop));
        steps.add(new BringUpStep(
                "sequence.plug_lock_out",
                BringUpStep.Part.SEQUENCE,
                "with a plug in the inlet the car does not come alive",
                List.of(
                        "the cable is joined to no supply",
                        "do what is said when it is said: plug in, brake and key on, forward, start"),
                "state charge-lockout, inverter never enabled, torque zero, no way to drive-enable",
                BringUpStep.Need.PROVED,
                SequenceSteps::plugLockOut));
        return steps;
    }

    /** How long from key off until everything is let go: the bounded wait, and two steps of opening. */
    static double stopMs(StepContext f) {
        return f.vehicle().get(Parameter.RUNDOWN_WAIT_MS)
                + 3 * f.vehicle().get(Parameter.CONTACTOR_RELEASE_MS)
                + OutputSteps.releaseMs(f);
    }

    private static StepResult startStop(StepContext f) throws StepAbandoned {
        Supervised run = Supervised.woken(f);
        List<Measure> measures = new ArrayList<>(run.start());
        run.act(LeverAction.KEY_OFF);
        long releasedMs = f.await("every contactor released", GONE_MS, run::coilsReleased);
        long openMs = releasedMs + f.await("every auxiliary contact open", GONE_MS, run::contactsOpen);
        measures.add(new Measure("key off to all open", openMs, "ms", 0, stopMs(f)));
        String loop =
                f.bed().loop().overruns() == 0 ? "no tick late" : f.bed().loop().overruns() + " ticks late or too long";
        return StepResult.judged("reached drive-enable and opened again; " + loop, measures);
    }

    private static StepResult plugLockOut(StepContext f) throws StepAbandoned {
        Supervised run = Supervised.woken(f);
        f.simulate(LeverAction.PLUG_OUT);
        if (f.bed().standIn() != null) {
            f.bed().standIn().levers().set(sprag.bench.car.Lever.STATION_ON, 0);
        }
        if (f.isRehearsal()) {
            f.loom().move(sprag.bench.car.Lever.STATION_ON, 0);
        }
        run.act(LeverAction.PLUG);
        run.act(LeverAction.BRAKE, LeverAction.KEY_ON);
        run.act(LeverAction.FORWARD, LeverAction.START);
        long untilMs = f.bed().nowMs() + LOCKED_MS;
        while (f.bed().nowMs() < untilMs) {
            f.bed().tick();
            if (run.commands().isOn(Output.INVERTER_ENABLE)
                    || run.commands().get(Output.TORQUE_REQUEST_NM) != 0
                    || run.isReady()) {
                return StepResult.failed("the car came alive with the plug in: state " + run.state());
            }
        }
        return run.state() == State.CHARGE_LOCKOUT
                ? StepResult.passed(
                        "state CHARGE_LOCKOUT for " + LOCKED_MS + " ms under key, brake and start; inverter off")
                : StepResult.failed("state " + run.state() + " instead of CHARGE_LOCKOUT; " + run.why());
    }
}
