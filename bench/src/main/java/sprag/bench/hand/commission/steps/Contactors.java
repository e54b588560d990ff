package sprag.bench.hand.commission.steps;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/** The three contactors, the auxiliary contact of each, and how soon it must answer. */
public final class Contactors {
    public static final List<Output> ALL =
            List.of(Output.NEGATIVE_CONTACTOR, Output.PRECHARGE_RELAY, Output.POSITIVE_CONTACTOR);

    private static final Map<Output, Signal> AUX = new EnumMap<>(Map.of(
            Output.NEGATIVE_CONTACTOR, Signal.NEGATIVE_AUX_CLOSED,
            Output.PRECHARGE_RELAY, Signal.PRECHARGE_AUX_CLOSED,
            Output.POSITIVE_CONTACTOR, Signal.POSITIVE_AUX_CLOSED));

    /** What sampling, the line and two ticks may add to what is measured (ms). */
    static final double LINK_MS = 50;

    private Contactors() {}

    static List<Output> wired(StepContext context) {
        return ALL.stream().filter(context.wired().outputs()::contains).toList();
    }

    /** The contact that answers an output, null when it is not among the pins. */
    static Signal aux(StepContext context, Output output) {
        Signal aux = AUX.get(output);
        return aux != null && context.signals().contains(aux) ? aux : null;
    }

    /** The contacts among the pins that answer a wired contactor: they move only with it. */
    static List<Signal> contacts(StepContext context) {
        return wired(context).stream()
                .map(AUX::get)
                .filter(context.signals()::contains)
                .toList();
    }

    static boolean isAux(Signal signal) {
        return AUX.containsValue(signal);
    }

    /** The longest time until a contactor is seen closed, with the link's share. */
    static double closeMs(StepContext context) {
        return context.vehicle().get(Parameter.CONTACTOR_CLOSE_MS) + LINK_MS;
    }

    /** The longest time until a contactor is seen open, with the link's share. */
    static double releaseMs(StepContext context) {
        return context.vehicle().get(Parameter.CONTACTOR_RELEASE_MS) + LINK_MS;
    }

    /** The longest time from key off until everything is open: the bounded wait, and two steps of opening. */
    static double stopMs(StepContext context) {
        return context.vehicle().get(Parameter.RUNDOWN_WAIT_MS)
                + 3 * context.vehicle().get(Parameter.CONTACTOR_RELEASE_MS)
                + releaseMs(context);
    }
}
