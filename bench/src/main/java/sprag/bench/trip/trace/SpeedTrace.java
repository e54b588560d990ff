package sprag.bench.trip.trace;

import java.util.Arrays;

/**
 * A speed over time to follow. Between two rows the speed changes evenly; slope and parking hold from a row to the next.
 * Immutable.
 */
public final class SpeedTrace {
    private static final double KPH_PER_MPS = 3.6;

    private final String name;
    private final String source;
    private final double[] timeS;
    private final double[] speedMps;
    private final double[] gradePercent;
    private final boolean[] parked;
    private final double distanceM;

    /**
     * Makes a trace.
     *
     * @param name what it is called
     * @param source where it comes from, for people; may be empty
     * @param timeS times from 0, rising
     * @param speedKph speeds, none below 0
     * @param gradePercent slopes, positive uphill
     * @param parked where the car is switched off
     */
    public SpeedTrace(
            String name, String source, double[] timeS, double[] speedKph, double[] gradePercent, boolean[] parked) {
        this.name = name;
        this.source = source;
        this.timeS = timeS.clone();
        this.speedMps = Arrays.stream(speedKph).map(kph -> kph / KPH_PER_MPS).toArray();
        this.gradePercent = gradePercent.clone();
        this.parked = parked.clone();
        double sumM = 0;
        for (int i = 1; i < timeS.length; i++) {
            sumM += (speedMps[i] + speedMps[i - 1]) / 2 * (timeS[i] - timeS[i - 1]);
        }
        distanceM = sumM;
    }

    public String name() {
        return name;
    }

    public String source() {
        return source;
    }

    public int rows() {
        return timeS.length;
    }

    public double timeS(int row) {
        return timeS[row];
    }

    public double speedMps(int row) {
        return speedMps[row];
    }

    public double gradePercent(int row) {
        return gradePercent[row];
    }

    public boolean parked(int row) {
        return parked[row];
    }

    /** The time of the last row. */
    public double endS() {
        return timeS[timeS.length - 1];
    }

    /** The distance from the first row to the last. */
    public double distanceM() {
        return distanceM;
    }

    public double topKph() {
        return Arrays.stream(speedMps).max().orElse(0) * KPH_PER_MPS;
    }

    boolean hasParking() {
        for (boolean each : parked) {
            if (each) {
                return true;
            }
        }
        return false;
    }

    /** The speed at a time. Before the first row and after the last one it is that of the nearest row.
     *
     * @param fromRow where the search for the time begins
     */
    public double speedAt(double atS, int fromRow) {
        int row = rowAt(atS, fromRow);
        if (row >= timeS.length - 1) {
            return speedMps[timeS.length - 1];
        }
        double share = (atS - timeS[row]) / (timeS[row + 1] - timeS[row]);
        return share <= 0 ? speedMps[row] : speedMps[row] + share * (speedMps[row + 1] - speedMps[row]);
    }

    /** The last row that is not later than a time; the first row when all are later.
     *
     * @param fromRow where the search begins
     */
    public int rowAt(double atS, int fromRow) {
        int row = Math.max(0, Math.min(fromRow, timeS.length - 1));
        while (row > 0 && timeS[row] > atS) {
            row--;
        }
        while (row < timeS.length - 1 && timeS[row + 1] <= atS) {
            row++;
        }
        return row;
    }
}
