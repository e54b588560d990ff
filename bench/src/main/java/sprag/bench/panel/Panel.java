package sprag.bench.panel;

import java.util.List;
import sprag.bench.loop.record.Recordings;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.Clock;

/** A bench with everything that pages need to look at it and to steer it. */
final class Panel {
    private final ControlLease helm;
    private final BenchThread bench;
    private final MessageReader reader;
    private final String description;
    private final Clock wall;

    /** A panel whose bench does not run yet.
     *
     * @param vehicle the car
     * @param board real pins, null for none
     * @param wall the real time
     * @param scenarios what can be played: all of them suit the vehicle
     */
    Panel(Vehicle vehicle, BoardLink board, Clock wall, List<Scenario> scenarios) {
        this(vehicle, board, wall, scenarios, new ControlLease(), Recordings.none());
    }

    /** The same with a helm and recordings of one's own. */
    Panel(
            Vehicle vehicle,
            BoardLink board,
            Clock wall,
            List<Scenario> scenarios,
            ControlLease helm,
            Recordings recordings) {
        this.wall = wall;
        this.helm = helm;
        bench = new BenchThread(vehicle, board, wall, helm, scenarios, recordings);
        reader = new MessageReader(
                vehicle, scenarios.stream().map(Scenario::name).toList());
        description = Description.of(vehicle, scenarios, board);
    }

    BenchThread bench() {
        return bench;
    }

    ControlLease helm() {
        return helm;
    }

    MessageReader reader() {
        return reader;
    }

    /** Everything that does not change, as the page reads it. */
    String description() {
        return description;
    }

    Clock wall() {
        return wall;
    }
}
