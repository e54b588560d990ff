package sprag.bench.trip.drive;

import sprag.bench.car.Quantity;

/** What the plots of a trip show, at most some thousand moments, and the extremes of all moments. */
public final class TripSeries {
    /** A column of the plots. */
    public enum Column {
        /** Speed of the trace, km/h. */
        WANTED_KPH(null),
        /** Speed of the car. */
        SPEED_KPH(Quantity.SPEED_KPH),
        /** State of charge. */
        SOC(Quantity.SOC),
        /** Motor temperature. */
        MOTOR_C(Quantity.MOTOR_TEMP_C),
        /** Inverter temperature. */
        INVERTER_C(Quantity.INVERTER_TEMP_C),
        /** Pack temperature. */
        PACK_C(Quantity.PACK_TEMP_C),
        /** Coolant temperature. */
        COOLANT_C(Quantity.COOLANT_TEMP_C),
        /** Current out of the pack. */
        PACK_A(Quantity.PACK_CURRENT_A),
        /** Voltage of the pack. */
        PACK_V(Quantity.PACK_VOLTAGE_V),
        /** Height above the start. */
        ALTITUDE_M(Quantity.ALTITUDE_M);

        private final Quantity quantity;

        Column(Quantity quantity) {
            this.quantity = quantity;
        }
    }

    private static final int MOST = 4000;
    private static final Column[] COLUMNS = Column.values();

    private final double everyS;
    private final double[] timeS = new double[MOST + 2];
    private final double[][] value = new double[COLUMNS.length][MOST + 2];
    private final double[] most = new double[COLUMNS.length];
    private final double[] least = new double[COLUMNS.length];
    private int size;

    /** The greatest difference between the resting voltage of a cell and the lowest cell. */
    double sagV;

    TripSeries(double endS) {
        everyS = Math.max(0.5, endS / MOST);
        java.util.Arrays.fill(most, Double.NEGATIVE_INFINITY);
        java.util.Arrays.fill(least, Double.POSITIVE_INFINITY);
    }

    /** Notes a moment. */
    void note(Ride ride, double atS, double wantedMps) {
        boolean keeps = size < timeS.length && (size == 0 || atS >= timeS[size - 1] + everyS);
        for (Column column : COLUMNS) {
            int i = column.ordinal();
            double now = column.quantity == null ? wantedMps * 3.6 : ride.truth(column.quantity);
            most[i] = Math.max(most[i], now);
            least[i] = Math.min(least[i], now);
            if (keeps) {
                value[i][size] = now;
            }
        }
        double cells = ride.car.vehicle().get(sprag.supervisor.vocabulary.Parameter.PACK_CELLS);
        sagV = Math.max(sagV, ride.truth(Quantity.PACK_OCV_V) / cells - ride.truth(Quantity.CELL_MIN_V));
        if (keeps) {
            timeS[size++] = atS;
        }
    }

    public int size() {
        return size;
    }

    public double timeS(int moment) {
        return timeS[moment];
    }

    public double value(Column column, int moment) {
        return value[column.ordinal()][moment];
    }

    /** The last value of a trip that was begun. */
    double last(Column column) {
        return value(column, size - 1);
    }

    public double most(Column column) {
        return most[column.ordinal()];
    }

    public double least(Column column) {
        return least[column.ordinal()];
    }
}
