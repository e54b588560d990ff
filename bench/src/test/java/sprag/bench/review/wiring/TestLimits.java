package sprag.bench.review.wiring;

import java.nio.file.Path;
import java.util.EnumSet;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import sprag.bench.review.wiring.circuit.RuleLimits;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** What the parcel van asks of its wiring. */
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

    /** Those of the shipped van: a signal that comes with another kind of car needs no wire here. */
    private static Set<Signal> signals() {
        try {
            Settings van = VehicleReader.read(Path.of("..", "config", "vehicles", "parcel-van"))
                    .settings();
            return Stream.of(Signal.values()).filter(van::has).collect(Collectors.toSet());
        } catch (BadInput e) {
            throw new IllegalStateException("the shipped van cannot be read", e);
        }
    }
}
