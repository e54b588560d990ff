package sprag.bench.evidence.campaign.play;

import java.util.Set;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.loop.CarRig;
import sprag.bench.loop.trace.Frame;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;

/** A car and what decides in it, in which something can break. */
public interface FaultRig {
    /** The car and what decides in it. */
    CarRig base();

    /** What was asked for in the last tick. Nothing while nobody decides. */
    Commands asked();

    /** The interlocks that acted in the last tick. */
    Set<Interlock> acting();

    Step step();

    ChargePhase charge();

    /** Whether there is somebody who decides: a supervisor without supply does not. */
    boolean isAwake();

    void inject(String fault);

    default SimulatedCar car() {
        return base().car();
    }

    /** What was read in the last tick. */
    default Readings readings() {
        return base().readings();
    }

    default State state() {
        return base().state();
    }

    /** The first half of a tick: what is decided. */
    default void decide() {
        base().decide();
    }

    /** The other half: the car lives through it. */
    default void live() {
        base().live();
    }

    /** Writes what the last tick has seen, asked and done; to be called between the halves. */
    default void show(Frame into) {
        base().show(into);
    }
}
