package sprag.bench.hand.commission.steps;

import java.util.ArrayList;
import java.util.List;
import java.util.function.BooleanSupplier;
import sprag.bench.hand.commission.record.Measure;
import sprag.bench.hand.commission.record.StepAbandoned;
import sprag.supervisor.Diagnostics;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;

/** The supervisor runs on the pins with a simulated traction side; a person moves the levers. */
final class SupervisedRun {
    private static final long WAKE_MS = 300;
    private static final long IGNITION_MS = 600;
    private static final long PREPARED_MS = 500;
    private static final long SOON_MS = 5000;
    /** The longest time from key to ignition, and from start to the precharge relay (ms). */
    private static final double PROMPT_MS = 500;

    private final StepContext context;

    private SupervisedRun(StepContext context) {
        this.context = context;
    }

    /** Starts the supervisor with everything at rest. */
    static SupervisedRun begin(StepContext context) throws StepAbandoned {
        context.console()
                .confirm("Turn the key off. Put the lever in neutral. Release both pedals. Release the cut-off. Close"
                        + " all loops. Take the plug out. Enter then arms the outputs and starts the supervisor");
        return beginAsItIs(context);
    }

    /** Starts the supervisor with the levers where they are. */
    static SupervisedRun beginAsItIs(StepContext context) throws StepAbandoned {
        context.driver().supervise();
        context.driver().settle(WAKE_MS, context.signals());
        context.driver().runMs(WAKE_MS);
        return new SupervisedRun(context);
    }

    /** Asks for actions and waits until the inputs show them. */
    void perform(LeverAction... actions) throws StepAbandoned {
        context.tellNow(actions);
        for (LeverAction action : actions) {
            context.await("\"" + action.instruction + "\"", context.byHandMs(), () -> isSeen(action));
        }
    }

    /** Whether the inputs show that an action was done. */
    private boolean isSeen(LeverAction action) {
        return action.seenOn.stream()
                .filter(context.vehicle().settings()::has)
                .allMatch(signal ->
                        signal.isSwitch() ? readings().get(signal) == (action.to != 0 ? 1 : 0) : isPedalAt(action.to));
    }

    private boolean isPedalAt(double travel) {
        double releasedV = context.vehicle().get(Parameter.PEDAL_A_RELEASED_V);
        double fullV = context.vehicle().get(Parameter.PEDAL_A_FULL_V);
        double share = (readings().get(Signal.PEDAL_A_V) - releasedV) / (fullV - releasedV);
        return Math.abs(share - travel) < 0.3;
    }

    /** Key on and start, as a driver does, up to drive-enable. */
    List<Measure> start() throws StepAbandoned {
        List<Measure> measures = new ArrayList<>();
        perform(LeverAction.BRAKE_PRESSED, LeverAction.KEY_ON);
        long ignitionMs = expect("ignition", SOON_MS, () -> state() == State.IGNITION);
        measures.add(new Measure("key to ignition", ignitionMs, "ms", 0, PROMPT_MS));
        context.driver().runMs(IGNITION_MS);
        perform(LeverAction.START_PRESSED);
        long relayMs =
                expect("the precharge relay's output", SOON_MS, () -> commands().isOn(Output.PRECHARGE_RELAY));
        measures.add(new Measure("start to precharge relay", relayMs, "ms", 0, PROMPT_MS));
        expect(
                "the bus rising",
                SOON_MS,
                () -> context.driver().loop().supervisor().state().step() == Step.RAISE_BUS || isDriveEnabled());
        double timeoutMs = context.vehicle().get(Parameter.PRECHARGE_TIMEOUT_MS);
        long raisedMs = expect(
                "the positive contactor's output",
                (long) timeoutMs + SOON_MS,
                () -> commands().isOn(Output.POSITIVE_CONTACTOR));
        double minMs = context.vehicle().get(Parameter.PRECHARGE_MIN_MS)
                - 2 * context.driver().tickMs();
        measures.add(new Measure("precharge of the simulated bus", raisedMs, "ms", minMs, timeoutMs));
        expect("drive-enable", SOON_MS, this::isDriveEnabled);
        perform(LeverAction.START_RELEASED);
        context.driver().runMs(PREPARED_MS);
        return measures;
    }

    /** Waits for something that the supervisor should do; fails with what it did instead. */
    private long expect(String what, long withinMs, BooleanSupplier seen) throws StepAbandoned {
        long startMs = context.driver().nowMs();
        while (!seen.getAsBoolean()) {
            boolean late = context.driver().nowMs() - startMs >= withinMs;
            if (late || state() == State.FAULT) {
                throw StepAbandoned.failed(what + " did not come; state " + state() + "; " + why());
            }
            context.console().checkUnasked();
            context.driver().tick();
        }
        return context.driver().nowMs() - startMs;
    }

    /** Which interlocks acted, and which block a start. */
    String why() {
        List<String> acted = new ArrayList<>();
        List<String> blocking = new ArrayList<>();
        for (Interlock interlock : Interlock.values()) {
            boolean opens = interlock.response.compareTo(Response.STOP_THEN_OPEN) <= 0;
            boolean keepsOff = interlock == Interlock.KEY_NEVER_OFF && state() == State.OFF;
            if ((opens || keepsOff) && diagnostics().timesActed(interlock) > 0) {
                acted.add(interlock.id());
            }
            if (state() == State.IGNITION && diagnostics().blocksStart(interlock)) {
                blocking.add(interlock.id());
            }
        }
        String what = acted.isEmpty() ? "no interlock acted" : "acted: " + String.join(", ", acted);
        return blocking.isEmpty() ? what : what + "; a start is blocked by " + String.join(", ", blocking);
    }

    /** Fails when any contactor is commanded within a time. */
    void expectNoContactor(long ms) throws StepAbandoned {
        long untilMs = context.driver().nowMs() + ms;
        while (context.driver().nowMs() < untilMs) {
            context.driver().tick();
            for (Output contactor : Contactors.ALL) {
                if (commands().isOn(contactor)) {
                    throw StepAbandoned.failed(contactor.key() + " was switched on in state " + state());
                }
            }
        }
    }

    boolean isReleased() {
        return Contactors.ALL.stream().noneMatch(commands()::isOn);
    }

    /** Whether every auxiliary contact among the pins reads open. */
    boolean areContactsOpen() {
        return Contactors.ALL.stream()
                .map(contactor -> Contactors.aux(context, contactor))
                .allMatch(aux -> aux == null || readings().get(aux) == 0);
    }

    boolean isDriveEnabled() {
        return state() == State.DRIVE_ENABLE;
    }

    State state() {
        return context.driver().loop().state();
    }

    Readings readings() {
        return context.driver().loop().readings();
    }

    Commands commands() {
        return context.driver().loop().commands();
    }

    Diagnostics diagnostics() {
        return context.driver().loop().supervisor().diagnostics();
    }
}
