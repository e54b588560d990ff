package sprag.bench.car.electric;

import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;

/** The main fuse. It melts when the square of the current above its rating has lasted long enough. */
final class Fuse {
    private static final double TEST_FACTOR = 2;

    private final double ratedA2;
    private final double limitA2s;
    private double excessA2s;
    private boolean melted;

    /** Whether it is open by an injected fault. */
    boolean broken;

    Fuse(Vehicle vehicle) {
        double ratedA = vehicle.get(CarParameter.BOX_FUSE_A);
        ratedA2 = ratedA * ratedA;
        limitA2s = (TEST_FACTOR * TEST_FACTOR - 1) * ratedA2 * vehicle.get(CarParameter.BOX_FUSE_S);
    }

    boolean isOpen() {
        return melted || broken;
    }

    /** Whether it carries no more than its rating and has cooled down. */
    boolean isCold() {
        return excessA2s == 0;
    }

    void carry(double squareA2s, double dtS) {
        double sumA2s = excessA2s + squareA2s - ratedA2 * dtS;
        excessA2s = sumA2s > 0 ? sumA2s : 0;
        if (sumA2s > limitA2s) {
            melted = true;
        }
    }
}
