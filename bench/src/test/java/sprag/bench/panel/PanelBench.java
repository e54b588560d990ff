package sprag.bench.panel;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;
import java.util.List;
import sprag.bench.car.Lever;
import sprag.bench.loop.record.Recordings;
import sprag.bench.panel.bench.Bench;
import sprag.bench.panel.bench.BenchThread;
import sprag.bench.panel.bench.ControlLease;
import sprag.bench.panel.bench.FrameLayout.Head;
import sprag.bench.panel.bench.FrameLayout.Section;
import sprag.bench.panel.bench.Note;
import sprag.bench.panel.bench.NoteBook;
import sprag.bench.panel.bench.Order;
import sprag.bench.panel.guide.Guidance;
import sprag.bench.panel.session.Source;
import sprag.bench.panel.session.Subject;
import sprag.bench.panel.web.Panel;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/** A panel whose bench is driven by the test, on a clock that only the bench's own waiting moves. */
public final class PanelBench {
    public static final long PAGE = 7;

    public final ManualClock clock = new ManualClock();
    public final Panel panel;
    public final Bench bench;
    public final BenchThread thread;

    public PanelBench(Scenario... scenarios) {
        panel = new Panel(vehicle("parcel-van"), null, clock, List.of(scenarios));
        bench = panel.bench();
        thread = panel.thread();
        panel.lease().ask(PAGE, true, clock.nowNs());
    }

    /** A panel with a data bus. */
    public PanelBench(Subject subject) {
        panel = new Panel(subject, clock, List.of(), new ControlLease(), Recordings.none());
        bench = panel.bench();
        thread = panel.thread();
        panel.lease().ask(PAGE, true, clock.nowNs());
    }

    public static Catalogue catalogue() {
        Path here = Path.of("").toAbsolutePath();
        return new Catalogue(here.endsWith("bench") ? here.getParent() : here);
    }

    public static Vehicle vehicle(String name) {
        try {
            return VehicleReader.read(catalogue().vehicle(name));
        } catch (BadInput e) {
            throw new IllegalStateException(e);
        }
    }

    /** Lets real time pass while the page in control keeps speaking. */
    public PanelBench run(long ms) {
        return run(ms, true);
    }

    public PanelBench runSilent(long ms) {
        return run(ms, false);
    }

    private PanelBench run(long ms, boolean speaks) {
        long endNs = clock.nowNs() + ms * 1_000_000;
        while (clock.nowNs() < endNs) {
            if (speaks) {
                panel.lease().heard(PAGE, clock.nowNs());
            }
            thread.advance();
        }
        return this;
    }

    public PanelBench order(Order order) {
        if (!thread.order(order)) {
            throw new IllegalStateException("the queue is full: " + order);
        }
        return this;
    }

    public PanelBench move(Lever lever, double to) {
        return order(new Order.Move(lever, to));
    }

    /** From a cold car to one that rolls. */
    public PanelBench drive() {
        run(100).move(Lever.KEY, 1).move(Lever.BRAKE, 0.5).run(300);
        move(Lever.START, 1).run(300).move(Lever.START, 0).run(3000);
        move(Lever.DIRECTION, 1)
                .run(200)
                .move(Lever.BRAKE, 0)
                .move(Lever.PEDAL, 0.4)
                .run(2000);
        return this;
    }

    public State state() {
        return bench.session().loop.state();
    }

    public double lever(Lever lever) {
        return bench.session().lever(lever);
    }

    public double head(Head field) {
        return number(frame(), field.ordinal());
    }

    public Source source(Signal signal) {
        return Source.values()[(int) number(frame(), Section.SOURCES.offset() + signal.ordinal())];
    }

    public byte[] frame() {
        return panel.publisher().frame();
    }

    public long ticks() {
        return bench.session().loop.loop().ticks();
    }

    public Guidance guidance() {
        return panel.publisher().state().guidance();
    }

    public static double number(byte[] frame, int index) {
        return ByteBuffer.wrap(frame).order(ByteOrder.LITTLE_ENDIAN).getDouble(index * Double.BYTES);
    }

    /** The newest note whose text holds certain words; null when there is none. */
    public Note note(String words) {
        NoteBook notes = bench.notes();
        for (long i = notes.count() - 1; i >= 0; i--) {
            Note note = notes.get(i);
            if (note != null && note.toString().contains(words)) {
                return note;
            }
        }
        return null;
    }
}
