package sprag.bench.evidence.margin;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import sprag.bench.evidence.campaign.CarFaults;
import sprag.bench.evidence.campaign.CarFaults.Outcome;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/** One fault on many cars. */
class FaultSpreadTest {
    private static Outcome outcome(String verdict, boolean noticed, double overMs) {
        return new Outcome("pedal_a_v.open", "ready", verdict, !verdict.equals("dormant"), noticed, overMs);
    }

    private static FaultSpread spread(Outcome drawn, Outcome... cars) {
        return FaultSpread.of(
                        List.of(drawn),
                        java.util.Arrays.stream(cars).map(List::of).toList())
                .get(0);
    }

    @Test
    void lateOnOneCar_whereTheDrawingIsSafe_isWorse_andNamesTheCar() {
        FaultSpread spread = spread(
                outcome("safe", true, -100),
                outcome("safe", true, -90),
                outcome("late", true, 20),
                outcome("undetected", false, Double.NaN),
                outcome("dormant", false, Double.NaN));
        assertTrue(spread.isWorseThanDrawn());
        assertEquals(new Share(2, 3), spread.noticed(), "a fault that shows on no reading is not counted");
        assertEquals(20, spread.overMs());
        assertEquals(1, spread.worst());
        assertTrue(spread.words().contains("at worst 20 ms after its budget ends (car 1)"), spread.words());
        assertEquals("1 dormant, 1 late, 1 safe, 1 undetected", spread.counts());
    }

    @Test
    void carThatNeverComesToTheMoment_isCountedApart() {
        FaultSpread spread = FaultSpread.of(
                        List.of(outcome("safe", true, -100)),
                        List.of(List.of(outcome("safe", true, -90)), List.of(), List.of(outcome("late", true, 3))))
                .get(0);
        assertEquals("1 late, 1 safe, 1 never come to this moment", spread.counts());
        assertEquals(2, spread.worst(), "the number of the car, not its place among those that came there");
    }

    @Test
    void verdictOfTheDrawing_onEveryCar_isNotWorse() {
        assertFalse(spread(outcome("harm", false, Double.NaN), outcome("late", true, 5))
                .isWorseThanDrawn());
        assertFalse(spread(outcome("late", true, 5), outcome("late", true, 500)).isWorseThanDrawn());
        assertFalse(spread(outcome("safe", true, -5), outcome("safe", true, -1)).isWorseThanDrawn());
        assertTrue(spread(outcome("late", true, 5), outcome("harm", true, 5)).isWorseThanDrawn());
    }

    @Test
    void brokenPedalWire_onScatteredCars_isNoticedOnEach() throws Exception {
        Vehicle van = VehicleReader.read(Path.of("..", "config", "vehicles", "parcel-van"));
        Fleet fleet = new Fleet(van, 1, 2);
        String run = "cruising pedal_a_v.open";
        List<List<Outcome>> cars = List.of(
                CarFaults.of(van.withCar(fleet.rows(0)), 1, run, () -> false),
                CarFaults.of(van.withCar(fleet.rows(1)), 2, run, () -> false));
        FaultSpread spread =
                FaultSpread.of(CarFaults.of(van, 1, run, () -> false), cars).get(0);
        assertEquals(new Share(2, 2), spread.noticed());
        assertTrue(spread.overMs() < 0, spread.words());
    }
}
