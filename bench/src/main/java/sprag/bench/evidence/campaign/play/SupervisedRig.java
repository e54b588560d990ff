package sprag.bench.evidence.campaign.play;

import java.util.EnumSet;
import java.util.Set;
import sprag.bench.bus.BusFile;
import sprag.bench.loop.CarRig;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.wired.WiredCar;
import sprag.bench.wired.WiredPlan;
import sprag.bench.wired.WiredRigs;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Step;

/**
 * A supervisor and a car.
 *
 * @param loop both
 * @param wires the drawn circuit between them, null for none
 */
public record SupervisedRig(ClosedLoop loop, WiredCar wires) implements FaultRig {
    private static final Commands NOTHING = new Commands();

    /** A car at rest.
     *
     * @param bus the data bus between, null for none
     * @param plan the drawn circuit, null for none
     */
    public static SupervisedRig of(Vehicle vehicle, BusFile bus, WiredPlan plan, long seed) {
        if (plan == null) {
            return new SupervisedRig(ClosedLoop.on(vehicle, bus, seed), null);
        }
        WiredRigs rigs = WiredRigs.of(plan, vehicle, bus, seed, EnumSet.noneOf(Interlock.class));
        return new SupervisedRig(rigs.loop(), rigs.wires());
    }

    @Override
    public CarRig base() {
        return loop;
    }

    @Override
    public Commands asked() {
        return isAwake() ? loop.commands() : NOTHING;
    }

    @Override
    public Set<Interlock> acting() {
        return isAwake() ? loop.acting() : Set.of();
    }

    @Override
    public Step step() {
        return loop.supervisor().state().step();
    }

    @Override
    public ChargePhase charge() {
        return loop.supervisor().state().charge();
    }

    @Override
    public boolean isAwake() {
        return wires == null || wires.isAwake();
    }

    /** With a drawn circuit its faults come before those of the car. */
    @Override
    public void inject(String fault) {
        if (wires == null || wires.plan().fault(fault).isEmpty()) {
            loop.inject(fault);
        } else {
            wires.inject(wires.plan().fault(fault).get());
        }
    }
}
