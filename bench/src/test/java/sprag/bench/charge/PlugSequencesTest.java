package sprag.bench.charge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.car.Lever;

/**
 * Plug, key, start, pedal, latch, station and their wires in any order, hundreds of short runs a vehicle, none of which may
 * break an absolute. {@code -Dplug.runs=10000} makes more of them.
 */
@Execution(ExecutionMode.CONCURRENT)
class PlugSequencesTest {
    private static final int RUNS = Integer.getInteger("plug.runs", 150);
    private static final String[] FAULTS = {
        "station.silent",
        "station.refuses",
        "station.stuck_closed",
        "pilot.shorted",
        "pilot.broken",
        "pilot.diode_shorted",
        "pilot.asks_ventilation",
        "plug_present.open",
        "plug_present.short_high",
        "plug_present.stuck",
        "plug_present.stale",
        "plug_present.intermittent",
        "proximity_v.open",
        "proximity_v.short_low",
        "proximity_v.short_high",
        "proximity_v.stuck",
        "proximity_v.intermittent",
        "pilot_peak_v.open",
        "pilot_peak_v.short_high",
        "pilot_peak_v.stuck",
        "pilot_peak_v.stale",
        "pilot_duty.open",
        "pilot_duty.stuck",
        "pilot_duty.intermittent",
        "charger_1.dead",
        "charger_1.lag",
        "charger_1.derated",
    };

    @ParameterizedTest(name = "{0} from seed {1}")
    @CsvSource({"parcel-van, 1000", "coupe, 2000", "yard-cart, 3000"})
    void anySequence_neverBreaksAnAbsolute(String name, long firstSeed) {
        List<String> broken = new ArrayList<>();
        long charging = 0;
        long driving = 0;
        for (int i = 0; i < RUNS && broken.isEmpty(); i++) {
            long seed = firstSeed + i;
            Absolutes seen = play(name, seed);
            seen.broken.forEach(what -> broken.add("seed " + seed + " " + what));
            charging += seen.ticksCharging;
            driving += seen.ticksDriving;
        }
        assertEquals(List.of(), broken);
        assertTrue(charging > 10L * RUNS, "ticks of charging: " + charging);
        assertTrue(driving > 10L * RUNS, "ticks of torque: " + driving);
    }

    private static Absolutes play(String name, long seed) {
        Random random = new Random(seed);
        ClosedCar run = ClosedCar.of(name, seed, 0.1 + 0.85 * random.nextDouble());
        Absolutes seen = new Absolutes(run);
        run.watch = seen::look;
        run.runS(0.5);
        if (random.nextBoolean()) {
            start(run);
        }
        List<String> faults = new ArrayList<>();
        double untilS = run.nowS() + 5 + 25 * random.nextDouble();
        while (run.nowS() < untilS) {
            act(run, random, faults);
            run.runS(random.nextInt(4) == 0 ? 4 * random.nextDouble() : 0.4 * random.nextDouble());
        }
        return seen;
    }

    private static void start(ClosedCar run) {
        run.set(Lever.KEY, 1).set(Lever.BRAKE, 0.3).set(Lever.DIRECTION, 1).runS(0.2);
        run.set(Lever.START, 1).runS(0.2).set(Lever.START, 0).runS(3);
        run.set(Lever.BRAKE, 0).set(Lever.PEDAL, 0.3);
    }

    private static void act(ClosedCar run, Random random, List<String> faults) {
        switch (random.nextInt(13)) {
            case 0, 1, 2 -> run.set(Lever.PLUG, random.nextInt(3) == 0 ? 0 : 1);
            case 3 -> run.set(Lever.KEY, random.nextInt(2));
            case 4 -> start(run);
            case 5 -> run.set(Lever.PEDAL, random.nextDouble());
            case 6 -> run.set(Lever.BRAKE, random.nextBoolean() ? 0.4 : 0);
            case 7 -> run.set(Lever.DIRECTION, random.nextInt(3) - 1);
            case 8 -> run.set(Lever.LATCH, random.nextInt(2));
            case 9 -> run.set(Lever.STATION_ON, random.nextInt(4) == 0 ? 0 : 1);
            case 10 -> run.set(Lever.STATION_LIMIT_A, random.nextInt(4) == 0 ? 0 : 6 + random.nextInt(40));
            case 11 -> {
                String fault = FAULTS[random.nextInt(FAULTS.length)];
                run.inject(fault);
                faults.add(fault);
            }
            default -> {
                faults.forEach(run::clear);
                faults.clear();
            }
        }
    }
}
