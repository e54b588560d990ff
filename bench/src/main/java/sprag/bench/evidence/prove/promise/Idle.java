package sprag.bench.evidence.prove.promise;

import java.util.Set;

/** The promises that have nothing to say on some vehicles, and why. Any other that never applies is a finding. */
public final class Idle {
    private static final Set<String> BUS_SIDE_ONLY =
            Set.of(Promise.CLOSING_IS_ASKED_FOR.name(), HistoryPromise.CHARGE_ENDS_IN_TIME.name());

    private Idle() {}

    /** Why a promise never applies, as a clause; empty when it should apply. */
    public static String why(String name, PromiseLimits limits) {
        return BUS_SIDE_ONLY.contains(name) && !limits.busSide()
                ? "no charger stands on the bus, so no contactor closes for a charge"
                : "";
    }
}
