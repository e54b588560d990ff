package sprag.bench.evidence.bounds;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.lang.reflect.Field;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import sprag.supervisor.input.Conditioner;
import sprag.supervisor.input.TickFacts;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.FullPack;
import sprag.supervisor.vocabulary.Parameter;

/** The ranges that the bounds of the torque assume: whatever is read, the input stage gives the shapers nothing outside them. */
class InputBoundsTest {
    static Stream<Cars> cars() {
        return Cars.all();
    }

    private static Object stage(Cars car, String field) {
        return new Walk().get(new Conditioner(car.settings()), field);
    }

    private static void assertShare(Object value, String what) {
        Reals share = (Reals) value;
        assertTrue(share.isEmpty() || share.lo() >= 0 && share.hi() <= 1, what + ": " + share);
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("cars")
    void anyReading_isAShareOrUnknown(Cars car) {
        assertShare(new Walk().call(stage(car, "pedal"), "travel", Reals.ANY), "travel");
        Object driver = stage(car, "driver");
        TickFacts facts = new TickFacts();
        Walk asked = new Walk();
        for (Fact fact : Fact.values()) {
            asked.setElement(asked.get(facts, "value"), fact.ordinal(), new Ints(0, 1));
        }
        asked.set(driver, "demandSeenAtRest", Truth.EITHER);
        for (Reals volts : new Reals[] {
            Reals.between(-Double.MAX_VALUE, Double.MAX_VALUE),
            Reals.of(Double.POSITIVE_INFINITY),
            Reals.of(Double.NEGATIVE_INFINITY),
            Reals.NAN
        }) {
            Reals share = (Reals) asked.copy().call(driver, "regenAsked", volts, facts);
            assertShare(share, "asked at " + volts);
            assertFalse(share.nan(), "asked at " + volts);
        }
        Ints level = (Ints) new Walk().call(driver, "level", Reals.ANY);
        assertEquals(0, level.lo());
        assertEquals((int) car.get(Parameter.REGEN_LEVELS), level.hi());
        Conditioned c = new Conditioned();
        Walk pack = new Walk();
        for (Field field : Conditioned.class.getDeclaredFields()) {
            if (field.getType() == double.class) {
                pack.set(c, field.getName(), Reals.ANY);
            }
        }
        assertShare(pack.call(new FullPack(car.settings()), "regenShare", c), "room of the pack");
    }
}
