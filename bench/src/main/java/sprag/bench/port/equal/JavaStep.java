package sprag.bench.port.equal;

import java.util.List;
import sprag.bench.port.translate.StateCell;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** One tick in Java from a memory that is given. */
final class JavaStep {
    private final List<StateCell> cells;
    private final Supervisor supervisor;
    private final Object[] holders;
    private final Readings in = new Readings();
    private final Commands out = new Commands();
    private long tick;

    JavaStep(Settings settings, List<StateCell> cells) {
        this.cells = cells;
        supervisor = new Supervisor(settings);
        holders = cells.stream().map(cell -> cell.holder(supervisor)).toArray();
    }

    Supervisor supervisor() {
        return supervisor;
    }

    /** Decides.
     *
     * @param memory what is remembered before, from a place on
     * @param readings a number for each signal, from a place on
     */
    void decide(long[] memory, int memoryFrom, double[] readings, int readingsFrom) {
        for (int cell = 0; cell < holders.length; cell++) {
            if (cells.get(cell).read(holders[cell]) != memory[memoryFrom + cell]) {
                cells.get(cell).write(holders[cell], memory[memoryFrom + cell]);
            }
        }
        in.clear(); // else a zero would keep the sign that it had before
        for (Signal signal : Signal.values()) {
            in.set(signal, readings[readingsFrom + signal.ordinal()]);
        }
        supervisor.step(tick++, in, out);
    }

    /** The same with a memory that may be impossible. Returns whether the step came to its end. */
    boolean isPossible(long[] memory, int memoryFrom, double[] readings, int readingsFrom) {
        try {
            decide(memory, memoryFrom, readings, readingsFrom);
            return true;
        } catch (AssertionError | IndexOutOfBoundsException | NullPointerException e) {
            return false; // the C must find it impossible too
        }
    }

    /** What is remembered now. */
    void memory(long[] into, int from) {
        for (int cell = 0; cell < holders.length; cell++) {
            into[from + cell] = cells.get(cell).read(holders[cell]);
        }
    }

    Commands commands() {
        return out;
    }

    long packed() {
        return supervisor.state().pack();
    }
}
