package sprag.bench.loop;

import sprag.bench.car.FaultSpec;
import sprag.bench.car.Lever;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.loop.trace.Channels;
import sprag.bench.loop.trace.Frame;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.State;

/** A rig with a simulated car, whose ticks can be run in two halves. */
public interface CarRig extends Rig {
    /** The simulated car. Always the same. */
    SimulatedCar car();

    /** What was read in the last tick. */
    Readings readings();

    /** The state after the last tick. */
    State state();

    /** The first half of a tick: what is decided. {@link #live} must follow. */
    void decide();

    /** Writes what the last tick has seen, asked and done; to be called between the halves. */
    void show(Frame into);

    /** The other half: the car lives through it. */
    void live();

    @Override
    default Channels channels() {
        return FrameColumns.CHANNELS;
    }

    /** A fault of a part of the car, as {@link #inject} and {@link #clear} name it. */
    default FaultSpec partFault(String what) {
        return FaultSpec.parse(what, car().vehicle());
    }

    @Override
    default void move(String lever, double to) {
        car().levers().set(Lever.named(lever), to);
    }

    @Override
    default double position(String lever) {
        return car().levers().get(Lever.named(lever));
    }

    @Override
    default void tick(Frame into) {
        decide();
        show(into);
        live();
    }
}
