package sprag.bench.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import sprag.bench.trip.drive.Weather;
import sprag.bench.trip.trace.SpeedTrace;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

class SearchTest {
    private static final SpeedTrace TRACE = new SpeedTrace(
            "hop", "", new double[] {0, 20, 60, 75}, new double[] {0, 50, 50, 0}, new double[4], new boolean[4]);

    private static TripReport base() throws BadInput {
        return TripReport.of(Trips.vehicle("parcel-van"), new Weather(0.9, 20, 0, false, 3), TRACE, () -> false);
    }

    @Test
    @Tag("long")
    void cells_rangeSought_isFoundAndDrivenWhole() throws BadInput {
        TripReport base = base();
        double wantedKm = 1.1 * base.range().km();
        Search search = Search.of(
                base, new Search.Question(Parameter.PACK_CELLS, 30, 36, "range_km", wantedKm), () -> {}, () -> false);
        assertEquals(7, search.points().size());
        assertEquals(33, search.found(), 1, "a tenth more of 30 cells");
        assertEquals(wantedKm, search.confirmed(), 0.04 * wantedKm);
        assertEquals(base.range().km(), search.points().get(0).result(), 1e-9, "the car as it stands");
        SearchView view = new SearchView(base, search);
        assertTrue(view.answer().contains("pack.cells = "), view.answer());
        assertTrue(view.page().contains("<svg"));
        assertTrue(view.text().stream().allMatch(line -> line.length() <= 80), view.text()::toString);
        assertTrue(view.json().contains("\"confirmed\""));
        assertFalse(search.followers().isEmpty());
    }

    /** The first whole value whose figure reaches the target, and what is told of it is driven at that value. */
    @Test
    void cells_rangeSought_isTheFirstValueThatReachesIt_andIsDrivenAsItIs() throws BadInput {
        TripReport base = base();
        double wantedKm = 1.05 * base.range().km();
        Search search = Search.of(
                base, new Search.Question(Parameter.PACK_CELLS, 30, 34, "range_km", wantedKm), () -> {}, () -> false);
        Search.Point first = search.points().stream()
                .filter(point -> point.result() >= wantedKm)
                .findFirst()
                .orElseThrow();
        assertEquals(first.value(), search.found());
        assertEquals(first.result(), search.confirmed(), 0.006 * first.result(), "the curve against a whole drive");
    }

    /** The range of a curve follows from the car as it stands; a whole drive of another value finds nearly the same. */
    @Test
    void similarCar_range_isThatOfAWholeDrive() throws BadInput {
        TripReport base = base();
        Vehicle other = new Variation(base.vehicle(), Parameter.PACK_CELLS).with(40);
        TripReport whole = TripReport.of(other, base.weather(), TRACE, () -> false);
        TripReport similar = base.similar(other, false, () -> false);
        double wholeKm = whole.range().km();
        assertEquals(wholeKm, similar.range().km(), 0.006 * wholeKm);
    }

    @Test
    void twoKeys_rangeSought_eachCurveHasItsOwnAnswer() throws BadInput {
        TripReport base = base();
        double wantedKm = 1.05 * base.range().km();
        Grid grid = Grid.of(
                base,
                new Search.Question(Parameter.PACK_CELLS, 30, 33, "range_km", wantedKm, 4),
                new Search.Question(CarParameter.BODY_DRAG_AREA_M2, 1.3, 3.9, "range_km", wantedKm, 2),
                () -> {},
                () -> false);
        assertEquals(2, grid.driven().size());
        double slim = grid.driven().get(0).search().found();
        assertEquals(32, slim, 1, "a twentieth more of 30 cells");
        assertTrue(Double.isNaN(grid.driven().get(1).search().found()), "three times the air");
        GridView view = new GridView(base, grid);
        assertTrue(view.answers().get(0).contains("pack.cells = "), view.answers()::toString);
        assertTrue(
                view.answers().stream()
                        .anyMatch(line -> line.startsWith("With pack.cells change in proportion: pack.nominal_v")),
                view.answers()::toString);
        assertTrue(view.page().contains("<svg"));
        assertTrue(view.text().stream().allMatch(line -> line.length() <= 80), view.text()::toString);
        assertTrue(view.json().contains("\"second\""));
    }

    @Test
    void mass_varied_isNotSaidToStayAsTheFileSays() throws BadInput {
        String told = new Variation(base().vehicle(), Parameter.DRIVE_MASS_KG).followersTold();
        assertEquals(
                "With drive.mass_kg change in proportion: car.body.mass_kg. Currents, cooling and wires stay as the file"
                        + " says.",
                told);
    }

    @Test
    void keyWithoutEffect_sought_saysThatItDoesNotChangeTheFigure() throws BadInput {
        Search search = Search.of(
                base(),
                new Search.Question(Parameter.PACK_APART_MS, 400, 500, "cells_wh_per_km", 5000),
                () -> {},
                () -> false);
        String answer = new SearchView(base(), search).answer();
        assertTrue(answer.contains("does not change cells_wh_per_km in this range: it stays "), answer);
    }

    @Test
    void mass_targetOutOfReach_tellsTheNearest() throws BadInput {
        TripReport base = base();
        Search search = Search.of(
                base,
                new Search.Question(CarParameter.BODY_DRAG_AREA_M2, 1.2, 1.3, "range_km", 5000),
                () -> {},
                () -> false);
        assertTrue(Double.isNaN(search.found()));
        String answer = new SearchView(base, search).answer();
        assertTrue(answer.startsWith("No value") && answer.contains("The nearest is 1.2"), answer);
    }

    @Test
    void variation_capacity_takesResistanceAndTheCarsOwnCapacityAlong() throws BadInput {
        Vehicle van = Trips.vehicle("parcel-van");
        Vehicle twice = new Variation(van, Parameter.PACK_CAPACITY_AH).with(560);
        assertEquals(560, twice.get(CarParameter.CELLS_CAPACITY_AH));
        assertEquals(van.get(CarParameter.CELLS_RESISTANCE_MOHM) / 2, twice.get(CarParameter.CELLS_RESISTANCE_MOHM));
    }

    @Test
    void variation_contradiction_isRefusedWithBothKeys() throws BadInput {
        Variation variation = new Variation(Trips.vehicle("parcel-van"), Parameter.PACK_MIN_V);
        IllegalArgumentException refused = assertThrows(IllegalArgumentException.class, () -> variation.with(100));
        assertTrue(refused.getMessage().contains("pack.min_v = 100 must be less than"), refused.getMessage());
    }
}
