package sprag.bench.port.equal;

import java.util.List;
import java.util.function.Consumer;
import sprag.bench.port.translate.StateCell;
import sprag.hal.TickListener;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;

/** Collects the ticks of a supervisor in Java and hands them on, some at a time. */
final class BatchMaker implements TickListener {
    /** After so many ticks everything that is remembered is compared, besides the outputs and the state of each. */
    static final int TICKS = 64;

    private final String name;
    private final Supervisor supervisor;
    private final List<StateCell> cells;
    private final Object[] holders;
    private final Consumer<Batch> to;
    private double[] readings = new double[TICKS * Signal.COUNT];
    private double[] outputs = new double[TICKS * Output.COUNT];
    private long[] states = new long[TICKS];
    private int count;
    private long done;

    /**
     * Begins with a supervisor that has just woken up.
     *
     * @param name what is played, for the message about a difference
     * @param supervisor in Java
     * @param cells what it remembers
     * @param to who gets the batches
     */
    BatchMaker(String name, Supervisor supervisor, List<StateCell> cells, Consumer<Batch> to) {
        this.name = name;
        this.supervisor = supervisor;
        this.cells = cells;
        this.holders = cells.stream().map(cell -> cell.holder(supervisor)).toArray();
        this.to = to;
    }

    @Override
    public void ticked(long tick, Readings in, Commands out) {
        in.copyTo(readings, count * Signal.COUNT);
        out.copyTo(outputs, count * Output.COUNT);
        states[count] = supervisor.state().pack();
        count++;
        if (count == TICKS) {
            flush();
        }
    }

    /** Hands on what is left. */
    void flush() {
        if (count == 0) {
            return;
        }
        long[] remembered = new long[holders.length];
        for (int i = 0; i < remembered.length; i++) {
            remembered[i] = cells.get(i).read(holders[i]);
        }
        Batch batch = new Batch(name, done == 0, done, count, readings, new Batch.Decided(outputs, states), remembered);
        done += count;
        count = 0;
        readings = new double[TICKS * Signal.COUNT];
        outputs = new double[TICKS * Output.COUNT];
        states = new long[TICKS];
        to.accept(batch);
    }
}
