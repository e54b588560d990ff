package sprag.bench.hand.commission;

import java.util.ArrayList;
import java.util.List;
import java.util.function.BooleanSupplier;
import sprag.supervisor.Diagnostics;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/** A run of the supervisor on the pins with a simulated traction side: waking, starting, watching, stopping. */
final class Supervised {
    /** What must be let go when the car is to be dead. */
    static final List<Output> COILS =
            List.of(Output.NEGATIVE_CONTACTOR, Output.PRECHARGE_RELAY, Output.POSITIVE_CONTACTOR);

    private static final long WAKE_MS = 300;
    private static final long IGNITION_MS = 600;
    private static final long PREPARED_MS = 500;
    private static final long SOON_MS = 5000;

    private final StepContext f;

    private Supervised(StepContext f) {
        this.f = f;
    }

    /** Wakes the supervisor with everything at rest. */
    static Supervised woken(StepContext f) throws StepAbandoned {
        f.talk()
                .go(
                        "Key off, lever in neutral, pedals released, cut-off and loops closed, plug out; then Enter arms the"
                                + " outputs and starts the supervisor");
        return wokenAsItIs(f);
    }

    /** Wakes the supervisor with the levers where they are. */
    static Supervised wokenAsItIs(StepContext f) throws StepAbandoned {
        f.bed().supervise();
        f.bed().settle(WAKE_MS, f.signals());
        f.bed().let(WAKE_MS);
        return new Supervised(f);
    }

    /** Does acts and waits until their inputs show them. */
    void act(LeverAction... acts) throws StepAbandoned {
        f.now(acts);
        for (LeverAction act : acts) {
            f.await("\"" + act.words + "\"", f.byHandMs(), () -> shows(act));
        }
    }

    /** Whether the inputs show that something was done. */
    boolean shows(LeverAction act) {
        Readings in = readings();
        for (Signal signal : act.seenOn) {
            boolean fitted = f.vehicle().settings().has(signal);
            if (fitted && !(signal.isSwitch() ? in.get(signal) == (act.to != 0 ? 1 : 0) : pedalAt(act.to))) {
                return false;
            }
        }
        return true;
    }

    private boolean pedalAt(double travel) {
        double releasedV = f.vehicle().get(Parameter.PEDAL_A_RELEASED_V);
        double fullV = f.vehicle().get(Parameter.PEDAL_A_FULL_V);
        double share = (readings().get(Signal.PEDAL_A_V) - releasedV) / (fullV - releasedV);
        return Math.abs(share - travel) < 0.3;
    }

    /** Key on and start, as a driver does, up to drive-enable.
     *
     * @return what was measured on the way
     */
    List<Measure> start() throws StepAbandoned {
        List<Measure> measures = new ArrayList<>();
        act(LeverAction.BRAKE, LeverAction.KEY_ON);
        double wokeMs = soon("ignition", SOON_MS, () -> state() == State.IGNITION);
        f.bed().let(IGNITION_MS);
        f.now(LeverAction.START);
        f.await("\"" + LeverAction.START.words + "\"", f.byHandMs(), () -> shows(LeverAction.START));
        double prechargeMs =
                soon("the precharge relay asked for", SOON_MS, () -> commands().isOn(Output.PRECHARGE_RELAY));
        double raisedAtMs = f.bed().nowMs()
                + soon(
                        "the bus rising",
                        SOON_MS,
                        () -> stepIs(sprag.supervisor.vocabulary.Step.RAISE_BUS) || isReady());
        double timeoutMs = f.vehicle().get(Parameter.PRECHARGE_TIMEOUT_MS);
        soon(
                "the positive contactor asked for",
                (long) timeoutMs + SOON_MS,
                () -> commands().isOn(Output.POSITIVE_CONTACTOR));
        double raisedMs = f.bed().nowMs() - raisedAtMs;
        soon("drive-enable", SOON_MS, this::isReady);
        act(LeverAction.START_GO);
        f.bed().let(PREPARED_MS);
        double tickMs = f.bed().tickMs();
        measures.add(new Measure("key to ignition", wokeMs, "ms", 0, 500));
        measures.add(new Measure("start to precharge relay", prechargeMs, "ms", 0, 500));
        measures.add(new Measure(
                "precharge of the simulated bus",
                raisedMs,
                "ms",
                f.vehicle().get(Parameter.PRECHARGE_MIN_MS) - 2 * tickMs,
                timeoutMs));
        return measures;
    }

    /** Waits for something that the supervisor should do; fails with what it did instead. */
    private double soon(String what, long withinMs, BooleanSupplier seen) throws StepAbandoned {
        long startMs = f.bed().nowMs();
        while (!seen.getAsBoolean()) {
            boolean late = f.bed().nowMs() - startMs >= withinMs;
            if (late || state() == State.FAULT) {
                throw StepAbandoned.failed(what + " did not come; state " + state() + "; " + why());
            }
            f.talk().heedUnasked();
            f.bed().tick();
        }
        return f.bed().nowMs() - startMs;
    }

    /** What acted, or what a start waits for. */
    String why() {
        Diagnostics seen = f.bed().supervisor().diagnostics();
        List<String> acted = new ArrayList<>();
        List<String> missing = new ArrayList<>();
        for (Interlock row : Interlock.values()) {
            boolean opens = row.response.compareTo(Response.STOP_THEN_OPEN) <= 0;
            boolean keepsOff = row == Interlock.KEY_NEVER_OFF && state() == State.OFF;
            if ((opens || keepsOff) && seen.timesActed(row) > 0) {
                acted.add(row.id());
            }
            if (state() == State.IGNITION && seen.blocksStart(row)) {
                missing.add(row.id());
            }
        }
        String what = acted.isEmpty() ? "no interlock acted" : "acted: " + String.join(", ", acted);
        return missing.isEmpty() ? what : what + "; a start is blocked by " + String.join(", ", missing);
    }

    /** Watches that no contactor is asked for, for a time. */
    void demandNoContactor(long ms) throws StepAbandoned {
        long untilMs = f.bed().nowMs() + ms;
        while (f.bed().nowMs() < untilMs) {
            f.bed().tick();
            for (Output coil : COILS) {
                if (commands().isOn(coil)) {
                    throw StepAbandoned.failed(coil.key() + " was asked for in state " + state());
                }
            }
        }
    }

    boolean coilsReleased() {
        return COILS.stream().noneMatch(commands()::isOn);
    }

    /** Whether every auxiliary contact among the pins reads open. */
    boolean contactsOpen() {
        return COILS.stream()
                .map(coil -> OutputSteps.aux(f, coil))
                .allMatch(aux -> aux == null || readings().get(aux) == 0);
    }

    boolean isReady() {
        return state() == State.DRIVE_ENABLE;
    }

    State state() {
        return f.bed().supervisor().state().state();
    }

    private boolean stepIs(sprag.supervisor.vocabulary.Step step) {
        return f.bed().supervisor().state().step() == step;
    }

    Readings readings() {
        return f.bed().loop().readings();
    }

    Commands commands() {
        return f.bed().loop().commands();
    }

    Diagnostics diagnostics() {
        return f.bed().supervisor().diagnostics();
    }

    StepContext floor() {
        return f;
    }
}
