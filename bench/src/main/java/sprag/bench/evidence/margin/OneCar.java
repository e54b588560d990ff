package sprag.bench.evidence.margin;

import java.util.EnumMap;
import java.util.Map;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Tolerance;
import sprag.bench.vehicle.Vehicle;

/** One car while it is made: the rows in which it differs from the drawing. Places within a tolerance go from 0 to 1. */
final class OneCar {
    private final Vehicle vehicle;
    private final Map<CarParameter, Double> rows = new EnumMap<>(CarParameter.class);

    OneCar(Vehicle vehicle) {
        this.vehicle = vehicle;
    }

    Map<CarParameter, Double> rows() {
        return rows;
    }

    /** From so much less than drawn to so much more. */
    void share(CarParameter row, Tolerance tolerance, double place) {
        put(row, vehicle.get(row) * (1 + lean(tolerance, place)));
    }

    /** From as many times faster than drawn to as many times slower. */
    void ratio(CarParameter row, Tolerance tolerance, double place) {
        put(row, vehicle.get(row) * Math.pow(1 + vehicle.get(tolerance), 2 * place - 1));
    }

    /** From what is drawn to so much more; less when the growth is negative. */
    void grows(CarParameter row, double growth, double place) {
        put(row, vehicle.get(row) * (1 + growth * place));
    }

    /** A sensor that leans to either side of what the vehicle's file says of it. */
    void leans(CarParameter row, double half, double place) {
        put(row, vehicle.get(row) + half * (2 * place - 1));
    }

    /** A sensor that leans by up to a tolerance. */
    void leans(CarParameter row, Tolerance tolerance, double place) {
        leans(row, vehicle.get(tolerance), place);
    }

    /** Anywhere between two ends. */
    void between(CarParameter row, double low, double high, double place) {
        put(row, low + (high - low) * place);
    }

    double of(Tolerance tolerance) {
        return vehicle.get(tolerance);
    }

    private double lean(Tolerance tolerance, double place) {
        return vehicle.get(tolerance) * (2 * place - 1);
    }

    /** What lies outside the range of a row becomes its end: no file could say it. */
    private void put(CarParameter row, double value) {
        rows.put(row, Math.max(row.min(), Math.min(row.max(), value)));
    }
}
