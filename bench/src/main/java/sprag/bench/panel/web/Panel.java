package sprag.bench.panel.web;

import java.util.List;
import sprag.bench.loop.record.Recordings;
import sprag.bench.panel.bench.Bench;
import sprag.bench.panel.bench.BenchThread;
import sprag.bench.panel.bench.ControlLease;
import sprag.bench.panel.bench.Orders;
import sprag.bench.panel.bench.Pace;
import sprag.bench.panel.bench.Publisher;
import sprag.bench.panel.session.BoardLink;
import sprag.bench.panel.session.Subject;
import sprag.bench.port.chip.ChipSeat;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.Clock;

/** A bench with everything that pages need to look at it and to steer it. */
public final class Panel {
    private final ControlLease lease;
    private final Bench bench;
    private final Publisher publisher;
    private final BenchThread thread;
    private final MessageReader reader;
    private final String description;
    private final Clock wall;

    /** A panel whose bench does not run yet.
     *
     * @param board real pins, null for none
     * @param scenarios what can be played: all of them suit the vehicle
     */
    public Panel(Vehicle vehicle, BoardLink board, Clock wall, List<Scenario> scenarios) {
        this(new Subject(vehicle, null, board), wall, scenarios, new ControlLease(), Recordings.none());
    }

    /** The same with its own control lease and recordings. */
    public Panel(Subject subject, Clock wall, List<Scenario> scenarios, ControlLease lease, Recordings recordings) {
        this(subject, wall, scenarios, lease, recordings, ChipSeat.empty());
    }

    /** The same with who decides. */
    public Panel(
            Subject subject,
            Clock wall,
            List<Scenario> scenarios,
            ControlLease lease,
            Recordings recordings,
            ChipSeat seat) {
        this.wall = wall;
        this.lease = lease;
        bench = new Bench(subject, wall, recordings, seat);
        Pace pace = new Pace(wall);
        publisher = new Publisher(bench, pace);
        thread = new BenchThread(bench, pace, publisher, new Orders(bench, pace, scenarios), lease, wall);
        reader = new MessageReader(
                subject.vehicle(),
                subject.bus(),
                scenarios.stream().map(Scenario::name).toList());
        description = Description.of(subject, scenarios);
    }

    /** What stands on the bench. */
    public Bench bench() {
        return bench;
    }

    /** What pages are shown. */
    public Publisher publisher() {
        return publisher;
    }

    /** What runs the bench and takes orders. */
    public BenchThread thread() {
        return thread;
    }

    /** Who is in control. */
    public ControlLease lease() {
        return lease;
    }

    public MessageReader reader() {
        return reader;
    }

    /** Everything that does not change, as the page reads it. */
    public String description() {
        return description;
    }

    public Clock wall() {
        return wall;
    }
}
