package sprag.supervisor.input;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import sprag.supervisor.NastyCar;
import sprag.supervisor.Rig;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.Wild;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** Parts of the conditioner rest while nothing moves: nobody may be able to tell. */
class ConditionerTest {
    private static final int TICKS = 2000;
    private static final int TROUBLE_TICKS = 150;
    private static final Signal[] TROUBLED = {
        Signal.MOTOR_TEMP_V,
        Signal.INVERTER_TEMP_V,
        Signal.COOLANT_TEMP_V,
        Signal.PACK_HOT_V,
        Signal.PACK_COLD_V,
        Signal.CHARGER_TEMP_V,
        Signal.PILOT_PEAK_V,
        Signal.PROXIMITY_V,
        Signal.PLUG_PRESENT,
        Signal.CHARGER_1_OK,
        Signal.PACK_VOLTAGE_V
    };

    private final Settings settings = TestVehicle.full();
    private final int[] before = new int[Fact.COUNT];
    private final Conditioner resting = new Conditioner(settings);
    private final Conditioner restless = new Conditioner(settings);
    private final Readings restlessIn = new Readings();
    private final Commands restlessLast = new Commands();

    private int troubleTicks;
    private int soundBelow;
    private Signal troubled;
    private double shows;

    static LongStream seeds() {
        return LongStream.range(1, 41);
    }

    /**
     * What keeps every part of the restless one awake: a heater switch that is turned in every tick, and a count that goes up and
     * down for ever, for air that comes and goes. Neither means anything to the facts that are compared.
     */
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
            restlessLast.set(Output.HEATER_BLOWER, tick == 0 || tick % 3 == 1);
            car.rig.out.set(Output.HEATER_BLOWER, false);
            resting.update(in, car.rig.out, false);
            restlessIn.copyFrom(in);
            restlessIn.set(Signal.HEATER_REQUEST, tick % 2 == 0);
            restless.update(restlessIn, restlessLast, false);
            changes += hasChanged() ? 1 : 0;
            compare("seed " + seed + " tick " + tick);
        }
        assertTrue(changes > 20, "only " + changes + " ticks with a change");
    }

    /** One reading at a time is anything, for long enough to be believed, and then sound for as long. */
    private void trouble(Random random, Readings in) {
        if (troubleTicks == 0) {
            troubleTicks = 2 * (1 + random.nextInt(TROUBLE_TICKS));
            soundBelow = troubleTicks / 2;
            troubled = TROUBLED[random.nextInt(TROUBLED.length)];
            shows = troubled.isSwitch() ? Wild.aSwitch(random) : Wild.of(random, troubled.min, troubled.max);
        }
        troubleTicks--;
        if (troubleTicks >= soundBelow) {
            in.set(troubled, shows);
        }
    }

    private boolean hasChanged() {
        boolean changed = false;
        for (Fact fact : Fact.values()) {
            int now = resting.facts().value(fact);
            changed |= now != before[fact.ordinal()];
            before[fact.ordinal()] = now;
        }
        return changed;
    }

    private void compare(String when) {
        for (Fact fact : Fact.values()) {
            if (fact != Fact.HEATER_WITHOUT_AIR) {
                assertEquals(restless.facts().value(fact), resting.facts().value(fact), () -> when + ": " + fact);
            }
        }
    }

    @Test
    void pluggedCar_weakBatteryOrMovement_isSeenByTheWhole() {
        Rig rig = new Rig();
        rig.in.set(Signal.PLUG_PRESENT, 1);
        rig.in.set(Signal.LV_SUPPLY_V, 11);
        judge(rig, 1000);
        assertTrue(resting.conditioned().lvSupport, "a weak 12 V battery for 10 s");
        assertFalse(resting.facts().is(Fact.ROLLING_PLUGGED));
        rig.in.set(Signal.WHEEL_SPEED_KPH, 10);
        judge(rig, 200);
        assertTrue(resting.facts().is(Fact.ROLLING_PLUGGED), "faster than walking pace on the cable");
    }

    private void judge(Rig rig, int ticks) {
        for (int i = 0; i < ticks; i++) {
            resting.update(rig.in, restlessLast, false);
        }
    }
}
