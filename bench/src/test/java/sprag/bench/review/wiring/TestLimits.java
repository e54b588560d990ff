package sprag.bench.review.wiring;

import java.util.EnumSet;
import java.util.Set;
import sprag.bench.review.wiring.circuit.RuleLimits;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** What the parcel van asks of its wiring, for tests that read no vehicle's file. */
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
                signals(),
                EnumSet.allOf(Output.class),
                2,
                false,
                false,
                RuleLimits.InverterSupply.AFTER_PRECHARGE,
                12);
    }

    private static Set<Signal> signals() {
        return EnumSet.complementOf(EnumSet.of(
                Signal.COOLANT_TEMP_V,
                Signal.ISOLATION_KOHM,
                Signal.CHARGER_3_OK,
                Signal.PLUG_LOCKED,
                Signal.WHEEL_SPEED_KPH,
                Signal.REGEN_DEMAND_V,
                Signal.PACK_CURRENT_2_A));
    }
}
