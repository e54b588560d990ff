package sprag.bench.panel.session;

import java.util.Set;
import sprag.bench.bus.BusFile;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.wired.WiredPlan;
import sprag.supervisor.vocabulary.Interlock;

/**
 * What the panel shows: a simulated car, and what stands between it and the supervisor.
 *
 * @param vehicle which car
 * @param bus a simulated data bus before a part of its signals and outputs, null for none
 * @param board real pins that come before the car's, null for none
 * @param wires the drawn circuit between car and supervisor, null for none
 * @param without the interlocks that are taken out on purpose
 */
public record Subject(Vehicle vehicle, BusFile bus, BoardLink board, WiredPlan wires, Set<Interlock> without) {
    public Subject {
        without = Set.copyOf(without);
    }

    /** With every interlock in. */
    public Subject(Vehicle vehicle, BusFile bus, BoardLink board) {
        this(vehicle, bus, board, null, Set.of());
    }
}
