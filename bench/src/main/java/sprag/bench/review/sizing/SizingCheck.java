package sprag.bench.review.sizing;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/** Every calculation for one vehicle. */
public final class SizingCheck {
    private SizingCheck() {}

    /** Works out everything. Returns the calculations, by subject. */
    public static List<Calculation> calculations(Vehicle vehicle) {
        List<Calculation> all = new ArrayList<>();
        all.addAll(new PrechargeCalculations(vehicle).all());
        all.addAll(new ContactorCalculations(vehicle).all());
        all.addAll(new CableCalculations(vehicle).all());
        all.addAll(new InsulationCalculations(vehicle).all());
        if (!vehicle.is(Parameter.INLET_KIND, "none")) {
            all.addAll(new ChargeCalculations(vehicle).all());
        }
        all.addAll(new LowVoltageCalculations(vehicle).all());
        all.addAll(new DriveCalculations(vehicle).all());
        all.addAll(new SensorCalculations(vehicle).all());
        for (TimeBudget budget : TimeBudget.values()) {
            all.add(budget.calculation(vehicle));
        }
        return all;
    }
}
