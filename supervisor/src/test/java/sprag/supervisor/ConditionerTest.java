package sprag.supervisor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Parts of the conditioner rest while nothing moves: nobody may be able to tell. */
class ConditionerTest {
    private static final int TICKS = 2000;
    private static final Signal[] TEMPERATURES = {
        Signal.MOTOR_TEMP_V,
        Signal.INVERTER_TEMP_V,
        Signal.COOLANT_TEMP_V,
        Signal.PACK_HOT_V,
        Signal.PACK_COLD_V,
        Signal.CHARGER_TEMP_V
    };

    private final Settings settings = TestVehicle.full();
    private final Conditioner resting = new Conditioner(settings);
    private final Conditioner restless = new Conditioner(settings);
    private final Commands restlessLast = new Commands();

    static LongStream seeds() {
        return LongStream.range(1, 41);
    }

    /** The restless one always counts a cause: air that its blower does not make. That keeps every part of it awake. */
    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void anyReadings_aRestingPartMissesNothing(long seed) {
        Random random = new Random(seed);
        NastyCar car = new NastyCar(seed);
        Readings in = new Readings();
        int changes = 0;
        for (int tick = 0; tick < TICKS; tick++) {
            car.tick();
            in.copyFrom(car.rig.in);
            in.set(Signal.HEATER_AIRFLOW, false);
            trouble(random, in);
            restlessLast.copyFrom(car.rig.out);
            restlessLast.set(Output.HEATER_BLOWER, true);
            car.rig.out.set(Output.HEATER_BLOWER, false);
            resting.update(in, car.rig.out, false);
            restless.update(in, restlessLast, false);
            changes += resting.facts().takeChanged() ? 1 : 0;
            compare("seed " + seed + " tick " + tick);
        }
        assertTrue(changes > 20, "only " + changes + " ticks with a change");
    }

    private void trouble(Random random, Readings in) {
        if (random.nextInt(200) < 196) {
            return;
        }
        Signal signal = TEMPERATURES[random.nextInt(TEMPERATURES.length)];
        in.set(signal, Wild.of(random, signal.min, signal.max));
    }

    private void compare(String when) {
        for (Fact fact : Fact.values()) {
            if (fact != Fact.HEATER_WITHOUT_AIR) {
                assertEquals(restless.facts().value(fact), resting.facts().value(fact), () -> when + ": " + fact);
            }
        }
    }
}
