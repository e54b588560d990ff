package sprag.bench.panel;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;
import java.util.List;
import sprag.bench.car.Lever;
import sprag.bench.panel.FrameLayout.Head;
import sprag.bench.panel.FrameLayout.Section;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/** A panel whose bench is driven by the test, on a clock that only the bench's own waiting moves. */
final class PanelBench {
    static final long PAGE = 7;

    final ManualClock clock = new ManualClock();
    final Panel panel;
    final Bench bench;
    final BenchThread thread;

    PanelBench(Scenario... scenarios) {
        panel = new Panel(vehicle("parcel-van"), null, clock, List.of(scenarios));
        bench = panel.bench();
        thread = panel.thread();
        panel.lease().ask(PAGE, clock.nowNs());
    }

    static Catalogue catalogue() {
        Path here = Path.of("").toAbsolutePath();
        return new Catalogue(here.endsWith("bench") ? here.getParent() : here);
    }

    static Vehicle vehicle(String name) {
        try {
            return VehicleReader.read(catalogue().vehicle(name));
        } catch (BadInput e) {
            throw new IllegalStateException(e);
        }
    }

    /** Lets real time pass while the page in control keeps speaking. */
    PanelBench run(long ms) {
        return run(ms, true);
    }

    PanelBench runSilent(long ms) {
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

    PanelBench order(Order order) {
        if (!thread.order(order)) {
            throw new IllegalStateException("the queue is full: " + order);
        }
        return this;
    }

    PanelBench move(Lever lever, double to) {
        return order(new Order.Move(lever, to));
    }

    /** From a cold car to one that rolls. */
    PanelBench drive() {
        run(100).move(Lever.KEY, 1).move(Lever.BRAKE, 0.5).run(300);
        move(Lever.START, 1).run(300).move(Lever.START, 0).run(3000);
        move(Lever.DIRECTION, 1)
                .run(200)
                .move(Lever.BRAKE, 0)
                .move(Lever.PEDAL, 0.4)
                .run(2000);
        return this;
    }

    State state() {
        return bench.session().loop.state();
    }

    double lever(Lever lever) {
        return bench.session().lever(lever);
    }

    double head(Head field) {
        return number(frame(), field.ordinal());
    }

    Source source(Signal signal) {
        return Source.values()[(int) number(frame(), Section.SOURCES.offset() + signal.ordinal())];
    }

    byte[] frame() {
        return panel.publisher().frame();
    }

    long ticks() {
        return bench.session().loop.loop().ticks();
    }

    Guidance guidance() {
        return panel.publisher().state().guidance();
    }

    static double number(byte[] frame, int index) {
        return ByteBuffer.wrap(frame).order(ByteOrder.LITTLE_ENDIAN).getDouble(index * Double.BYTES);
    }

    /** The newest note whose text holds certain words; null when there is none. */
    Note note(String words) {
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
