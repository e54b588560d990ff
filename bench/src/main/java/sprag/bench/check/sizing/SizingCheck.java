package sprag.bench.check.sizing;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.config.Vehicle;

/** Every calculation for one vehicle. */
public final class SizingCheck {
    private SizingCheck() {}

    /** Works out everything.
     *
     * @param vehicle what the vehicle's file says
     * @return the calculations, by subject
     */
    public static List<Calculation> calculations(Vehicle vehicle) {
        List<Calculation> all = new ArrayList<>();
        all.addAll(new PrechargeSums(vehicle).all());
        all.addAll(new ContactorSums(vehicle).all());
        all.addAll(new CableSums(vehicle).all());
        all.addAll(new ChargeSums(vehicle).all());
        all.addAll(new DriveSums(vehicle).all());
        all.addAll(new SensorSums(vehicle).all());
        for (TimeBudget budget : TimeBudget.values()) {
            all.add(budget.calculation(vehicle));
        }
        return all;
    }
}
