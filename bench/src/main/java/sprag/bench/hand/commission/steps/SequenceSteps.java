package sprag.bench.hand.commission.steps;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.car.Lever;
import sprag.bench.cli.Numbers;
import sprag.bench.hand.commission.record.Measure;
import sprag.bench.hand.commission.record.StepAbandoned;
import sprag.bench.hand.commission.record.StepDescription;
import sprag.bench.hand.commission.record.StepResult;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.State;

/** Start and stop with the pack absent; no start with a plug in. */
final class SequenceSteps {
    private static final long LOCKED_MS = 2000;
    private static final long OPEN_MS = 5000;

    private SequenceSteps() {}

    static List<BringUpStep> all(StepContext context) {
        if (Contactors.wired(context).isEmpty()) {
            return List.of();
        }
        String minMs = Numbers.text(context.vehicle().get(Parameter.PRECHARGE_MIN_MS));
        String maxMs = Numbers.text(context.vehicle().get(Parameter.PRECHARGE_TIMEOUT_MS));
        return List.of(
                step(
                        "sequence.start_stop",
                        "key, start, precharge, contactors in order; key off opens them",
                        "pack and bus voltage are simulated",
                        "precharge for " + minMs + " to " + maxMs
                                + " ms, then the positive contactor; after key off all open within "
                                + Numbers.text(Contactors.stopMs(context)) + " ms",
                        () -> startStop(context)),
                step(
                        "sequence.plug_lock_out",
                        "the car does not start with a plug in the inlet",
                        "the cable must not be connected to a supply",
                        "state charge-lockout, inverter never enabled, torque zero, never drive-enable",
                        () -> plugLockOut(context)));
    }

    private static BringUpStep step(String id, String title, String note, String expect, BringUpStep.Work work) {
        return new BringUpStep(
                new StepDescription(
                        id,
                        StepDescription.Part.SEQUENCE,
                        title,
                        List.of(note, "wait for each line that begins with !, then do at once what it says"),
                        expect),
                BringUpStep.Need.PROVED,
                work);
    }

    private static StepResult startStop(StepContext context) throws StepAbandoned {
        SupervisedRun run = SupervisedRun.begin(context);
        List<Measure> measures = new ArrayList<>(run.start());
        run.perform(LeverAction.KEY_OFF);
        long releasedMs = context.await("every contactor released", OPEN_MS, run::isReleased);
        long openMs = releasedMs + context.await("every auxiliary contact open", OPEN_MS, run::areContactsOpen);
        measures.add(new Measure("key off to all open", openMs, "ms", 0, Contactors.stopMs(context)));
        long overruns = context.driver().loop().loop().overruns();
        String loop = overruns == 0 ? "no tick was late" : overruns + " ticks were late or too long";
        return StepResult.judged("reached drive-enable and opened again; " + loop, measures);
    }

    private static StepResult plugLockOut(StepContext context) throws StepAbandoned {
        SupervisedRun run = SupervisedRun.begin(context);
        context.simulate(LeverAction.PLUG_OUT);
        context.simulate(Lever.STATION_ON, 0);
        run.perform(LeverAction.PLUG_IN);
        run.perform(LeverAction.BRAKE_PRESSED, LeverAction.KEY_ON);
        run.perform(LeverAction.FORWARD, LeverAction.START_PRESSED);
        long untilMs = context.driver().nowMs() + LOCKED_MS;
        while (context.driver().nowMs() < untilMs) {
            context.driver().tick();
            if (run.commands().isOn(Output.INVERTER_ENABLE)
                    || run.commands().get(Output.TORQUE_REQUEST_NM) != 0
                    || run.isDriveEnabled()) {
                return StepResult.failed("the car started with the plug in: state " + run.state());
            }
        }
        return run.state() == State.CHARGE_LOCKOUT
                ? StepResult.passed("state CHARGE_LOCKOUT for " + LOCKED_MS
                        + " ms with key on, brake and start pressed; inverter off")
                : StepResult.failed("state " + run.state() + " instead of CHARGE_LOCKOUT; " + run.why());
    }
}
