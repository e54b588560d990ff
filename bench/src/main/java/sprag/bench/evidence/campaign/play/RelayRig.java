package sprag.bench.evidence.campaign.play;

import java.util.Set;
import sprag.bench.car.Quantity;
import sprag.bench.loop.CarRig;
import sprag.bench.loop.relay.RelayLoop;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.wired.WiredCar;
import sprag.bench.wired.WiredPlan;
import sprag.bench.wired.WiredRigs;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;

/**
 * A car that relays switch, wired as drawn. Nothing in it ever notices a fault.
 *
 * @param loop the car
 * @param wires its circuit
 */
public record RelayRig(RelayLoop loop, WiredCar wires) implements FaultRig {
    public static RelayRig of(Vehicle vehicle, WiredPlan plan, long seed) {
        WiredRigs.Relays relays = WiredRigs.relays(plan, vehicle, seed);
        return new RelayRig(relays.loop(), relays.wires());
    }

    @Override
    public CarRig base() {
        return loop;
    }

    @Override
    public Commands asked() {
        return wires.arriving();
    }

    @Override
    public Set<Interlock> acting() {
        return Set.of();
    }

    /** The steps of a supervised start that look the same from outside. */
    @Override
    public Step step() {
        return loop.state() == State.DRIVE_ENABLE ? Step.HOLD : loop.state() == State.PRECHARGE ? Step.RAISE_BUS : null;
    }

    @Override
    public ChargePhase charge() {
        boolean flows = loop.car().truth(Quantity.CHARGER_1_CURRENT_A) > 0;
        return flows ? ChargePhase.CHARGING : null;
    }

    @Override
    public boolean isAwake() {
        return true;
    }

    @Override
    public void inject(String fault) {
        wires.inject(wires.plan().fault(fault).orElseThrow());
    }
}
