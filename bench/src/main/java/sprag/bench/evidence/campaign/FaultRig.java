package sprag.bench.evidence.campaign;

import java.util.Set;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.loop.Rig;
import sprag.bench.loop.trace.Frame;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;

/** A car and what decides in it, in which something can break. */
interface FaultRig {
    SimulatedCar car();

    /** What a chip could be put beside. */
    Rig base();

    /** What was read in the last tick. */
    Readings readings();

    /** What was asked for in the last tick. Nothing while nobody decides. */
    Commands asked();

    /** The interlocks that acted in the last tick. */
    Set<Interlock> acting();

    State state();

    Step step();

    ChargePhase charge();

    /** Whether there is somebody who decides: a supervisor without supply does not. */
    boolean isAwake();

    void inject(String fault);

    /** The first half of a tick: what is decided. */
    void decide();

    /** The other half: the car lives through it. */
    void live();

    /** Writes what the last tick has seen, asked and done; to be called between the halves. */
    void show(Frame into);
}
