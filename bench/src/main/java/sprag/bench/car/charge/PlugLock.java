package sprag.bench.car.charge;

import sprag.bench.car.Faults;
import sprag.bench.car.PartFault;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/** The plug in the inlet, and the lock that may hold it there: a motor that drives a pin. Without power the pin stays. */
public final class PlugLock {
    private static final int STEP_MS = 10;
    /** How long the motor needs from end to end; chosen, as the usual ones need some tenths of a second. */
    private static final int TRAVEL_MS = 300;

    private final boolean fitted;
    private final boolean hasInlet;
    /** Whether the plug is in the inlet. */
    public boolean plugIn;
    /** Whether the pin is out all the way. */
    public boolean locked;
    /** What drives the motor. */
    public boolean driven;

    private int outMs;

    public PlugLock(Vehicle vehicle) {
        hasInlet = !vehicle.is(Parameter.INLET_KIND, "none");
        fitted = vehicle.is(Parameter.INLET_LOCK, "fitted");
    }

    /** Ten milliseconds. */
    public void step(Faults faults) {
        if (fitted && !faults.has(PartFault.PLUG_LOCK_STUCK)) {
            outMs = Math.max(0, Math.min(TRAVEL_MS, outMs + (driven ? STEP_MS : -STEP_MS)));
            locked = outMs == TRAVEL_MS || locked && outMs > 0;
        }
    }

    /** Somebody pushes the plug in or pulls it. A pin that holds the plug lets nobody pull it out.
     *
     * @param in whether it is wanted in
     * @return whether the plug has just come out
     */
    public boolean move(boolean in) {
        boolean comesOut = plugIn && !in && !locked;
        plugIn = hasInlet && (in || plugIn && !comesOut);
        return comesOut;
    }
}
