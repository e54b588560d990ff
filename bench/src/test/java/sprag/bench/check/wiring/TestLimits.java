package sprag.bench.check.wiring;

import java.util.EnumSet;
import sprag.supervisor.Signal;

/** Limits for tests that need no vehicle's file. */
final class TestLimits {
    private TestLimits() {}

    static Limits van() {
        return new Limits(
                108,
                50,
                150,
                105,
                50,
                2,
                0.03,
                EnumSet.allOf(Signal.class),
                2,
                false,
                false,
                Limits.InverterSupply.AFTER_PRECHARGE,
                12);
    }
}
