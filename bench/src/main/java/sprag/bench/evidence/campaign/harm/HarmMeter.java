package sprag.bench.evidence.campaign.harm;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.car.Quantity;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Parameter;

/** Measures every {@link Harm} over one run. */
public final class HarmMeter {
    private static final Harm[] ROWS = Harm.values();

    private final InstantHarm now;
    private final double tickS;
    private final double[] amount = new double[ROWS.length];
    private final double[] lasting = new double[ROWS.length];

    public HarmMeter(Vehicle vehicle, SimulatedCar car) {
        now = new InstantHarm(vehicle, car);
        tickS = vehicle.get(Parameter.LOOP_TICK_MS) / 1000;
    }

    /** Looks at one tick.
     *
     * @param expectedNm the torque without a fault in the same tick
     */
    public void look(Commands asked, double expectedNm) {
        now.look(asked, expectedNm);
        for (int i = 0; i < ROWS.length; i++) {
            double a = ROWS[i].amount(now);
            switch (ROWS[i].way) {
                case SUM -> amount[i] += Math.max(0, a) * tickS;
                case LONGEST, LONGER -> {
                    lasting[i] = a > 0 ? lasting[i] + tickS : 0;
                    amount[i] = Math.max(amount[i], lasting[i]);
                }
                case MOST -> amount[i] = Math.max(amount[i], a);
                case GROWN -> amount[i] = a;
                default -> throw new IllegalStateException(ROWS[i] + " has no way to be measured");
            }
        }
    }

    /** What was true in the tick that was looked at last. */
    public double truth(Quantity quantity) {
        return now.truth(quantity);
    }

    /** The amount so far. */
    double amount(Harm row) {
        return amount[row.ordinal()];
    }

    /** The amounts of all rows, less those that a sound car shows as well.
     *
     * @param sound the same run without the fault
     */
    public List<Double> beyond(HarmMeter sound) {
        List<Double> all = new ArrayList<>();
        for (Harm row : ROWS) {
            boolean less = row.way == HarmWay.GROWN || row.way == HarmWay.LONGER;
            all.add(Math.max(0, amount(row) - (less ? sound.amount(row) : 0)));
        }
        return all;
    }
}
