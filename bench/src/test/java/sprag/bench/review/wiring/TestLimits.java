package sprag.bench.review.wiring;

import java.util.EnumSet;
import sprag.bench.review.wiring.circuit.RuleLimits;
import sprag.supervisor.vocabulary.Signal;

/** RuleLimits for tests that need no vehicle's file. */
final class TestLimits {
    private TestLimits() {}

    static RuleLimits van() {
        return new RuleLimits(
                108,
                50,
                200,
                105,
                50,
                2,
                0.03,
                EnumSet.complementOf(EnumSet.of(Signal.PLUG_LOCKED)),
                2,
                false,
                false,
                RuleLimits.InverterSupply.AFTER_PRECHARGE,
                12);
    }
}
