package sprag.bench.car.electric;

import sprag.bench.car.Faults;
import sprag.bench.car.PartFault;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;

/**
 * One contactor: coil, delays, bounce, weld.
 *
 * <pre>
 *  coil      ____________________
 *         __|                    |________
 *  contacts        _ _ ____________
 *         ________| | |            |______
 *            close ^bounce     release
 * </pre>
 */
public final class Contactor {
    private static final int INRUSH_MS = 100;
    /** Longer than every delay and bounce together: contacts that rest do not move when a fault changes their times. */
    private static final int RESTED_MS = 1_000_000;

    private final int closeMs;
    private final int bounceMs;
    private final int releaseMs;
    private final double pullInV;
    private final double holdV;
    private final double coilA;
    private final double inrushA;
    private final PartFault welded;
    private final PartFault stuck;
    private final PartFault slow;
    private final PartFault bounces;

    /** Where the contacts are. */
    public boolean closed;

    private boolean energised;
    private boolean busy;
    private int sinceMs = RESTED_MS;
    private int extraMs;
    private int bounceNowMs;
    private boolean isWelded;
    private boolean isStuck;
    private double inrushLeftMs;

    private Contactor(Vehicle vehicle, CarParameter closes, PartFault welded, PartFault... others) {
        closeMs = (int) vehicle.get(closes);
        bounceMs = (int) vehicle.get(CarParameter.BOX_BOUNCE_MS);
        releaseMs = (int) vehicle.get(CarParameter.BOX_RELEASE_MS);
        pullInV = vehicle.get(CarParameter.BOX_PULL_IN_V);
        holdV = vehicle.get(CarParameter.BOX_HOLD_V);
        coilA = vehicle.get(CarParameter.BOX_COIL_A);
        inrushA = vehicle.get(CarParameter.BOX_COIL_INRUSH_A);
        this.welded = welded;
        stuck = others[0];
        slow = others[1];
        bounces = others[2];
        bounceNowMs = bounceMs;
    }

    // @formatter:off
    public static Contactor negative(Vehicle vehicle) {
        return new Contactor(vehicle, CarParameter.BOX_CLOSE_MS, PartFault.NEGATIVE_WELDED,
                PartFault.NEGATIVE_STUCK_OPEN, PartFault.NEGATIVE_SLOW, PartFault.NEGATIVE_BOUNCE);
    }

    public static Contactor positive(Vehicle vehicle) {
        return new Contactor(vehicle, CarParameter.BOX_CLOSE_MS, PartFault.POSITIVE_WELDED,
                PartFault.POSITIVE_STUCK_OPEN, PartFault.POSITIVE_SLOW, PartFault.POSITIVE_BOUNCE);
    }

    public static Contactor precharge(Vehicle vehicle) {
        return new Contactor(vehicle, CarParameter.BOX_RELAY_CLOSE_MS, PartFault.PRECHARGE_WELDED,
                PartFault.PRECHARGE_STUCK_OPEN, PartFault.PRECHARGE_SLOW, PartFault.PRECHARGE_BOUNCE);
    }
    // @formatter:on

    /** Takes over the faults after a change. */
    public void refresh(Faults faults) {
        isWelded = faults.has(welded);
        isStuck = faults.has(stuck);
        extraMs = (int) faults.of(slow, 0);
        bounceNowMs = (int) faults.of(bounces, bounceMs);
        busy = true;
    }

    /** Drives the coil; whether it pulls in or holds depends on the supply. */
    public void drive(boolean asked, double supplyV) {
        boolean on = asked && supplyV >= (energised ? holdV : pullInV);
        if (on != energised) {
            energised = on;
            sinceMs = 0;
            busy = true;
        }
    }

    /** Whether the contacts may still move by themselves. */
    public boolean busy() {
        return busy;
    }

    /** One millisecond. */
    public void tick() {
        if (!busy) {
            return;
        }
        sinceMs++;
        int delayMs = (energised ? closeMs : releaseMs) + extraMs;
        int pastMs = sinceMs - delayMs;
        boolean moved = pastMs >= 0;
        if (energised && moved) {
            closed = pastMs >= bounceNowMs || (pastMs & 1) == 0;
        } else if (!energised && moved) {
            closed = false;
        }
        busy = energised ? pastMs < bounceNowMs : !moved;
        sinceMs = busy ? sinceMs : RESTED_MS;
        closed = isWelded || closed && !isStuck;
    }

    /** What the coil takes: the economiser lowers the current once the contacts are in. */
    public double coilA(double forMs) {
        if (!energised) {
            return 0;
        }
        inrushLeftMs = busy ? INRUSH_MS : Math.max(0, inrushLeftMs - forMs);
        return inrushLeftMs > 0 ? inrushA : coilA;
    }
}
